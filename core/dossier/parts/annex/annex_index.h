// Which derivation of the annex stands behind each finding: equal ones are printed once, under a running number.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// A derivation as the annex prints it.
struct AnnexEntry {
  std::size_t number = 0;                    ///< from 1, in the order of the annex
  const RecordedFinding* finding = nullptr;  ///< the first of those that it serves
  std::vector<std::size_t> panels = {};      ///< ascending indices into ResultsDocument::panels; none for the project
};

/// Findings print alike when derivation, value, limit, verdict, reason and basis are the same; a derivation alone does
/// not tell, for the reason why two panels are not assessed may differ. Refers to the results, which must outlive it.
class AnnexIndex {
 public:
  /// Entries stand by discipline in the order of the build's plugins, then by check, the project's own first, then by
  /// the type and the order of the first panel served. Findings that are not `printed` have no entry.
  AnnexIndex(const ResultsDocument& results, const std::function<bool(const RecordedFinding&)>& printed);

  const std::vector<AnnexEntry>& entries() const { return entries_; }
  /// The entry of finding `finding` of panel `panel`; null for one that is not printed.
  const AnnexEntry* of_panel(std::size_t panel, std::size_t finding) const;

 private:
  std::vector<AnnexEntry> entries_;
  std::vector<std::vector<std::size_t>> of_panels_;  ///< numbers, 0 for none
};

/// Anchor of the entry of that number: `derivation-12`.
std::string derivation_anchor(std::size_t number);

}  // namespace panel_dossier
