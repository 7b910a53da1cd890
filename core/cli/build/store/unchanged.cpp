#include "core/cli/build/store/unchanged.h"

#include <sys/stat.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <exception>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <vector>

#include "core/intake/document/sha256.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// A folder with more is no project's: to look through it each night would cost more than to build.
constexpr std::size_t kMostFiles = 100000;

fs::path whole(const fs::path& path) {
  return fs::weakly_canonical((fs::absolute(path) / "").lexically_normal().parent_path());
}

std::string note_name(const BuildOrigins& origins) {
  return "build " + whole(origins.out).string();
}

/// Files as a digest of their names and contents, and when the last of them changed.
class Watch {
 public:
  explicit Watch(const BuildOrigins& origins) : out_(whole(origins.out)) {
    for (const fs::path& file : origins.made) made_.insert(whole(file));
  }

  void add(const fs::path& place) {
    if (!fs::is_directory(place)) {
      add_file(place);
      return;
    }
    std::vector<fs::path> files;
    for (auto entry = fs::recursive_directory_iterator(place); entry != fs::recursive_directory_iterator(); ++entry) {
      if (is_own(entry->path())) {
        entry.disable_recursion_pending();
      } else if (!entry->is_directory()) {
        files.push_back(entry->path());
      }
      if (files.size() > kMostFiles) throw std::runtime_error("'" + place.string() + "' holds too many files");
    }
    std::sort(files.begin(), files.end());
    for (const fs::path& file : files) add_file(file);
  }

  std::string digest(const std::string& options) const { return to_hex(sha256(options + '\n' + all_)); }

  /// Of contents, name or rights, as the system keeps it; nobody can set it back.
  std::chrono::system_clock::time_point last_change() const { return last_change_; }

 private:
  fs::path out_;
  std::set<fs::path> made_;
  std::string all_;
  std::chrono::system_clock::time_point last_change_;

  /// The output and what builds keep beside it: `OUT`, `OUT.store`, `.OUT.…`.
  bool is_own(const fs::path& path) const {
    if (made_.contains(path)) return true;
    if (path.parent_path() != out_.parent_path()) return false;
    const std::string name = path.filename().string();
    const std::string own = out_.filename().string();
    return name == own || name.rfind(own + ".", 0) == 0 || name.rfind("." + own, 0) == 0;
  }

  void add_file(const fs::path& file) {
    const std::string content = fs::is_regular_file(file) ? to_hex(sha256_file(file)) : "no file";
    all_ += file.string() + '\0' + content + '\n';
    struct stat state {};
    if (::stat(file.c_str(), &state) != 0) return;
    const auto changed = std::chrono::seconds(state.st_ctim.tv_sec) + std::chrono::nanoseconds(state.st_ctim.tv_nsec);
    last_change_ =
        std::max(last_change_, std::chrono::system_clock::time_point(
                                   std::chrono::duration_cast<std::chrono::system_clock::duration>(changed)));
  }
};

Watch watch(const BuildOrigins& origins, const std::set<std::string>& watched) {
  Watch watch(origins);
  watch.add(origins.export_file);
  if (!origins.settings_file.empty()) watch.add(origins.settings_file);
  for (const fs::path& place : origins.program) watch.add(place);
  for (const std::string& place : watched) watch.add(place);
  return watch;
}

nlohmann::json json_of(const MorningSummary& summary) {
  auto sections = nlohmann::json::array();
  for (const SummarySection& part : summary.sections) sections.push_back({part.heading, part.lines});
  return {{"title", summary.title}, {"lines", summary.lines}, {"sections", std::move(sections)}};
}

MorningSummary summary_from(const nlohmann::json& json) {
  MorningSummary summary;
  summary.title = json.at("title").get<std::string>();
  summary.lines = json.at("lines").get<decltype(summary.lines)>();
  for (const auto& part : json.at("sections")) {
    summary.sections.push_back({part.at(0).get<std::string>(), part.at(1).get<std::vector<std::string>>()});
  }
  return summary;
}

nlohmann::json outputs_of(const fs::path& folder) {
  auto files = nlohmann::json::object();
  for (const auto& entry : fs::directory_iterator(folder)) {
    files[entry.path().filename().string()] = to_hex(sha256_file(entry.path()));
  }
  return files;
}

}  // namespace

std::set<std::string> watched_places(const BuildOrigins& origins, const Inputs& inputs) {
  const fs::path project = whole(fs::absolute(origins.export_file).parent_path());
  const fs::path settings =
      origins.settings_file.empty() ? project : whole(fs::absolute(origins.settings_file).parent_path());
  std::set<std::string> places{project.string(), settings.string()};
  const auto library = [&](const std::string& key) {
    const auto named = inputs.settings.text(key);
    if (named) places.insert(whole(settings / named->value).string());
    return named.has_value();
  };
  library("library");
  for (std::size_t i = 0; library("library." + std::to_string(i)); ++i) {
  }
  for (const SettingsFile& file : inputs.settings_files) places.insert(whole(settings / file.location).string());
  for (const Evidence& document : inputs.intake.project->evidence) {
    if (!document.folder.empty()) places.insert(whole(document.folder).string());
  }
  return places;
}

std::optional<RememberedBuild> unchanged_build(ResultStore& store, const BuildOrigins& origins,
                                               const std::string& time_utc) {
  try {
    const auto note = nlohmann::json::parse(store.note(note_name(origins)));
    RememberedBuild build{note.at("time_utc").get<std::string>(), note.at("status").get<int>(),
                          summary_from(note.at("summary"))};
    if (build.time_utc > time_utc) return std::nullopt;
    const auto watched = note.at("watched").get<std::set<std::string>>();
    if (watch(origins, watched).digest(origins.options) != note.at("origins").get<std::string>()) return std::nullopt;
    if (outputs_of(origins.out) != note.at("outputs")) return std::nullopt;
    return build;
  } catch (const std::exception&) {
    return std::nullopt;  // the build that follows tells what is wrong
  }
}

MorningSummary summary_of_unchanged(const RememberedBuild& build) {
  MorningSummary summary = build.summary;
  for (auto& [word, text] : summary.lines) {
    if (word == "worse") text = "none";
    if (word == "causes") text = "nothing has changed since the build of " + build.time_utc + ", which stands";
  }
  std::erase_if(summary.sections, [](const SummarySection& part) { return part.heading.rfind("Since ", 0) == 0; });
  return summary;
}

void remember_build(ResultStore& store, const BuildOrigins& origins, const std::set<std::string>& watched,
                    const RememberedBuild& build, std::chrono::system_clock::time_point begun) {
  const Watch now = watch(origins, watched);
  if (now.last_change() >= begun) {
    store.set_note(note_name(origins), {});
    return;
  }
  const nlohmann::json note{{"time_utc", build.time_utc},
                            {"status", build.status},
                            {"summary", json_of(build.summary)},
                            {"watched", watched},
                            {"origins", now.digest(origins.options)},
                            {"outputs", outputs_of(origins.out)}};
  store.set_note(note_name(origins), note.dump());
}

}  // namespace panel_dossier
