#include "plugins/fire/evidence/field_of_application.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>
#include <utility>

#include "core/api/support/tolerances.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/evidence/tested_layers.h"
#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

enum class Bound { largest, least };

/// One limit of the test.
struct Point {
  const char* name;
  const char* property;  ///< of Panel_FireEvidence
  const char* unit;
  Bound bound = Bound::largest;
  bool recorded = false;  ///< the panel's value is an input of the finding already
};

class Comparison {
 public:
  Comparison(FindingBuilder& builder, const Panel& panel) : builder_(builder), panel_(panel) {}

  void compare(const Point& point, const Sourced<double>& actual) {
    const std::string property = std::string("Panel_FireEvidence.") + point.property;
    const auto limit = panel_.properties.number("Panel_FireEvidence", point.property);
    const bool usable = limit && std::isfinite(limit->value) && limit->value > 0.0;
    if (!usable) {
      open_points.push_back(std::string(point.name) + ": the field of application is not given (" + property + ")");
    }
    if (!point.recorded) builder_.number(std::string(point.name) + " of the panel", {}, point.unit, actual, {});
    bool inside = false;
    if (usable) {
      builder_.number(std::string(bound_name(point)) + " " + point.name + " covered", {}, point.unit, limit, {});
      inside = lies_inside(point, actual.value, limit->value);
      if (!inside) {
        open_points.push_back(std::string(point.name) + " of the panel is outside the field of application (" +
                              property + ")");
      }
    }
    table_.rows.push_back({std::string(point.name), std::string(point.unit),
                           std::string(point.bound == Bound::largest ? "at most" : "at least"),
                           usable ? Value{limit->value} : Value{}, actual.value,
                           std::string(usable ? (inside ? "yes" : "no") : "not given")});
  }

  void close() {
    builder_.table(std::move(table_))
        .note("A competent person must read the report for every other condition of the test.");
  }

  std::vector<std::string> open_points;

 private:
  FindingBuilder& builder_;
  const Panel& panel_;
  Table table_{"Field of application of the test",
               {{"parameter", ""}, {"unit", ""}, {"bound", ""}, {"tested", ""}, {"panel", ""}, {"covered", ""}},
               {}};

  static const char* bound_name(const Point& point) { return point.bound == Bound::largest ? "largest" : "least"; }

  /// Most are lengths; a load of the test is as little missed by rounding.
  static bool lies_inside(const Point& point, double actual, double limit) {
    if (!std::isfinite(actual)) return false;
    return point.bound == Bound::largest ? actual <= limit + kRounding_m : actual >= limit - kRounding_m;
  }
};

void compare_load(Comparison& comparison, const Panel& panel) {
  const auto permanent = panel.properties.number("Panel_Structure", "PermanentLineLoad");
  const auto variable = panel.properties.number("Panel_Structure", "VariableLineLoad");
  if (!permanent || !variable) {
    comparison.open_points.emplace_back(
        "load of the panel is not given (Panel_Structure.PermanentLineLoad and VariableLineLoad)");
    return;
  }
  if (!(permanent->value >= 0.0) || !(variable->value >= 0.0)) {
    comparison.open_points.emplace_back(
        "load of the panel is negative (Panel_Structure.PermanentLineLoad and VariableLineLoad)");
    return;
  }
  comparison.compare({"load, characteristic permanent and variable", "MaxLoad", "N/m"},
                     Sourced<double>{permanent->value + variable->value, permanent->origin});
}

/// Studs and posts with a box, short ones above and below openings among them, from left to right; parts without a box
/// are open points.
std::vector<const Part*> uprights(Comparison& comparison, const Panel& panel) {
  std::vector<const Part*> found;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::stud && part.kind != PartKind::post) continue;
    if (part.bounds) {
      found.push_back(&part);
    } else {
      comparison.open_points.push_back("depth and place of '" + part.name + "' are not given (its shape)");
    }
  }
  std::sort(found.begin(), found.end(), [](const Part* a, const Part* b) {
    const Vec3 left = a->bounds->centre();
    const Vec3 right = b->bounds->centre();
    return std::tie(left.x, left.z, a->name) < std::tie(right.x, right.z, b->name);
  });
  return found;
}

void compare_studs(Comparison& comparison, const Panel& panel) {
  const auto studs = uprights(comparison, panel);
  if (studs.size() < 2) {
    comparison.open_points.emplace_back("depth and spacing of studs are not known: fewer than two have a shape");
    return;
  }
  const auto shallowest = *std::min_element(studs.begin(), studs.end(), [](const Part* a, const Part* b) {
    return a->bounds->size().y < b->bounds->size().y;
  });
  comparison.compare({"depth of the shallowest stud", "MinStudDepth", "m", Bound::least},
                     Sourced<double>{shallowest->bounds->size().y, shallowest->origin});
  Sourced<double> widest_m{0.0, studs.front()->origin};
  for (std::size_t i = 1; i < studs.size(); ++i) {
    const double apart_m = studs[i]->bounds->centre().x - studs[i - 1]->bounds->centre().x;
    if (apart_m > widest_m.value) widest_m = {apart_m, studs[i]->origin};
  }
  comparison.compare({"widest spacing of studs", "MaxStudSpacing", "m"}, widest_m);
}

