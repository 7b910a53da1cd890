// What of the builds of one output is kept beside it: each issue, and a line of history a build.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/trace/history.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// An issue as it is kept: results.json, the signed dossier and issue.json lie in `folder`.
struct KeptIssue {
  IssueMark mark;
  std::string time_utc;
  std::filesystem::path folder;
};

/// Whoever writes holds the target's BuildLock.
class KeptBuilds {
 public:
  /// Beside a normalised target: `NAME.issues`, `NAME.history.jsonl`.
  explicit KeptBuilds(std::filesystem::path target);

  /// The latest by its build time; none when none is kept or can be read.
  std::optional<KeptIssue> last_issue() const;

  /// Throws std::runtime_error when an issue of that name is kept or stands in the target: what was issued never
  /// changes.
  void require_new_issue(const std::string& id) const;

  /// Keeps the build in the target where it is an issue that is not kept yet. Called after a build was published, and
  /// before the next one replaces it, should the run in between have been killed. Throws std::runtime_error when it
  /// cannot be copied.
  void keep_issue() const;

  /// The file that makes a build an issue; written beside its results.json.
  static std::string issue_file(const BuildSummary& build);

  /// Empty when there is no file.
  History history() const;
  /// Throws std::runtime_error when it cannot be written; the file is then as it was.
  void write_history(const History& history) const;

 private:
  std::filesystem::path target_;
  std::filesystem::path issues_;
  std::filesystem::path history_;
};

/// A name that a folder can have and people can say: letters, digits, `.`, `_` and `-`, at most 32 of them, the first
/// a letter or digit.
bool is_issue_id(const std::string& id);

inline constexpr const char* kIssueFile = "issue.json";

}  // namespace panel_dossier
