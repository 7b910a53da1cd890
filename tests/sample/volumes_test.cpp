// A large dossier is parted into volumes, which belong together.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"
#include "tests/support/command.h"

namespace panel_dossier {

TEST_CASE("A dossier of more panels than a volume holds is built in volumes that verify together", "[plain]") {
  const testing::TemporaryFolder folder;
  const auto project = folder.path() / "project";
  REQUIRE(
      run_command(PANEL_DOSSIER_SAMPLE_GENERATOR " --panels 60 --only E1-01,E1-02,S2-01 --project " + quoted(project))
          .status == 0);
  auto settings = nlohmann::json::parse(text_of(project / "settings.json"));
  settings["dossier"]["volume_panels"] = 2;
  std::ofstream(project / "settings.json") << settings;
  const auto out = folder.path() / "out";
  const std::string build = build_command(project / "health-centre.ifcxml", out);
  // Twice: the second replaces what the first left.
  for (int night = 0; night < 2; ++night) {
    const CommandResult built = run_command(build);
    INFO(built.err);
    REQUIRE(built.status != 3);
    REQUIRE(std::filesystem::exists(out / "results.json"));
  }
  for (const char* file : {"dossier.pdf", "dossier-annex.pdf", "dossier-panels-1.pdf", "dossier-panels-2.pdf"}) {
    INFO(file);
    const CommandResult verified = run_command(verify_command(out / file));
    INFO(verified.out);
    CHECK(verified.status == 0);
  }
  CHECK(run_command("pdftotext -layout " + quoted(out / "dossier-panels-2.pdf") + " -").out.find("Panel S2-01") !=
        std::string::npos);
  // The companion page leads into the volume, to the page on which the panel begins.
  const std::string companion = text_of(out / "companion.html");
  CHECK_THAT(companion, Catch::Contains("\"page\":[\"dossier-panels-1.pdf\",\"P1.2\",2]"));
  CHECK_THAT(companion, Catch::Contains("\"page\":[\"dossier-panels-2.pdf\",\"P2.2\",2]"));
  std::ofstream(out / "dossier-panels-2.pdf", std::ios::app) << ' ';
  const CommandResult changed = run_command(verify_command(out / "dossier.pdf"));
  CHECK(changed.status == 1);
  CHECK_THAT(changed.out, Catch::Contains("volume 'dossier-panels-2.pdf' is not the one that was signed"));
}

}  // namespace panel_dossier
