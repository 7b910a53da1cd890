#include "plugins/carbon/core_indicators/core_indicators.h"

#include <algorithm>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/totals/project_sums.h"

namespace panel_dossier::carbon {

namespace {

const std::array<std::vector<Module>, kCoreGroups.size()>& modules_of_groups() {
  static const std::array<std::vector<Module>, kCoreGroups.size()> kModulesOf{
      {{Module::a1_a3}, {kEndOfLife.begin(), kEndOfLife.end()}, {Module::d}}};
  return kModulesOf;
}

/// What a declaration lacks: `ODP, WDP (C1–C4, D)`; empty where it lacks nothing.
class Lacking {
 public:
  void add(const std::string& indicator, const CoreGroups& groups) {
    std::string absent;
    std::size_t count = 0;
    for (std::size_t i = 0; i < groups.size(); ++i) {
      if (groups[i].whole) continue;
      ++count;
      absent += (absent.empty() ? "" : ", ") + std::string(kCoreGroups[i]);
      any_ = any_ || groups[i].any;
    }
    any_ = any_ || count < groups.size();
    if (count == 0) return;
    text_ += (text_.empty() ? "" : ", ") + indicator;
    if (count < groups.size()) text_ += " (" + absent + ")";
  }

  bool everything() const { return !any_; }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
  bool any_ = false;  ///< it declares something
};

/// Mass of all materials; none, and no share of mass, where one has none.
std::optional<double> mass_of(const PanelAmounts& amounts) {
  ExactSum mass;
  for (const MaterialAmount& amount : amounts.materials) {
    if (!amount.mass_kg) return std::nullopt;
    mass.add(*amount.mass_kg);
  }
  return mass.total();
}

void add_material(const PanelAccount& account, std::size_t row, double units,
                  const std::vector<CoreIndicator>& indicators, OpenFinding& finding, std::vector<CoreSum>& sums,
                  std::string& without_any) {
  Lacking lacking;
  const double mass_kg = account.amounts.materials[row].mass_kg.value_or(0.0);
  for (std::size_t i = 0; i < indicators.size(); ++i) {
    const CoreGroups groups = core_groups(account.declared(row), indicators[i], units, finding);
    lacking.add(sums[i].indicator, groups);
    sums[i].add(groups, mass_kg);
  }
  if (lacking.everything()) {
    without_any += (without_any.empty() ? "" : ", ") + account.label(row);
  } else if (!lacking.text().empty()) {
    finding.builder().note("The declaration of '" + account.label(row) + "' lacks " + lacking.text() + ".");
  }
}

}  // namespace

std::vector<CoreIndicator> read_core_indicators(const DataTable& table) {
  std::vector<CoreIndicator> indicators;
  for (const std::string& key : table.keys()) {
    CoreIndicator indicator{{{key}, {table.text(key, "unit").value().value}},
                            table.text(key, "printed_unit").value().value,
                            table.number(key, "per_unit").value().value};
    if (const auto name = table.text(key, "other_name")) indicator.declared.names.push_back(name->value);
    if (const auto unit = table.text(key, "other_unit")) indicator.declared.units.push_back(unit->value);
    indicators.push_back(std::move(indicator));
  }
  return indicators;
}

CoreGroups core_groups(const DeclaredMaterial& declared, const CoreIndicator& indicator, double units,
                       OpenFinding& finding) {
  CoreGroups groups;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    ExactSum sum;
    groups[i].whole = true;
    for (const Module module : modules_of_groups()[i]) {
      const auto figure = figure_in_file(declared, indicator.declared, module, finding);
      groups[i].any = groups[i].any || figure;
      groups[i].whole = groups[i].whole && figure;
      if (figure) sum.add(figure->value * units * indicator.per_unit);
    }
    groups[i].sum = sum.total();
  }
  return groups;
}

namespace {

/// Value of the finding in kg: mass of the materials; absent where one has none.
constexpr const char* kMassValue = "mass";

constexpr const char* kWholeIndicators = "complete indicators";

/// Steps, values and tables that the findings of a panel and of the project have in common.
void add_sums(const std::vector<CoreSum>& sums, double net_m2, std::optional<double> mass_kg, FindingBuilder& builder) {
  builder.step("net wall area", "A", net_m2, "m²");
  if (mass_kg) builder.step("mass of the materials", "m", *mass_kg, "kg").value(kMassValue, *mass_kg, "kg");
  Table whole = core_table(sums, net_m2);
  Table partial = core_partial_table(sums, mass_kg);
  if (!whole.rows.empty()) builder.table(std::move(whole));
  if (!partial.rows.empty()) builder.table(std::move(partial));
}

double count_whole(const std::vector<CoreSum>& sums) {
  double count = 0.0;
  for (const CoreSum& sum : sums) count += sum.whole() ? 1.0 : 0.0;
  return count;
}

std::vector<CheckInput> core_inputs() {
  std::vector<CheckInput> inputs = declared_amount_inputs();
  inputs.push_back(optional_property(std::string(kDeclarationSet) + ".Scenario"));
  inputs.push_back(data_table("core_indicators.csv"));
  return inputs;
}

}  // namespace

