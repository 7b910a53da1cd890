#include "plugins/fire/evidence/requirement.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "plugins/fire/evidence/documents.h"
#include "plugins/fire/facade/heights_and_boundary.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kNotJudged =
    "Space separation, unprotected areas, basements and single-storey buildings are not judged.";

std::vector<CheckInput> requirement_inputs_of_check() {
  std::vector<CheckInput> inputs = requirement_inputs();
  inputs.push_back(optional_property("Panel_FireRequirement.Basis"));
  for (CheckInput& input : load_contradiction_inputs()) inputs.push_back(std::move(input));
  return inputs;
}

}  // namespace

const CheckDeclaration kRequiredResistanceCheck{
    .id = "fire.required_resistance",
    .title = "Fire resistance required",
    .project_title = "",
    .sentence =
        "The class asked of the panel is that of the fire engineer, of the settings or of the national tables, "
        "in that order, and one stated that is below the tables' or that no table checks is an open point.",
    .clause = "EN 13501-2:2016 (class); national tables as named among the inputs",
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = requirement_inputs_of_check(),
    .limits = {kNotJudged,
               "The tables hold England, Wales and Germany; elsewhere a document gives the class "
               "(Panel_FireRequirement.DocumentId), and what it says is not read."},
    .role = std::string(role::kFireSafety)};

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
  result.missing =
      "the tables hold no row for an external wall in " + basics.jurisdiction + " at this distance to the boundary";
}

void read_period(const Tables& tables, const Settings& settings, const Basics& basics, bool load_bearing,
                 TableRequirement& result) {
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
      if (!with || !without) return;
      TableRequirement longest;
      longest.period_min = with->value > without->value ? with : without;
      read_wall(tables, basics, load_bearing, longest);
      result.at_most = longest.asked;
      return;
    }
    result.period_min = without;
  }
  if (!result.period_min) {
    result.missing = "the tables hold no period for this use and height in " + basics.jurisdiction;
  }
}

/// Criteria of the tables that `asked` does not reach, when `asked` is stated and not taken from the tables.
std::string below(const ResistanceClass& asked, const std::optional<ResistanceClass>& of_tables) {
  if (!of_tables) return {};
  const bool sides = asked.direction == FireDirection::not_stated || asked.covers_direction_of(*of_tables);
  if (sides && asked.meets(*of_tables, "REI")) return {};
  return "the class required is below the " + class_text(*of_tables, "REI") +
         " of the tables; the fire engineer must give the reason";
}

/// The building's period as the text of a class, which it may not be.
std::string text_of_building(double minutes, bool load_bearing) {
  constexpr double kNoPeriod_min = 1e6;  // keeps absurd settings inside the range of int
  return class_text(load_bearing ? "REI" : "EI", static_cast<int>(std::lround(std::min(minutes, kNoPeriod_min))));
}

void add_of_building(FindingBuilder& builder, const Requirement& requirement, bool load_bearing) {
  const auto minutes =
      builder.positive("fire resistance required of the building", "", "min", requirement.of_building_min, {});
  if (!minutes) return;
  if (!requirement.asked) {
    builder.missing("'" + text_of_building(*minutes, load_bearing) +
                    "' is not a class of EN 13501-2 (setting building.fire_resistance_minutes)");
  }
  builder.note(
      "No requirement is given for this panel (Panel_FireRequirement.Resistance); the building's period from "
      "the settings is taken.");
}

void add_of_tables(FindingBuilder& builder, const TableRequirement& table) {
  if (table.asked) {
    builder.number("period of the building by the tables", "", "min", table.period_min, {});
    builder.text("sides of an external wall by the tables", table.sides, {});
    builder.note("No class is given for this panel or building; that of the tables is taken.");
  } else {
    builder.missing(table.nothing_asked
                        ? "the tables ask no resistance of this wall; Panel_FireRequirement.Resistance gives one if any"
                        : table.missing + (table.missing.starts_with("the tables") ? kEngineer : ""));
  }
}

