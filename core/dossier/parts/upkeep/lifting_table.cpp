#include "core/dossier/parts/upkeep/lifting_table.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

std::optional<double> number_in(const RecordedFinding* finding) {
  const auto* number = finding == nullptr ? nullptr : std::get_if<double>(&finding->value);
  return number == nullptr ? std::nullopt : std::optional<double>(*number);
}

std::optional<double> named_number(const RecordedFinding* finding, std::string_view id, std::string_view unit) {
  if (finding == nullptr) return std::nullopt;
  for (const NamedValue& value : finding->derivation->values) {
    const auto* number = value.id == id && value.unit == unit ? std::get_if<double>(&value.value) : nullptr;
    if (number != nullptr) return *number;
  }
  return std::nullopt;
}

Cell number_cell(const std::optional<double>& number, int decimals) {
  return number ? Cell(format_fixed(*number, decimals)) : Cell("–");
}

/// The number of the finding led by the mark of its verdict, so that a row of figures is not read as a permission.
Cell judged_cell(const RecordedFinding* finding, int decimals) {
  if (finding == nullptr) return "–";
  Cell cell = number_cell(number_in(finding), decimals);
  cell.mark = finding->verdict;
  return cell;
}

Cell limit_cell(const RecordedFinding* finding, int decimals) {
  const auto* limit = finding == nullptr ? nullptr : std::get_if<double>(&finding->limit);
  return limit == nullptr ? Cell("–") : Cell(format_fixed(*limit, decimals));
}

/// The share of the limit that is used, or in words how the panel is turned.
Cell turning_cell(const RecordedFinding* finding) {
  if (finding == nullptr) return "–";
  const auto* words = std::get_if<std::string>(&finding->value);
  Cell cell = words != nullptr ? Cell(*words) : number_cell(finding->utilisation, 2);
  cell.mark = finding->verdict;
  return cell;
}

std::size_t column_of(const Table& table, std::string_view name) {
  const auto found = std::find_if(table.columns.begin(), table.columns.end(),
                                  [name](const Column& column) { return column.name == name; });
  return static_cast<std::size_t>(found - table.columns.begin());
}

/// Number of the vehicle's load by GlobalId of the panel; empty where no check says.
std::map<std::string, std::string> load_numbers(const ResultsDocument& results) {
  std::map<std::string, std::string> loads;
  const RecordedFinding* deliveries = finding_of_role(results.build, results.project_findings, role::kDeliveries);
  if (deliveries == nullptr) return loads;
  for (const Table& table : deliveries->derivation->tables) {
    if (table.id != "panels_by_load") continue;
    const std::size_t load = column_of(table, "load");
    const std::size_t panel = column_of(table, "global id");
    if (load == table.columns.size() || panel == table.columns.size()) continue;
    for (const std::vector<Value>& row : table.rows) {
      const auto* number = std::get_if<double>(&row[load]);
      const auto* id = std::get_if<std::string>(&row[panel]);
      if (number != nullptr && id != nullptr) loads[*id] = format_fixed(*number, 0);
    }
  }
  return loads;
}

/// What the findings of the lifting points assume of the wind, in words; empty where none says.
std::string wind_in_words(const ResultsDocument& results) {
  std::set<std::string> speeds;
  for (const PanelSummary& panel : results.panels) {
    const RecordedFinding* lifting = finding_of_role(results.build, panel.findings, role::kLifting);
    if (const auto speed = named_number(lifting, "stop_wind", "m/s")) speeds.insert(format_significant(*speed));
  }
  if (speeds.empty()) return "No wind at which lifting stops is stated: the lift plan sets one.";
  return "Lifting stops at a wind of " + joined({speeds.begin(), speeds.end()}, " or ") +
         " m/s, as the settings state; crane and lift plan may ask for less.";
}

std::vector<Cell> lifting_row(const Book& book, const PanelSummary& panel, const std::string& load) {
  const auto of_role = [&](std::string_view role) {
    return finding_of_role(book.results().build, panel.findings, role);
  };
  const RecordedFinding* centre = of_role(role::kCentreOfGravity);
  const RecordedFinding* hook = of_role(role::kHookLoad);
  const RecordedFinding* lifting = of_role(role::kLifting);
  return {link_cell(panel.mark, panel_anchor(panel.global_id)),
          load.empty() ? Cell("–") : Cell(load),
          number_cell(number_in(of_role(role::kMass)), 1),
          judged_cell(hook, 0),
          number_cell(named_number(hook, "radius", "m"), 1),
          limit_cell(hook, 0),
          number_cell(named_number(lifting, "points", ""), 0),
          judged_cell(lifting, 2),
          limit_cell(lifting, 2),
          turning_cell(of_role(role::kTurningUp)),
          coordinate_cell(centre, "from_left_edge"),
          coordinate_cell(centre, "from_inner_face"),
          coordinate_cell(centre, "from_foot")};
}

}  // namespace

Cell coordinate_cell(const RecordedFinding* centre, std::string_view id) {
  return number_cell(named_number(centre, id, "m"), 3);
}

void write_lifting_table(Book& book) {
  Flow& flow = book.flow;
  const ResultsDocument& results = book.results();
  flow.heading("Lifting table");
  flow.paragraph(
      "The heaviest first. Masses are calculated from the model, without props and water taken up; on the hook with "
      "block, beam and slings. Weigh or add a margin as the lift plan demands. A mark leads what is judged; a dash: "
      "the "
      "figure is not known, and the page of the panel tells why.");
  flow.paragraph(
      "Centre of gravity in metres, the panel standing and seen from inside: x from its left edge, y from its inner "
      "face, z from its foot. Turning up: the share of the studs' strength that is used. " +
      wind_in_words(results));
  std::vector<std::pair<double, const PanelSummary*>> panels;
  for (const PanelSummary& panel : results.panels) {
    constexpr double kUnknown = -1.0;  // after all masses
    const auto mass = number_in(finding_of_role(results.build, panel.findings, role::kMass));
    panels.emplace_back(mass.value_or(kUnknown), &panel);
  }
  if (panels.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  std::stable_sort(panels.begin(), panels.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"panel"},        {"load", true},     {"mass kg", true},
                   {"on hook kg"},   {"radius m", true}, {"crane lifts kg", true},
                   {"points", true}, {"pull kN"},        {"point bears kN", true},
                   {"turning up"},   {"x m", true},      {"y m", true},
                   {"z m", true}};
  const std::map<std::string, std::string> loads = load_numbers(results);
  for (const auto& [mass, panel] : panels) {
    const auto load = loads.find(panel->global_id);
    table.rows.push_back(lifting_row(book, *panel, load == loads.end() ? std::string() : load->second));
  }
  set_table(flow, std::move(table));
}

}  // namespace panel_dossier
