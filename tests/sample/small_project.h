// A project of a few panels, for tests that need a build and not this one: it takes a tenth of the time.
#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"

namespace panel_dossier {

/// The sample's generator, settings and tables in a folder of their own; without its evidence, so a build of it has
/// open points and no failing verdict.
class SmallProject {
 public:
  SmallProject() {
    for (const char* name : {"settings.json", "rates.csv", "carbon_targets.csv"}) {
      std::filesystem::copy_file(sample_folder() / name, folder_.path() / name);
    }
    REQUIRE(run_command(PANEL_DOSSIER_SAMPLE_GENERATOR " --panels 4 --out " + quoted(export_file())).status == 0);
  }

  std::filesystem::path export_file() const { return folder_.path() / "small.ifcxml"; }
  const std::filesystem::path& folder() const { return folder_.path(); }

 private:
  testing::TemporaryFolder folder_;
};

}  // namespace panel_dossier
