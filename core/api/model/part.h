// One physical part of a panel.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/model/origin.h"
#include "core/api/model/properties.h"
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

/// Sizes and quantities are as the export gives them: a plugin checks what it divides by.
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

}  // namespace panel_dossier
