#include "plugins/structural/lifting/lifting_basis.h"

#include <algorithm>
#include <optional>

#include "core/api/support/take_off.h"
#include "core/api/support/units.h"
#include "plugins/structural/fixings/fastener_parts.h"

namespace panel_dossier::structural {

namespace {

std::optional<LiftingPoint> read_point(const Part& part, FindingBuilder& builder) {
  const auto limit = builder.positive("working load limit of '" + part.name + "'", "WLL", "N",
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
  for (const Part* part : fasteners(panel, lifts_panel)) {
    if (const auto point = read_point(*part, builder)) basis.points.push_back(*point);
  }
  std::sort(basis.points.begin(), basis.points.end(),
            [](const LiftingPoint& a, const LiftingPoint& b) { return a.x_m < b.x_m; });
  if (basis.points.size() < 2 && !builder.incomplete()) {
    builder.missing("fewer than two lifting points (IfcMechanicalFastener with LIFTING in its ObjectType)");
  }
  return basis;
}

}  // namespace panel_dossier::structural