const CheckDeclaration kCoreIndicatorsCheck{
    .id = "carbon.core_indicators",
    .title = "Core indicators beside global warming",
    .project_title = "Core indicators beside global warming, all panels",
    .sentence =
        "Each of the nine core indicators beside global warming is the sum over all materials of the amount "
        "built in times what its file declares for A1–A3, C1–C4 and D, whole where every material declares "
        "each of these modules; the value counts the indicators that are whole.",
    .clause = "EN 15804:2012+A2:2019, table 3",
    .units = {kWholeIndicators},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(core_inputs()),
    .limits = {"A4, A5 and B, for which the project's own figures are of global warming alone.",
               "Indicators of materials whose declaration is no file that is read.",
               "The factors of characterisation behind the figures: only the name of the unit is compared."}};

Finding check_core_indicators(const PanelAccount& account) {
  OpenFinding finding = account.open(kCoreIndicatorsCheck);
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(0);
  const std::vector<CoreIndicator> indicators = read_core_indicators(account.inputs.tables.core_indicators);
  std::vector<CoreSum> sums;
  sums.reserve(indicators.size());
  for (const CoreIndicator& indicator : indicators) {
    sums.push_back({indicator.declared.names.front(), indicator.printed_unit});
  }
  std::string without_any;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    if (units) add_material(account, row, *units, indicators, finding, sums, without_any);
  }
  const WallAreas areas{account.panel.gross_area_m2(), account.panel.opening_area_m2()};
  if (areas.net_m2() <= 0.0) builder.missing("openings leave no net wall area; check their sizes in the export");
  if (!finding.complete()) return finding.close_incomplete();
  const auto mass_kg = mass_of(account.amounts);
  add_sums(sums, areas.net_m2(), mass_kg, builder);
  if (!without_any.empty()) builder.note("No core indicator is read from a file for: " + without_any + ".");
  builder.note("Figures are those of the files that carbon.a1_a3 lists; carbon.declarations shows them by material.");
  return builder.inform(count_whole(sums), kWholeIndicators);
}

