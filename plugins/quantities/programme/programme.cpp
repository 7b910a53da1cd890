#include "plugins/quantities/programme/programme.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/model/settings.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/programme/lift_cycle.h"
#include "plugins/quantities/programme/programme_report.h"
#include "plugins/quantities/programme/programme_schedule.h"

namespace panel_dossier::quantities {

namespace {

/// Those inputs and what the programme reads.
std::vector<CheckInput> programme_inputs(std::vector<CheckInput> inputs) {
  for (CheckInput& input : std::vector<CheckInput>{
           optional_property("Panel_Identity.ErectionOrder"), optional_property("Panel_Identity.After"),
           optional_property("Pset_WallCommon.LoadBearing"), setting("quantities.crew.people"),
           setting("quantities.cranes"), setting("quantities.hours_per_day"), setting("quantities.crane_hours_per_day"),
           setting("quantities.start_date"), setting("quantities.working_days.*"),
           optional_setting("quantities.holidays.*"), optional_setting("quantities.transport.lead_working_days"),
           optional_setting("quantities.sealing_working_days"), optional_property("Panel_Identity.Elevation"),
           // As quantities.erection_time, whose hours are planned.
           optional_setting("quantities.panels_per_batch")}) {
    inputs.push_back(std::move(input));
  }
  return erection_inputs(std::move(inputs));
}

}  // namespace

const CheckDeclaration kProgrammeCheck{
    .id = "quantities.programme",
    .title = "Programme of erection",
    .project_title = {},
    .sentence =
        "Every panel is lifted and fixed on one working day by one crane with its crew, in the order of erection "
        "and after what bears it; beside the number of days stands the number that no programme can save.",
    .clause = "List scheduling in the order of erection (common practice); dates by ISO 8601-1:2019",
    .units = {"working days"},
    .kind = CheckKind::figure,
    .scope = CheckScope::project,
    .inputs = programme_inputs({}),
    .limits = {"Time lost to wind, weather, late vehicles and inspections.", "A programme of the other trades.",
               "How much the site can store: see quantities.site_storage.",
               "The sequence of temporary stability: it is the engineer's."},
    .role = {},
    .for_workshop = true};

namespace {

struct Site {
  double people = 0.0;  ///< of one crew; each crane has one
  MicroHours crew_day = 0;
  MicroHours lifting_day = 0;  ///< the shorter of the crew's and the crane's day
  std::size_t cranes = 0;
  /// Working days from a load's arrival to its first panel; none when the settings do not say, which counts as 0.
  std::optional<std::size_t> lead_days;
  /// Working days from a face's last panel to its sealed joints; none when the settings do not say.
  std::optional<std::size_t> sealing_days;
};

constexpr double kMostCranes = 100.0;
/// A quarter of a year on site is storage, not delivery, and an open joint for so long is none that waits for its seal.
constexpr double kMostDaysBetween = 60.0;
constexpr double kHoursOfADay = 24.0;

double read(FindingBuilder& finding, const Settings& settings, const char* name, const char* symbol, const char* unit,
            const std::string& key) {
  return finding.positive(name, symbol, unit, settings.number(key), "setting '" + key + "' is missing or not above 0")
      .value_or(0.0);
}

MicroHours read_hours(FindingBuilder& finding, const Settings& settings, const char* name, const char* symbol,
                      const std::string& key) {
  const double hours = read(finding, settings, name, symbol, "h", key);
  if (hours <= kHoursOfADay) return micro_hours(hours);
  finding.missing("setting '" + key + "' must be at most 24, the hours of a day");
  return 0;
}

std::size_t read_cranes(FindingBuilder& finding, const Settings& settings) {
  const double cranes = read(finding, settings, "cranes, each with a crew", "n_c", "", "quantities.cranes");
  if (cranes <= kMostCranes && std::floor(cranes) == cranes) return static_cast<std::size_t>(cranes);
  finding.missing("setting 'quantities.cranes' must be a whole number from 1 to 100");
  return 0;
}

/// Whole days from 0 to 60; none where the setting is not given.
std::optional<std::size_t> read_days(FindingBuilder& finding, const Settings& settings, const char* name,
                                     const std::string& key) {
  if (settings.all().count(key) == 0) return std::nullopt;
  const std::string wrong = "setting '" + key + "' must be a whole number from 0 to 60";
  const auto days = finding.number(name, "", "", settings.number(key), wrong);
  if (!days) return std::nullopt;
  if (*days >= 0.0 && *days <= kMostDaysBetween && std::floor(*days) == *days) return static_cast<std::size_t>(*days);
  finding.missing(wrong);
  return std::nullopt;
}

/// Reads `quantities.crew.people`, `cranes`, `hours_per_day`, `crane_hours_per_day`, `sealing_working_days` and
/// `transport.lead_working_days`
/// as inputs of the finding; notes what is missing or cannot be used.
Site read_site(FindingBuilder& finding, const Settings& settings) {
  Site site;
  site.people = read(finding, settings, "people of one crew, with crane operative and slinger", "n_p", "",
                     "quantities.crew.people");
  site.crew_day = read_hours(finding, settings, "working hours of a day", "d_w", "quantities.hours_per_day");
  const MicroHours crane_day =
      read_hours(finding, settings, "hours of a day in which a crane lifts", "d_c", "quantities.crane_hours_per_day");
  site.lifting_day = std::min(site.crew_day, crane_day);
  site.cranes = read_cranes(finding, settings);
  site.lead_days = read_days(finding, settings, "working days from arrival to the load's first panel",
                             "quantities.transport.lead_working_days");
  site.sealing_days = read_days(finding, settings, "working days from a face's last panel to its sealed joints",
                                "quantities.sealing_working_days");
  return site;
}

}  // namespace

namespace {

/// Ten years of working days: beyond it a setting is wrong by orders of magnitude.
constexpr std::size_t kMostDays = 3650;

std::vector<ErectionTask> tasks_of(FindingBuilder& finding, const Project& project, const PanelValues& times,
                                   const ErectionSequence& sequence, const Site& site) {
  std::vector<std::size_t> place(project.panels.size());
  for (std::size_t i = 0; i < sequence.panels.size(); ++i) place[sequence.panels[i]] = i;
  std::map<std::string, std::size_t> buildings;
  std::vector<ErectionTask> tasks;
  for (const std::size_t index : sequence.panels) {
    const Panel& panel = project.panels[index];
    const auto bearing = panel.load_bearing();
    ErectionTask task{
        micro_hours(times.entries[index].value), {}, 0, panel.storey.value_or(0), bearing && bearing->value};
    task.building = buildings.emplace(panel.building, buildings.size()).first->second;
    for (const std::size_t before : sequence.after[index]) task.after.push_back(place[before]);
    if (task.time > site.lifting_day + kRoundingSlack) {
      finding.missing("panel '" + panel.mark + "' takes " + fixed_text(hours(task.time), 1) +
                      " h, more than a day of lifting: check the times of a lift and the hours of a day");
    }
    tasks.push_back(std::move(task));
  }
  return tasks;
}

MicroHours total_time(const std::vector<ErectionTask>& tasks) {
  MicroHours total = 0;
  for (const ErectionTask& task : tasks) total += task.time;
  return total;
}

/// One crane fewer, as many, one more.
Table crane_table(const std::vector<ErectionTask>& tasks, const Site& site, const WorkCalendar& calendar) {
  Table table{"With fewer and more cranes",
              {{"cranes", ""},
               {"people", ""},
               {"working days", ""},
               {"no programme below", "days"},
               {"last day", ""},
               {"use of lifting hours", "%"},
               {"paid", "person·h"}},
              {}};
  const MicroHours total = total_time(tasks);
  for (std::size_t cranes = std::max<std::size_t>(1, site.cranes - 1); cranes <= site.cranes + 1; ++cranes) {
    const std::size_t days = days_of(schedule_tasks(tasks, cranes, site.lifting_day));
    const auto crane_days = static_cast<double>(cranes * days);
    table.rows.push_back({static_cast<double>(cranes), static_cast<double>(cranes) * site.people,
                          static_cast<double>(days), static_cast<double>(fewest_days(total, cranes, site.lifting_day)),
                          working_dates(calendar, days).back(),
                          units::kPercentPerWhole * hours(total) / (crane_days * hours(site.lifting_day)),
                          crane_days * site.people * hours(site.crew_day)});
  }
  return table;
}

void add_steps(FindingBuilder& finding, const std::vector<ErectionTask>& tasks, const Site& site, const SiteDays& days,
               const std::vector<std::string>& dates) {
  const MicroHours total = total_time(tasks);
  const auto fewest = static_cast<double>(fewest_days(total, site.cranes, site.lifting_day));
  finding.step("panels", "n", static_cast<double>(tasks.size()), "")
      .step("crane hours of all panels, see quantities.erection_time", "Σt", hours(total), "h")
      .step("hours of lifting in a day", "d", hours(site.lifting_day), "h", "d = min(d_w; d_c)")
      .step("labour while panels are lifted", "W", site.people * hours(total), "person·h", "W = n_p·Σt")
      .step("working days that no programme can save", "N_min", fewest, "")
      .step("working days of the programme", "N", static_cast<double>(dates.size()), "")
      .step_text("first day", dates.front())
      .step_text("last day", dates.back());
  if (days.arrivals.empty()) return;
  finding.step_text("first load arrives on", days.arrivals.front())
      .step("most panels waiting on site in an evening", "", static_cast<double>(days.most_waiting), "")
      .step("largest gross area of panels waiting on site in an evening", "", days.most_waiting_m2, "m²");
}

/// Names panels that the order of storeys cannot place.
void add_assumptions(FindingBuilder& finding, const Project& project) {
  std::vector<std::string> no_storey;
  std::vector<std::string> bearing_unknown;
  for (const Panel& panel : project.panels) {
    if (!panel.storey) no_storey.push_back(panel.mark);
    if (!panel.load_bearing()) bearing_unknown.push_back(panel.mark);
  }
  if (!no_storey.empty()) {
    finding.note("Taken as of the lowest storey, for the export gives them none: " + part_names(no_storey) + ".");
  }
  if (!bearing_unknown.empty()) {
    finding.note(
        "Taken as not load-bearing, for Pset_WallCommon.LoadBearing is missing: " + part_names(bearing_unknown) + ".");
  }
}

std::string arrival_note(const Site& site) {
  if (!site.lead_days) {
    return "Setting 'quantities.transport.lead_working_days' is not given: each load arrives on the working day of its "
           "first panel.";
  }
  if (*site.lead_days == 0) return "Each load arrives on the working day of its first panel.";
  return "Each load arrives " + std::to_string(*site.lead_days) +
         (*site.lead_days == 1 ? " working day" : " working days") + " before the day of its first panel.";
}

void add_notes(FindingBuilder& finding, const ErectionSequence& sequence, const Site& site,
               const WorkCalendar& calendar, const SiteDays& days) {
  finding.note(
      "Panels go up in the order of the export. Each crane with its crew takes the next panel; a panel begun is fixed "
      "the same day, and load-bearing panels are up before the next storey begins on them.");
  finding.note(
      "A panel's hours take its crew and its crane together. A day holds as many as the shorter of the crew's hours "
      "and the crane's hours of lifting; what else the crew does in its day is not planned here.");
  finding.note("No programme takes fewer days than Σt over n_c·d, rounded up.");
  if (!starts_on_working_day(calendar)) {
    finding.note("Setting 'quantities.start_date' is no working day: work begins on the next one.");
  }
  if (days.arrivals.empty()) {
    finding.note("Arrivals and storage on site are not given, for quantities.deliveries is not assessed.");
  } else {
    finding.note(arrival_note(site) + " A panel waits on site from its arrival until it is erected.");
  }
  if (sequence.late_bearing > 0) {
    finding.note(std::to_string(sequence.late_bearing) +
                 " load-bearing panels are numbered after a panel of a storey above in the same building: check that "
                 "nothing rests on them before they stand.");
  }
  finding.note(
      "Stops for wind, weather, deliveries and inspections are not in it. The lift plan and the sequence of "
      "temporary stability are the appointed person's and the engineer's.");
}

}  // namespace

Programme plan_programme(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                         const ErectionSequence& sequence, const std::vector<std::size_t>& loads) {
  FindingBuilder finding(kProgrammeCheck, "");
  finding.decimals(0);
  const Site site = read_site(finding, settings);
  const WorkCalendar calendar = read_calendar(finding, settings);
  for (const std::string& problem : sequence.problems) finding.missing(problem);
  if (!sequence.concerned.rows.empty()) finding.table(sequence.concerned);
  const PanelValues times = panel_values(panels, kErectionTimeCheck.id);
  if (!times.whole() && !project.panels.empty()) {
    finding.missing(times.what_is_missing(kErectionTimeCheck.id));
  }
  if (finding.incomplete()) return {finding.not_assessed(), {}, {}};
  const std::vector<ErectionTask> tasks = tasks_of(finding, project, times, sequence, site);
  if (finding.incomplete()) return {finding.not_assessed(), {}, {}};
  const std::vector<ErectionSlot> slots = schedule_tasks(tasks, site.cranes, site.lifting_day);
  const std::size_t days = days_of(slots);
  if (days > kMostDays) {
    return {finding.not_assessed(
                "the programme takes more than ten years: check the times of a lift, the hours and the cranes"),
            {},
            {}};
  }
  const std::vector<std::string> dates = working_dates(calendar, days);
  const ScheduledPanels scheduled{project, sequence.panels, tasks, slots, dates, loads};
  SiteDays site_plan = site_days(scheduled, calendar, site.lead_days.value_or(0));
  add_steps(finding, tasks, site, site_plan, dates);
  finding.table(crane_table(tasks, site, calendar))
      .table(site_day_table(site_plan, site.people))
      .table(panel_day_table(scheduled))
      .table(storey_table(scheduled))
      .table(face_table(scheduled, calendar, site.sealing_days))
      .table(lift_table(scheduled));
  if (Table waits = dependency_table(scheduled); !waits.rows.empty()) finding.table(std::move(waits));
  finding.bar_chart(storey_chart(scheduled)).bar_chart(crane_chart(scheduled, site.cranes));
  add_notes(finding, sequence, site, calendar, site_plan);
  add_assumptions(finding, project);
  std::optional<double> waiting_m2;
  if (!site_plan.arrivals.empty()) waiting_m2 = site_plan.most_waiting_m2;
  std::vector<std::string> by_panel(project.panels.size());
  for (std::size_t i = 0; i < slots.size(); ++i) by_panel[sequence.panels[i]] = dates[slots[i].day];
  return {finding.inform(static_cast<double>(days), "working days"),
          {std::move(by_panel), std::move(site_plan.arrivals)},
          waiting_m2};
}

const CheckDeclaration kSiteStorageCheck{
    .id = "quantities.site_storage",
    .title = "Panels waiting on site against what it can store",
    .project_title = {},
    .sentence =
        "The largest gross area of panels that wait on site in an evening by the programme and its deliveries is at "
        "most the area that the site can store.",
    .clause = "Area of panels on site by day (common practice)",
    .units = {"m²"},
    .kind = CheckKind::limit,
    .scope = CheckScope::project,
    .inputs = programme_inputs({setting("quantities.site_storage_m2")}),
    .limits = {"Whether the ground bears the racks, and wind on panels that stand.",
               "What waits during a day, before its panels are erected."},
    .role = {},
    .for_workshop = true};

bool storage_limited(const Settings& settings) {
  return settings.all().count("quantities.site_storage_m2") > 0;
}

Finding site_storage(const Programme& programme, const Settings& settings) {
  FindingBuilder finding(kSiteStorageCheck, "");
  finding.decimals(0);
  const auto limit = finding.positive("gross area of panels that the site can store", "A_s", "m²",
                                      settings.number("quantities.site_storage_m2"),
                                      "setting 'quantities.site_storage_m2' is not above 0");
  if (!programme.most_waiting_m2) {
    finding.missing("what waits on site is not known: see " + kProgrammeCheck.id + " and quantities.deliveries");
  }
  if (finding.incomplete()) return finding.not_assessed();
  finding.step("largest gross area of panels waiting in an evening, see " + kProgrammeCheck.id, "A_w",
               *programme.most_waiting_m2, "m²");
  return finding.judge(*programme.most_waiting_m2, "m²", Relation::at_most, *limit,
                       "more panels wait on site than it can store: bring loads later "
                       "(quantities.transport.lead_working_days), find more room, or use more cranes");
}

}  // namespace panel_dossier::quantities
