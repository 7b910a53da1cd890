#include "plugins/quantities/programme_report.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "core/api/exact_sum.h"

namespace panel_dossier::quantities {

namespace {

/// More bars than these make a chart that no page holds; the table has them all.
constexpr std::size_t kMostDaysDrawn = 40;

/// Building and storey; the storey's place in the project brings the lowest first.
using StoreyKey = std::pair<std::string, std::size_t>;

StoreyKey key_of(const ScheduledPanels& scheduled, std::size_t slot) {
  const Panel& panel = scheduled.project.panels[scheduled.panels[slot]];
  return {panel.building, panel.storey.value_or(scheduled.project.storeys.size())};
}

std::string name_of(const ScheduledPanels& scheduled, const StoreyKey& key) {
  const Project& project = scheduled.project;
  const std::string storey = key.second < project.storeys.size() ? project.storeys[key.second].name : "no storey";
  return project.buildings.size() > 1 ? key.first + ", " + storey : storey;
}

std::map<StoreyKey, std::size_t> numbered_storeys(const ScheduledPanels& scheduled) {
  std::map<StoreyKey, std::size_t> numbers;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) numbers.emplace(key_of(scheduled, i), 0);
  std::size_t next = 0;
  for (auto& [key, number] : numbers) number = next++;
  return numbers;
}

std::vector<std::string> names_of(const ScheduledPanels& scheduled, const std::map<StoreyKey, std::size_t>& storeys) {
  std::vector<std::string> names;
  names.reserve(storeys.size());
  for (const auto& [key, number] : storeys) names.push_back(name_of(scheduled, key));
  return names;
}

struct Day {
  std::set<StoreyKey> storeys;
  std::string marks;
  int panels = 0;
  MicroHours time = 0;
  ExactSum area_m2;
};

}  // namespace

Table day_table(const ScheduledPanels& scheduled) {
  std::map<std::size_t, Day> days;
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const Panel& panel = scheduled.project.panels[scheduled.panels[i]];
    Day& day = days[scheduled.slots[i].day];
    day.storeys.insert(key_of(scheduled, i));
    day.marks += (day.marks.empty() ? "" : ", ") + panel.mark;
    ++day.panels;
    day.time += scheduled.slots[i].end - scheduled.slots[i].start;
    day.area_m2.add(panel.gross_area_m2());
  }
  Table table{"By working day",
              {{"day", ""},
               {"date", ""},
               {"panels", ""},
               {"crane hours", "h"},
               {"gross area", "m²"},
               {"storeys", ""},
               {"panels in order", ""}},
              {}};
  for (const auto& [number, day] : days) {
    std::string storeys;
    for (const StoreyKey& key : day.storeys) storeys += (storeys.empty() ? "" : ", ") + name_of(scheduled, key);
    table.rows.push_back({static_cast<double>(number + 1), scheduled.dates[number], static_cast<double>(day.panels),
                          hours(day.time), day.area_m2.total(), storeys, day.marks});
  }
  return table;
}

BarChart storey_chart(const ScheduledPanels& scheduled) {
  const std::map<StoreyKey, std::size_t> storeys = numbered_storeys(scheduled);
  BarChart chart{"Programme by storey", "working days from the start", "", {"panels are erected"}, {}};
  for (const std::string& name : names_of(scheduled, storeys)) chart.bars.push_back({name, {}});
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    std::vector<BarPiece>& pieces = chart.bars[storeys.at(key_of(scheduled, i))].pieces;
    const auto day = static_cast<double>(scheduled.slots[i].day);
    if (pieces.empty() || pieces.back().to < day) pieces.push_back({0, day, day + 1.0});
    pieces.back().to = day + 1.0;
  }
  return chart;
}

BarChart day_chart(const ScheduledPanels& scheduled) {
  const std::map<StoreyKey, std::size_t> storeys = numbered_storeys(scheduled);
  BarChart chart{"Crane hours by working day", "crane hours", "h", names_of(scheduled, storeys), {}};
  const std::size_t all = days_of(scheduled.slots);
  const std::size_t drawn = std::min(all, kMostDaysDrawn);
  if (drawn < all) chart.title += ", the first " + std::to_string(drawn) + " of " + std::to_string(all);
  std::vector<std::vector<MicroHours>> times(drawn, std::vector<MicroHours>(storeys.size(), 0));
  for (std::size_t i = 0; i < scheduled.slots.size(); ++i) {
    const ErectionSlot& slot = scheduled.slots[i];
    if (slot.day < drawn) times[slot.day][storeys.at(key_of(scheduled, i))] += slot.end - slot.start;
  }
  for (std::size_t day = 0; day < drawn; ++day) {
    std::vector<double> values;
    for (const MicroHours time : times[day]) values.push_back(hours(time));
    chart.bars.push_back(stacked_bar(scheduled.dates[day], values));
  }
  return chart;
}

}  // namespace panel_dossier::quantities
