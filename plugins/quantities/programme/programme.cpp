#include "plugins/quantities/programme/programme.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/programme/programme_calendar.h"
#include "plugins/quantities/programme/programme_days.h"
#include "plugins/quantities/programme/programme_report.h"
#include "plugins/quantities/programme/programme_schedule.h"
#include "plugins/quantities/programme/programme_site.h"

namespace panel_dossier::quantities {

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
                      " h, more than a day of lifting: check the rate and the hours of a day");
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
      .step("hours of lifting in a day", "d", hours(site.lifting_day), "h", "the shorter of crew's and crane's day")
      .step("labour while panels are lifted", "", site.people * hours(total), "person·h", "people of a crew · Σt")
      .step("working days that no programme can save", "N_min", fewest, "", "N_min = Σt / (n_c·d), rounded up")
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
      "Stops for wind, weather, deliveries and inspections are not in it. The lifting plan and the sequence of "
      "temporary stability are the appointed person's and the engineer's.");
}

}  // namespace

Programme plan_programme(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                         const ErectionSequence& sequence, const std::vector<std::size_t>& loads) {
  FindingBuilder finding("quantities.programme", "Programme of erection", "",
                         "List scheduling in the order of erection (common practice); dates by ISO 8601-1:2019");
  finding.decimals(0);
  const Site site = read_site(finding, settings);
  const WorkCalendar calendar = read_calendar(finding, settings);
  for (const std::string& problem : sequence.problems) finding.missing(problem);
  const PanelValues times = panel_values(panels, "quantities.erection_time");
  if (!times.whole() && !project.panels.empty()) {
    finding.missing(times.what_is_missing("quantities.erection_time"));
  }
  if (finding.incomplete()) return {finding.not_assessed(), {}};
  const std::vector<ErectionTask> tasks = tasks_of(finding, project, times, sequence, site);
  if (finding.incomplete()) return {finding.not_assessed(), {}};
  const std::vector<ErectionSlot> slots = schedule_tasks(tasks, site.cranes, site.lifting_day);
  const std::size_t days = days_of(slots);
  if (days > kMostDays) {
    return {finding.not_assessed("the programme takes more than ten years: check the rate, the hours and the cranes"),
            {}};
  }
  const std::vector<std::string> dates = working_dates(calendar, days);
  const ScheduledPanels scheduled{project, sequence.panels, tasks, slots, dates, loads};
  SiteDays site_plan = site_days(scheduled, calendar, site.lead_days.value_or(0));
  add_steps(finding, tasks, site, site_plan, dates);
  finding.table(crane_table(tasks, site, calendar))
      .table(site_day_table(site_plan, site.people))
      .table(panel_day_table(scheduled))
      .table(storey_table(scheduled));
  if (Table waits = dependency_table(scheduled); !waits.rows.empty()) finding.table(std::move(waits));
  finding.bar_chart(storey_chart(scheduled)).bar_chart(crane_chart(scheduled, site.cranes));
  add_notes(finding, sequence, site, calendar, site_plan);
  add_assumptions(finding, project);
  std::vector<std::string> by_panel(project.panels.size());
  for (std::size_t i = 0; i < slots.size(); ++i) by_panel[sequence.panels[i]] = dates[slots[i].day];
  return {finding.inform(static_cast<double>(days), "working days"),
          {std::move(by_panel), std::move(site_plan.arrivals)}};
}

}  // namespace panel_dossier::quantities
