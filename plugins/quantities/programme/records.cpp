#include "plugins/quantities/programme/records.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/lift_cycle.h"
#include "plugins/quantities/programme/programme_schedule.h"
#include "plugins/quantities/records/record_order.h"

namespace panel_dossier::quantities {

const CheckDeclaration kRecordsCheck{
    .id = "quantities.records",
    .title = "Records of inspection and installation",
    .project_title = "Records of installation against the programme",
    .sentence =
        "A panel of which there are records was inspected and, where it is installed, installed, and was accepted both "
        "times; it was inspected and delivered before it was installed, nothing is recorded of it before it was made "
        "or "
        "after the assessment, and it was installed on a working day, with no inspection standing rejected and no size "
        "as built that fails; the project's panels were installed on the days of its programme, and all whose day lies "
        "before the assessment have a record of it.",
    .clause = "ISO 9001:2015, 8.6 (from memory); dates by ISO 8601-1:2019",
    .units = {"panels"},
    .kind = CheckKind::classification,
    .scope = CheckScope::panels_and_project,
    .inputs = with_records(
        erection_inputs(as_built_inputs(
            {optional_property("Panel_Inspection.Result"), optional_property("Panel_Inspection.Date"),
             optional_property("Panel_Install.Result"), optional_setting("project.assessment_date"),
             optional_setting("quantities.start_date"), optional_setting("quantities.working_days.*"),
             optional_setting("quantities.holidays.*"), optional_setting("quantities.crew.people"),
             optional_setting("quantities.cranes"), optional_setting("quantities.hours_per_day"),
             optional_setting("quantities.crane_hours_per_day"), optional_property("Panel_Identity.ErectionOrder"),
             optional_property("Panel_Identity.After"), optional_property("Pset_WallCommon.LoadBearing")})),
        {"as_built", "inspections", "batches", "deliveries", "installation", "air_tests", "weather_exposure",
         "in_use"}),
    .limits = {"What was inspected, and by whom.",
               "A panel without a record whose day by the programme is still to come.",
               "Defects found and mended between the two records."},
    .role = {}};

namespace {

constexpr const char* kAccepted = "ACCEPTED";
constexpr const char* kRejected = "REJECTED";

/// One record: `Panel_Inspection` or `Panel_Install`.
struct Record {
  std::string set;
  std::string word;  ///< `inspection`, `installation`
  std::string result;
  std::string date;

