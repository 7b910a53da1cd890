// Which of the causes between two builds a finding moved for.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "core/pipeline/record/recorded_finding.h"
#include "core/trace/causes.h"

namespace panel_dossier {

/// Positions in the list of causes, ascending; empty where no cause can be named.
using CauseIndices = std::vector<std::size_t>;

/// Reads the inputs of findings against the causes. The causes must outlive it. One thread.
class Attribution {
 public:
  explicit Attribution(const std::vector<Cause>& causes);

  /// The causes that an input which changed, came or went stems from, as its origin says. Where none leads to one:
  /// the evidence that an input names. Where there is none either, and only one of the causes can reach the finding at
  /// all, that one: same inputs, same findings. Either may be null, not both.
  CauseIndices causes_of(const RecordedFinding* before, const RecordedFinding* after) const;

  /// Of a panel that came or went: the export, or the settings' rule of what a panel is.
  CauseIndices causes_of_panels() const;

 private:
  const std::vector<Cause>& causes_;
  std::map<std::string, std::size_t> settings_;
  std::multimap<std::string, std::size_t> tables_;  ///< by file, without the plugin
  CauseIndices export_;

  /// Of evidence whose id or file is the text of an input: that the file changed moves no input.
  void add_named_evidence(const RecordedFinding* finding, CauseIndices& found) const;
  void add_origin(const Origin& origin, const std::string& discipline, CauseIndices& found) const;
  bool can_reach(const Cause& cause, const std::string& discipline) const;
};

}  // namespace panel_dossier
