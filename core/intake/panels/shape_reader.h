// Shape representations of the export -> extrusions and boxes in metres.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/api/support/geometry.h"
#include "core/intake/panels/placement.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// What the representation of a product gives, in the frame of its placement until it is moved.
struct Shape {
  std::vector<Extrusion> solids;
  std::vector<Extrusion> boxes;  ///< bounding boxes; they bound and are no solids

  bool is_empty() const { return solids.empty() && boxes.empty(); }
  /// Box of everything, along the axes of the frame it stands in; none when empty.
  std::optional<Box3> bounds() const;
  /// The same shape, given in the frame of a product, seen in another frame; both in one parent frame.
  Shape moved(const Frame& from, const Frame& to) const;
  /// Sum of the solids in m³.
  double volume_m3() const;
};

/// Belongs to one run on one thread.
class ShapeReader {
 public:
  ShapeReader(const ReadContext& context, const PlacementReader& placements, double length_factor)
      : context_(context), placements_(placements), length_factor_(length_factor) {}

  /// Reads the body, else the bounding box. Reports sizes that are not positive. Forms that are not read are counted.
  Shape of_product(const Element& product);

  /// Representation items that are not read, by entity name.
  const std::map<std::string, std::size_t>& unread() const { return unread_; }

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  double length_factor_;
  std::map<std::string, std::size_t> unread_;

  void add_representation(const Element& representation, const Frame& frame, int depth, Shape& shape);
  void add_item(const Element& item, const Frame& frame, int depth, Shape& shape);
  void add_mapped_item(const Element& item, const Frame& frame, int depth, Shape& shape);
  void add_extrusion(const Element& item, const Frame& frame, Shape& shape);
  void add_bounding_box(const Element& item, const Frame& frame, Shape& shape);
};

}  // namespace panel_dossier
