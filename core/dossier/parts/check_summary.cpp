#include "core/dossier/parts/check_summary.h"

#include <algorithm>
#include <tuple>
#include <variant>
#include <vector>

#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

/// Keeps the range while every value of the check is a number of one unit.
void add_value(CheckSummary& summary, const RecordedFinding& finding, bool is_first) {
  const std::string text = format_value(finding.value, finding.unit, finding.derivation->decimals);
  if (!text.empty()) ++summary.values[text];
  const auto* number = std::get_if<double>(&finding.value);
  if (is_first && number != nullptr) {
    summary.range = {*number, *number};
    summary.unit = finding.unit;
    summary.decimals = finding.derivation->decimals;
  } else if (number == nullptr || !summary.range || summary.unit != finding.unit) {
    summary.range.reset();
  } else {
    summary.range->first = std::min(summary.range->first, *number);
    summary.range->second = std::max(summary.range->second, *number);
  }
}

}  // namespace

CheckSummaries summarise(const ResultsDocument& results, const std::function<bool(const RecordedFinding&)>& counts) {
  CheckSummaries summaries;
  std::map<const CheckSummary*, std::tuple<int, double>> worst;
  for (const PanelSummary& panel : results.panels) {
    for (const RecordedFinding& finding : panel.findings) {
      if (!counts(finding)) continue;
      const auto [entry, is_first] = summaries.try_emplace({panel.type, finding.check});
      CheckSummary& summary = entry->second;
      if (is_first) summary.title = finding.title;
      add_value(summary, finding, is_first);
      const std::string limit = format_limit(finding);
      if (!limit.empty()) summary.limits.insert(limit);
      ++summary.verdicts[static_cast<std::size_t>(finding.verdict)];
      if (finding.utilisation) summary.most_used = std::max(summary.most_used.value_or(0.0), *finding.utilisation);
      const std::tuple rank(urgency(finding.verdict), finding.utilisation.value_or(-1.0));
      const auto known = worst.find(&summary);
      if (known != worst.end() && rank <= known->second) continue;
      worst[&summary] = rank;
      summary.worst_panel = panel.global_id;
      summary.worst_mark = panel.mark;
    }
  }
  return summaries;
}

std::string values_in_words(const CheckSummary& summary) {
  if (summary.values.empty()) return "–";
  if (summary.range && summary.range->first < summary.range->second) {
    std::string low = format_value(summary.range->first, summary.unit, summary.decimals);
    const std::string high = format_value(summary.range->second, summary.unit, summary.decimals);
    // The unit once, where both have it.
    const std::size_t number = high.find(' ');
    if (number != std::string::npos && low.ends_with(high.substr(number)))
      low.resize(low.size() + number - high.size());
    if (high.rfind(low, 0) != 0) return low + " to " + high;
  }
  std::vector<std::string> texts;
  texts.reserve(summary.values.size());
  for (const auto& [value, count] : summary.values) {
    texts.push_back(summary.values.size() == 1 ? value : value + " (" + std::to_string(count) + ")");
  }
  return list_some(texts, 4);
}

std::string some_of(const std::set<std::string>& texts) {
  return texts.empty() ? "–" : list_some({texts.begin(), texts.end()}, 4);
}

std::string type_in_words(const std::string& type) {
  return type.empty() ? "(no type)" : type;
}

}  // namespace panel_dossier
