#include "plugins/quantities/programme/programme_days.h"

#include <algorithm>
#include <iterator>

namespace panel_dossier::quantities {

namespace {

/// By load, the working day of its first panel.
std::vector<std::size_t> first_days(const ScheduledPanels& scheduled) {
  std::vector<std::size_t> first;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const std::size_t load = scheduled.loads[scheduled.panels[i]];
    first.resize(std::max(first.size(), load + 1), days_of(scheduled.slots));
    first[load] = std::min(first[load], scheduled.slots[i].day);
  }
  return first;
}

/// What arrives and what is erected on each day; `shift` working days lie before the first panel.
std::vector<ExactSum> area_moved(const ScheduledPanels& scheduled, const std::vector<std::size_t>& first,
                                 std::size_t lead, std::vector<SiteDay>& days, std::vector<std::size_t>& arriving) {
  std::vector<ExactSum> moved(days.size());
  arriving.assign(days.size(), 0);
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const std::size_t index = scheduled.panels[i];
    const double area_m2 = scheduled.project.panels[index].gross_area_m2();
    const ErectionSlot& slot = scheduled.slots[i];
    SiteDay& erected = days[slot.day + lead];
    ++erected.panels;
    erected.lifting += slot.end - slot.start;
    erected.area_m2.add(area_m2);
    moved[slot.day + lead].add(-area_m2);
    if (first.empty()) continue;
    const std::size_t arrival = first[scheduled.loads[index]];
    ++arriving[arrival];
    moved[arrival].add(area_m2);
  }
  return moved;
}

std::string numbers_of(const std::vector<std::size_t>& loads) {
  std::string text;
  for (const std::size_t load : loads) text += (text.empty() ? "" : ", ") + std::to_string(load + 1);
  return text;
}

}  // namespace

SiteDays site_days(const ScheduledPanels& scheduled, const WorkCalendar& calendar, std::size_t lead) {
  const std::vector<std::size_t> first = scheduled.loads.empty() ? std::vector<std::size_t>{} : first_days(scheduled);
  const std::size_t before = first.empty() ? 0 : lead;
  SiteDays site;
  for (const std::string& date : working_dates_before(calendar, before))
    site.days.push_back({date, {}, 0, 0, {}, 0, 0.0});
  for (const std::string& date : scheduled.dates) site.days.push_back({date, {}, 0, 0, {}, 0, 0.0});
  // A load's first panel lies `before` days further on in `days` than in the programme, so it arrives at its index.
  for (std::size_t load = 0; load < first.size(); ++load) {
    site.days[first[load]].loads.push_back(load);
    site.arrivals.push_back(site.days[first[load]].date);
  }
  std::vector<std::size_t> arriving;
  const std::vector<ExactSum> moved = area_moved(scheduled, first, before, site.days, arriving);
  if (first.empty()) return site;
  std::size_t waiting = 0;
  ExactSum waiting_m2;
  for (std::size_t day = 0; day < site.days.size(); ++day) {
    waiting += arriving[day];
    waiting -= site.days[day].panels;
    waiting_m2.add(moved[day].total());
    site.days[day].waiting = waiting;
    site.days[day].waiting_m2 = waiting_m2.total();
    site.most_waiting = std::max(site.most_waiting, waiting);
    site.most_waiting_m2 = std::max(site.most_waiting_m2, waiting_m2.total());
  }
  return site;
}

Table site_day_table(const SiteDays& site, double people) {
  Table table{"By working day",
              {{"date", ""},
               {"loads arriving", ""},
               {"panels erected", ""},
               {"gross area", "m²"},
               {"crane hours", "h"},
               {"crew hours", "person·h"},
               {"panels waiting in the evening", ""},
               {"their gross area", "m²"}},
              {}};
  const bool loads_known = !site.arrivals.empty();
  for (const SiteDay& day : site.days) {
    std::vector<Value> row{day.date,
                           Value{},
                           static_cast<double>(day.panels),
                           day.area_m2.total(),
                           hours(day.lifting),
                           people * hours(day.lifting),
                           Value{},
                           Value{}};
    if (loads_known) {
      row[1] = numbers_of(day.loads);
      row[6] = static_cast<double>(day.waiting);
      row[7] = day.waiting_m2;
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace panel_dossier::quantities
