// The sample project, and the build of it that the tests of this folder share.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "tests/support/command.h"

namespace panel_dossier {

inline std::filesystem::path sample_folder() {
  return std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project";
}

inline std::filesystem::path sample_export() {
  return sample_folder() / "health-centre.ifcxml";
}

/// Output of the build that CTest makes before any test of this folder.
inline std::filesystem::path sample_out() {
  return PANEL_DOSSIER_SAMPLE_OUT;
}

inline std::string quoted(const std::filesystem::path& path) {
  return "'" + path.string() + "'";
}

/// results.json of that build. It takes longer to read than most tests take with it: the tests that read it have the
/// tag [outputs], and CTest runs them in one process.
inline const nlohmann::json& sample_results() {
  static const nlohmann::json document = nlohmann::json::parse(text_of(sample_out() / "results.json"));
  return document;
}

/// The derivation of a finding of that results.json.
inline const nlohmann::json& derivation_of(const nlohmann::json& finding) {
  return sample_results().at("derivations").at(finding.at("derivation").get<std::string>());
}

/// The text of the dossier's pages, with form feeds between them, and what the reading of it complains of.
inline const CommandResult& sample_pages() {
  static const CommandResult pages = run_command("pdftotext -layout " + quoted(sample_out() / "dossier.pdf") + " -");
  return pages;
}

/// `panel-dossier build EXPORT --out OUT` with the time the shared build has. Without a store, so that each computes
/// all.
inline std::string build_command(const std::filesystem::path& export_file, const std::filesystem::path& out) {
  return quoted(PANEL_DOSSIER_PROGRAM) + " build " + quoted(export_file) + " --out " + quoted(out) +
         " --no-store --build-time " PANEL_DOSSIER_SAMPLE_TIME;
}

/// `panel-dossier verify` of a build, now, with the certificate beside it as the one that is trusted.
inline std::string verify_now_command(const std::filesystem::path& dossier) {
  return quoted(PANEL_DOSSIER_PROGRAM) + " verify " + quoted(dossier) + " --trust " +
         quoted(dossier.parent_path() / "signing-certificate.pem");
}

/// The same of what `build_command` made, on its day.
inline std::string verify_command(const std::filesystem::path& dossier) {
  return verify_now_command(dossier) + " --at " PANEL_DOSSIER_SAMPLE_TIME;
}

/// A project of a few panels, for tests that need a build and not the shared one: it takes a tenth of the time. It
/// holds the sample's generator, settings and tables in a folder of their own; without its evidence, so a build of it
/// has open points. So few panels waste more of bars and sheets than their declarations say, which fails.
class SmallProject {
 public:
  explicit SmallProject(int panels = 4) {
    for (const char* name :
         {"settings.json", "rates.csv", "carbon_targets.csv", "people.csv", "materials.csv", "lifting.csv"}) {
      std::filesystem::copy_file(sample_folder() / name, folder_.path() / name);
    }
    if (run_command(std::string(PANEL_DOSSIER_SAMPLE_GENERATOR) + " --panels " + std::to_string(panels) + " --out " +
                    quoted(export_file()))
            .status != 0) {
      throw std::runtime_error("the sample's generator does not write " + export_file().string());
    }
  }

  std::filesystem::path export_file() const { return folder_.path() / "small.ifcxml"; }
  const std::filesystem::path& folder() const { return folder_.path(); }

 private:
  testing::TemporaryFolder folder_;
};

}  // namespace panel_dossier