  bool any() const { return !result.empty() || !date.empty(); }
};

std::string text_of(const Panel& panel, const std::string& set, const char* name) {
  const auto text = panel.properties.text(set, name);
  return text ? std::string(trimmed(text->value)) : std::string();
}

Record record_of(const Panel& panel, const std::string& set, const std::string& word) {
  return {set, word, text_of(panel, set, "Result"), text_of(panel, set, "Date")};
}

Record inspection_of(const Panel& panel) {
  return record_of(panel, "Panel_Inspection", "inspection");
}

Record installation_of(const Panel& panel) {
  return record_of(panel, "Panel_Install", "installation");
}

void judge_record(const Record& record, const std::string& assessed, RecordFaults& faults) {
  if (!record.any()) return;
  if (record.result == kRejected) {
    faults.failures.push_back("the panel was rejected at its " + record.word + " (" + record.set + ".Result)");
  } else if (record.result.empty()) {
    faults.gaps.push_back("the " + record.word + " has no result: state " + record.set + ".Result");
  } else if (record.result != kAccepted) {
    faults.gaps.push_back("the result of the " + record.word + " is '" + record.result + "' (" + record.set +
                          ".Result), not ACCEPTED");
  }
  if (record.date.empty()) {
    faults.gaps.push_back("the " + record.word + " has no day: state " + record.set + ".Date");
  } else if (!is_iso_date(record.date)) {
    faults.gaps.push_back("the day of the " + record.word + ", '" + record.date + "' (" + record.set +
                          ".Date), is no date YYYY-MM-DD");
  } else if (assessed.empty()) {
    faults.gaps.push_back("whether the day of the " + record.word + ", " + record.date + " (" + record.set +
                          ".Date), has been is not known: set project.assessment_date");
  } else if (record.date > assessed) {
    faults.gaps.push_back("the day of the " + record.word + ", " + record.date + " (" + record.set +
                          ".Date), lies after project.assessment_date " + assessed);
  }
}

/// Whether the day by the programme lies before the assessment, so that the installation is on record by then.
bool is_due(const std::string& by_programme, const Settings& settings) {
  const auto assessed = settings.text("project.assessment_date");
  return assessed && is_iso_date(assessed->value) && is_iso_date(by_programme) && by_programme < assessed->value;
}

/// None where the settings hold none that can be used: the programme says so.
std::optional<WorkCalendar> find_calendar(const Settings& settings) {
  FindingBuilder unseen(kRecordsCheck, "");
  WorkCalendar calendar = read_calendar(unseen, settings);
  if (unseen.incomplete()) return std::nullopt;
  return calendar;
}

void judge_order(const Record& inspection, const Record& installation, const Settings& settings, RecordFaults& faults) {
  if (!installation.any()) return;
  if (!inspection.any()) {
    faults.gaps.emplace_back(
        "the panel is installed and has no record of inspection: state Panel_Inspection.Result and Date");
  }
  if (!is_iso_date(installation.date)) return;
  if (is_iso_date(inspection.date) && installation.date < inspection.date) {
    faults.failures.push_back("the panel was installed on " + installation.date +
                              " (Panel_Install.Date), before it was "
                              "inspected on " +
                              inspection.date + " (Panel_Inspection.Date)");
  }
  const auto calendar = find_calendar(settings);
  if (!calendar) {
    faults.gaps.push_back("whether the panel was installed on a working day (Panel_Install.Date " + installation.date +
                          ") is not known: set quantities.start_date, quantities.working_days and quantities.holidays");
    return;
  }
  if (is_working_day(*calendar, installation.date)) return;
  faults.gaps.push_back("the panel was installed on " + installation.date +
                        " (Panel_Install.Date), a day without work by settings 'quantities.working_days' and "
                        "'quantities.holidays'");
}

/// Two records that cannot both hold: somebody accepted a panel whose measured size fails.
void judge_size(const Panel& panel, const Record& inspection, const Record& installation, const Settings& settings,
                RecordFaults& faults) {
  if (inspection.result != kAccepted && installation.result != kAccepted) return;
  if (as_built_size(panel, settings).verdict != Verdict::fail) return;
  const Record& accepted = inspection.result == kAccepted ? inspection : installation;
  faults.gaps.push_back("the panel was accepted (" + accepted.set + ".Result), though its size as built fails (" +
                        kAsBuiltSizeCheck.id +
                        "): correct the record that is wrong, or have the deviation mended and measured again");
}

/// The worse of both results.
std::string result_of(const Record& inspection, const Record& installation) {
  for (const Record* record : {&inspection, &installation}) {
    if (record->result == kRejected) return kRejected;
  }
  for (const Record* record : {&inspection, &installation}) {
    if (record->any() && record->result != kAccepted) return record->result.empty() ? "not stated" : record->result;
  }
  return installation.any() ? kAccepted : std::string(kAccepted) + ", not installed";
}

}  // namespace

bool has_records(const Panel& panel) {
  return inspection_of(panel).any() || installation_of(panel).any() || !panel.records.empty();
}

Finding records(const Panel& panel, const Settings& settings) {
  FindingBuilder finding(kRecordsCheck, panel.global_id);
  finding.basis(Basis::declared);
  const Record inspection = inspection_of(panel);
  const Record installation = installation_of(panel);
  for (const Record* record : {&inspection, &installation}) {
    if (!record->result.empty()) {
      finding.text("result of the " + record->word, panel.properties.text(record->set, "Result"), "");
    }
    if (!record->date.empty()) {
      finding.text("day of the " + record->word, panel.properties.text(record->set, "Date"), "");
    }
  }
  const auto assessed = settings.text("project.assessment_date");
  const std::string day = assessed ? assessed->value : "";
  const auto known = [](const Record& record) { return is_iso_date(record.date) ? record.date : std::string(); };
  RecordFaults faults = faults_of_order(panel, {known(inspection), known(installation), day});
  judge_record(inspection, day, faults);
  judge_record(installation, day, faults);
  judge_order(inspection, installation, settings, faults);
  judge_size(panel, inspection, installation, settings, faults);
  const bool is_looked_at = inspection.any() || installation.any();
  if (!is_looked_at) {
    faults.gaps.emplace_back(
        "there are records of the panel, and none of its inspection: inspect it and write it down");
  }
  const std::string result = is_looked_at ? result_of(inspection, installation) : "not inspected";
  finding.step_text("records", installation.any() ? "inspection and installation" : "inspection");
  if (!panel.records.empty()) {
    finding.step("rows of the tables of records, in order of their days", "n",
                 static_cast<double>(panel.records.size()), "");
  }
  std::vector<std::string> reasons = faults.failures;
  reasons.insert(reasons.end(), faults.gaps.begin(), faults.gaps.end());
  Verdict verdict = Verdict::pass;
  if (!faults.gaps.empty()) verdict = Verdict::evidence_needed;
  if (!faults.failures.empty()) verdict = Verdict::fail;
  return finding.judge_class(result, Relation::equals, kAccepted, verdict, joined(reasons, "; "));
}

bool installation_has_begun(const Project& project, const std::vector<std::string>& erected, const Settings& settings) {
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    if (!installation_of(project.panels[i]).date.empty()) return true;
    if (i < erected.size() && is_due(erected[i], settings)) return true;
  }
  return false;
}

