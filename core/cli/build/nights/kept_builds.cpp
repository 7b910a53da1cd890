#include "core/cli/build/nights/kept_builds.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <regex>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "core/cli/build/output/output_folder.h"
#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

constexpr std::array<const char*, 3> kKeptFiles{"results.json", "dossier.pdf", kIssueFile};

/// None where the folder is no issue that a build kept.
std::optional<KeptIssue> issue_in(const fs::path& folder) {
  const fs::path file = folder / kIssueFile;
  if (!fs::is_regular_file(file)) return std::nullopt;
  try {
    const auto json = nlohmann::json::parse(read_file(file));
    return KeptIssue{{json.at("issue"), json.at("status")}, json.at("time_utc"), folder};
  } catch (const nlohmann::json::exception&) {
    return std::nullopt;
  }
}

}  // namespace

bool is_issue_id(const std::string& id) {
  static const std::regex name("[A-Za-z0-9][A-Za-z0-9._-]{0,31}");
  return std::regex_match(id, name);
}

KeptBuilds::KeptBuilds(fs::path target)
    : target_(std::move(target)), issues_(beside(target_, ".issues")), history_(beside(target_, ".history.jsonl")) {}

std::optional<KeptIssue> KeptBuilds::last_issue() const {
  std::optional<KeptIssue> last;
  if (!fs::is_directory(issues_)) return last;
  for (const auto& entry : fs::directory_iterator(issues_)) {
    auto issue = issue_in(entry.path());
    if (issue && (!last || last->time_utc < issue->time_utc)) last = std::move(issue);
  }
  return last;
}

void KeptBuilds::require_new_issue(const std::string& id) const {
  const auto standing = issue_in(target_);
  const bool stands = standing && standing->mark.id == id;
  if (!stands && !fs::exists(issues_ / id)) return;
  throw std::runtime_error("issue '" + id + "' was made and is kept in '" + issues_.string() +
                           "'; what was issued never changes: give the next one another name");
}

void KeptBuilds::keep_issue() const {
  const auto issue = issue_in(target_);
  if (!issue || !is_issue_id(issue->mark.id) || fs::exists(issues_ / issue->mark.id)) return;
  const fs::path part = issues_ / ("." + issue->mark.id + ".part");
  try {
    fs::remove_all(part);
    fs::create_directories(part);
    for (const char* name : kKeptFiles) fs::copy_file(target_ / name, part / name);
    bring_to_disk(part);
    fs::rename(part, issues_ / issue->mark.id);
  } catch (const fs::filesystem_error& error) {
    std::error_code ignored;
    fs::remove_all(part, ignored);
    throw std::runtime_error("issue '" + issue->mark.id + "' cannot be kept: " + error.what());
  }
}

std::string KeptBuilds::issue_file(const BuildSummary& build) {
  const nlohmann::ordered_json json{{"issue", build.issue.id},
                                    {"status", build.issue.status},
                                    {"time_utc", build.time_utc},
                                    {"hash_tree_root", build.hash_tree_root}};
  return json.dump(2) + "\n";
}

History KeptBuilds::history() const {
  return History(fs::exists(history_) ? read_file(history_) : std::string());
}

void KeptBuilds::write_history(const History& history) const {
  write_in_one_step(history_, history.text());
}

}  // namespace panel_dossier
