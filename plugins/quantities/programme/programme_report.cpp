#include "plugins/quantities/programme/programme_report.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

namespace {

/// More bars or rows than these fill pages that nobody reads.
constexpr std::size_t kMostBars = 40;
constexpr std::size_t kMostDependencies = 40;

/// Building and storey; the storey's place in the project brings the lowest first.
using StoreyKey = std::pair<std::string, std::size_t>;

const Panel& panel_of(const ScheduledPanels& scheduled, std::size_t slot) {
  return scheduled.project.panels[scheduled.panels[slot]];
}

StoreyKey key_of(const ScheduledPanels& scheduled, std::size_t slot) {
  const Panel& panel = panel_of(scheduled, slot);
  return {panel.building, panel.storey.value_or(scheduled.project.storeys.size())};
}

std::string name_of(const ScheduledPanels& scheduled, const StoreyKey& key) {
  const Project& project = scheduled.project;
  const std::string storey = storey_name(project, key.second);
  return project.buildings.size() > 1 ? key.first + ", " + storey : storey;
}

struct StoreyDays {
  std::size_t first = 0;
  std::size_t last = 0;
  std::vector<bool> worked;  ///< by day from the start
  double panels = 0.0;
  MicroHours time = 0;
  ExactSum area_m2;
  std::size_t bearing_last = 0;  ///< day of its last load-bearing panel
  bool bears = false;
};

std::map<StoreyKey, StoreyDays> storey_days(const ScheduledPanels& scheduled) {
  std::map<StoreyKey, StoreyDays> storeys;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const ErectionSlot& slot = scheduled.slots[i];
    StoreyDays& days = storeys[key_of(scheduled, i)];
    // Slots come in the order of their start.
    if (days.worked.empty()) days.first = slot.day;
    days.last = slot.day;
    days.worked.resize(slot.day + 1, false);
    days.worked[slot.day] = true;
    days.panels += 1.0;
    days.time += slot.end - slot.start;
    days.area_m2.add(panel_of(scheduled, i).gross_area_m2());
    if (!scheduled.tasks[i].bearing) continue;
    days.bears = true;
    days.bearing_last = slot.day;
  }
  return storeys;
}

/// The day on which the last load-bearing panel of the storeys below is up.
std::string bearing_below(const ScheduledPanels& scheduled, const std::map<StoreyKey, StoreyDays>& storeys,
                          const StoreyKey& key) {
  const StoreyDays* latest = nullptr;
  for (const auto& [other, days] : storeys) {
    const bool below = other.first == key.first && other.second < key.second;
    if (below && days.bears && (latest == nullptr || days.bearing_last > latest->bearing_last)) latest = &days;
  }
  return latest == nullptr ? "no panels" : scheduled.dates[latest->bearing_last];
}

struct Day {
  std::set<StoreyKey> storeys;
  std::set<std::size_t> loads;
  std::string marks;
};

void append(std::string& list, const std::string& text) {
  list += (list.empty() ? "" : ", ") + text;
}

}  // namespace

Table panel_day_table(const ScheduledPanels& scheduled) {
  std::map<std::size_t, Day> days;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    Day& day = days[scheduled.slots[i].day];
    day.storeys.insert(key_of(scheduled, i));
    if (!scheduled.loads.empty()) day.loads.insert(scheduled.loads[scheduled.panels[i]]);
    append(day.marks, panel_of(scheduled, i).mark);
  }
  Table table{"Panels by working day",
              {{"day", ""}, {"date", ""}, {"storeys", ""}, {"from loads", ""}, {"panels in order", ""}},
              {}};
  for (const auto& [number, day] : days) {
    std::string storeys;
    for (const StoreyKey& key : day.storeys) append(storeys, name_of(scheduled, key));
    std::string loads;
    for (const std::size_t load : day.loads) append(loads, std::to_string(load + 1));
    table.rows.push_back({static_cast<double>(number + 1), scheduled.dates[number], storeys, loads, day.marks});
  }
  return table;
}

Table storey_table(const ScheduledPanels& scheduled) {
  Table table{"By storey",
              {{"storey", ""},
               {"panels", ""},
               {"gross area", "m²"},
               {"crane hours", "h"},
               {"load-bearing below up on", ""},
               {"first day", ""},
               {"last day", ""}},
              {}};
  const std::map<StoreyKey, StoreyDays> storeys = storey_days(scheduled);
  for (const auto& [key, days] : storeys) {
    table.rows.push_back({name_of(scheduled, key), days.panels, days.area_m2.total(), hours(days.time),
                          bearing_below(scheduled, storeys, key), scheduled.dates[days.first],
                          scheduled.dates[days.last]});
  }
  return table;
}

namespace {

/// Storey first, so that rows go up the building face by face.
using FaceKey = std::pair<StoreyKey, std::string>;

struct FaceDays {
  double panels = 0.0;
  ExactSum area_m2;
  std::size_t last = 0;  ///< day
};

std::string face_of(const Panel& panel) {
  const auto elevation = panel.properties.text("Panel_Identity", "Elevation");
  return elevation && !elevation->value.empty() ? elevation->value : "not stated";
}

}  // namespace