/// Where no table can be read, the class stated rests on a document alone.
void check_document(Requirement& requirement, const Panel& panel, const Project& project, const Settings& settings) {
  const std::string stated =
      requirement.of_panel
          ? "'" + requirement.of_panel->value + "' (Panel_FireRequirement.Resistance)"
          : with_unit(requirement.of_building_min->value, "min") + " (setting building.fire_resistance_minutes)";
  std::string unchecked = "the class required, " + stated + ", is checked by no table: " + requirement.table.missing;
  const auto id = panel.properties.text("Panel_FireRequirement", "DocumentId");
  if (!id || id->value.empty()) {
    requirement.open_point = unchecked + "; name the document that gives it (Panel_FireRequirement.DocumentId)";
    return;
  }
  requirement.document = find_evidence(project, id->value);
  const std::string fault = requirement.document == nullptr
                                ? not_in_the_export(id->value)
                                : strategy_fault(*requirement.document, assessment_day(settings));
  if (!fault.empty()) requirement.open_point = unchecked + "; " + fault;
}

void record_building(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings) {
  if (const auto value = settings.text("project.jurisdiction")) builder.text("jurisdiction", value, {});
  if (const auto value = settings.text("project.use")) builder.text("use of the building", value, {});
  if (const auto value = top_storey_height_m(project, settings)) {
    builder.number("height of the top storey above ground", "", "m", value, {});
  }
  if (const auto value = settings.logical("building.sprinklers")) builder.logical("sprinklers", value, {});
  if (const auto value = settings.number("building.compartment_area_m2")) {
    builder.number("area of the compartment", "", "m²", value, {});
  }
  if (const auto boundary_m = boundary_distance_m(panel, settings)) {
    builder.number("distance to the relevant boundary", "", "m", boundary_m, {});
  }
}

void show_tables(FindingBuilder& builder, const TableRequirement& table) {
  if (table.period_min) {
    builder.number("period by the tables", "", "min", table.period_min, {});
    builder.step("period of the building by the tables", "t", table.period_min->value, "min");
  }
  if (table.asked) {
    builder.text("sides by the tables", table.sides, {});
    builder.step_text("class of an external wall by the tables",
                      class_text(*table.asked, "REI") + ", " + table.sides->value);
  } else {
    builder.step_text("class of an external wall by the tables",
                      table.nothing_asked ? std::string("none asked") : "not told: " + table.missing);
  }
}

}  // namespace

std::vector<CheckInput> requirement_inputs() {
  return {data_table("periods.csv"),
          data_table("uses.csv"),
          data_table("wall_resistance.csv"),
          optional_property("Panel_FireRequirement.BoundaryDistance"),
          optional_property("Panel_FireRequirement.DocumentId"),
          optional_property("Panel_FireRequirement.Resistance"),
          property("Pset_WallCommon.LoadBearing"),
          optional_setting("building.boundary_distance_m"),
          optional_setting("building.compartment_area_m2"),
          optional_setting("building.fire_resistance_minutes"),
          optional_setting("building.ground_level_m"),
          optional_setting("building.sprinklers"),
          optional_setting("building.top_storey_height_m"),
          optional_setting("project.assessment_date"),
          optional_setting("project.jurisdiction"),
          optional_setting("project.use")};
}

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
  const auto boundary_m = boundary_distance_m(panel, settings);
  if (boundary_m && !(boundary_m->value >= 0.0)) {
    result.missing = "the distance to the relevant boundary must not be negative";
    return result;
  }
  const auto group = tables.uses.text(jurisdiction->value + "/" + use->value, "period_group");
  if (!group || group->value.empty()) {
    result.missing = "the tables hold no period for '" + use->value + "' in " + jurisdiction->value;
    return result;
  }
  const Basics basics{jurisdiction->value, group->value, height_m->value,
                      boundary_m ? std::optional<double>(boundary_m->value) : std::nullopt};
  read_period(tables, settings, basics, load_bearing, result);
  if (result.period_min) read_wall(tables, basics, load_bearing, result);
  return result;
}

