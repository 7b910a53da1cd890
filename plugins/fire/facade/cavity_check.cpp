#include "plugins/fire/facade/cavity_check.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/facade/reaction_class.h"
#include "plugins/fire/stretch.h"
#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

/// One straight cavity barrier in the panel's x-z plane, in m.
struct BarrierLine {
  std::string where;
  bool horizontal = true;
  double at_m = 0.0;  ///< z of a horizontal line, x of an upright one
  Stretch stretch;

  double length_m() const { return stretch.length_m(); }
};

std::optional<ReactionClass> class_at(const Panel& panel, std::size_t layer, const Project& project) {
  const auto material = panel.layers[layer].material;
  return material ? class_of(project, *material, panel.layers[layer].name).parsed : std::nullopt;
}

/// Boxes of the cavity barriers of the export (parts of ObjectType CAVITY_BARRIER) that lie in the cavity, by at least
/// half of its depth or of their own: one that lets air through in use is not as deep as the cavity.
std::vector<Box3> barriers_in(const Panel& panel, const Layer& cavity) {
  std::vector<Box3> found;
  for (const Part& part : panel.parts) {
    if (part.object_type != "CAVITY_BARRIER" || !part.bounds) continue;
    const Box3& box = *part.bounds;
    const double within_m = std::min(box.max.y, cavity.y_outside_m) - std::max(box.min.y, cavity.y_inside_m);
    const double depth_m = std::min(box.size().y, cavity.y_outside_m - cavity.y_inside_m);
    if (within_m > 0.0 && within_m >= 0.5 * depth_m) found.push_back(box);
  }
  return found;
}

void add_opening(std::vector<BarrierLine>& lines, const Panel& panel, const Opening& opening) {
  const std::string name = "'" + opening.name + "'";
  const double foot_m = std::max(0.0, opening.z_min_m);
  const double head_m = std::min(panel.height_m.value, opening.z_max_m);
  lines.push_back({"head of " + name, true, head_m, {opening.x_min_m, opening.x_max_m}});
  if (foot_m > kAtEdge_m) lines.push_back({"sill of " + name, true, foot_m, {opening.x_min_m, opening.x_max_m}});
  lines.push_back({"left jamb of " + name, false, opening.x_min_m, {foot_m, head_m}});
  lines.push_back({"right jamb of " + name, false, opening.x_max_m, {foot_m, head_m}});
}

/// Floors of the panel's building above its own, in m above the panel's foot.
std::vector<std::pair<double, std::string>> floors_above(const Panel& panel, const Project& project) {
  std::vector<std::pair<double, std::string>> floors;
  const Storey& own = project.storeys[*panel.storey];
  for (const Storey& storey : project.storeys) {
    if (!storey.elevation_m || !own.elevation_m || storey.building != own.building) continue;
    const double above_m = storey.elevation_m->value - own.elevation_m->value;
    if (above_m > kAtEdge_m) floors.emplace_back(above_m, storey.name);
  }
  return floors;
}

bool is_lowest(const Panel& panel, const Project& project) {
  const Storey& own = project.storeys[*panel.storey];
  return std::none_of(project.storeys.begin(), project.storeys.end(), [&](const Storey& storey) {
    return storey.building == own.building && storey.elevation_m && own.elevation_m &&
           storey.elevation_m->value < own.elevation_m->value;
  });
}

void add_levels(std::vector<BarrierLine>& lines, const Panel& panel, const Project& project, bool floors) {
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  const bool known = panel.storey.has_value();
  if (!known || is_lowest(panel, project)) {
    lines.push_back({"foot of the cavity", true, 0.0, {0.0, width_m}});
  } else if (floors) {
    lines.push_back({"floor '" + project.storeys[*panel.storey].name + "'", true, 0.0, {0.0, width_m}});
  }
  bool storey_above = false;
  if (known) {
    for (const auto& [above_m, name] : floors_above(panel, project)) {
      if (floors && above_m < height_m - kAtEdge_m)
        lines.push_back({"floor '" + name + "'", true, above_m, {0.0, width_m}});
      storey_above = storey_above || (above_m >= height_m - kAtEdge_m && above_m <= height_m + kFloorAboveHead_m);
    }
  }
  if (!storey_above) lines.push_back({"head of the cavity", true, height_m, {0.0, width_m}});
}

