// Writes the constructs that recur in an IFC4 ADD2 TC1 export, with GlobalIds that stay the same from one run
// to the next.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "sample_project/generator/export_writer.h"
#include "sample_project/generator/panel_parts.h"
#include "sample_project/generator/properties.h"
#include "sample_project/generator/shapes.h"

namespace sample_export {

/// The IFC form (22 characters of the base-64 alphabet of ISO 16739-1, 8.3.2 IfcGloballyUniqueId) of a UUID version 8
/// (RFC 9562, 2024, 5.8) derived from `path`, which must be unique within the export.
std::string global_id(std::string_view path);

/// A placement: origin, direction of its z axis and of its x axis, in the frame it is relative to.
struct Placement {
  Point origin;
  Point z_axis{0.0, 0.0, 1.0};
  Point x_axis{1.0, 0.0, 0.0};
};

class IfcWriter {
 public:
  explicit IfcWriter(ExportWriter& writer) : out(writer) {}

  ExportWriter& out;

  /// True the first time it is asked for an id: the element is then written in full, later ones refer to it.
  bool first_use(const std::string& id) { return written_.insert(id).second; }

  void cartesian_point(const std::string& attribute, const Point& point);
  void direction(const std::string& attribute, const Point& ratios);
  /// Location, and the axes unless they are the default ones.
  void axis_placement_content(const Placement& placement);
  /// ObjectPlacement as an IfcLocalPlacement with this id, relative to another unless `relative_to` is empty.
  void local_placement(const std::string& id, const std::string& relative_to, const Placement& placement);

  void property(const Property& property);
  /// IfcPropertySet as an element of that name; its GlobalId is derived from `owner` and the set's name.
  void property_set(const std::string& owner, const PropertySet& set);
  /// IfcRelDefinesByProperties for an occurrence, to stand within IsDefinedBy.
  void defining_properties(const std::string& owner, const PropertySet& set);
  /// IfcRelDefinesByType within IsTypedBy.
  void typed_by(const std::string& owner, const std::string& type_entity, const std::string& type_id);
  /// IfcRelAssociatesMaterial shared by everything of that material, to stand within HasAssociations.
  void shared_material(const std::string& material_entity, const std::string& material_id);
  void shared_document(const std::string& document_id);

  /// Representation with one Body of the part, whose section is centred on the placement of `box_placement`. Parts of
  /// one shape share it.
  void part_shape(const PanelPart& part);
  /// Representation with one Body of this size that starts at the placement's origin, extruded upwards.
  void block_shape(double width_mm, double depth_mm, double height_mm);
  /// The same with the wall's Axis beside the Body.
  void wall_shape(double width_mm, double depth_mm, double height_mm);
  void box_shape(const Box& box);

 private:
  std::set<std::string> written_;

  void rectangle_solid(double x_dim, double y_dim, double depth, const Point* section_centre);
  void outline_solid(const PanelPart& part);
  void body(double width_mm, double depth_mm, double height_mm);
  void axis(double width_mm);
  void context(const std::string& id);
};

/// Where the solid of `part_shape` starts: the middle of the box's first face along `axis`.
Placement box_placement(const Box& box, Axis axis);

/// A length without the rounding errors of sums: to 0.1 µm, the precision that the export states.
std::string mm_text(double value_mm);

std::string type_id(std::string_view key);
std::string layer_set_id(std::string_view type_key);
std::string material_id(std::string_view key);
std::string profile_set_id(double width_mm, double depth_mm, std::string_view material_key);

}  // namespace sample_export
