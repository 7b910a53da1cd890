#include "core/cli/build/output/output_folder.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>

#include "core/cli/build/output/kept_export.h"
#include "core/cli/build/output/signing_key.h"
#include "core/trace/results_reader.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// What every build writes, whichever plugins it has.
constexpr std::array<std::string_view, 20> kOwnOutputs{
    "panel-labels.pdf", "issue.json",      "dossier.pdf",  "results.json",       "checks.xml",
    "labels.pdf",       "build.log",       "workshop.pdf", "label-pages.pdf",    "pages.pdf",
    "dossier.pdf.part", "open-points.csv", kKeptExport,    "workshop-pages.pdf", kSigningCertificateFile,
    "calendar.ics",     "cobie.xlsx",      "tables.xlsx",  "workshop.xlsx",      "companion.html"};

/// `dossier-annex.pdf`, `dossier-panels-2.pdf`; and what a run leaves of one that it did not finish.
bool is_volume(std::string_view name) {
  constexpr std::string_view kLaidOut = "pages-of-";
  constexpr std::string_view kUnfinished = ".part";
  if (name.starts_with(kLaidOut)) name.remove_prefix(kLaidOut.size());
  if (name.ends_with(kUnfinished)) name.remove_suffix(kUnfinished.size());
  if (name == "dossier-annex.pdf") return true;
  constexpr std::string_view kPanels = "dossier-panels-";
  constexpr std::string_view kSuffix = ".pdf";
  if (!name.starts_with(kPanels) || !name.ends_with(kSuffix)) return false;
  const std::string_view number = name.substr(kPanels.size(), name.size() - kPanels.size() - kSuffix.size());
  return !number.empty() && number.find_first_not_of("0123456789") == std::string_view::npos;
}

[[noreturn]] void fail(const std::string& what) {
  throw std::runtime_error(what);
}

/// Names of the tables that an earlier build into the folder wrote; none when it has no results.json that can be read.
std::vector<std::string> earlier_outputs(const fs::path& folder) {
  if (!fs::exists(folder / "results.json")) return {};
  try {
    return build_from_file(folder / "results.json").outputs;
  } catch (const std::runtime_error&) {
    return {};
  }
}

bool stands_in(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

void clear(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) fs::remove(entry.path());
}

}  // namespace

fs::path normalised_target(const fs::path& target) {
  fs::path absolute = fs::absolute(target).lexically_normal();
  return absolute.has_filename() ? absolute : absolute.parent_path();
}

fs::path beside(const fs::path& target, const std::string& suffix, bool hidden) {
  return target.parent_path() / ((hidden ? "." : "") + target.filename().string() + suffix);
}

/// Only what a build wrote may be dropped: a folder, not a link to one, that holds nothing but a build's files.
void require_replaceable(const fs::path& folder, const std::vector<std::string>& outputs) {
  const fs::file_status status = fs::symlink_status(folder);
  if (!fs::exists(status)) return;
  if (!fs::is_directory(status)) {
    fail("output '" + folder.string() + "' exists and is not a folder; choose another with --out");
  }
  const std::vector<std::string> earlier = earlier_outputs(folder);
  for (const auto& entry : fs::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    const bool is_own = std::find(kOwnOutputs.begin(), kOwnOutputs.end(), name) != kOwnOutputs.end() || is_volume(name);
    if (!(is_own || stands_in(outputs, name) || stands_in(earlier, name)) || !entry.is_regular_file() ||
        entry.is_symlink()) {
      fail("output folder '" + folder.string() + "' holds '" + name +
           "', which no build wrote; choose an empty folder or one of an earlier build");
    }
  }
}

void bring_to_disk(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) {
    const int descriptor = ::open(entry.path().c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
    if (descriptor < 0) fail("cannot open '" + entry.path().string() + "': " + std::strerror(errno));
    const int result = ::fsync(descriptor);
    ::close(descriptor);
    if (result != 0) fail("cannot bring '" + entry.path().string() + "' to the disk: " + std::strerror(errno));
  }
}

OutputFolder::OutputFolder(const fs::path& target, const std::vector<std::string>& outputs)
    : target_(normalised_target(target)), staging_(beside(target_, ".building", true)), outputs_(outputs) {
  require_replaceable(target_, outputs_);
  require_replaceable(staging_, outputs_);
  if (::mkdir(staging_.c_str(), 0777) != 0 && errno != EEXIST) {
    fail("cannot write beside '" + target_.string() + "': " + std::strerror(errno));
  }
  clear(staging_);
}

OutputFolder::~OutputFolder() {
  std::error_code ignored;  // a destructor has nobody to tell, and the next run clears what is left
  fs::remove_all(staging_, ignored);
}

void OutputFolder::redirect(const fs::path& target) {
  const fs::path other = normalised_target(target);
  require_replaceable(other, outputs_);
  target_ = other;
}

void OutputFolder::publish() {
  bring_to_disk(staging_);
  if (!fs::exists(target_)) {
    fs::rename(staging_, target_);
    return;
  }
  // An exchange keeps a complete folder under the target's name at every moment; what it held ends up in staging.
  if (::renameat2(AT_FDCWD, staging_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0) return;
  if (errno != EINVAL && errno != ENOSYS) {
    fail("cannot put the build in place of '" + target_.string() + "': " + std::strerror(errno) +
         "; the folder is as it was before");
  }
  // Some network file systems cannot exchange: two renames, with the last good build kept under the name beside it.
  const fs::path former = staging_.string() + ".former";
  require_replaceable(former, outputs_);
  fs::remove_all(former);
  fs::rename(target_, former);
  fs::rename(staging_, target_);
  fs::remove_all(former);
}

}  // namespace panel_dossier
