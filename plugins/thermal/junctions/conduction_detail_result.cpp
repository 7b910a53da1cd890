#include "plugins/thermal/junctions/conduction_detail_result.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/thermal/conduction/field.h"
#include "plugins/thermal/conduction/grid.h"

namespace panel_dossier::thermal::conduction {

Model for_surface_mould(Model model) {
  for (EnvironmentBox& room : model.environment_boxes) {
    if (room.environment == kInside) room.surface_resistance_m2k_per_w = kSurfaceMouldResistance_m2k_per_w;
  }
  return model;
}

std::shared_ptr<SolvedModel> SolvedModels::model(const std::string& key) {
  const std::lock_guard lock(mutex_);
  auto& found = models_[key];
  if (found) return found;
  found = std::make_shared<SolvedModel>();
  order_.push_back(key);
  std::shared_ptr<SolvedModel> made = found;
  if (order_.size() > kMostModels) {
    models_.erase(order_.front());
    order_.pop_front();
  }
  return made;
}

namespace {

/// Throws std::runtime_error when the accuracy that the standard asks for is not reached, and what `solve` throws.
Solution accurate_solution(const Model& model, const SolveOptions& options) {
  Solution solution = solve(model, options);
  if (!solution.accurate) throw std::runtime_error("the grid of the detail would need more cells than are allowed");
  return solution;
}

}  // namespace

DetailResult DetailSolver::solve(const Detail& detail) {
  DetailResult result;
  SolveOptions surface_options;
  // Twice as strict as the standard: limits are often kept by a few thousandths.
  surface_options.temperature_factor_change = kDetailFactorChange;
  result.heat_flow = solve_once(detail.model);
  result.surface = figures_once(for_surface_mould(detail.model), surface_options);
  result.l_2d_w_per_mk = result.heat_flow->coupling_w_per_k[kInside][kOutside];
  result.psi_internal_w_per_mk = result.l_2d_w_per_mk;
  result.psi_external_w_per_mk = result.l_2d_w_per_mk;
  result.psi_own_w_per_mk = result.l_2d_w_per_mk;
  for (const Flank& flank : detail.flanks) {
    result.psi_internal_w_per_mk -= flank.u_value_w_per_m2k * flank.internal_length_m;
    result.psi_external_w_per_mk -= flank.u_value_w_per_m2k * flank.external_length_m;
    result.psi_own_w_per_mk -= flank.u_value_w_per_m2k * flank.own_length_m;
  }
  const auto factor = temperature_factor(*result.surface, kInside, kOutside);
  if (!factor) throw std::runtime_error("the detail has no internal surface");
  // The coldest point lies in a corner, which the middles of cells approach from the warm side.
  result.temperature_factor = *factor - result.surface->temperature_factor_change;
  result.coldest_at = result.surface->surfaces[kInside]->lowest_at;
  return result;
}

std::shared_ptr<const Solution> DetailSolver::solve_once(const Model& model, const SolveOptions& options) {
  SolvedModel& known = entry(identity(model));
  std::call_once(known.once,
                 [&] { known.solution = std::make_shared<const Solution>(accurate_solution(model, options)); });
  return known.solution;
}

std::shared_ptr<const SolutionFigures> DetailSolver::figures_once(const Model& model, const SolveOptions& options) {
  SolvedModel& known = entry("figures of " + identity(model));
  std::call_once(known.once, [&] {
    SolutionFigures figures = accurate_solution(model, options);
    known.figures = std::make_shared<const SolutionFigures>(std::move(figures));
  });
  return known.figures;
}

std::size_t DetailSolver::models_solved() const {
  const std::lock_guard lock(mutex_);
  return entries_.size();
}

SolvedModel& DetailSolver::entry(const std::string& key) {
  const std::lock_guard lock(mutex_);
  auto& found = entries_[key];
  if (!found) found = earlier_->model(key);
  return *found;
}

namespace {

/// A solid's visible part between four grid lines.
struct Patch {
  int solid = -1;
  std::size_t x_first = 0, x_last = 0;  ///< cells, the last one included
  std::size_t y_first = 0, y_last = 0;
};

/// Runs of one solid along a row, each joined to the run of the same width below it.
std::vector<Patch> visible_patches(const CellMap& cells, const Grid& grid) {
  std::vector<Patch> done;
  std::vector<Patch> below;
  for (std::size_t y = 0; y < grid.count(1); ++y) {
    std::vector<Patch> row;
    for (std::size_t x = 0; x < grid.count(0); ++x) {
      const int solid = cells.solid({static_cast<std::ptrdiff_t>(x), static_cast<std::ptrdiff_t>(y), 0});
      if (solid < 0) continue;
      if (!row.empty() && row.back().solid == solid && row.back().x_last + 1 == x) {
        row.back().x_last = x;
      } else {
        row.push_back({solid, x, x, y, y});
      }
    }
    for (const Patch& old : below) {
      bool continued = false;
      for (Patch& run : row) {
        if (run.solid != old.solid || run.x_first != old.x_first || run.x_last != old.x_last) continue;
        run.y_first = old.y_first;
        continued = true;
      }
      if (!continued) done.push_back(old);
    }
    below = std::move(row);
  }
  done.insert(done.end(), below.begin(), below.end());
  return done;
}

/// What the drawing shows of the x-y plane.
struct Window {
  double min = -kShownBefore_m;
  double max = kShownAfter_m;

