#include "plugins/thermal/air/air_permeability.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "plugins/thermal/project_limits.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kPermeabilityUnit = "m³/(h·m²)";

/// q_50 in m³/(h·m²) from n_50: both share the flow at 50 Pa, q_50 · A_E = n_50 · V.
std::optional<double> permeability_of(const Sourced<double>& change_rate, const Settings& settings,
                                      FindingBuilder& builder) {
  const auto rate = builder.positive("measured air change rate at 50 Pa", "n_50", "1/h", change_rate,
                                     "Panel_Air.AirChangeRateN50 must be above 0");
  const auto volume =
      builder.positive("internal volume of the building", "V", "m³", settings.number("building.volume_m3"),
                       "setting 'building.volume_m3' is missing");
  const auto area =
      builder.positive("envelope area of the building", "A_E", "m²", settings.number("building.envelope_area_m2"),
                       "setting 'building.envelope_area_m2' is missing");
  if (!rate || !volume || !area) return std::nullopt;
  builder.step("air flow at 50 Pa", "V_50", *rate * *volume, "m³/h", "V_50 = n_50 · V");
  return *rate * *volume / *area;
}

/// What the design asks where that is the stricter, or the limit of the jurisdiction is not known, which `unknown` then
/// says; else that limit.
std::optional<double> panel_limit(const std::optional<Sourced<double>>& design, const Settings& settings,
                                  const Tables& tables, FindingBuilder& builder, std::string& unknown) {
  const auto rule = [&](FindingBuilder& into) {
    return find_limit(tables.air_permeability_limits, kAirPermeabilityLimit, settings, into);
  };
  FindingBuilder trial(kAirPermeabilityCheck, "");
  const auto known = rule(trial);
  if (!known) unknown = trial.not_assessed().reason;
  if (!design || (known && *known < design->value)) return rule(builder);
  return builder.positive("air permeability that the design asks for", "q_50,d", kPermeabilityUnit, design, {});
}

/// Why no document shows the measured value; empty when one does. `properties` hold the set Panel_Air.
std::string lacking_report(const Properties& properties, const Project& project, const Settings& settings,
                           FindingBuilder& builder) {
  const auto id = properties.text("Panel_Air", "DocumentId");
  if (!id || id->value.empty()) {
    return "the measured air permeability names no test report (Panel_Air.DocumentId); name the document that holds it";
  }
  builder.text("test report", id, {});
  const Evidence* document = find_evidence(project, id->value);
  if (document == nullptr) {
    return "no document of the export has the identification '" + id->value + "' that Panel_Air.DocumentId names (" +
           describe(id->origin) + "); put the test report there";
  }
  const auto day = settings.text("project.assessment_date");
  return evidence_fault(*document, {EvidenceKind::air_test_report}, day ? std::string_view(day->value) : "");
}

/// The newest row of a test with a value; null without one.
const PanelRecord* newest_test(const std::vector<PanelRecord>& records) {
  const auto found = std::find_if(records.rbegin(), records.rend(), [](const PanelRecord& record) {
    return record.table == "air_tests" && (record.number("q50") || record.number("n50"));
  });
  return found == records.rend() ? nullptr : &*found;
}

std::string place_of_test(const PanelRecord& test) {
  return test.origin.table + ", row " + test.origin.row;
}

/// Why the day of the recorded test cannot be; empty where it can, and where there is no record. `properties` hold the
/// set Panel_Air.
std::string fault_of_test_day(const PanelRecord* test, const Properties& properties, const Project& project,
                              const Settings& settings) {
  if (test == nullptr) return {};
  const std::string tested = "the air test of " + test->day + " (" + place_of_test(*test) + ")";
  const auto assessed = settings.text("project.assessment_date");
  if (!assessed) return "whether " + tested + " has been is not known: set project.assessment_date";
  if (test->day > assessed->value) {
    return tested + " lies after project.assessment_date " + assessed->value + "; correct one of the days";
  }
  const auto id = properties.text("Panel_Air", "DocumentId");
  const Evidence* report = id ? find_evidence(project, id->value) : nullptr;
  if (report == nullptr || report->issued.empty() || report->issued >= test->day) return {};
  return tested + " lies after its report '" + report->id + "' was issued on " + report->issued +
         "; name the report of this test, or correct one of the days";
}