/// The parts of a level line that no opening takes away.
std::vector<BarrierLine> outside_openings(const Panel& panel, const BarrierLine& line) {
  std::vector<BarrierLine> pieces{line};
  for (const Opening& opening : panel.openings) {
    if (line.at_m < opening.z_min_m || line.at_m >= opening.z_max_m) continue;
    std::vector<BarrierLine> next;
    for (const BarrierLine& piece : pieces) {
      BarrierLine left = piece;
      BarrierLine right = piece;
      left.stretch.to = std::min(piece.stretch.to, opening.x_min_m);
      right.stretch.from = std::max(piece.stretch.from, opening.x_max_m);
      if (left.length_m() > 0.0) next.push_back(left);
      if (right.length_m() > 0.0) next.push_back(right);
    }
    pieces = std::move(next);
  }
  return pieces;
}

/// Index into `panel.layers` of the air layer outside the framing; none when there is none.
std::optional<std::size_t> outer_cavity(const Panel& panel) {
  const auto framing = framing_layer(panel);
  if (!framing || !panel.outside_known) return std::nullopt;
  for (std::size_t i = *framing + 1; i < panel.layers.size(); ++i) {
    if (!panel.layers[i].material) return i;
  }
  return std::nullopt;
}

/// The largest undivided length in m of the cavity at `cavity` of `panel.layers`, by the classes of the surfaces within
/// it, with the table row as origin; none where the jurisdiction has no rows or a surface has no class.
std::optional<Sourced<double>> cavity_limit_m(const Panel& panel, std::size_t cavity, const Project& project,
                                              const Settings& settings, const Tables& tables) {
  const auto jurisdiction = settings.text("project.jurisdiction");
  if (!jurisdiction || cavity + 1 >= panel.layers.size()) return std::nullopt;
  const std::string better = jurisdiction->value + "/better";
  const auto least = tables.cavity_limits.text(better, "least_class");
  const auto inner = class_at(panel, cavity - 1, project);
  const auto outer = class_at(panel, cavity + 1, project);
  const auto asked = least ? parse_reaction_class(least->value) : std::nullopt;
  if (!asked || !inner || !outer) return std::nullopt;
  const bool meets = inner->meets(*asked) && outer->meets(*asked);
  return tables.cavity_limits.number(meets ? better : jurisdiction->value + "/worse", "largest_m");
}

/// Lines that the panel itself decides: round its openings, at its foot, at each floor that it passes and, where no
/// storey lies above it, at its head. Floors are left out when setting fire.compartment_floors is no. The panel is
/// taken to stand on the floor of its storey; one without storey is closed at foot and head.
std::vector<BarrierLine> barrier_lines(const Panel& panel, const Project& project, const Settings& settings) {
  const auto floors = settings.logical("fire.compartment_floors");
  std::vector<BarrierLine> levels;
  add_levels(levels, panel, project, !floors || floors->value);
  std::vector<BarrierLine> lines;
  for (const BarrierLine& level : levels) {
    for (BarrierLine& piece : outside_openings(panel, level)) lines.push_back(std::move(piece));
  }
  for (const Opening& opening : panel.openings) add_opening(lines, panel, opening);
  return lines;
}

/// The upright edges, left and right, at which the cavity is closed unless it runs on into the next panel.
std::vector<BarrierLine> side_edges(const Panel& panel) {
  const double height_m = panel.height_m.value;
  return {{"left edge", false, 0.0, {0.0, height_m}}, {"right edge", false, panel.width_m.value, {0.0, height_m}}};
}

