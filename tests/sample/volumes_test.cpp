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
  // One panel by itself, whose pages lie in a volume.
  CHECK_THAT(run_command(verify_command(out / "dossier.pdf") + " --panel S2-01").out,
             Catch::Contains("its pages are those that were signed: pages 2 to ") &&
                 Catch::Contains("of 'dossier-panels-2.pdf'"));
  // A checker signs the dossier, which then stands for its volumes; a volume is not signed by itself.
  const CommandResult key = run_command(
      "cd " + quoted(folder.path()) +
      " && openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -keyout key.pem -out checker.pem -days "
      "36500 -subj /CN=checker && openssl pkcs12 -export -inkey key.pem -in checker.pem -out key.p12 -passout pass:x");
  REQUIRE(key.status == 0);
  const std::string sign = "KEY=x " + quoted(PANEL_DOSSIER_PROGRAM) + " sign --role checker --password-env KEY " +
                           "--sign-key " + quoted(folder.path() / "key.p12") + " --out " + quoted(out / "checked.pdf") +
                           " ";
  const CommandResult refused = run_command(sign + quoted(out / "dossier-annex.pdf"));
  CHECK(refused.status == 2);
  CHECK_THAT(refused.err, Catch::Contains("is a volume") && Catch::Contains("nothing was written"));
  CHECK_FALSE(std::filesystem::exists(out / "checked.pdf"));
  CHECK_THAT(run_command(sign + quoted(out / "dossier.pdf")).out, Catch::Contains("signed as checker by 'CN=checker'"));
  const CommandResult kept =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " extend " + quoted(out / "checked.pdf") + " --keep " +
                  quoted(folder.path() / "checker.pem") + " --out " + quoted(out / "kept.pdf"));
  CHECK(kept.status == 0);
  const CommandResult both =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " verify " + quoted(out / "kept.pdf") + " --trust " +
                  quoted(out / "signing-certificate.pem") + " --trust " + quoted(folder.path() / "checker.pem"));
  INFO(both.out);
  CHECK_THAT(both.out, Catch::Contains("a signature as checker; kept proofs: 1 certificates") &&
                           Catch::Contains("signature 2, checker: 'CN=checker'"));
  std::filesystem::remove(out / "checked.pdf");
  std::filesystem::remove(out / "kept.pdf");
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