/// Why the whole building cannot have been tested on that day; empty where it can.
std::string fault_of_building_day(const PanelRecord* test, const Project& project) {
  if (test == nullptr) return {};
  for (const Panel& panel : project.panels) {
    const auto installed = panel.properties.text("Panel_Install", "Date");
    if (!installed || installed->value <= test->day) continue;
    return "the air test of the whole building of " + test->day + " (" + place_of_test(*test) +
           ") lies before panel '" + panel.mark + "' was installed on " + installed->value + " (" +
           describe(installed->origin) + "); test it again, or correct one of the days";
  }
  return {};
}

/// A pass without its document is none; a failure needs no proof.
Finding unless_unproved(Finding finding, const std::string& lacking) {
  if (lacking.empty() || finding.verdict != Verdict::pass) return finding;
  finding.verdict = Verdict::evidence_needed;
  finding.reason = lacking;
  return finding;
}

/// Two measured values of one building that differ; empty when they agree within `kTolerance`.
std::string against_each_other(const Sourced<double>& permeability, const Sourced<double>& change_rate,
                               const Settings& settings) {
  constexpr double kTolerance = 0.05;  // both are rounded to a tenth or two (EN ISO 9972:2015, 7, common practice)
  const auto volume = settings.number("building.volume_m3");
  const auto area = settings.number("building.envelope_area_m2");
  if (!volume || !area || !(area->value > 0.0)) return {};
  const double from_rate = change_rate.value * volume->value / area->value;
  if (std::abs(from_rate - permeability.value) <= kTolerance * std::max(from_rate, permeability.value)) return {};
  return "Panel_Air.PermeabilityQ50 is " + fixed_text(permeability.value, 2) + " m³/(h·m²) (" +
         describe(permeability.origin) + ") and Panel_Air.AirChangeRateN50 of " + fixed_text(change_rate.value, 2) +
         " 1/h (" + describe(change_rate.origin) + ") gives " + fixed_text(from_rate, 2) +
         " with building.volume_m3 and building.envelope_area_m2: one of them is wrong";
}

}  // namespace

const CheckDeclaration kAirPermeabilityCheck{
    .id = "thermal.air_permeability",
    .title = "Measured air permeability of the panel at 50 Pa",
    .project_title = "Measured air permeability of the building at 50 Pa",
    .sentence =
        "The measured q_50 of the panel, shown by the test report that it names, is at most the lower of the design "
        "value "
        "of the settings, if there is one, and the limit of the jurisdiction on the day of assessment; that of the "
        "building, likewise shown, is at most the limit of the jurisdiction.",
    .clause = "EN ISO 9972:2015",
    .units = {kPermeabilityUnit},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels_and_project,
    .inputs = with_records({property("Panel_Air.PermeabilityQ50"), property("Panel_Air.DocumentId"),
                            optional_property("Panel_Air.AirChangeRateN50"), optional_property("Panel_Install.Date"),
                            optional_setting("thermal.design_q50_m3_per_hm2"), optional_setting("building.volume_m3"),
                            optional_setting("building.envelope_area_m2"), optional_setting("project.jurisdiction"),
                            optional_setting("project.use"), optional_setting("project.assessment_date"),
                            data_table("air_permeability_limits.csv")},
                           {"air_tests"}),
    .limits = {"The joints between panels are not part of a panel's test; only the test of the whole building holds "
               "them.",
               "The test report must be there, be one and be valid; the measured value is not looked up in it."},
    .role = std::string(role::kAirTest)};