  double clamped(double at) const { return std::clamp(at, min, max); }
  bool shows(const Vec3& at) const { return clamped(at.x) == at.x && clamped(at.y) == at.y; }
};

void draw_solids(const Model& model, const Window& window, Drawing& drawing) {
  // Two cells between neighbouring edges: as few as a grid can have.
  const Grid grid = make_grid(model, {1e3, 1.0, 1e3});
  const CellMap cells(model, grid);
  std::vector<bool> labelled(model.solids.size(), false);
  for (const Patch& patch : visible_patches(cells, grid)) {
    const auto index = static_cast<std::size_t>(patch.solid);
    const SolidBox& solid = model.solids[index];
    const double x_min = window.clamped(grid.lines_m[0][patch.x_first]);
    const double x_max = window.clamped(grid.lines_m[0][patch.x_last + 1]);
    const double y_min = window.clamped(grid.lines_m[1][patch.y_first]);
    const double y_max = window.clamped(grid.lines_m[1][patch.y_last + 1]);
    if (x_max <= x_min || y_max <= y_min) continue;
    // Hatches would hide the isotherms, so materials are told apart by their names alone.
    drawing.polygons.push_back({{{x_min, y_min}, {x_max, y_min}, {x_max, y_max}, {x_min, y_max}},
                                Hatch::none,
                                LineStyle::thin,
                                labelled[index] ? std::string() : solid.name});
    labelled[index] = true;
  }
}

/// The part of the segment inside the window; none when it lies outside.
std::optional<DrawnLine> clipped(Vec2 from, Vec2 to, const Window& window) {
  double start = 0.0;
  double end = 1.0;
  const auto keep = [&](double at, double delta) {
    if (delta == 0.0) {
      if (at < window.min || at > window.max) end = -1.0;
      return;
    }
    const double first = (window.min - at) / delta;
    const double last = (window.max - at) / delta;
    start = std::max(start, std::min(first, last));
    end = std::min(end, std::max(first, last));
  };
  const Vec2 delta{to.x - from.x, to.y - from.y};
  keep(from.x, delta.x);
  keep(from.y, delta.y);
  if (start >= end) return std::nullopt;
  return DrawnLine{{from.x + start * delta.x, from.y + start * delta.y},
                   {from.x + end * delta.x, from.y + end * delta.y},
                   LineStyle::normal};
}

/// Letters a line where it leaves the window, every second label one row further out so that neighbours keep clear.
void letter(const std::vector<DrawnLine>& lines, double level_c, bool outer_row, const Window& window,
            Drawing& drawing) {
  constexpr double kRow_m = 0.065;  // at 1:20 a line of letters and its gap
  const double out = kRow_m * (outer_row ? 2.0 : 1.0);
  for (const DrawnLine& line : lines) {
    for (const Vec2& end : {line.from, line.to}) {
      const bool at_x = end.x <= window.min || end.x >= window.max;
      const bool at_y = end.y <= window.min || end.y >= window.max;
      if (!at_x && !at_y) continue;
      const double x = end.x + (at_x ? (end.x > 0.0 ? out : -out) : 0.0);
      const double y = end.y + (at_x ? 0.0 : (end.y > 0.0 ? out : -out));
      drawing.texts.push_back({{x, y}, fixed_text(level_c, 0)});
      return;
    }
  }
}

void draw_isotherms(const Field& field, double inside_c, double outside_c, double step_k, const Window& window,
                    Drawing& drawing) {
  constexpr int kLettered = 3;  // of the lines; more would run into each other
  const IsothermTracer tracer(field);
  for (int number = static_cast<int>(std::ceil(outside_c / step_k)); number * step_k < inside_c; ++number) {
    const double level = number * step_k;
    std::vector<DrawnLine> shown;
    // The detail is solved between 1 °C and 0 °C.
    for (const Polyline& line : tracer.trace((level - outside_c) / (inside_c - outside_c))) {
      for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        if (const auto piece = clipped(line[i], line[i + 1], window)) shown.push_back(*piece);
      }
    }
    drawing.lines.insert(drawing.lines.end(), shown.begin(), shown.end());
    if (number % kLettered == 0) letter(shown, level, number % (2 * kLettered) != 0, window, drawing);
  }
}

/// Names the air once a side, in the largest room that the window shows of it.
void name_air(const Model& model, const Window& window, Drawing& drawing) {
  for (std::size_t environment = 0; environment < model.environments.size(); ++environment) {
    double largest = 0.0;
    Vec2 at;
    for (const EnvironmentBox& room : model.environment_boxes) {
      if (room.environment != environment) continue;
      const double x_min = window.clamped(room.box.min.x);
      const double x_max = window.clamped(room.box.max.x);
      const double y_min = window.clamped(room.box.min.y);
      const double y_max = window.clamped(room.box.max.y);
      const double area = (x_max - x_min) * (y_max - y_min);
      if (area <= largest) continue;
      largest = area;
      at = {(x_min + x_max) / 2.0, (y_min + y_max) / 2.0};
    }
    if (largest > 0.0) drawing.texts.push_back({at, model.environments[environment].name});
  }
}

void mark_coldest(const Vec3& at, Drawing& drawing) {
  constexpr double kArm_m = 0.02;
  drawing.lines.push_back({{at.x - kArm_m, at.y - kArm_m}, {at.x + kArm_m, at.y + kArm_m}, LineStyle::heavy});
  drawing.lines.push_back({{at.x - kArm_m, at.y + kArm_m}, {at.x + kArm_m, at.y - kArm_m}, LineStyle::heavy});
}

}  // namespace

Drawing detail_drawing(const Detail& detail, const DetailResult& result, double inside_c, double outside_c,
                       double step_k) {
  if (!(inside_c > outside_c) || !(step_k > 0.0)) {
    throw std::invalid_argument("isotherms need a warm and a cold side and a step above 0");
  }
  const Window window;
  Drawing drawing;
  const bool coldest_shown = window.shows(result.coldest_at);
  drawing.title = std::string(to_string(detail.kind)) + ": isotherms every " + fixed_text(step_k, 0) + " K, " +
                  fixed_text(inside_c, 1) + " °C inside, " + fixed_text(outside_c, 1) +
                  (coldest_shown ? " °C outside; cross at the coldest internal surface"
                                 : " °C outside; the plain panel beyond the picture is the coldest internal surface");
  draw_solids(detail.model, window, drawing);
  draw_isotherms(result.heat_flow->field, inside_c, outside_c, step_k, window, drawing);
  name_air(detail.model, window, drawing);
  if (coldest_shown) mark_coldest(result.coldest_at, drawing);
  return drawing;
}

}  // namespace panel_dossier::thermal::conduction