Table face_table(const ScheduledPanels& scheduled, const WorkCalendar& calendar,
                 std::optional<std::size_t> sealing_days) {
  std::map<FaceKey, FaceDays> faces;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const Panel& panel = panel_of(scheduled, i);
    FaceDays& days = faces[{key_of(scheduled, i), face_of(panel)}];
    days.panels += 1.0;
    days.area_m2.add(panel.gross_area_m2());
    days.last = std::max(days.last, scheduled.slots[i].day);
  }
  Table table{"Faces by storey",
              {{"storey", ""}, {"face", ""}, {"panels", ""}, {"gross area", "m²"}, {"last panel up on", ""}},
              {}};
  std::vector<std::string> dates = scheduled.dates;
  if (sealing_days) {
    table.columns.push_back({"joints sealed by", ""});
    dates = working_dates(calendar, scheduled.dates.size() + *sealing_days);
  }
  for (const auto& [key, days] : faces) {
    std::vector<Value> row{name_of(scheduled, key.first), key.second, days.panels, days.area_m2.total(),
                           dates[days.last]};
    if (sealing_days) row.emplace_back(dates[days.last + *sealing_days]);
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table lift_table(const ScheduledPanels& scheduled) {
  Table table{"Lifts, hours from the beginning of the day's lifting",
              {{"date", ""}, {"crane", ""}, {"from", "h"}, {"to", "h"}, {"panel", ""}, {"from load", ""}},
              {}};
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const ErectionSlot& slot = scheduled.slots[i];
    Value load;
    if (!scheduled.loads.empty()) load = static_cast<double>(scheduled.loads[scheduled.panels[i]] + 1);
    table.rows.push_back({scheduled.dates[slot.day], static_cast<double>(slot.crane + 1), hours(slot.start),
                          hours(slot.end), panel_of(scheduled, i).mark, load});
  }
  return table;
}

Table dependency_table(const ScheduledPanels& scheduled) {
  Table table{"Panels that wait for others by Panel_Identity.After",
              {{"panel", ""}, {"after", ""}, {"the last of these is up on", ""}, {"begins on", ""}},
              {}};
  std::size_t waiting = 0;
  for (std::size_t i = 0; i < scheduled.tasks.size(); ++i) {
    const std::vector<std::size_t>& after = scheduled.tasks[i].after;
    if (after.empty() || ++waiting > kMostDependencies) continue;
    std::string marks;
    std::size_t up = 0;
    for (const std::size_t before : after) {
      append(marks, panel_of(scheduled, before).mark);
      up = std::max(up, scheduled.slots[before].day);
    }
    table.rows.push_back(
        {panel_of(scheduled, i).mark, marks, scheduled.dates[up], scheduled.dates[scheduled.slots[i].day]});
  }
  if (waiting > kMostDependencies) {
    table.title += ", the first " + std::to_string(kMostDependencies) + " of " + std::to_string(waiting);
  }
  return table;
}

BarChart storey_chart(const ScheduledPanels& scheduled) {
  BarChart chart{"Programme by storey", "working days from the start", "", {"panels are erected"}, {}};
  for (const auto& [key, days] : storey_days(scheduled)) {
    panel_dossier::Bar bar{name_of(scheduled, key), {}};
    for (std::size_t day = days.first; day <= days.last; ++day) {
      if (!days.worked[day]) continue;
      const auto from = static_cast<double>(day);
      if (bar.pieces.empty() || bar.pieces.back().to < from) bar.pieces.push_back({0, from, from});
      bar.pieces.back().to = from + 1.0;
    }
    chart.bars.push_back(std::move(bar));
  }
  return chart;
}

BarChart crane_chart(const ScheduledPanels& scheduled, std::size_t cranes) {
  const std::size_t days = days_of(scheduled.slots);
  const std::size_t drawn = std::clamp<std::size_t>(kMostBars / cranes, 1, days);
  BarChart chart{"Cranes by working day, each panel by its load", "hours of lifting in the day", "h", {}, {}};
  if (drawn < days) chart.title += ", the first " + std::to_string(drawn) + " days of " + std::to_string(days);
  for (std::size_t day = 0; day < drawn; ++day) {
    for (std::size_t crane = 0; crane < cranes; ++crane) {
      const std::string of_crane = cranes > 1 ? ", crane " + std::to_string(crane + 1) : "";
      chart.bars.push_back({scheduled.dates[day] + of_crane, {}});
    }
  }
  std::size_t parts = 1;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const ErectionSlot& slot = scheduled.slots[i];
    if (slot.day >= drawn) break;
    const std::size_t load = scheduled.loads.empty() ? 0 : scheduled.loads[scheduled.panels[i]];
    parts = std::max(parts, load + 1);
    chart.bars[slot.day * cranes + slot.crane].pieces.push_back({load, hours(slot.start), hours(slot.end)});
  }
  for (std::size_t part = 0; part < parts; ++part) {
    chart.parts.push_back(scheduled.loads.empty() ? "panels" : "load " + std::to_string(part + 1));
  }
  return chart;
}

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
