// From an ordinary export to a project: forms, what they hold, and that they are read back as they are.
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <utility>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

CommandResult program(const std::string& arguments) {
  return run_command(quoted(PANEL_DOSSIER_PROGRAM) + " " + arguments);
}

}  // namespace

TEST_CASE("init writes forms for an ordinary export, which are read back as they are") {
  const testing::TemporaryFolder folder;
  const fs::path plain = folder.path() / "walls.ifc";
  fs::copy_file(sample_folder() / "plain_export/health-centre-walls.ifc", plain);
  const CommandResult made = program("init " + quoted(plain));
  INFO(made.err);
  REQUIRE(made.status == 0);
  CHECK_THAT(text_of(folder.path() / "settings.json"), Contains("\"top_storey_height_m\": 7.2,") &&
                                                           Contains("// \"jurisdiction\": \"…\",") &&
                                                           Contains("[needed: fire, thermal]"));
  CHECK_THAT(text_of(folder.path() / "library/materials.csv"), Contains("product,material name,category,") &&
                                                                   Contains("Density [kg/m³]") &&
                                                                   Contains("\nGKF 15,GKF 15,,,"));
  CHECK_THAT(text_of(folder.path() / "library/panels.csv"), Contains("\nINF-S,INF-S,,"));
  CHECK_THAT(text_of(folder.path() / "records/as_built.csv"), Contains("width [m]") && Contains("\nS0-01,,,"));
  CHECK_THAT(text_of(folder.path() / "next-steps.txt"), Contains("setting project.jurisdiction"));

  const CommandResult again = program("check " + quoted(plain));
  INFO(again.err);
  CHECK(again.status == 0);
  CHECK_THAT(again.err, Contains("0 errors, "));
  CHECK_THAT(again.err, Contains("57 more warnings of that kind: neither the export nor the settings say"));

  // What is there is never written over.
  const CommandResult kept = program("init " + quoted(plain));
  CHECK(kept.status == 0);
  CHECK_THAT(kept.out, Contains("kept: ") && !Contains("new:  "));
  fs::remove(folder.path() / "settings.json");
  fs::remove(folder.path() / "library/boards.csv");
  fs::create_symlink(folder.path() / "elsewhere.json", folder.path() / "settings.json");
  CHECK_THAT(program("init " + quoted(plain)).out, Contains("settings.json (it was there already)"));
  CHECK(fs::is_symlink(folder.path() / "settings.json"));
  const fs::path form = folder.path() / "library/materials.csv";
  fs::rename(form, form.string() + ".new");
  const CommandResult in_the_way = program("init " + quoted(plain));
  CHECK(in_the_way.status == 2);
  CHECK_THAT(in_the_way.err, Contains("materials.csv.new' is in the way"));
  CHECK_FALSE(fs::exists(form));
}

TEST_CASE("check counts the panels that wait, one or many") {
  const testing::TemporaryFolder folder;
  const fs::path settings = folder.write("empty.json", "{}");
  for (const auto& [panels, waiting] :
       {std::pair("1", "  1 panel       settings.json"), std::pair("4", "  4 panels      settings.json")}) {
    const fs::path small = folder.path() / (std::string(panels) + ".ifcxml");
    REQUIRE(run_command(std::string(PANEL_DOSSIER_SAMPLE_GENERATOR " --panels ") + panels + " --out " + quoted(small))
                .status == 0);
    const CommandResult checked = program("check " + quoted(small) + " --settings " + quoted(settings));
    CHECK(checked.status == 0);
    CHECK_THAT(checked.out, Contains(std::string(waiting) + "               setting project.jurisdiction\n"));
  }
}

TEST_CASE("The plain export has all five disciplines with its library and records") {
  const testing::TemporaryFolder folder;
  const fs::path missing = folder.path() / "missing";
  const CommandResult result = program("check " + quoted(sample_folder() / "plain_export/health-centre-walls.ifc") +
                                       " --forms " + quoted(missing));
  INFO(result.err);
  CHECK(result.status == 0);
  CHECK_THAT(result.out, Contains("in: 60, rule 1 (include classification 'W-330')"));
  CHECK_THAT(result.out, !Contains("it has no figure yet"));
  CHECK_THAT(result.out, Contains("records: air_tests"));
  CHECK(fs::exists(missing / "records/air_tests.csv"));
  CHECK_FALSE(fs::exists(missing / "records/installation.csv"));
}