/// Length in m of `line` along which barriers lie.
double provided_m(const std::vector<Box3>& barriers, const BarrierLine& line) {
  std::vector<Stretch> stretches;
  for (const Box3& box : barriers) {
    const double across_m = line.horizontal ? box.centre().z : box.centre().x;
    if (std::abs(across_m - line.at_m) > kBesideLine_m) continue;
    stretches.push_back(line.horizontal ? Stretch{box.min.x, box.max.x} : Stretch{box.min.z, box.max.z});
  }
  return line.length_m() - bare_length_m(line.stretch, std::move(stretches));
}

/// Length in m of `line` that is bare; what cutting and fitting leave is none.
double bare_m(const std::vector<Box3>& barriers, const BarrierLine& line) {
  const double bare = line.length_m() - provided_m(barriers, line);
  return bare > kBareLine_m ? bare : 0.0;
}

/// x in m of the uprights that close the cavity over the panel's whole height, ascending.
std::vector<double> full_uprights(const Panel& panel, const std::vector<Box3>& barriers) {
  std::vector<double> found;
  for (const Box3& box : barriers) {
    const double at_m = box.centre().x;
    const BarrierLine upright{{}, false, at_m, {0.0, panel.height_m.value}};
    if (box.size().z > box.size().x && bare_m(barriers, upright) == 0.0) found.push_back(at_m);
  }
  std::sort(found.begin(), found.end());
  return found;
}

constexpr const char* kCompartmentWalls =
    "Compartment walls are not in the export: their lines are the fire engineer's to add.";
constexpr const char* kCavityOnSite =
    "A cavity that an outer leaf by others makes on site is not in the export; its barriers are not scheduled.";
// Named values of the project's finding: of the length that is needed, what the export has and what it lacks.
constexpr const char* kInExportValue = "in_export";
constexpr const char* kNotInExportValue = "not_in_export";
constexpr const char* kLinesColumn = "round openings, at floors, foot and head";

}  // namespace

