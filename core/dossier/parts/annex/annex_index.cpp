#include "core/dossier/parts/annex/annex_index.h"

#include <algorithm>
#include <string_view>
#include <tuple>
#include <unordered_map>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

namespace {

bool print_alike(const RecordedFinding& a, const RecordedFinding& b) {
  return a.derivation == b.derivation && a.title == b.title && a.value == b.value && a.unit == b.unit &&
         a.limit == b.limit && a.relation == b.relation && a.utilisation == b.utilisation && a.verdict == b.verdict &&
         a.reason == b.reason && a.basis == b.basis;
}

std::size_t rank_of(const BuildSummary& build, std::string_view discipline) {
  const auto found = std::find_if(build.plugins.begin(), build.plugins.end(),
                                  [discipline](const PluginSummary& plugin) { return plugin.id == discipline; });
  return static_cast<std::size_t>(found - build.plugins.begin());
}

}  // namespace

std::string derivation_anchor(std::size_t number) {
  return "derivation-" + std::to_string(number);
}

AnnexIndex::AnnexIndex(const ResultsDocument& results, const std::function<bool(const RecordedFinding&)>& printed) {
  for (const RecordedFinding& finding : results.project_findings) {
    if (printed(finding)) entries_.push_back({0, &finding});
  }
  std::unordered_map<const Derivation*, std::vector<std::size_t>> known;  // indices of entries
  of_panels_.resize(results.panels.size());
  for (std::size_t panel = 0; panel < results.panels.size(); ++panel) {
    for (const RecordedFinding& finding : results.panels[panel].findings) {
      if (!printed(finding)) {
        of_panels_[panel].push_back(0);
        continue;
      }
      std::vector<std::size_t>& alike = known[finding.derivation.get()];
      const auto same = std::find_if(alike.begin(), alike.end(),
                                     [&](std::size_t index) { return print_alike(*entries_[index].finding, finding); });
      const std::size_t index = same == alike.end() ? entries_.size() : *same;
      if (same == alike.end()) {
        alike.push_back(index);
        entries_.push_back({0, &finding});
      }
      entries_[index].panels.push_back(panel);
      of_panels_[panel].push_back(index + 1);
    }
  }

  std::vector<std::size_t> order(entries_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto key = [&](std::size_t index) {
    const AnnexEntry& entry = entries_[index];
    const std::string_view check = entry.finding->check;
    const bool is_project = entry.panels.empty();
    return std::tuple(rank_of(results.build, discipline_of(check)), check, !is_project,
                      is_project ? std::string_view() : std::string_view(results.panels[entry.panels.front()].type));
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  std::vector<std::size_t> number_of(entries_.size() + 1, 0);  // by index + 1
  std::vector<AnnexEntry> sorted;
  sorted.reserve(entries_.size());
  for (const std::size_t index : order) {
    sorted.push_back(std::move(entries_[index]));
    sorted.back().number = sorted.size();
    number_of[index + 1] = sorted.size();
  }
  entries_ = std::move(sorted);
  for (std::vector<std::size_t>& numbers : of_panels_) {
    for (std::size_t& number : numbers) number = number_of[number];
  }
}

const AnnexEntry* AnnexIndex::of_panel(std::size_t panel, std::size_t finding) const {
  const std::size_t number = of_panels_[panel][finding];
  return number == 0 ? nullptr : &entries_[number - 1];
}

}  // namespace panel_dossier
