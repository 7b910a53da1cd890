#include "plugins/structural/studs/stud_diagram.h"

#include <string>

#include "core/api/support/words.h"

namespace panel_dossier::structural {

namespace {

constexpr double kArrow_m = 0.35;  ///< length of a load arrow on the drawing
constexpr double kTip_m = 0.05;
constexpr double kSupport_m = 0.12;
constexpr int kArrows = 8;

Series over_height(std::string title, std::string y_label, std::string y_unit, Curve curve) {
  return {std::move(title),  "height above the lower end", "m", std::move(y_label), std::move(y_unit),
          {std::move(curve)}};
}

void add_arrow(Drawing& drawing, double tail_x, double tip_x, double z) {
  drawing.lines.push_back({{tail_x, z}, {tip_x, z}, LineStyle::thin});
  drawing.lines.push_back({{tip_x - kTip_m, z + kTip_m / 2.0}, {tip_x, z}, LineStyle::thin});
  drawing.lines.push_back({{tip_x - kTip_m, z - kTip_m / 2.0}, {tip_x, z}, LineStyle::thin});
}

}  // namespace

Drawing load_diagram(const StudSystem& system, double depth_m, double line_load_n_per_m,
                     const std::vector<PointLoad>& point) {
  Drawing drawing;
  drawing.title = "Governing member: supports and design wind";
  const double head = system.length_m;
  drawing.polygons.push_back(
      {{{0.0, 0.0}, {depth_m, 0.0}, {depth_m, head}, {0.0, head}}, Hatch::timber, LineStyle::normal, {}});
  const double load_x = -kTip_m - kArrow_m;
  drawing.lines.push_back({{load_x, 0.0}, {load_x, head}, LineStyle::thin});
  for (int i = 0; i <= kArrows; ++i) add_arrow(drawing, load_x, -kTip_m, head * i / kArrows);
  drawing.texts.push_back(
      {{load_x - kArrow_m, head + kSupport_m}, "w_d = " + fixed_text(line_load_n_per_m / 1e3, 2) + " kN/m"});
  for (const PointLoad& load : point) {
    add_arrow(drawing, load_x - kArrow_m, -kTip_m, load.at_m);
    drawing.texts.push_back({{load_x - kArrow_m, load.at_m + kSupport_m}, fixed_text(load.n / 1e3, 2) + " kN"});
  }
  for (const double z : system.supports_m) {
    drawing.polygons.push_back(
        {{{depth_m, z}, {depth_m + kSupport_m, z + kSupport_m / 2.0}, {depth_m + kSupport_m, z - kSupport_m / 2.0}},
         Hatch::none,
         LineStyle::normal,
         {}});
  }
  // Dimensions stand to the left of their direction: drawn downwards they lie right of the supports.
  const double line_x = depth_m + kSupport_m;
  std::vector<double> marks = system.supports_m;
  if (system.projection_m() > 0.0) marks.push_back(head);
  for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
    drawing.dimensions.push_back({{line_x, marks[i + 1]}, {line_x, marks[i]}, 0.25, {}});
  }
  return drawing;
}

Series moment_diagram(const BeamResult& loaded) {
  Curve curve{"design moment", {}};
  for (const BeamPoint& point : loaded.points) {
    curve.points.push_back({point.x_m, point.moment_nm / 1e3});
  }
  return over_height("Bending moment of the governing member", "M_y,d", "kNm", std::move(curve));
}

Series shear_diagram(const BeamResult& loaded) {
  Curve curve{"design shear force", {}};
  for (const BeamPoint& point : loaded.points) {
    curve.points.push_back({point.x_m, point.shear_n / 1e3});
  }
  return over_height("Shear force of the governing member", "V_d", "kN", std::move(curve));
}

Series deflected_shape(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point,
                       double bending_stiffness_nm2, double shear_stiffness_n, double limit_m) {
  const Beam beam{system.length_m, system.supports_m, system.clamped_foot, bending_stiffness_nm2, shear_stiffness_n};
  Curve shape{"deflection", {}};
  for (const BeamPoint& at : solve_beam(beam, {{0.0, system.length_m, line_load_n_per_m}}, point).points) {
    shape.points.push_back({at.x_m, at.deflection_m * 1e3});
  }
  Series series = over_height("Deflected shape of the governing member", "u_inst", "mm", std::move(shape));
  series.curves.push_back({"limit", {{0.0, limit_m * 1e3}, {system.length_m, limit_m * 1e3}}});
  return series;
}

}  // namespace panel_dossier::structural
