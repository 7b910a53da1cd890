// One check over the panels of one type, in short.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

struct CheckSummary {
  std::string title;
  std::map<std::string, std::size_t> values;       ///< as printed -> panels
  std::optional<std::pair<double, double>> range;  ///< least and greatest, where every value is a number
  std::string unit;
  int decimals = 2;
  std::set<std::string> limits;
  VerdictCounts verdicts{};
  std::optional<double> most_used;  ///< greatest utilisation
  std::string worst_panel;          ///< GlobalId of the first panel with the most urgent verdict and the greatest use
  std::string worst_mark;
};

/// By type and check id.
using CheckSummaries = std::map<std::pair<std::string, std::string>, CheckSummary>;

/// Of the panels' findings that `counts` accepts.
CheckSummaries summarise(const ResultsDocument& results, const std::function<bool(const RecordedFinding&)>& counts);

/// `0.17 – 0.20 W/(m²·K)` for numbers; else the values with the number of their panels: `EI 60 (24), EI 30 (8)`.
std::string values_in_words(const CheckSummary& summary);

/// Up to four of the texts; a dash for none.
std::string some_of(const std::set<std::string>& texts);

/// The type's name, or that there is none.
std::string type_in_words(const std::string& type);

}  // namespace panel_dossier