const CheckDeclaration kCavityBarriersCheck{
    .id = "fire.cavity_barriers",
    .title = "Cavity barriers",
    .project_title = "Cavity barriers of the project",
    .sentence =
        "Cavity barriers of the export close the cavity outside a panel round openings, at floors, foot and head; of "
        "the "
        "project also the ends of cavities, and divide those longer than the rule allows. The value is the length that "
        "is needed.",
    .clause =
        "Approved Document B vol. 2 (2019 edition as amended) section 9 (from memory), or the rules of "
        "the jurisdiction",
    .other_clauses = {},
    .units = {"m"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model({data_table("cavity_limits.csv"), optional_property("Panel_Fire.ReactionToFire"),
                          optional_setting("fire.compartment_floors"), optional_setting("project.jurisdiction")}),
    .limits = {kCompartmentWalls, kCavityOnSite, "Whether a barrier is fixed as tested is not in the export."},
    .role = ""};

namespace {

/// `counted`: the line is closed in any case and so part of the total.
void add_row(Table& table, const BarrierLine& line, double in_export_m, bool counted) {
  table.rows.push_back({line.where, std::string(line.horizontal ? "level" : "upright"), line.at_m, line.length_m(),
                        in_export_m, counted ? line.length_m() : 0.0});
}

/// Evidence needed, with the length that is needed as the value.
Finding needs_barriers(FindingBuilder& builder, std::string reason, double needed_m) {
  Finding finding = builder.needs_evidence(std::move(reason));
  finding.value = needed_m;
  finding.unit = "m";
  return finding;
}

void note_scope(FindingBuilder& builder, const Settings& settings) {
  if (!settings.logical("fire.compartment_floors")) {
    builder.note("Which floors are compartment floors is not given (setting fire.compartment_floors): each is listed.");
  }
  builder.note(kCompartmentWalls)
      .note(
          "Each barrier needs its own evidence of 30 minutes integrity and 15 minutes insulation, fixed as tested "
          "(Approved Document B vol. 2 table B3, from memory; other jurisdictions as their rules say).")
      .note("The upright edges are closed only where the cavity ends there and are not counted.");
}

void add_limit(FindingBuilder& builder, const Panel& panel, std::size_t cavity, const Project& project,
               const Settings& settings, const Tables& tables) {
  if (const auto limit = cavity_limit_m(panel, cavity, project, settings, tables)) {
    builder.number("largest undivided length of the cavity", "", "m", limit, {});
    builder.step("largest undivided length of the cavity", "", limit->value, "m");
  } else {
    builder.step_text("largest undivided length of the cavity",
                      "not told: no row for the jurisdiction, or a surface without class (Panel_Fire.ReactionToFire)");
  }
}

}  // namespace

Finding cavity_barriers(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kCavityBarriersCheck, panel.global_id);
  builder.basis(Basis::declared);
  if (!panel.outside_known) return builder.not_assessed(kOutsideUnknown);
  builder.number("width of the panel", "", "m", panel.width_m, {});
  builder.number("height of the panel", "", "m", panel.height_m, {});
  const auto cavity = outer_cavity(panel);
  if (!cavity) {
    builder.step_text("air layer outside the framing", "none in the export");
    builder.note(kCavityOnSite);
    return builder.inform_text("no cavity outside");
  }
  builder.number("depth of the cavity '" + panel.layers[*cavity].name + "'", "", "m", panel.layers[*cavity].thickness_m,
                 {});
  const auto barriers = barriers_in(panel, panel.layers[*cavity]);
  Table table{"Cavity barriers of the panel",
              {{"where", ""}, {"lies", ""}, {"at", "m"}, {"length", "m"}, {"in the export", "m"}, {"counted", "m"}},
              {}};
  ExactSum total_m;
  std::vector<std::string> uncovered;
  for (const BarrierLine& line : barrier_lines(panel, project, settings)) {
    add_row(table, line, provided_m(barriers, line), true);
    total_m.add(line.length_m());
    if (bare_m(barriers, line) > 0.0) uncovered.push_back(line.where);
  }
  for (const BarrierLine& edge : side_edges(panel)) add_row(table, edge, provided_m(barriers, edge), false);
  builder.table(std::move(table));
  builder.step("length of cavity barriers round openings, at floors, foot and head", "L", total_m.total(), "m",
               "L = sum(counted)");
  add_limit(builder, panel, *cavity, project, settings, tables);
  note_scope(builder, settings);
  const double needed_m = total_m.total();
  if (uncovered.empty()) return builder.inform(needed_m, "m");
  if (barriers.empty()) {
    return needs_barriers(builder,
                          "the export has no cavity barrier in the cavity (parts of ObjectType CAVITY_BARRIER); " +
                              fixed_text(needed_m, 1) + " m are needed: " + joined(uncovered),
                          needed_m);
  }
  return needs_barriers(builder, "cavity barriers of the export do not cover: " + joined(uncovered), needed_m);
}

namespace {

/// An end of a panel's outer face in plan, on a grid of kCavityRunsOn_m, with its height.
using Cell = std::tuple<std::int64_t, std::int64_t, std::int64_t>;

Vec3 outer_end(const Panel& panel, bool right) {
  return panel.frame.to_parent(Vec3{right ? panel.width_m.value : 0.0, panel.thickness_m.value, 0.0});
}

Cell cell_of(const Vec3& point, int dx = 0, int dy = 0, int dz = 0) {
  const auto index = [](double value) { return static_cast<std::int64_t>(std::floor(value / kCavityRunsOn_m)); };
  return {index(point.x) + dx, index(point.y) + dy, index(point.z) + dz};
}

/// Panels with an outer cavity by the left end of their outer face.
class CavityPanels {
 public:
  explicit CavityPanels(const Project& project) {
    for (std::size_t i = 0; i < project.panels.size(); ++i) {
      if (!outer_cavity(project.panels[i])) continue;
      panels_.push_back(&project.panels[i]);
      left_ends_.emplace(cell_of(outer_end(project.panels[i], false)), &project.panels[i]);
    }
    for (const Panel* panel : panels_) {
      if (const Panel* next = right_neighbour(*panel)) has_left_neighbour_[next] = true;
    }
  }

