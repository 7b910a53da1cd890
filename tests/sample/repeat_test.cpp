// Same input, settings and plugins: same bytes. And what compare says when they are not the same.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

namespace {

/// The dossier with the hexadecimal signature blanked: all that was there before the signature.
std::string before_signature(const fs::path& dossier) {
  std::string bytes = text_of(dossier);
  const std::size_t contents = bytes.rfind("/Contents <");
  REQUIRE(contents != std::string::npos);
  const std::size_t end = bytes.find('>', contents);
  std::fill(bytes.begin() + static_cast<std::ptrdiff_t>(contents + 11),
            bytes.begin() + static_cast<std::ptrdiff_t>(end), '0');
  return bytes;
}

}  // namespace

TEST_CASE("A second run gives the same bytes, whatever the number of threads", "[plain]") {
  const SmallProject project;
  const fs::path alone = project.folder() / "alone";
  const fs::path many = project.folder() / "many";
  REQUIRE(run_command(build_command(project.export_file(), alone) + " --threads 1").status == 1);
  REQUIRE(run_command(build_command(project.export_file(), many) + " --threads 4").status == 1);
  for (const char* name :
       {"results.json", "checks.xml", "quantities.csv", "cutting.csv", "carbon.csv", "deliveries.csv", "build.log",
        "cobie.xlsx", "tables.xlsx", "workshop.xlsx", "companion.html"}) {
    INFO(name);
    CHECK(text_of(alone / name) == text_of(many / name));
  }
  CHECK(before_signature(alone / "dossier.pdf") == before_signature(many / "dossier.pdf"));
}

TEST_CASE("compare finds nothing between two builds of one input", "[plain]") {
  const CommandResult result =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " compare " + quoted(sample_out()) + " " + quoted(sample_out()));
  CHECK(result.status == 0);
  CHECK_THAT(result.out, Catch::Matchers::EndsWith(": nothing changed\n"));
}

TEST_CASE("A tighter limit in a file that the settings name moves verdicts, and compare and the change log say so",
          "[plain]") {
  const SmallProject project;
  // Without declarations no carbon is counted.
  fs::copy(sample_folder() / "evidence", project.folder() / "evidence", fs::copy_options::recursive);
  const fs::path earlier = project.folder() / "earlier";
  REQUIRE(run_command(build_command(project.export_file(), earlier)).status == 1);
  const fs::path file = project.folder() / "carbon_targets.csv";
  std::string targets = text_of(file);
  const std::string before = "A1-A5,every panel,75,";
  REQUIRE(targets.find(before) != std::string::npos);
  targets.replace(targets.find(before), before.size(), "A1-A5,every panel,20,");
  std::ofstream(file) << targets;
  const fs::path out = project.folder() / "out";
  REQUIRE(run_command(build_command(project.export_file(), out) + " --previous " + quoted(earlier)).status == 1);
  const CommandResult result =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " compare " + quoted(earlier) + " " + quoted(out));
  CHECK(result.status == 1);
  CHECK_THAT(result.out, Catch::Matchers::Contains("WORSE") && Catch::Matchers::Contains("carbon.total_per_area"));
  CHECK_THAT(run_command("pdftotext -layout " + quoted(out / "dossier.pdf") + " -").out,
             Catch::Matchers::Contains("Verdicts that moved"));
}