namespace {

std::vector<CoreSum> sum_of_panels(const PanelValues& values, const std::vector<CoreIndicator>& indicators) {
  std::vector<CoreSum> sums;
  for (const PanelValue& entry : values.entries) {
    const auto of_panel = sums_in(*entry.finding, indicators, find_value(*entry.finding, kMassValue, "kg"));
    if (sums.empty()) {
      sums = of_panel;
    } else {
      for (std::size_t i = 0; i < sums.size(); ++i) sums[i].add(of_panel[i]);
    }
  }
  return sums;
}

/// `whole`, or how much of the mass declares the indicator.
std::string extent(const CoreSum& sum, std::optional<double> mass_kg) {
  if (sum.whole()) return "whole";
  if (!mass_kg || *mass_kg <= 0.0) return "partial";
  return "partial, " + fixed_text(sum.covered_kg / *mass_kg * units::kPercentPerWhole, 0) + " % of the mass";
}

Table type_table(const PanelValues& values, const std::vector<CoreIndicator>& indicators) {
  Table table{
      "Core indicators by panel type, for each m² of net wall", {{"type", ""}, {"indicator", ""}, {"unit", ""}}, {}};
  for (const std::string_view group : kCoreGroups) table.columns.push_back({std::string(group), "per m²"});
  table.columns.push_back({"sum", ""});
  for (const auto& [type, of_type] : by_type(values)) {
    const double net_m2 = areas_of(of_type).net_m2();
    for (const CoreSum& sum : sum_of_panels(of_type, indicators)) {
      std::vector<Value> row{type_name(type), sum.indicator, sum.unit};
      for (const CoreGroup& group : sum.groups) {
        row.emplace_back();
        if (group.any) row.back() = group.sum / net_m2;
      }
      row.emplace_back(extent(sum, sum_where_all_have(of_type, kMassValue, "kg")));
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

}  // namespace

Finding core_indicators_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(kCoreIndicatorsCheck, "");
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(0);
  const PanelValues values = panel_values(panels, kCoreIndicatorsCheck.id);
  add_panels(inputs.project, values, kCoreIndicatorsCheck.id, finding);
  if (!finding.complete()) return finding.close_incomplete();
  const auto indicators = read_core_indicators(inputs.tables.core_indicators);
  const std::vector<CoreSum> sums = sum_of_panels(values, indicators);
  add_sums(sums, areas_of(values).net_m2(), sum_where_all_have(values, kMassValue, "kg"), builder);
  builder.table(type_table(values, indicators));
  builder.note(
      "A sum is whole where every material of every panel declares it. A partial sum leaves out what is not declared "
      "and is less than the panels cause; the panels' findings name the materials. A4, A5 and B are left out: the "
      "project's own figures for them are of global warming alone.");
  return builder.inform(count_whole(sums), kWholeIndicators);
}

namespace {

constexpr std::size_t kFirstGroup = 2;  ///< column of A1–A3 in both tables
constexpr std::size_t kCoveredColumn = 5;

bool all_whole(const CoreGroups& groups) {
  return std::all_of(groups.begin(), groups.end(), [](const CoreGroup& group) { return group.whole; });
}

void add_exactly(double& sum, double value) {
  sum = ExactSum().add(sum).add(value).total();
}

Table table_with_groups(std::string title, std::string_view id) {
  Table table{std::move(title), {{"indicator", ""}, {"unit", ""}}, {}, std::string(id)};
  for (const std::string_view group : kCoreGroups) table.columns.push_back({std::string(group), ""});
  return table;
}

const std::vector<Value>* row_of(const Table* table, const std::string& indicator) {
  if (table == nullptr) return nullptr;
  const auto row = std::find_if(table->rows.begin(), table->rows.end(),
                                [&](const auto& cells) { return std::get<std::string>(cells.front()) == indicator; });
  return row == table->rows.end() ? nullptr : &*row;
}

void read_groups(const std::vector<Value>& row, bool whole, CoreSum& sum) {
  for (std::size_t i = 0; i < kCoreGroups.size(); ++i) {
    if (const double* value = std::get_if<double>(&row[kFirstGroup + i])) sum.groups[i] = {*value, true, whole};
  }
}

}  // namespace

bool CoreSum::whole() const {
  return all_whole(groups);
}

void CoreSum::add(const CoreGroups& other, double mass_kg) {
  for (std::size_t i = 0; i < groups.size(); ++i) {
    add_exactly(groups[i].sum, other[i].sum);
    groups[i].any = groups[i].any || other[i].any;
    groups[i].whole = groups[i].whole && other[i].whole;
  }
  if (all_whole(other)) add_exactly(covered_kg, mass_kg);
}

void CoreSum::add(const CoreSum& other) {
  add(other.groups, 0.0);
  add_exactly(covered_kg, other.covered_kg);
}

Table core_table(const std::vector<CoreSum>& sums, double net_m2) {
  Table table = table_with_groups("Core indicators, without A4, A5 and B", kCoreTable);
  for (const std::string_view group : kCoreGroups) table.columns.push_back({std::string(group), "per m²"});
  for (const CoreSum& sum : sums) {
    std::vector<Value> row{sum.indicator, sum.unit};
    std::vector<Value> per_area;
    bool any = false;
    for (const CoreGroup& group : sum.groups) {
      any = any || group.whole;
      row.emplace_back();
      per_area.emplace_back();
      if (!group.whole) continue;
      row.back() = group.sum;
      per_area.back() = group.sum / net_m2;
    }
    row.insert(row.end(), per_area.begin(), per_area.end());
    if (any) table.rows.push_back(std::move(row));
  }
  return table;
}

Table core_partial_table(const std::vector<CoreSum>& sums, std::optional<double> mass_kg) {
  Table table = table_with_groups("Core indicators, without A4, A5 and B: partial sums", kCorePartialTable);
  table.columns.push_back({"materials that declare all three", "kg"});
  table.columns.push_back({"share of the mass", "%"});
  for (const CoreSum& sum : sums) {
    if (sum.whole()) continue;
    std::vector<Value> row{sum.indicator, sum.unit};
    for (const CoreGroup& group : sum.groups) {
      row.emplace_back();
      if (group.any && !group.whole) row.back() = group.sum;
    }
    row.emplace_back();
    row.emplace_back();
    if (mass_kg && *mass_kg > 0.0) {
      row[kCoveredColumn] = sum.covered_kg;
      row[kCoveredColumn + 1] = sum.covered_kg / *mass_kg * units::kPercentPerWhole;
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::vector<CoreSum> sums_in(const Finding& finding, const std::vector<CoreIndicator>& indicators,
                             std::optional<double> mass_kg) {
  const Table* whole = find_table(finding, kCoreTable);
  const Table* partial = find_table(finding, kCorePartialTable);
  std::vector<CoreSum> sums;
  for (const CoreIndicator& indicator : indicators) {
    CoreSum sum{indicator.declared.names.front(), indicator.printed_unit, {}, mass_kg.value_or(0.0)};
    if (const auto* row = row_of(whole, sum.indicator)) read_groups(*row, true, sum);
    if (const auto* row = row_of(partial, sum.indicator)) {
      read_groups(*row, false, sum);
      const double* covered = std::get_if<double>(&(*row)[kCoveredColumn]);
      sum.covered_kg = covered != nullptr ? *covered : 0.0;
    }
    sums.push_back(std::move(sum));
  }
  return sums;
}

}  // namespace panel_dossier::carbon
