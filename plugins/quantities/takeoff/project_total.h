// Project totals from the findings of the panels.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "core/api/support/exact_sum.h"

namespace panel_dossier::quantities {

/// Clause of every total.
inline constexpr const char* kSumOverPanels = "Sum over the panels (common practice)";

/// What is added up.
struct TotalOf {
  const CheckDeclaration& check;
  std::string unit;
  int decimals = 0;
};

/// Adds the panels' values of the check exactly (see core/api/support/exact_sum.h), with a table by storey and panel
/// type, and behind it the table that `merged` makes. `not assessed`, naming the panels, when any panel has no value;
/// `merged` is then not called.
Finding project_total(const TotalOf& what, const Project& project, const std::vector<PanelFindings>& panels,
                      const std::function<Table()>& merged = {});

/// Numbers of one panel's table by what the row is of.
template <typename Key>
using Rows = std::map<Key, std::vector<double>>;
/// The same of several panels, added exactly.
template <typename Key>
using RowSums = std::map<Key, std::vector<ExactSum>>;

/// Adds the numbers of rows of equal key, column by column.
template <typename Key>
void add_rows(RowSums<Key>& sums, const Rows<Key>& rows) {
  for (const auto& [key, numbers] : rows) {
    std::vector<ExactSum>& sum = sums[key];
    sum.resize(numbers.size());
    for (std::size_t i = 0; i < numbers.size(); ++i) sum[i].add(numbers[i]);
  }
}

template <typename Key>
Rows<Key> totals_of(const RowSums<Key>& sums) {
  Rows<Key> rows;
  for (const auto& [key, sum] : sums) {
    for (const ExactSum& column : sum) rows[key].push_back(column.total());
  }
  return rows;
}

}  // namespace panel_dossier::quantities