Finding check_air_permeability(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables) {
  FindingBuilder builder(kAirPermeabilityCheck, panel.global_id);
  builder.basis(Basis::test_evidence);
  const auto property = panel.properties.number("Panel_Air", "PermeabilityQ50");
  if (!property) {
    return builder.needs_evidence(
        "no measured air permeability (Panel_Air.PermeabilityQ50); test the panel or one of its type");
  }
  const auto measured = builder.positive("measured air permeability at 50 Pa", "q_50", kPermeabilityUnit, property, {});
  const auto area = builder.positive("area of the panel with its openings", "A", "m²",
                                     Sourced<double>{panel.gross_area_m2(), panel.origin}, {});
  const auto design = settings.number("thermal.design_q50_m3_per_hm2");
  std::string unknown;
  const auto limit = panel_limit(design, settings, tables, builder, unknown);
  std::string lacking = lacking_report(panel.properties, project, settings, builder);
  if (lacking.empty()) lacking = fault_of_test_day(newest_test(panel.records), panel.properties, project, settings);
  if (!measured || !area || !limit) return builder.not_assessed();
  builder.step("air flow through the panel at 50 Pa", "V_50", *measured * *area, "m³/h", "V_50 = q_50 · A");
  builder.note(design && *limit == design->value
                   ? "The design value comes from the project settings. The whole building is still to be tested."
                   : "The limit is one for the whole building, joints included: a panel must stay well below it. The "
                     "whole building is still to be tested.");
  return unless_unproved(builder.judge(*measured, kPermeabilityUnit, Relation::at_most, *limit,
                                       "measured " + fixed_text(*measured, 2) + " m³/(h·m²) is above " +
                                           fixed_text(*limit, 2) + "; find and seal the leaks, then test again"),
                         lacking.empty() ? unknown : lacking);
}

Finding check_building_air(const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kAirPermeabilityCheck, "");
  builder.basis(Basis::test_evidence);
  const auto permeability = project.properties.number("Panel_Air", "PermeabilityQ50");
  const auto change_rate = project.properties.number("Panel_Air", "AirChangeRateN50");
  if (!permeability && !change_rate) {
    return builder.needs_evidence(
        "the whole building is not tested yet; once it is, put the result on IfcBuilding as Panel_Air.PermeabilityQ50 "
        "or Panel_Air.AirChangeRateN50, the report as Panel_Air.DocumentId");
  }
  if (permeability && change_rate) {
    const std::string why = against_each_other(*permeability, *change_rate, settings);
    if (!why.empty()) builder.missing(why);
  }
  const PanelRecord* test = newest_test(project.records);
  std::string lacking = lacking_report(project.properties, project, settings, builder);
  if (lacking.empty()) lacking = fault_of_test_day(test, project.properties, project, settings);
  if (lacking.empty()) lacking = fault_of_building_day(test, project);
  const auto q50 = permeability ? builder.positive("measured air permeability at 50 Pa", "q_50", kPermeabilityUnit,
                                                   permeability, "Panel_Air.PermeabilityQ50 must be above 0")
                                : permeability_of(*change_rate, settings, builder);
  const auto limit = find_limit(tables.air_permeability_limits, kAirPermeabilityLimit, settings, builder);
  if (!q50 || !limit || builder.incomplete()) return builder.not_assessed();
  if (!permeability)
    builder.step("air permeability of the envelope", "q_50", *q50, kPermeabilityUnit, "q_50 = V_50 / A_E");
  builder.note("The limit is that of the jurisdiction; a design value of panels is held against their own tests.");
  return unless_unproved(builder.judge(*q50, kPermeabilityUnit, Relation::at_most, *limit,
                                       "measured " + fixed_text(*q50, 2) + " m³/(h·m²) is above " +
                                           fixed_text(*limit, 2) + "; find and seal the leaks, then test again"),
                         lacking);
}

}  // namespace panel_dossier::thermal
