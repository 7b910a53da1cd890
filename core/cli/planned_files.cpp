#include "core/cli/planned_files.h"

#include <stdexcept>
#include <system_error>
#include <utility>

#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// Files beside their places, and what was in those; takes all back unless told that it is done.
class Staging {
 public:
  ~Staging() {
    if (done_) return;
    std::error_code ignored;  // nothing more can be done
    for (const fs::path& file : staged_) fs::remove(file, ignored);
    for (const auto& [file, before] : replaced_) restore(file, before);
    for (auto folder = folders_.rbegin(); folder != folders_.rend(); ++folder) fs::remove(*folder, ignored);
  }

  void stage(const PlannedFile& planned) {
    make_folder(planned.file.parent_path());
    const fs::path place = place_of(planned.file);
    if (fs::exists(fs::symlink_status(place))) {
      throw std::runtime_error("'" + place.string() + "' is in the way; move it elsewhere");
    }
    staged_.push_back(place);
    write_file(place, planned.text);
  }

  void publish(const PlannedFile& planned) {
    replaced_.emplace_back(planned.file, planned.is_new ? std::string() : read_file(planned.file));
    fs::rename(place_of(planned.file), planned.file);
  }

  void keep() { done_ = true; }

 private:
  std::vector<fs::path> folders_;
  std::vector<fs::path> staged_;
  std::vector<std::pair<fs::path, std::string>> replaced_;  ///< with the text before; empty: a new file
  bool done_ = false;

  static fs::path place_of(const fs::path& file) { return file.string() + ".new"; }

  void make_folder(const fs::path& folder) {
    if (fs::exists(folder)) return;
    make_folder(folder.parent_path());
    std::error_code error;
    if (!fs::create_directory(folder, error)) {
      throw std::runtime_error("cannot make the folder '" + folder.string() + "': " + error.message());
    }
    folders_.push_back(folder);
  }

  static void restore(const fs::path& file, const std::string& before) {
    std::error_code ignored;
    try {
      if (before.empty()) {
        fs::remove(file, ignored);
      } else {
        write_file(file, before);
      }
    } catch (const std::runtime_error&) {
      // What made this necessary is told; a second message about the same disk says no more.
    }
  }
};

}  // namespace

void write_all_or_none(const std::vector<PlannedFile>& files) {
  Staging staging;
  for (const PlannedFile& file : files) staging.stage(file);
  for (const PlannedFile& file : files) staging.publish(file);
  staging.keep();
}

}  // namespace panel_dossier
