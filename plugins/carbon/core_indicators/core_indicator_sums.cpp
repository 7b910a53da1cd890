#include "plugins/carbon/core_indicators/core_indicator_sums.h"

#include <algorithm>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"

namespace panel_dossier::carbon {

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
