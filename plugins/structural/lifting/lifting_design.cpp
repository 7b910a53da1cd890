#include "plugins/structural/lifting/lifting_design.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <optional>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/take_off.h"
#include "core/api/support/units.h"
#include "plugins/structural/basis/printed_unit.h"

namespace panel_dossier::structural {

namespace {

std::optional<LiftingPoint> read_point(const Part& part, FindingBuilder& builder) {
  const auto limit = read_positive(builder, "working load limit of '" + part.name + "'", "WLL", kKilonewton,
                                   part.properties.number("Panel_Fastener", "WorkingLoadLimit"),
                                   "lifting point '" + part.name + "' has no Panel_Fastener.WorkingLoadLimit");
  if (!part.bounds) builder.missing("lifting point '" + part.name + "' has no shape, so its place is not known");
  if (!limit || !part.bounds) return std::nullopt;
  const Vec3 centre = part.bounds->centre();
  return LiftingPoint{&part, centre.x, centre.y, part.bounds->max.z, *limit};
}

}  // namespace

double LiftingBasis::hoisted_n() const {
  return dynamic_factor * mass_kg * units::kStandardGravity_m_per_s2;
}

LiftingBasis read_lifting_basis(const Panel& panel, const Project& project, const Settings& settings,
                                FindingBuilder& builder) {
  LiftingBasis basis;
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) builder.missing(what);
  const auto mass = measured.mass_kg();
  const auto centre = measured.centre_of_gravity_m();
  if (mass && !centre) builder.missing("a part without a shape leaves the centre of gravity unknown");
  basis.mass_kg = mass.value_or(0.0);
  basis.centre = centre.value_or(Vec3{});
  if (mass) builder.number("mass, see quantities.mass", "m", "kg", Sourced<double>{*mass, panel.origin}, {});
  const auto factor =
      builder.positive("dynamic factor of hoisting", "ψ", "", settings.number("structural.lifting.dynamic_factor"),
                       "setting 'structural.lifting.dynamic_factor' is missing");
  if (factor && *factor < 1.0) builder.missing("setting 'structural.lifting.dynamic_factor' is below 1");
  basis.dynamic_factor = factor.value_or(1.0);
  for (const Part* part : fasteners_that(panel, lifts_panel)) {
    if (const auto point = read_point(*part, builder)) basis.points.push_back(*point);
  }
  std::sort(basis.points.begin(), basis.points.end(),
            [](const LiftingPoint& a, const LiftingPoint& b) { return a.x_m < b.x_m; });
  if (basis.points.size() < 2 && !builder.incomplete()) {
    builder.missing("fewer than two lifting points (IfcMechanicalFastener with LIFTING in its ObjectType)");
  }
  return basis;
}

namespace {

std::vector<double> by_any_pair(const std::vector<double>& x_m, double centre_x_m, double weight_n) {
  std::vector<double> greatest(x_m.size(), 0.0);
  bool balanced = false;
  for (std::size_t left = 0; left < x_m.size(); ++left) {
    for (std::size_t right = left + 1; right < x_m.size(); ++right) {
      if (centre_x_m < x_m[left] || centre_x_m > x_m[right]) continue;
      balanced = true;
      const double on_right = weight_n * (centre_x_m - x_m[left]) / (x_m[right] - x_m[left]);
      greatest[right] = std::max(greatest[right], on_right);
      greatest[left] = std::max(greatest[left], weight_n - on_right);
    }
  }
  return balanced ? greatest : std::vector<double>();
}

std::vector<double> by_straight_line(const std::vector<double>& x_m, double centre_x_m, double weight_n) {
  const auto count = static_cast<double>(x_m.size());
  const double mean = std::accumulate(x_m.begin(), x_m.end(), 0.0) / count;
  double spread = 0.0;
  for (const double x : x_m) spread += (x - mean) * (x - mean);
  std::vector<double> forces;
  forces.reserve(x_m.size());
  for (const double x : x_m) {
    forces.push_back(weight_n / count + weight_n * (centre_x_m - mean) * (x - mean) / spread);
  }
  const bool all_pull = std::all_of(forces.begin(), forces.end(), [](double force) { return force >= 0.0; });
  return all_pull ? forces : std::vector<double>();
}

}  // namespace

std::vector<double> lifting_reactions_n(const std::vector<double>& x_m, double centre_x_m, double weight_n,
                                        bool equalised) {
  return equalised ? by_straight_line(x_m, centre_x_m, weight_n) : by_any_pair(x_m, centre_x_m, weight_n);
}

double leg_force_n(double reaction_n, double angle_rad) {
  return reaction_n / std::cos(angle_rad);
}

double turning_moment_nm(double line_load_n_per_m, double held_m, double length_m) {
  const double beyond = length_m - held_m;
  const double difference = held_m * held_m - beyond * beyond;
  const double in_span = line_load_n_per_m * difference * difference / (8.0 * held_m * held_m);
  return std::max(in_span, line_load_n_per_m * beyond * beyond / 2.0);
}

}  // namespace panel_dossier::structural
