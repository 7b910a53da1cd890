#include "core/dossier/parts/panel/panel_records.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/dossier/parts/panel/panel_facts.h"

namespace panel_dossier {

namespace {

/// What is stated of the panel and does not stand on its first page.
bool is_record(std::string_view name) {
  constexpr std::array<std::string_view, 6> kSets{"Panel_",           "Pset_Manufacturer", "Pset_Warranty",
                                                  "Pset_ServiceLife", "Pset_Maintenance",  "Pset_Condition"};
  constexpr std::array<std::string_view, 19> kOnFirstPage{"Panel_Air.PermeabilityQ50",
                                                          "Panel_Air.DocumentId",
                                                          "Panel_Identity.Mark",
                                                          "Panel_Identity.Batch",
                                                          "Panel_Inspection.Result",
                                                          "Panel_Inspection.Date",
                                                          "Panel_Inspection.Inspector",
                                                          "Panel_Install.Team",
                                                          "Pset_Warranty.WarrantyContent",
                                                          "Panel_Install.Result",
                                                          "Panel_Install.Date",
                                                          "Pset_ManufacturerOccurrence.SerialNumber",
                                                          "Pset_ManufacturerTypeInformation.Manufacturer",
                                                          "Pset_ManufacturerTypeInformation.ProductionYear",
                                                          "Pset_Warranty.WarrantyPeriod",
                                                          "Pset_ManufacturerOccurrence.BatchReference",
                                                          "Pset_Warranty.WarrantyEndDate",
                                                          "Pset_Warranty.PointOfContact",
                                                          "Pset_Warranty.WarrantyStartDate"};
  const auto in_set = [name](std::string_view set) { return name.starts_with(set); };
  return std::any_of(kSets.begin(), kSets.end(), in_set) &&
         std::find(kOnFirstPage.begin(), kOnFirstPage.end(), name) == kOnFirstPage.end();
}

std::string neighbours_in_words(const Book& book, const PanelNeighbours& neighbours) {
  const auto mark = [&book](const std::optional<std::size_t>& panel) {
    return panel ? book.results().panels[*panel].mark : std::string("none");
  };
  return "in the same plane, seen from inside: left " + mark(neighbours.left) + ", right " + mark(neighbours.right) +
         ", above " + mark(neighbours.above) + ", below " + mark(neighbours.below);
}

/// The line of the export, or the row of a table beside it.
std::string place_text(const Origin& origin) {
  if (origin.kind == OriginKind::input_table) return origin.table + ", row " + origin.row;
  return origin.line == 0 ? "–" : "line " + std::to_string(origin.line);
}

/// `Panel_AsBuilt` as `as built`.
std::string set_in_words(std::string_view set) {
  for (const std::string_view prefix : {"Panel_", "Pset_"}) {
    if (set.starts_with(prefix)) set.remove_prefix(prefix.size());
  }
  std::string words;
  for (const char letter : set) {
    const bool is_capital = letter >= 'A' && letter <= 'Z';
    if (is_capital && !words.empty()) words += ' ';
    words += is_capital ? static_cast<char>(letter - 'A' + 'a') : letter;
  }
  return words;
}

/// `As-built width` of the set `as built` as `width`.
std::string without_set(const std::string& title, const std::string& set) {
  std::string begin = lower_case(title).substr(0, std::min(set.size() + 1, title.size()));
  std::replace(begin.begin(), begin.end(), '-', ' ');
  return begin == set + " " ? title.substr(begin.size()) : title;
}

/// A word of an enumeration, `LOADBEARING`, as people write it; any other text as it is.
std::string enumeration_in_words(std::string text) {
  constexpr std::size_t kShortest = 4;  // `EI` and `OSB` are no words
  const bool is_enumeration =
      text.size() >= kShortest && text.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ_") == std::string::npos;
  if (!is_enumeration) return text;
  std::replace(text.begin(), text.end(), '_', ' ');
  return lower_case(text);
}

}  // namespace

TableSpec compact(std::vector<ColumnSpec> columns) {
  TableSpec table;
  table.style = type::kFine;
  table.row_gap = 0.1;
  table.columns = std::move(columns);
  return table;
}

void write_history(Book& book, const Panel& panel) {
  if (panel.records.empty()) return;
  TableSpec table = compact({{"day"}, {"record"}, {"what"}, {"by"}, {"row"}});
  for (const PanelRecord& record : panel.records) {
    std::string name = record.table;
    std::replace(name.begin(), name.end(), '_', ' ');
    table.rows.push_back({record.day, name, record.what, record.by, place_text(record.origin)});
  }
  book.flow.heading("Records of workshop and site", type::kSubheading, 30.0);
  set_table(book.flow, std::move(table));
}

void write_records(Book& book, const Panel& panel, const PanelNeighbours& neighbours, const std::string& hash) {
  std::map<std::string, std::vector<std::string>> stated;
  for (const auto& [name, property] : panel.properties.all()) {
    if (!is_record(name)) continue;
    const std::string set = set_in_words(std::string_view(name).substr(0, name.find('.')));
    const std::string text = property_text(property);
    stated[set].push_back(without_set(book.title_of_property(name), set) + " " +
                          (name.starts_with("Panel_") ? enumeration_in_words(text) : text));
  }
  TableSpec table = compact({{"about"}, {"what the export states, and what stands beside"}});
  for (const auto& [set, values] : stated) table.rows.push_back({set, joined(values, "; ")});
  table.rows.push_back({"neighbours", neighbours_in_words(book, neighbours)});
  table.rows.push_back({"proof", "GlobalId " + panel.global_id + "; hash in the tree " + hash});
  set_table(book.flow, std::move(table));
  if (stated.empty()) {
    book.flow.paragraph("The export carries no as-built, fire, installation or warranty record for this panel.",
                        type::kNote);
  }
}

}  // namespace panel_dossier