/// A layer of boards or cladding: neither that of the studs nor a membrane, air or insulation.
bool is_board(const Panel& panel, const Project& project, std::size_t index) {
  const Layer& layer = panel.layers[index];
  const Material* material = material_at(project, layer.material);
  const bool insulation = layer.category == "insulation" || (material != nullptr && material->category == "insulation");
  return material != nullptr && !insulation && index != framing_layer(panel) &&
         layer.thickness_m.value >= tolerance::kMembrane_m;
}

/// Of the boards that the test had too; where none is known, of every layer with sheets.
void compare_fixings(Comparison& comparison, const Panel& panel, const Project& project,
                     const std::vector<std::size_t>& covered) {
  std::optional<Sourced<double>> widest_m;
  std::string without;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const Layer& layer = panel.layers[i];
    const bool tested = std::find(covered.begin(), covered.end(), i) != covered.end();
    if (!is_board(panel, project, i) || (covered.empty() ? !joints_of(panel, layer).known : !tested)) continue;
    const auto spacing_m = fixings_of(panel, layer).spacing_m;
    if (!spacing_m) without += (without.empty() ? "'" : ", '") + layer.name + "'";
    if (spacing_m && (!widest_m || spacing_m->value > widest_m->value)) widest_m = spacing_m;
  }
  if (!without.empty()) {
    comparison.open_points.push_back("spacing of the fasteners of " + without +
                                     " is not given (Panel_Fastener.Spacing)");
  } else if (!widest_m) {
    comparison.open_points.emplace_back("no board of the test is known, so its fasteners are not compared");
  }
  if (widest_m) comparison.compare({"widest spacing of the boards' fasteners", "MaxFixingSpacing", "m"}, *widest_m);
}

void compare_openings(Comparison& comparison, const Panel& panel) {
  if (panel.openings.empty()) return;
  const auto widest = std::max_element(panel.openings.begin(), panel.openings.end(),
                                       [](const Opening& a, const Opening& b) { return a.width_m() < b.width_m(); });
  const auto tallest = std::max_element(panel.openings.begin(), panel.openings.end(),
                                        [](const Opening& a, const Opening& b) { return a.height_m() < b.height_m(); });
  comparison.compare({"width of the widest opening", "MaxOpeningWidth", "m"},
                     Sourced<double>{widest->width_m(), widest->origin});
  comparison.compare({"height of the tallest opening", "MaxOpeningHeight", "m"},
                     Sourced<double>{tallest->height_m(), tallest->origin});
}

/// Of the boards that the test had too: whether their sheets, and so their joints, are known.
void compare_joints(Comparison& comparison, const Panel& panel, const Project& project,
                    const std::vector<std::size_t>& covered) {
  for (const std::size_t index : covered) {
    const Layer& layer = panel.layers[index];
    const auto parts = parts_in_layer(panel, layer);
    const bool known = std::any_of(parts.begin(), parts.end(), [&](std::size_t part) {
      return panel.parts[part].kind == PartKind::sheet || panel.parts[part].kind == PartKind::cladding;
    });
    if (known || !is_board(panel, project, index)) continue;
    comparison.open_points.push_back("joints of '" + layer.name + "' are not known: no sheets with a shape in it");
  }
}

}  // namespace

std::vector<std::string> compare_field_of_application(FindingBuilder& builder, const Panel& panel,
                                                      const Project& project, bool load_bearing) {
  Comparison comparison(builder, panel);
  comparison.compare({"height", "MaxHeight", "m", Bound::largest, true}, panel.height_m);
  comparison.compare({"width", "MaxWidth", "m", Bound::largest, true}, panel.width_m);
  if (load_bearing) compare_load(comparison, panel);
  compare_studs(comparison, panel);
  compare_openings(comparison, panel);
  LayerComparison layers = compare_layers(builder, panel, project, framing_layer(panel));
  compare_fixings(comparison, panel, project, layers.covered);
  compare_joints(comparison, panel, project, layers.covered);
  comparison.close();
  std::vector<std::string> open_points = std::move(comparison.open_points);
  for (std::string& point : layers.open_points) open_points.push_back(std::move(point));
  return open_points;
}

std::vector<CheckInput> field_of_application_inputs() {
  std::vector<CheckInput> inputs{optional_property("Panel_FireEvidence.MaxOpeningHeight"),
                                 optional_property("Panel_FireEvidence.MaxOpeningWidth"),
                                 property("Panel_Fastener.Spacing"),
                                 property("Panel_FireEvidence.MaxFixingSpacing"),
                                 property("Panel_FireEvidence.MaxHeight"),
                                 property("Panel_FireEvidence.MaxStudSpacing"),
                                 property("Panel_FireEvidence.MaxWidth"),
                                 property("Panel_FireEvidence.MinStudDepth")};
  for (CheckInput& input : tested_layers_inputs()) inputs.push_back(std::move(input));
  return inputs;
}

}  // namespace panel_dossier::fire
