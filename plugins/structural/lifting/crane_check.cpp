#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/site_place.h"
#include "core/api/support/take_off.h"
#include "plugins/structural/lifting/lifting_checks.h"
#include "plugins/structural/lifting/lifting_design.h"

namespace panel_dossier::structural {

namespace {

/// One line of the crane's load table.
struct CapacityRow {
  Sourced<double> radius_m;
  Sourced<double> capacity_kg;
};

std::vector<CapacityRow> read_capacities(const Settings& settings, FindingBuilder& builder) {
  std::vector<CapacityRow> rows;
  for (std::size_t i = 0;; ++i) {
    const std::string key = "structural.crane.capacities." + std::to_string(i);
    const auto radius = settings.number(key + ".radius_m");
    const auto capacity = settings.number(key + ".capacity_kg");
    if (!radius && !capacity) break;
    if (!radius || !capacity || !(radius->value > 0.0) || !(capacity->value > 0.0)) {
      std::string what = "settings '";
      what.append(key).append(".radius_m' and '").append(key).append(".capacity_kg' must both be there and above 0");
      builder.missing(std::move(what));
      continue;
    }
    rows.push_back({*radius, *capacity});
  }
  if (rows.empty()) builder.missing("setting 'structural.crane.capacities' holds no load table of the crane");
  std::sort(rows.begin(), rows.end(),
            [](const CapacityRow& a, const CapacityRow& b) { return a.radius_m.value < b.radius_m.value; });
  return rows;
}

}  // namespace

const CheckDeclaration kCraneCapacityCheck{
    .id = "structural.crane_capacity",
    .title = "Mass with lifting gear against the crane at the panel's radius",
    .project_title = {},
    .sentence =
        "The mass of the panel with hook block, beam and slings is at most the crane's capacity at the next larger "
        "radius of its table, measured from the nearest place of the crane to where the panel stands.",
    .clause = "Load table of the crane in the project settings (common practice)",
    .units = {"kg"},
    .kind = CheckKind::limit,
    .inputs = with_model({setting("structural.crane.x_m"), setting("structural.crane.y_m"),
                          optional_setting("structural.crane.further_places.*.x_m"),
                          optional_setting("structural.crane.further_places.*.y_m"),
                          setting("structural.crane.gear_kg"), setting("structural.crane.capacities.*.radius_m"),
                          setting("structural.crane.capacities.*.capacity_kg"),
                          optional_property("Pset_MaterialCommon.MassDensity"),
                          optional_property("Panel_Filling.FactoryFitted"), optional_property("Panel_Filling.Mass")}),
    .limits = {"The way from the vehicle to where the panel stands is for the lift plan.",
               "Ground, outriggers and wind on the hanging panel are not judged."},
    .role = std::string(role::kHookLoad)};

Finding crane_capacity(const Panel& panel, const Project& project, const Settings& settings,
                       const std::vector<SitePlace>& stands) {
  FindingBuilder builder(kCraneCapacityCheck, panel.global_id);
  builder.decimals(0);
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) builder.missing(what);
  const auto mass = measured.mass_kg();
  if (mass) builder.number("mass, see quantities.mass", "m", "kg", Sourced<double>{*mass, panel.origin}, {});
  const auto gear =
      builder.number("mass of hook block, beam and slings", "m_r", "kg", settings.number("structural.crane.gear_kg"),
                     "setting 'structural.crane.gear_kg' is missing");
  const Vec3 middle = middle_of_foot(panel);
  const SitePlace& stand = nearest_place(stands, middle);
  const auto x =
      builder.number("place of the crane", "x_c", "m", stand.x_m, "setting 'structural.crane.x_m' is missing");
  const auto y =
      builder.number("place of the crane", "y_c", "m", stand.y_m, "setting 'structural.crane.y_m' is missing");
  const std::vector<CapacityRow> rows = read_capacities(settings, builder);
  if (gear && *gear < 0.0) builder.missing("setting 'structural.crane.gear_kg' must not be below 0");
  if (builder.incomplete() || !mass) return builder.not_assessed();
  const double radius = std::hypot(middle.x - *x, middle.y - *y);
  builder.number("middle of the panel where it stands", "x_p", "m", Sourced<double>{middle.x, panel.origin}, {});
  builder.number("middle of the panel where it stands", "y_p", "m", Sourced<double>{middle.y, panel.origin}, {});
  builder.step("radius to the middle of the panel where it stands", "r", radius, "m",
               "r = √((x_p − x_c)² + (y_p − y_c)²)");
  builder.value("radius", radius, "m");
  builder.note(
      "The next larger radius of the table counts, nothing in between; the way from the vehicle is for the lift plan.");
  if (stands.size() > 1) {
    builder.note("Of the " + std::to_string(stands.size()) + " places of the crane the nearest to the panel counts.");
  }
  builder.note(kLiftingCaution);
  const auto row = std::find_if(rows.begin(), rows.end(),
                                [&](const CapacityRow& candidate) { return candidate.radius_m.value >= radius; });
  if (row == rows.end()) {
    return builder.judge(
        *mass + *gear, "kg", Relation::at_most, 0.0,
        "the panel stands beyond the largest radius of the crane's table; move the crane or choose another");
  }
  builder.number("radius in the crane's table", "r_t", "m", row->radius_m, {});
  builder.number("capacity at that radius", "m_max", "kg", row->capacity_kg, {});
  return builder.judge(*mass + *gear, "kg", Relation::at_most, row->capacity_kg.value,
                       "the panel with its gear is too heavy for the crane at this radius");
}

}  // namespace panel_dossier::structural
