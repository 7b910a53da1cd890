// A panel: build-up, parts, openings and evidence, in its own frame.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"
#include "core/api/model/properties.h"
#include "core/api/model/record.h"
#include "core/api/support/geometry.h"

namespace panel_dossier {

enum class PartKind {
  stud,        ///< vertical framing member
  post,        ///< heavier vertical member, usually beside an opening or at a lift point
  rail,        ///< horizontal framing member at head or sole (IfcMember PLATE)
  lintel,      ///< member over an opening
  blocking,    ///< short horizontal member between studs (nogging, sill trimmer)
  batten,      ///< member of a service void or cladding support zone
  sheet,       ///< board (IfcPlate SHEET): sheathing, lining
  membrane,    ///< vapour control layer, breather membrane
  insulation,  ///< slab or batt
  cladding,    ///< outer finish
  fastener,    ///< screws, nails, brackets; `count` tells how many
  other,
};

/// The word used in tables and reasons: the enumerator's own name.
std::string_view to_string(PartKind kind);

/// Timber framing members: stud, post, rail, lintel, blocking and batten.
bool is_framing(PartKind kind);

/// One physical part of a panel. Sizes and quantities are as the export gives them: a plugin checks what it divides by.
struct Part {
  Part();
  Part(const Part&);
  Part(Part&&) noexcept;
  Part& operator=(const Part&);
  Part& operator=(Part&&) noexcept;
  ~Part();

  std::string global_id;
  std::string name;
  std::string object_type;  ///< ObjectType or PredefinedType as the export gives it
  PartKind kind = PartKind::other;
  std::optional<std::size_t> material;  ///< index into Project::materials
  /// Shape in the panel's frame; none when the export gives quantities only.
  std::optional<Extrusion> solid;
  /// Box in the panel's frame; none when the part has no geometry at all.
  std::optional<Box3> bounds;
  /// Net volume in m³: from the solid, else from the export's quantities.
  std::optional<Sourced<double>> volume_m3;
  /// Length in m: the longest edge, or the export's own quantity `Length` where there is no shape. A short blocking may
  /// be longer across its grain than along it, so this is not always the member's axis.
  std::optional<Sourced<double>> length_m;
  int count = 1;  ///< number of pieces this entity stands for (fasteners); its quantities are those of all pieces
  Properties properties;
  Origin origin;
};

/// One layer of the build-up. `y_inside_m` < `y_outside_m`, both in the panel's frame.
struct Layer {
  std::string name;
  std::string category;  ///< IfcMaterialLayer.Category in lower case (`insulation`, `membrane`, …); may be empty
  std::optional<std::size_t> material;  ///< index into Project::materials; none for an air layer without material
  Sourced<double> thickness_m;
  double y_inside_m = 0.0;
  double y_outside_m = 0.0;
  std::optional<bool> is_ventilated;  ///< IfcMaterialLayer.IsVentilated; none when unknown or not an air layer
  Properties properties;
  Origin origin;
};

/// A rectangular opening through the panel, in the panel's x-z plane; `min` < `max` both ways.
struct Opening {
  Opening();
  Opening(const Opening&);
  Opening(Opening&&) noexcept;
  Opening& operator=(const Opening&);
  Opening& operator=(Opening&&) noexcept;
  ~Opening();

  std::string global_id;
  std::string name;
  double x_min_m = 0.0;
  double x_max_m = 0.0;
  double z_min_m = 0.0;
  double z_max_m = 0.0;
  std::string filling_entity;     ///< `IfcWindow`, `IfcDoor` or empty for a bare opening
  std::string filling_global_id;  ///< empty for a bare opening
  std::string filling_name;
  Properties filling_properties;
  Origin origin;

  double width_m() const { return x_max_m - x_min_m; }
  double height_m() const { return z_max_m - z_min_m; }
  double area_m2() const { return width_m() * height_m(); }
};

/// A factory-made wall panel. Its frame: origin at the lower corner of the inner face, x along the width, y through the
/// panel from the inner face (0) to the outer face, z up. Seen from inside, x runs to the right.
struct Panel {
  Panel();
  Panel(const Panel&);
  Panel(Panel&&) noexcept;
  Panel& operator=(const Panel&);
  Panel& operator=(Panel&&) noexcept;
  ~Panel();

  std::string global_id;
  std::string mark;  ///< the mark painted on the panel: Tag, else Name; unique in the project
  std::string name;
  std::string type;  ///< name of its type object, else ObjectType
  /// Of the IfcClassificationReferences of the panel and of its type: Identification, else Name; in the export's order.
  std::vector<std::string> classifications;
  std::string building;               ///< name
  std::optional<std::size_t> storey;  ///< index into Project::storeys
  Frame frame;                        ///< in the project's world frame, m
  Sourced<double> width_m;
  Sourced<double> height_m;
  Sourced<double> thickness_m;
  /// False when neither the export nor the settings say which face is outside; `layers` is then empty, and the
  /// direction of the y axis is the export's.
  bool outside_known = false;
  std::vector<Layer> layers;  ///< from inside to outside
  std::vector<Part> parts;    ///< in the export's order; empty for a panel of unknown framing
  std::vector<Opening> openings;
  std::vector<std::size_t> evidence;  ///< indices into Project::evidence
  Properties properties;
  /// What workshop and site wrote down of it: by day, then in the order of the tables and of their rows.
  std::vector<PanelRecord> records;
  std::vector<std::size_t> batches;  ///< ascending indices into Project::batches
  /// What the inputs say of the panel and its own model or records do not bear out, by what is concerned: `layers`,
  /// `parts`, or a table of records. A check that declares to read it does not pass.
  std::multimap<std::string, std::string> contradictions;
  Origin origin;

  /// Of the face, openings included.
  double gross_area_m2() const { return width_m.value * height_m.value; }
  /// Sum over the openings, which the intake keeps from overlapping.
  double opening_area_m2() const;
  double net_area_m2() const { return gross_area_m2() - opening_area_m2(); }
  /// Along the axes of the project's world frame.
  Box3 world_bounds() const;
  /// Pset_WallCommon.LoadBearing.
  std::optional<Sourced<bool>> load_bearing() const { return properties.logical("Pset_WallCommon", "LoadBearing"); }
};

/// Ascending indices into `panel.parts` of the parts whose box reaches at least halfway through the layer; parts
/// without a box are left out.
std::vector<std::size_t> parts_in_layer(const Panel& panel, const Layer& layer);

}  // namespace panel_dossier