Requirement required_resistance(const Panel& panel, const Project& project, const Settings& settings,
                                const Tables& tables, bool load_bearing) {
  Requirement result;
  result.table = table_requirement(panel, project, settings, tables, load_bearing);
  result.of_panel = panel.properties.text("Panel_FireRequirement", "Resistance");
  if (!result.of_panel) result.of_building_min = settings.number("building.fire_resistance_minutes");
  if (result.of_panel) {
    result.asked = parse_resistance_class(result.of_panel->value);
  } else if (result.of_building_min) {
    const double minutes = result.of_building_min->value;
    if (std::isfinite(minutes) && minutes > 0.0) {
      result.asked = parse_resistance_class(text_of_building(minutes, load_bearing));
    }
  } else {
    result.asked = result.table.asked;
    return result;
  }
  if (!result.asked) return result;
  result.open_point = below(*result.asked, result.table.asked);
  const bool enough_anyway = result.table.at_most && below(*result.asked, result.table.at_most).empty();
  if (!result.table.missing.empty() && !enough_anyway) check_document(result, panel, project, settings);
  return result;
}

FireDirection Requirement::sides() const {
  if (asked && asked->direction != FireDirection::not_stated) return asked->direction;
  if (table.asked) return table.asked->direction;
  return table.at_most ? table.at_most->direction : FireDirection::not_stated;
}

std::string load_contradiction(const Panel& panel) {
  const auto load_bearing = panel.load_bearing();
  if (!load_bearing) return {};
  std::vector<std::string> stated;
  bool all_zero = true;
  for (const char* name : {"PermanentLineLoad", "VariableLineLoad"}) {
    const auto load = panel.properties.number("Panel_Structure", name);
    all_zero = all_zero && load && load->value == 0.0;
    if (load && load->value != 0.0) {
      stated.push_back(std::string("Panel_Structure.") + name + " is " + with_unit(load->value, "N/m"));
    }
  }
  if (!load_bearing->value && !stated.empty()) {
    return "Pset_WallCommon.LoadBearing is no, and " + joined(stated, " and ") + ": one of them is wrong";
  }
  if (load_bearing->value && all_zero) {
    return "Pset_WallCommon.LoadBearing is yes, and the line loads of Panel_Structure are 0 N/m: one of them is wrong";
  }
  return {};
}

std::vector<CheckInput> load_contradiction_inputs() {
  return {optional_property("Panel_Structure.PermanentLineLoad"),
          optional_property("Panel_Structure.VariableLineLoad")};
}

void add_requirement(FindingBuilder& builder, const Requirement& requirement, bool load_bearing) {
  if (requirement.of_panel) {
    builder.text("class required of the panel", requirement.of_panel, {});
    if (!requirement.asked) builder.missing(not_a_class(*requirement.of_panel));
  } else if (requirement.of_building_min) {
    add_of_building(builder, requirement, load_bearing);
  } else {
    add_of_tables(builder, requirement.table);
  }
  if (requirement.document != nullptr) {
    builder.text("document that gives the class required",
                 Sourced<std::string>{requirement.document->id, requirement.document->origin}, {});
  }
}

Finding resistance_requirement(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables) {
  FindingBuilder builder(kRequiredResistanceCheck, panel.global_id);
  builder.basis(Basis::declared);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  record_building(builder, panel, project, settings);
  if (const std::string fault = load_contradiction(panel); !fault.empty()) builder.missing(fault);
  if (!load_bearing) return builder.not_assessed();
  const Requirement required = required_resistance(panel, project, settings, tables, *load_bearing);
  add_requirement(builder, required, *load_bearing);
  show_tables(builder, required.table);
  if (const auto basis = panel.properties.text("Panel_FireRequirement", "Basis")) {
    builder.text("basis of the requirement", basis, {});
  }
  builder.note(kNotJudged);
  if (builder.incomplete() || !required.asked) return builder.not_assessed();
  if (!required.open_point.empty()) return builder.needs_evidence(required.open_point);
  return builder.inform_text(class_text(*required.asked, "REIWM"));
}

}  // namespace panel_dossier::fire
