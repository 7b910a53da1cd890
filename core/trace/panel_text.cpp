#include "core/trace/panel_text.h"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <stdexcept>
#include <utility>

#include "core/trace/batch_text.h"
#include "core/trace/hash_tree.h"
#include "core/trace/record.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

[[noreturn]] void refuse_unknown_panel(const ResultsDocument& results, std::string_view panel) {
  constexpr std::size_t kMostSuggestions = 3;
  std::vector<std::string> names;
  for (const auto& candidate : results.panels) names.push_back(candidate.mark);
  for (const auto& candidate : results.panels) names.push_back(candidate.global_id);
  std::string message = "no panel '" + std::string(panel) + "' in these results";
  std::string separator = "; did you mean ";
  for (const auto& name : nearest(panel, names, kMostSuggestions)) {
    message.append(separator).append("'").append(name).append("'");
    separator = " or ";
  }
  throw std::runtime_error(message);
}

std::size_t panel_index(const ResultsDocument& results, std::string_view panel) {
  const auto found = std::ranges::find_if(results.panels, [panel](const auto& candidate) {
    return candidate.mark == panel || candidate.global_id == panel;
  });
  if (found == results.panels.end()) refuse_unknown_panel(results, panel);
  return static_cast<std::size_t>(found - results.panels.begin());
}

std::string hash_text(const ResultsDocument& results, std::size_t index) {
  const std::vector<Digest> leaves = hash_tree_leaves(results);
  const PanelSummary& panel = results.panels[index];
  const auto path = inclusion_path(leaves, index);
  const bool reaches =
      leads_to_root(leaves[index], index, leaves.size(), path, digest_from_hex(results.build.hash_tree_root));
  std::string text = "hash of its data          " + panel.data_hash + "\n" +  //
                     "hash of data and findings " + panel.hash + " (leaf " +  //
                     std::to_string(index + 1) + " of " + std::to_string(leaves.size()) + ")\n";
  for (const auto& sibling : path) text += "  joined with             " + to_hex(sibling) + "\n";
  text += "root of the hash tree     " + results.build.hash_tree_root + "\n";
  if (!reaches) text += "THE PATH DOES NOT LEAD TO THE ROOT: these results were changed after the build\n";
  if (panel_hash(panel.data_hash, panel.findings) != panel.hash) {
    text += "THE FINDINGS ARE NOT THOSE THAT WERE HASHED: these results were changed after the build\n";
  }
  return text;
}

std::string symbol_text(const std::string& symbol) {
  return symbol.empty() ? "" : " " + symbol;
}

std::string input_text(const Input& input) {
  return "  input " + input.name + symbol_text(input.symbol) + " = " + exact_value_text(input.value, input.unit) +
         "\n          from " + describe(input.origin) + "\n";
}

std::string step_text(const Step& step) {
  std::string text = "  step  " + step.name + symbol_text(step.symbol);
  if (!step.formula.empty()) text += ", " + step.formula;
  return text + " = " + exact_value_text(step.value, step.unit) + "\n";
}

std::string result_text(const Finding& finding) {
  std::string text = value_text(finding.value, finding.unit, finding.decimals);
  if (finding.limit.index() != 0) {
    text += ", " + std::string(finding.relation == Relation::none ? "against" : to_string(finding.relation)) + " " +
            value_text(finding.limit, finding.unit, finding.decimals);
  }
  if (finding.utilisation) text += ", utilisation " + value_text(*finding.utilisation, "", 2);
  return text;
}

std::string finding_text(const RecordedFinding& recorded) {
  const Finding finding = whole_finding(recorded);
  std::string text = "\n" + finding.check + ": " + std::string(to_string(finding.verdict)) + "\n  " + finding.title +
                     ": " + result_text(finding) + "\n";
  if (!finding.reason.empty()) text += "  because " + finding.reason + "\n";
  text +=
      "  by " + std::string(to_string(finding.basis)) + (finding.clause.empty() ? "" : ", " + finding.clause) + "\n";
  if (derivation_hash(*recorded.derivation) != recorded.derivation->hash) {
    text += "  THE DERIVATION IS NOT THE ONE THAT WAS HASHED: these results were changed after the build\n";
  }
  for (const auto& input : finding.inputs) text += input_text(input);
  for (const auto& step : finding.steps) text += step_text(step);
  for (const auto& note : finding.notes) text += "  note  " + note + "\n";
  return text;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = std::exchange(row[0], i + 1);
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t substitution = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({substitution, diagonal + 1, row[j] + 1});
    }
  }
  return row.back();
}

std::vector<std::string> nearest(std::string_view wanted, const std::vector<std::string>& names, std::size_t most) {
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const auto& name : names) {
    const std::size_t distance = edit_distance(wanted, name);
    if (2 * distance <= std::max(wanted.size(), name.size())) ranked.emplace_back(distance, name);
  }
  std::ranges::stable_sort(ranked, {}, [](const auto& entry) { return entry.first; });
  std::vector<std::string> result;
  for (const auto& [distance, name] : ranked) {
    if (result.size() < most) result.push_back(name);
  }
  return result;
}

std::string panel_text(const ResultsDocument& results, std::string_view panel) {
  const std::size_t index = panel_index(results, panel);
  const PanelSummary& summary = results.panels[index];
  const BuildSummary& build = results.build;
  std::string text = "panel '" + summary.mark + "', " + summary.global_id + ", type '" + summary.type + "', storey '" +
                     summary.storey + "'\n" + "export '" + build.export_name + "', " + build.export_schema +
                     ", SHA-256 " + build.export_sha256 + "\n" + hash_text(results, index) +
                     batches_of_panel_text(results, summary.mark);
  for (const auto& finding : summary.findings) text += finding_text(finding);
  return text;
}

}  // namespace panel_dossier
