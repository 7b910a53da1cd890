#include "core/intake/panels/opening_reader.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/panel_size.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/prism_form.h"

namespace panel_dossier {

namespace {

// Two openings in parts that share most of their area are one hole cut through several layers.
constexpr double kSameHoleShare = 0.5;
constexpr std::size_t kMaxOpenings = 1000;
// Openings may share an edge; a strip of 1 mm over 1 m is rounding of the exporter.
constexpr double kTouchingArea_m2 = 1e-3;

// What leaves out more of its box than this is no rectangle: roundings of corners and chamfers take less.
constexpr double kFillsItsBox = 0.99;

// A frame stands in its opening with a joint of a few centimetres, or behind a rebate of up to 100 mm on each side.
constexpr double kFrameAllowance_m = 0.2;

/// From face to face of what an opening voids.
struct Depth {
  double from_m;
  double to_m;
};

double box_volume(const Box3& box) {
  const Vec3 size = box.size();
  return size.x * size.y * size.z;
}

Shape shape_of(PanelReaders& readers, const Element& opening, const Frame& frame) {
  const auto placement = readers.placements.of_object(opening);
  if (!placement) return {};
  return readers.shapes.of_product(opening).moved(*placement, frame);
}

std::optional<Box3> bounds_of(const Shape& shape) {
  const auto bounds = shape.bounds();
  return bounds ? std::optional<Box3>(to_nanometre(*bounds)) : std::nullopt;
}

/// Holds the stated size of what fills the opening against the opening's own.
void compare_filling(PanelReaders& readers, const Element& filling, PlacedOpening& placed) {
  const Opening& opening = placed.opening;
  for (const auto& [attribute, own_m, word] : {std::tuple("OverallWidth", opening.width_m(), " wide"),
                                               std::tuple("OverallHeight", opening.height_m(), " high")}) {
    const auto stated = number(readers.context, filling, attribute);
    if (!stated) continue;
    const double stated_m = *stated * readers.units.length_factor();
    if (std::abs(stated_m - own_m) <= kFrameAllowance_m) continue;
    placed.faults.push_back("the opening is " + metres(own_m) + word + " and " + opening.filling_entity + " '" +
                            opening.filling_name + "' in it has " + attribute + " " + metres(stated_m));
  }
}

void add_filling(PanelReaders& readers, const Element& entity, PlacedOpening& placed) {
  const auto fillings = readers.context.graph.linked(Link::fillings, entity);
  if (fillings.empty()) return;
  const Element filling = fillings.front();
  Opening& opening = placed.opening;
  std::string_view type = ifc_type(filling);
  if (type == "IfcWindowStandardCase") type = "IfcWindow";
  if (type == "IfcDoorStandardCase") type = "IfcDoor";
  opening.filling_entity = type;
  opening.filling_global_id = own_global_id(filling);
  opening.filling_name = readers.context.graph.text(filling, "Name");
  opening.filling_properties = readers.properties.of_object(filling);
  compare_filling(readers, filling, placed);
}

void compare_depth(const Depth& of_voided, PlacedOpening& placed) {
  const Box3& bounds = placed.bounds;
  placed.goes_through =
      bounds.min.y <= of_voided.from_m + kOutsideTolerance_m && bounds.max.y >= of_voided.to_m - kOutsideTolerance_m;
  if (placed.goes_through) return;
  const double common_m = std::min(bounds.max.y, of_voided.to_m) - std::max(bounds.min.y, of_voided.from_m);
  placed.faults.push_back("the opening reaches through " + metres(std::max(common_m, 0.0)) + " of the " +
                          metres(of_voided.to_m - of_voided.from_m) + " of what it voids");
}

std::optional<PlacedOpening> read_opening(PanelReaders& readers, const Element& entity, const Frame& frame,
                                          const Depth& of_voided) {
  const Shape shape = shape_of(readers, entity, frame);
  const auto bounds = bounds_of(shape);
  if (!bounds) {
    readers.context.report.error(entity, "the opening has no shape that is read",
                                 "export it as an extrusion of a rectangle or as a bounding box");
    return std::nullopt;
  }
  if (shape.is_solid() && shape.volume_m3() < kFillsItsBox * box_volume(*bounds)) {
    readers.context.report.warning(entity, "the opening is no rectangle in its panel; the rectangle around it is used",
                                   "nothing, where the rectangle is good enough");
  }
  PlacedOpening placed{{}, *bounds, entity, true, {}};
  placed.opening.global_id = own_global_id(entity);
  placed.opening.name = readers.context.graph.text(entity, "Name");
  placed.opening.origin = readers.context.report.origin(entity);
  placed.opening.x_min_m = bounds->min.x;
  placed.opening.x_max_m = bounds->max.x;
  placed.opening.z_min_m = bounds->min.z;
  placed.opening.z_max_m = bounds->max.z;
  compare_depth(of_voided, placed);
  add_filling(readers, entity, placed);
  return placed;
}

double common_area(const Opening& a, const Opening& b) {
  const double width = std::min(a.x_max_m, b.x_max_m) - std::max(a.x_min_m, b.x_min_m);
  const double height = std::min(a.z_max_m, b.z_max_m) - std::max(a.z_min_m, b.z_min_m);
  return width > 0.0 && height > 0.0 ? width * height : 0.0;
}

bool is_same_hole(const Opening& a, const Opening& b) {
  return common_area(a, b) > kSameHoleShare * std::min(a.area_m2(), b.area_m2());
}

/// Every opening is compared with the others of its panel, so a panel full of them would take for ever.
bool has_room(const ReadContext& context, const Element& panel, std::size_t count) {
  if (count < kMaxOpenings) return true;
  context.report.error(panel, "the panel has more than " + std::to_string(kMaxOpenings) + " openings",
                       "export one opening for each window, door and penetration");
  return false;
}

void add_merged(std::vector<PlacedOpening>& openings, PlacedOpening added) {
  for (PlacedOpening& known : openings) {
    if (!is_same_hole(known.opening, added.opening)) continue;
    // A hole says more than a recess, and the one with a window or door in it more than an empty one.
    const bool says_more = added.goes_through != known.goes_through
                               ? added.goes_through
                               : known.opening.filling_entity.empty() && !added.opening.filling_entity.empty();
    if (says_more) known = std::move(added);
    return;
  }
  openings.push_back(std::move(added));
}

}  // namespace

std::vector<PlacedOpening> read_openings(PanelReaders& readers, const PanelEntities& entities, const Panel& panel) {
  std::vector<PlacedOpening> openings;
  const Frame& frame = panel.frame;
  const Depth of_panel{0.0, panel.thickness_m.value};
  const Graph& graph = readers.context.graph;
  for (const Element& entity : graph.linked(Link::openings, entities.panel)) {
    if (!has_room(readers.context, entities.panel, openings.size())) return openings;
    if (auto placed = read_opening(readers, entity, frame, of_panel)) openings.push_back(std::move(*placed));
  }
  if (!graph.linked(Link::openings, entities.panel).empty()) return openings;
  for (const std::vector<Element>* group : {&entities.subassemblies, &entities.parts}) {
    for (const Element& part : *group) {
      const auto voids = graph.linked(Link::openings, part);
      if (voids.empty()) continue;
      const auto bounds = bounds_of(shape_of(readers, part, frame));
      const Depth of_part = bounds ? Depth{bounds->min.y, bounds->max.y} : of_panel;
      for (const Element& entity : voids) {
        if (!has_room(readers.context, entities.panel, openings.size())) return openings;
        if (auto placed = read_opening(readers, entity, frame, of_part)) add_merged(openings, std::move(*placed));
      }
    }
  }
  return openings;
}

void weigh_openings(const ReadContext& context, std::vector<PlacedOpening>& openings, Panel& panel) {
  for (const PlacedOpening& placed : openings) {
    for (const std::string& fault : placed.faults) {
      const bool is_recess = !placed.goes_through && placed.opening.filling_entity.empty();
      context.report.warning(placed.entity,
                             "in panel '" + panel.mark + "' " + fault +
                                 (is_recess ? "; it is no hole and takes nothing off the area" : ""),
                             "correct the one that is wrong; no check that rests on the layers passes");
      panel.contradictions.emplace("layers",
                                   fault + " (" + place_in_words(placed.opening.origin) + "); correct the export");
    }
  }
  std::erase_if(openings, [](const PlacedOpening& placed) {
    return !placed.goes_through && placed.opening.filling_entity.empty();
  });
}

void check_stray_openings(const ReadContext& context) {
  for (const char* type : {"IfcOpeningElement", "IfcOpeningStandardCase"}) {
    for (const Element& opening : context.graph.all(type)) {
      if (!context.graph.linked(Link::voided, opening).empty()) continue;
      std::string message = "the opening voids nothing and counts for no panel";
      for (const Element& filling : context.graph.linked(Link::fillings, opening)) {
        message +=
            ", nor does " + std::string(ifc_type(filling)) + " '" + context.graph.text(filling, "Name") + "' in it";
      }
      context.report.warning(opening, message, "join it to its wall with an IfcRelVoidsElement, or leave it out");
    }
  }
}

std::vector<PlacedOpening> holes_of_body(const ReadContext& context, const Element& panel, const Shape& body) {
  std::vector<PlacedOpening> openings;
  if (body.bodies.size() != 1 || !body.solids.empty()) return openings;
  const auto form = prism_along(body.bodies.front(), Vec3{0.0, 1.0, 0.0});
  if (!form) return openings;
  for (const Polygon& hole : form->holes) {
    if (!has_room(context, panel, openings.size())) return openings;
    const Box3 bounds =
        to_nanometre(Extrusion{hole, form->outer.frame, form->outer.direction, form->outer.depth_m}.bounds());
    PlacedOpening placed{{}, bounds, panel, true, {}};
    placed.opening.name = "Opening " + std::to_string(openings.size() + 1);
    placed.opening.origin = context.report.origin(panel, "Representation");
    placed.opening.x_min_m = bounds.min.x;
    placed.opening.x_max_m = bounds.max.x;
    placed.opening.z_min_m = bounds.min.z;
    placed.opening.z_max_m = bounds.max.z;
    openings.push_back(std::move(placed));
  }
  return openings;
}

void check_face(const ReadContext& context, const Element& entity, const Shape& body, const Panel& panel) {
  if (!body.is_solid()) return;
  // Half-way through the panel: mitred ends and rebates even out there.
  const Frame half_way{{0.0, panel.thickness_m.value / 2.0, 0.0}, {1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, -1.0, 0.0}};
  const auto area_m2 = body.section_m2(half_way);
  // An opening takes away of the body what the body has, or nothing where it is drawn with the hole.
  if (!area_m2 || *area_m2 + panel.opening_area_m2() >= kFillsItsBox * panel.gross_area_m2()) return;
  context.report.warning(entity,
                         "the body of the panel is no rectangle of " + metres(panel.width_m.value) + " by " +
                             metres(panel.height_m.value) + "; areas count the whole of it",
                         "read areas of this panel as too large, or export it in rectangles");
}

std::vector<Box3> voids_of_part(PanelReaders& readers, const Element& part, const Frame& frame) {
  std::vector<Box3> voids;
  for (const Element& entity : readers.context.graph.linked(Link::openings, part)) {
    if (const auto bounds = bounds_of(shape_of(readers, entity, frame))) voids.push_back(*bounds);
  }
  return voids;
}

void check_openings(const ReadContext& context, const Panel& panel, const std::vector<PlacedOpening>& openings) {
  for (const PlacedOpening& placed : openings) {
    const Opening& o = placed.opening;
    const bool is_inside = o.x_min_m >= -kOutsideTolerance_m && o.z_min_m >= -kOutsideTolerance_m &&
                           o.x_max_m <= panel.width_m.value + kOutsideTolerance_m &&
                           o.z_max_m <= panel.height_m.value + kOutsideTolerance_m;
    if (!is_inside) {
      context.report.error(placed.entity, "the opening lies outside its panel '" + panel.mark + "'",
                           "check the placement of the opening and the length unit");
    }
  }
  // In the order of their left edges only neighbours can overlap, until one starts to the right of the other's end.
  std::vector<const PlacedOpening*> by_x;
  by_x.reserve(openings.size());
  for (const PlacedOpening& placed : openings) by_x.push_back(&placed);
  std::sort(by_x.begin(), by_x.end(),
            [](const PlacedOpening* a, const PlacedOpening* b) { return a->opening.x_min_m < b->opening.x_min_m; });
  for (std::size_t i = 0; i < by_x.size(); ++i) {
    for (std::size_t k = i + 1; k < by_x.size() && by_x[k]->opening.x_min_m < by_x[i]->opening.x_max_m; ++k) {
      if (common_area(by_x[i]->opening, by_x[k]->opening) <= kTouchingArea_m2) continue;
      context.report.error(by_x[k]->entity,
                           "the opening overlaps opening '" + by_x[i]->opening.global_id + "' at line " +
                               std::to_string(by_x[i]->opening.origin.line),
                           "export one opening for each hole");
      break;
    }
  }
}

}  // namespace panel_dossier
