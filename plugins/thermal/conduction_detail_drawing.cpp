#include "plugins/thermal/conduction_detail_drawing.h"

#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/fixed_text.h"
#include "plugins/thermal/conduction_grid.h"
#include "plugins/thermal/conduction_isotherms.h"

namespace panel_dossier::thermal::conduction {

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

void draw_solids(const Model& model, Drawing& drawing) {
  // Two cells between neighbouring edges: as few as a grid can have.
  const Grid grid = make_grid(model, {1e3, 1.0, 1e3});
  const CellMap cells(model, grid);
  std::vector<bool> labelled(model.solids.size(), false);
  for (const Patch& patch : visible_patches(cells, grid)) {
    const auto index = static_cast<std::size_t>(patch.solid);
    const SolidBox& solid = model.solids[index];
    const double x_min = grid.lines_m[0][patch.x_first];
    const double x_max = grid.lines_m[0][patch.x_last + 1];
    const double y_min = grid.lines_m[1][patch.y_first];
    const double y_max = grid.lines_m[1][patch.y_last + 1];
    drawing.polygons.push_back({{{x_min, y_min}, {x_max, y_min}, {x_max, y_max}, {x_min, y_max}},
                                solid.hatch,
                                LineStyle::thin,
                                labelled[index] ? std::string() : solid.name});
    labelled[index] = true;
  }
}

void draw_isotherms(const Field& field, double inside_c, double outside_c, double step_k, Drawing& drawing) {
  const IsothermTracer tracer(field);
  for (int number = static_cast<int>(std::ceil(outside_c / step_k)); number * step_k < inside_c; ++number) {
    const double level = number * step_k;
    // The detail is solved between 1 °C and 0 °C.
    const auto lines = tracer.trace((level - outside_c) / (inside_c - outside_c));
    for (const Polyline& line : lines) {
      for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        drawing.lines.push_back({line[i], line[i + 1], LineStyle::normal});
      }
    }
    if (!lines.empty()) drawing.texts.push_back({lines.front().front(), fixed_text(level, 0) + " °C"});
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
  Drawing drawing;
  drawing.title = "Isotherms: " + std::string(to_string(detail.kind)) + ", " + fixed_text(inside_c, 1) +
                  " °C inside, " + fixed_text(outside_c, 1) + " °C outside";
  draw_solids(detail.model, drawing);
  draw_isotherms(result.heat_flow->field, inside_c, outside_c, step_k, drawing);
  mark_coldest(result.coldest_at, drawing);
  return drawing;
}

}  // namespace panel_dossier::thermal::conduction