  const std::vector<const Panel*>& panels() const { return panels_; }

  /// The panel in line whose left end meets the right end of `panel`; null when its cavity ends there.
  const Panel* right_neighbour(const Panel& panel) const {
    const Vec3 end = outer_end(panel, true);
    for (int dx = -1; dx <= 1; ++dx) {
      for (int dy = -1; dy <= 1; ++dy) {
        for (int dz = -1; dz <= 1; ++dz) {
          const auto [first, last] = left_ends_.equal_range(cell_of(end, dx, dy, dz));
          for (auto found = first; found != last; ++found) {
            const Panel& other = *found->second;
            const Vec3 other_end = outer_end(other, false);
            // Running on only ever leads to the right, so that a run of slivers cannot turn back on itself.
            const bool in_line = dot(other.frame.x_axis, panel.frame.x_axis) > 0.99 &&
                                 dot(other_end - outer_end(panel, false), panel.frame.x_axis) > 0.0;
            if (in_line && length(other_end - end) <= kCavityRunsOn_m) return &other;
          }
        }
      }
    }
    return nullptr;
  }

  bool ends_left(const Panel& panel) const { return has_left_neighbour_.find(&panel) == has_left_neighbour_.end(); }
  bool ends_right(const Panel& panel) const { return right_neighbour(panel) == nullptr; }

 private:
  std::vector<const Panel*> panels_;
  std::multimap<Cell, const Panel*> left_ends_;
  std::map<const Panel*, bool> has_left_neighbour_;  // looked up only: its order, by address, is never seen
};

struct StoreyTotals {
  std::size_t panels = 0;
  std::size_t edges = 0;
  std::size_t between = 0;
  ExactSum lines_m;
  ExactSum uprights_m;
  ExactSum bare_m;  ///< of all these
};

/// Barriers that a stretch of cavity needs so that none is longer than the limit.
std::size_t barriers_along(double stretch_m, double limit_m) {
  return static_cast<std::size_t>(std::max(0.0, std::ceil(stretch_m / limit_m) - 1.0));
}

struct BarriersBetween {
  std::size_t needed = 0;
  std::size_t lacking = 0;  ///< beside those of the export
};

/// Of the run of cavity that starts with `first`.
BarriersBetween barriers_between(const CavityPanels& cavities, const Panel& first, double limit_m) {
  double run_m = 0.0;
  double closed_m = 0.0;  // the last place that a barrier of the export closes
  BarriersBetween result;
  for (const Panel* panel = &first; panel != nullptr; panel = cavities.right_neighbour(*panel)) {
    for (const double x_m : full_uprights(*panel, barriers_in(*panel, panel->layers[*outer_cavity(*panel)]))) {
      // A barrier stands beside the place that divides the cavity evenly, by no more than it is wide.
      result.lacking += barriers_along(run_m + x_m - closed_m - kBesideLine_m, limit_m);
      closed_m = run_m + x_m;
    }
    run_m += panel->width_m.value;
  }
  result.needed = barriers_along(run_m, limit_m);
  result.lacking += barriers_along(closed_m > 0.0 ? run_m - closed_m - kBesideLine_m : run_m, limit_m);
  return result;
}

/// Adds what the panel and, where its cavity begins there, the run from it on needs and lacks.
void add_panel(StoreyTotals& totals, const CavityPanels& cavities, const Panel& panel, const Project& project,
               const Settings& settings, const std::optional<Sourced<double>>& limit_m) {
  const double height_m = panel.height_m.value;
  const auto barriers = barriers_in(panel, panel.layers[*outer_cavity(panel)]);
  ++totals.panels;
  for (const BarrierLine& line : barrier_lines(panel, project, settings)) {
    totals.lines_m.add(line.length_m());
    totals.bare_m.add(bare_m(barriers, line));
  }
  const bool ends_left = cavities.ends_left(panel);
  const auto edges = side_edges(panel);
  for (const auto& [ends, edge] : {std::pair{ends_left, edges[0]}, {cavities.ends_right(panel), edges[1]}}) {
    if (!ends) continue;
    ++totals.edges;
    totals.uprights_m.add(height_m);
    totals.bare_m.add(bare_m(barriers, edge));
  }
  if (!ends_left || !limit_m) return;
  const BarriersBetween between = barriers_between(cavities, panel, limit_m->value);
  totals.between += between.needed;
  totals.uprights_m.add(static_cast<double>(between.needed) * height_m);
  totals.bare_m.add(static_cast<double>(between.lacking) * height_m);
}

constexpr const char* kLimitUnknown =
    " panels with a cavity: its largest undivided length is not told (no row for project.jurisdiction in "
    "cavity_limits.csv, or a surface without Panel_Fire.ReactionToFire)";

}  // namespace

