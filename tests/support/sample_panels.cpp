#include "tests/support/sample_panels.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>

namespace panel_dossier::testing {

namespace {

const std::filesystem::path kRoot = PANEL_DOSSIER_SOURCE_DIR;

}  // namespace

void write_sample_panels(const TemporaryFolder& folder, const std::string& marks) {
  const std::filesystem::path sample = kRoot / "sample_project";
  const std::string command = "'" PANEL_DOSSIER_SAMPLE_GENERATOR "' --out '" +
                              (folder.path() / "project.ifcxml").string() + "' --only " + marks;
  if (std::system(command.c_str()) != 0) throw std::runtime_error("the sample's generator failed");
  for (const char* beside :
       {"evidence", "settings.json", "rates.csv", "carbon_targets.csv", "people.csv", "materials.csv", "lifting.csv"}) {
    std::filesystem::copy(sample / beside, folder.path() / beside, std::filesystem::copy_options::recursive);
  }
}

InputOptions sample_panels_options(const TemporaryFolder& folder) {
  InputOptions options;
  options.export_file = folder.path() / "project.ifcxml";
  options.settings_file = folder.path() / "settings.json";
  options.schema_dir = kRoot / "schemas";
  options.today = "2026-06-01";
  for (const auto& entry : std::filesystem::directory_iterator(kRoot / "plugins")) {
    if (!std::filesystem::exists(entry.path() / "entry.cpp")) continue;
    options.plugin_folders.emplace_back(entry.path().filename().string(), entry.path());
  }
  std::sort(options.plugin_folders.begin(), options.plugin_folders.end());
  return options;
}

}  // namespace panel_dossier::testing
