#include <cmath>
#include <limits>
#include <utility>

#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/facade/building_heights.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kEngineer =
    "; the fire engineer gives the class by Panel_FireRequirement.Resistance or setting "
    "building.fire_resistance_minutes";

/// `over` < value <= `up_to` of the row.
bool in_band(const DataTable& table, const std::string& key, double height_m) {
  const auto over_m = table.number(key, "over_height_m");
  const auto up_to_m = table.number(key, "up_to_height_m");
  return over_m && up_to_m && height_m > over_m->value && height_m <= up_to_m->value;
}

bool is(const DataTable& table, const std::string& key, const char* column, const std::string& value) {
  const auto cell = table.text(key, column);
  return cell && cell->value == value;
}

/// The first row that fits; `area_m2` is infinite where it is unknown and so fits no row that limits it.
std::optional<Sourced<double>> period_with(const DataTable& table, const std::string& jurisdiction,
                                           const std::string& group, double height_m, const std::string& sprinklers,
                                           double area_m2) {
  for (const std::string& key : table.keys()) {
    if (!is(table, key, "jurisdiction", jurisdiction) || !is(table, key, "period_group", group)) continue;
    if (!is(table, key, "sprinklers", sprinklers) && !is(table, key, "sprinklers", "any")) continue;
    const auto largest_m2 = table.number(key, "compartment_up_to_m2");
    if (largest_m2 && area_m2 > largest_m2->value) continue;
    if (in_band(table, key, height_m)) return table.number(key, "minutes");
  }
  return std::nullopt;
}

/// Minutes of one criterion: the period, a number of its own, or 0 for none.
int criterion_min(const DataTable& table, const std::string& key, const char* column, double period_min) {
  if (is(table, key, column, "period")) return static_cast<int>(std::lround(period_min));
  const auto own = table.number(key, column);
  return own ? static_cast<int>(std::lround(own->value)) : 0;
}

struct Basics {
  std::string jurisdiction;
  std::string group;
  double height_m = 0.0;
  std::optional<double> boundary_m;
};

/// The row for the distance; with an unknown distance the first that fits the rest, which is the nearest.
void read_wall(const Tables& tables, const Basics& basics, bool load_bearing, TableRequirement& result) {
  const DataTable& table = tables.wall_resistance;
  const double distance_m = basics.boundary_m.value_or(0.0);
  for (const std::string& key : table.keys()) {
    const auto from_m = table.number(key, "boundary_from_m");
    const auto below_m = table.number(key, "boundary_below_m");
    if (!is(table, key, "jurisdiction", basics.jurisdiction)) continue;
    if (!is(table, key, "load_bearing", load_bearing ? "yes" : "no") || !in_band(table, key, basics.height_m)) continue;
    if (!from_m || !below_m || distance_m < from_m->value || distance_m >= below_m->value) continue;
    ResistanceClass asked;
    for (const auto& [letter, column] : {std::pair{'R', "r"}, {'E', "e"}, {'I', "i"}}) {
      const int minutes = criterion_min(table, key, column, result.period_min->value);
      if (minutes > 0) asked.minutes[letter] = minutes;
    }
    result.sides = table.text(key, "sides");
    asked.direction = is(table, key, "sides", "from inside") ? FireDirection::inside_to_outside : FireDirection::both;
    if (!load_bearing) asked.minutes.erase('R');
    result.nothing_asked = asked.minutes.empty();
    if (!result.nothing_asked) result.asked = asked;
    return;
  }
  result.missing = "the tables hold no row for an external wall in " + basics.jurisdiction +
                   " at this distance to the boundary" + kEngineer;
}

void read_period(const Tables& tables, const Settings& settings, const Basics& basics, TableRequirement& result) {
  double area_m2 = std::numeric_limits<double>::infinity();
  if (const auto given = settings.number("building.compartment_area_m2"); given && given->value > 0.0) {
    area_m2 = given->value;
  }
  const auto period = [&](const char* sprinklers) {
    return period_with(tables.periods, basics.jurisdiction, basics.group, basics.height_m, sprinklers, area_m2);
  };
  if (const auto sprinklers = settings.logical("building.sprinklers")) {
    result.period_min = period(sprinklers->value ? "yes" : "no");
  } else {
    const auto without = period("no");
    const auto with = period("yes");
    if (without.has_value() != with.has_value() || (with && with->value != without->value)) {
      result.missing = "setting building.sprinklers";
      return;
    }
    result.period_min = without;
  }
  if (!result.period_min) {
    result.missing = "the tables hold no period for this use and height in " + basics.jurisdiction + kEngineer;
  }
}

}  // namespace

TableRequirement table_requirement(const Panel& panel, const Project& project, const Settings& settings,
                                   const Tables& tables, bool load_bearing) {
  TableRequirement result;
  const auto jurisdiction = settings.text("project.jurisdiction");
  const auto use = settings.text("project.use");
  const auto height_m = top_storey_height_m(project, settings);
  if (!jurisdiction || !use || !height_m) {
    result.missing = !jurisdiction ? "setting project.jurisdiction" : !use ? "setting project.use" : kTopStoreyMissing;
    return result;
  }
  if (!std::isfinite(height_m->value) || height_m->value < 0.0) {
    result.missing = "the height of the top storey above ground must not be negative";
    return result;
  }
  auto boundary_m = panel.properties.number("Panel_FireRequirement", "BoundaryDistance");
  if (!boundary_m) boundary_m = settings.number("building.boundary_distance_m");
  if (boundary_m && !(boundary_m->value >= 0.0)) {
    result.missing = "the distance to the relevant boundary must not be negative";
    return result;
  }
  const auto group = tables.uses.text(jurisdiction->value + "/" + use->value, "period_group");
  if (!group || group->value.empty()) {
    result.missing = "the tables hold no period for '" + use->value + "' in " + jurisdiction->value + kEngineer;
    return result;
  }
  const Basics basics{jurisdiction->value, group->value, height_m->value,
                      boundary_m ? std::optional<double>(boundary_m->value) : std::nullopt};
  read_period(tables, settings, basics, result);
  if (result.period_min) read_wall(tables, basics, load_bearing, result);
  return result;
}

}  // namespace panel_dossier::fire
