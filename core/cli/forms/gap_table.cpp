#include "core/cli/forms/gap_table.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

/// What a library keeps of an entity; empty where it keeps nothing of it.
std::string library_table_of(const std::string& entity) {
  constexpr std::array kTables{std::pair<std::string_view, std::string_view>{"material", "materials"},
                               std::pair<std::string_view, std::string_view>{"filling", "windows"},
                               std::pair<std::string_view, std::string_view>{"part", "fixings"},
                               std::pair<std::string_view, std::string_view>{"panel", "panels"}};
  for (const auto& [of, table] : kTables) {
    if (of == entity) return std::string(table);
  }
  return {};
}

std::string record_table_of(const std::string& property, const std::vector<RecordTable>& records) {
  for (const RecordTable& table : records) {
    for (const RecordColumn& column : table.columns) {
      if (column.property == property) return table.name;
    }
  }
  return {};
}

/// `Thermal conductivity [W/(m·K)] of 11 materials`, `setting project.use`.
std::string what_is_missing(const Gap& gap) {
  if (gap.source == Gap::Source::setting) return "setting " + gap.name;
  const PropertyRow& row = *gap.property;
  std::string text = row.title.empty() ? gap.name : row.title;
  if (!row.unit.empty()) text += " [" + row.unit + "]";
  if (gap.subjects.empty()) return text + " of the " + row.on;
  if (gap.subjects.size() == 1) return text + " of '" + *gap.subjects.begin() + "'";
  return text + " of " + counted(gap.subjects.size(), row.on, entities_with(row).front() + "s");
}

std::string waiting(const Gap& gap) {
  return gap.panels.empty() ? "the project" : counted(gap.panels.size(), "panel", "panels");
}

/// Fills up to a width in characters, and leaves a space behind what is wider; continuation bytes of UTF-8 take no
/// place.
std::string padded(std::string text, std::size_t width) {
  const auto shown = static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
  text.append(shown < width ? width - shown : 1, ' ');
  return text;
}

std::string state_line(const DisciplineState& state) {
  if (state.open == 0) return state.id + ": nothing is missing\n";
  std::string text = state.id + ": " + std::to_string(state.open) + " of " +
                     counted(state.findings, "finding", "findings") + (state.open == 1 ? " waits" : " wait") +
                     " for data or documents";
  if (state.figures == 0) text += "; it has no figure yet";
  return text + "\n";
}

}  // namespace

std::string place_of_gap(const Gap& gap, const std::vector<RecordTable>& records) {
  if (gap.source == Gap::Source::setting) return "settings.json";
  if (const std::string table = record_table_of(gap.name, records); !table.empty()) return "records: " + table;
  for (const std::string& entity : entities_with(*gap.property)) {
    if (const std::string table = library_table_of(entity); !table.empty()) return "library: " + table;
  }
  return "the export (" + gap.name + ")";
}

std::string gap_table(const std::vector<Gap>& gaps, const std::vector<DisciplineState>& states,
                      const std::vector<RecordTable>& records) {
  constexpr std::size_t kWaitingWidth = 14;
  constexpr std::size_t kPlaceWidth = 28;
  std::string text;
  for (const DisciplineState& state : states) {
    text += state_line(state);
    std::vector<const Gap*> missed;
    for (const Gap& gap : gaps) {
      if (gap.disciplines.contains(state.id)) missed.push_back(&gap);
    }
    std::stable_sort(missed.begin(), missed.end(),
                     [](const Gap* a, const Gap* b) { return a->panels.size() > b->panels.size(); });
    for (const Gap* gap : missed) {
      text += "  " + padded(waiting(*gap), kWaitingWidth) + padded(place_of_gap(*gap, records), kPlaceWidth) +
              what_is_missing(*gap) + "\n";
    }
  }
  return text;
}

}  // namespace panel_dossier
