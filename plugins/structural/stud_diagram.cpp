#include "plugins/structural/stud_diagram.h"

namespace panel_dossier::structural {

namespace {

constexpr int kIntervals = 20;

}  // namespace

Series moment_diagram(double span_m, double line_load_n_per_m) {
  Curve moment{"design moment", {}};
  for (int i = 0; i <= kIntervals; ++i) {
    const double x = span_m * i / kIntervals;
    moment.points.push_back({x, line_load_n_per_m * x * (span_m - x) / 2.0 / 1e3});
  }
  return {"Bending moment of the governing member", "height above the lower support", "m", "M_y,d", "kNm", {moment}};
}

Series projecting_moment_diagram(double projection_m, double line_load_n_per_m) {
  Curve moment{"design moment", {}};
  for (int i = 0; i <= kIntervals; ++i) {
    const double x = projection_m * i / kIntervals;
    moment.points.push_back({x, line_load_n_per_m * (projection_m - x) * (projection_m - x) / 2.0 / 1e3});
  }
  return {"Bending moment of the governing member above its highest support",
          "height above the highest support",
          "m",
          "M_y,d",
          "kNm",
          {moment}};
}

Series deflected_shape(double span_m, double line_load_n_per_m, double bending_stiffness_nm2, double shear_stiffness_n,
                       double limit_m) {
  Curve shape{"deflection", {}};
  const double l = span_m;
  for (int i = 0; i <= kIntervals; ++i) {
    const double x = l * i / kIntervals;
    const double deflection_m =
        line_load_n_per_m * x * (l * l * l - 2.0 * l * x * x + x * x * x) / (24.0 * bending_stiffness_nm2) +
        line_load_n_per_m * x * (l - x) / (2.0 * shear_stiffness_n);
    shape.points.push_back({x, deflection_m * 1e3});
  }
  const Curve limit{"limit", {{0.0, limit_m * 1e3}, {l, limit_m * 1e3}}};
  return {"Deflected shape of the governing member between its supports",
          "height above the lower support",
          "m",
          "u_inst",
          "mm",
          {shape, limit}};
}

}  // namespace panel_dossier::structural
