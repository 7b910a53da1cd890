#include "plugins/fire/evidence/requirement.h"

#include <cmath>

#include "plugins/fire/evidence/resistance_class.h"
#include "plugins/fire/facade/building_heights.h"

namespace panel_dossier::fire {

namespace {

/// Criteria of the tables that `asked` does not reach, when `asked` is stated and not taken from the tables.
std::string below(const ResistanceClass& asked, const TableRequirement& table) {
  if (!table.asked) return {};
  const bool sides = asked.direction == FireDirection::not_stated || asked.covers_direction_of(*table.asked);
  if (sides && asked.meets(*table.asked, "REI")) return {};
  return "the class required is below the " + class_text(*table.asked, "REI") +
         " of the tables; the fire engineer must give the reason";
}

std::optional<ResistanceClass> from_panel(FindingBuilder& builder, const Sourced<std::string>& stated) {
  builder.text("class required of the panel", stated, {});
  auto parsed = parse_resistance_class(stated.value);
  if (!parsed) builder.missing(not_a_class(stated));
  return parsed;
}

std::optional<ResistanceClass> from_building(FindingBuilder& builder, const Sourced<double>& setting,
                                             bool load_bearing) {
  const auto minutes = builder.positive("fire resistance required of the building", "", "min", setting,
                                        "setting building.fire_resistance_minutes must be above 0");
  if (!minutes) return std::nullopt;
  const std::string text = class_text(load_bearing ? "REI" : "EI", static_cast<int>(std::lround(*minutes)));
  auto parsed = parse_resistance_class(text);
  if (!parsed) {
    builder.missing("'" + text + "' is not a class of EN 13501-2 (setting building.fire_resistance_minutes)");
  }
  builder.note(
      "No requirement is given for this panel (Panel_FireRequirement.Resistance); the building's period from "
      "the settings is taken.");
  return parsed;
}

std::optional<ResistanceClass> from_tables(FindingBuilder& builder, const TableRequirement& table) {
  if (table.asked) {
    builder.number("period of the building by the tables", "", "min", table.period_min, {});
    builder.text("sides of an external wall by the tables", table.sides, {});
    builder.note("No class is given for this panel or building; that of the tables is taken.");
  } else {
    builder.missing(table.nothing_asked
                        ? "the tables ask no resistance of this wall; Panel_FireRequirement.Resistance gives one if any"
                        : table.missing);
  }
  return table.asked;
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
  auto boundary_m = panel.properties.number("Panel_FireRequirement", "BoundaryDistance");
  if (!boundary_m) boundary_m = settings.number("building.boundary_distance_m");
  if (boundary_m) builder.number("distance to the relevant boundary", "", "m", boundary_m, {});
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

Requirement required_resistance(FindingBuilder& builder, const Panel& panel, const Project& project,
                                const Settings& settings, const Tables& tables, bool load_bearing) {
  const TableRequirement table = table_requirement(panel, project, settings, tables, load_bearing);
  Requirement result;
  if (const auto stated = panel.properties.text("Panel_FireRequirement", "Resistance")) {
    result.asked = from_panel(builder, *stated);
  } else if (const auto minutes = settings.number("building.fire_resistance_minutes")) {
    result.asked = from_building(builder, *minutes, load_bearing);
  } else {
    result.asked = from_tables(builder, table);
    return result;
  }
  if (result.asked) result.below_table = below(*result.asked, table);
  return result;
}

Finding resistance_requirement(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables) {
  FindingBuilder builder("fire.required_resistance", "Fire resistance required", panel.global_id,
                         "EN 13501-2:2016 (class); national tables as named among the inputs");
  builder.basis(Basis::declared);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  record_building(builder, panel, project, settings);
  if (!load_bearing) return builder.not_assessed();
  const TableRequirement table = table_requirement(panel, project, settings, tables, *load_bearing);
  const Requirement required = required_resistance(builder, panel, project, settings, tables, *load_bearing);
  show_tables(builder, table);
  if (const auto basis = panel.properties.text("Panel_FireRequirement", "Basis")) {
    builder.text("basis of the requirement", basis, {});
  }
  builder.note("Space separation, unprotected areas, basements and single-storey buildings are not judged.");
  if (builder.incomplete() || !required.asked) return builder.not_assessed();
  if (!required.below_table.empty()) return builder.needs_evidence(required.below_table);
  return builder.inform_text(class_text(*required.asked, "REIWM"));
}

}  // namespace panel_dossier::fire
