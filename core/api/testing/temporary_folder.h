// A folder that lives as long as the test.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace panel_dossier::testing {

class TemporaryFolder {
 public:
  TemporaryFolder() {
    // mkdtemp replaces the six letters at the end.
    std::string name = (std::filesystem::temp_directory_path() / "panel-dossier-test-").string() + std::string(6, 'X');
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("cannot make a temporary folder");
    path_ = name;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;  // a folder left behind harms no later test: each
                              // has its own name
    std::filesystem::remove_all(path_, ignored);
  }

  const std::filesystem::path& path() const { return path_; }

  /// Writes a file of that name, with the folders it lies in, and returns its path.
  std::filesystem::path write(const std::string& name, std::string_view content) const {
    std::filesystem::path file = path_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << content;
    return file;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace panel_dossier::testing