Finding records_against_programme(const Project& project, const Finding& programme,
                                  const std::vector<std::string>& erected, const Settings& settings) {
  constexpr std::size_t kPanelsNamed = 5;
  constexpr const char* kTitle = "Panels installed on another day than the programme's, or with no day recorded";
  FindingBuilder finding(kRecordsCheck, "");
  finding.basis(Basis::declared).decimals(0);
  if (erected.size() != project.panels.size()) {
    return finding.not_assessed("there is no programme to compare with: " + programme.check +
                                " is not assessed: " + programme.reason);
  }
  const auto calendar = find_calendar(settings);
  Table table{
      kTitle,
      {{"panel", ""}, {"installed, Panel_Install.Date", ""}, {"by the programme", ""}, {"later by", "working days"}},
      {}};
  double installed = 0.0;
  double later_days = 0.0;
  std::string reason;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    const std::string day = installation_of(panel).date;
    if (day.empty() && !is_due(erected[i], settings)) continue;
    if (!day.empty()) installed += 1.0;
    if (day == erected[i]) continue;
    if (table.rows.size() < kPanelsNamed) {
      reason += (reason.empty() ? "'" : "; '") + panel.mark + "' " + (day.empty() ? "without a day" : "on " + day) +
                " instead of " + erected[i];
    }
    if (day.empty()) {
      table.rows.push_back({panel.mark, std::string("none"), erected[i], Value{}});
      continue;
    }
    const auto later = calendar ? working_days_between(*calendar, erected[i], day) : std::nullopt;
    later_days += later.value_or(0);
    table.rows.push_back({panel.mark, day, erected[i], later ? Value{static_cast<double>(*later)} : Value{}});
  }
  const auto differing = static_cast<double>(table.rows.size());
  if (table.rows.size() > kPanelsNamed) {
    reason += " and " + std::to_string(table.rows.size() - kPanelsNamed) + " more, all in the table '" +
              std::string(kTitle) + "'";
  }
  finding.step("panels with a day of installation", "n", installed, "");
  if (installed > 0.0) {
    finding.step("working days later than the programme, of all together", "Δ", later_days, "days")
        .step("on average", "Δ_m", later_days / installed, "days", "Δ_m = Δ / n");
  }
  if (!table.rows.empty()) finding.table(std::move(table));
  finding.note(
      "The programme is worked out from the settings and does not know what the site did. Where the site departs from "
      "it, "
      "correct the record, or set start, working days, holidays and order as they were.");
  Finding closed =
      finding.judge(differing, "panels", Relation::at_most, 0.0,
                    "installed on another day (Panel_Install.Date) than quantities.programme has, or due and without a "
                    "day: " +
                        reason);
  if (closed.verdict == Verdict::fail) closed.verdict = Verdict::evidence_needed;
  return closed;
}

}  // namespace panel_dossier::quantities