Finding project_cavity_barriers(const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kCavityBarriersCheck, {});
  builder.basis(Basis::declared);
  const CavityPanels cavities(project);
  builder.step("panels with a cavity outside", "", static_cast<double>(cavities.panels().size()), "");
  std::map<std::pair<bool, std::size_t>, StoreyTotals> storeys;
  std::optional<Sourced<double>> limit_m;
  std::size_t without_limit = 0;
  for (const Panel* panel : cavities.panels()) {
    const auto limit = cavity_limit_m(*panel, *outer_cavity(*panel), project, settings, tables);
    if (limit && !limit_m) limit_m = limit;
    if (!limit) ++without_limit;
    add_panel(storeys[{!panel->storey, panel->storey.value_or(0)}], cavities, *panel, project, settings, limit);
  }
  if (storeys.empty()) return builder.inform_text("no panel has a cavity outside");
  if (limit_m) builder.number("largest undivided length of a cavity", "", "m", limit_m, {});
  Table table{"Cavity barriers by storey",
              {{"storey", ""},
               {"panels", ""},
               {kLinesColumn, "m"},
               {"ends of cavities", ""},
               {"between, by length", ""},
               {"uprights", "m"},
               {"not in the export", "m"}},
              {}};
  ExactSum total_m;
  ExactSum bare_in_all_m;
  for (const auto& [storey, totals] : storeys) {
    const double lines_m = totals.lines_m.total();
    const double uprights_m = totals.uprights_m.total();
    table.rows.push_back({storey.first ? std::string("not known") : project.storeys[storey.second].name,
                          static_cast<double>(totals.panels), lines_m, static_cast<double>(totals.edges),
                          static_cast<double>(totals.between), uprights_m, totals.bare_m.total()});
    total_m.add(lines_m);
    total_m.add(uprights_m);
    bare_in_all_m.add(totals.bare_m.total());
  }
  builder
      .step("length of all cavity barriers", "L", total_m.total(), "m",
            "L = sum(" + std::string(kLinesColumn) + ") + sum(uprights)")
      .table(std::move(table))
      .note(
          "A cavity ends where no panel in line with a cavity of its own follows within 50 mm: at corners and beside "
          "other construction. Where one panel stands over several storeys, its neighbours are those at its foot.")
      .note(kCompartmentWalls);
  const double needed_m = total_m.total();
  const double lacking_m = bare_in_all_m.total();
  builder.value(kInExportValue, std::max(0.0, needed_m - lacking_m), "m").value(kNotInExportValue, lacking_m, "m");
  if (without_limit > 0) builder.missing(std::to_string(without_limit) + kLimitUnknown);
  if (lacking_m > 0.0) {
    return needs_barriers(builder,
                          fixed_text(needed_m, 1) + " m of cavity barriers are needed, and " +
                              fixed_text(lacking_m, 1) +
                              " m of them are not in the export (parts of ObjectType CAVITY_BARRIER)",
                          needed_m);
  }
  if (without_limit > 0) return needs_barriers(builder, {}, needed_m);
  return builder.inform(needed_m, "m");
}

}  // namespace panel_dossier::fire
