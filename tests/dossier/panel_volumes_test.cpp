#include "core/dossier/parts/panel_volumes.h"

#include <catch2/catch.hpp>

#include "core/dossier/dossier.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

/// Panels of the storeys one after the other; the last count is of those without a storey.
Project project_of(const std::vector<std::size_t>& panels_by_storey) {
  Project project;
  for (std::size_t storey = 0; storey + 1 < panels_by_storey.size(); ++storey)
    project.storeys.push_back({"", "S" + std::to_string(storey), "", std::nullopt, {}});
  for (std::size_t storey = 0; storey < panels_by_storey.size(); ++storey) {
    for (std::size_t i = 0; i < panels_by_storey[storey]; ++i) {
      Panel panel;
      if (storey < project.storeys.size()) panel.storey = storey;
      project.panels.push_back(panel);
    }
  }
  return project;
}

std::vector<std::pair<std::string, std::size_t>> volumes_of(const Project& project, std::size_t most) {
  std::vector<std::pair<std::string, std::size_t>> volumes;
  for (const PanelVolume& volume : panel_volumes(project, most))
    volumes.emplace_back(volume.title, volume.panels.size());
  return volumes;
}

std::string text_of(const std::filesystem::path& file) {
  return test::output_of("pdftotext -layout '" + file.string() + "' - 2>/dev/null");
}

}  // namespace

TEST_CASE("Storeys share a volume while they fit, and a large one goes over several") {
  using Volumes = std::vector<std::pair<std::string, std::size_t>>;
  CHECK(volumes_of(project_of({3, 4, 3, 0}), 10) == Volumes{{"S0 to S2", 10}});
  CHECK(volumes_of(project_of({3, 4, 4, 0}), 10) == Volumes{{"S0 to S1", 7}, {"S2", 4}});
  CHECK(volumes_of(project_of({25, 2, 3}), 10) ==
        Volumes{{"S0, 1 of 3", 10}, {"S0, 2 of 3", 10}, {"S0, 3 of 3 to without a storey", 10}});
  CHECK(volumes_of(project_of({0, 0}), 10).empty());
}

TEST_CASE("Every panel lies in one volume, whatever its storey") {
  Project project = project_of({5, 7, 2, 3});
  std::swap(project.panels[0], project.panels[9]);
  std::vector<std::size_t> found;
  for (const PanelVolume& volume : panel_volumes(project, 4)) {
    CHECK(volume.panels.size() <= 4);
    found.insert(found.end(), volume.panels.begin(), volume.panels.end());
  }
  std::sort(found.begin(), found.end());
  REQUIRE(found.size() == project.panels.size());
  for (std::size_t i = 0; i < found.size(); ++i) CHECK(found[i] == i);
}

TEST_CASE("A large dossier is written in volumes whose pages name each other") {
  test::SyntheticDossier made = test::synthetic_dossier(40, 6);
  made.settings.set("dossier.volume_panels", 30.0);
  std::map<std::string, std::string> texts;
  const auto file = test::temporary_file("volumes.pdf");
  write_dossier(made.content(), test::installed_fonts(), file, {},
                [&](const std::filesystem::path& pages, const DossierVolume& volume) {
                  texts[volume.file] = text_of(pages);
                  CHECK(std::to_string(volume.pages) == test::output_of("qpdf --show-npages '" + pages.string() + "'")
                                                            .substr(0, std::to_string(volume.pages).size()));
                  std::filesystem::remove(pages);
                  return HexDigest(64, 'd');
                });
  REQUIRE(texts.size() == 3);
  const std::string main = text_of(file);
  for (const auto& [name, text] : texts) CHECK_THAT(main, Contains(name));
  CHECK_THAT(main, Contains(std::string(32, 'd')));
  CHECK_THAT(main, !Contains("Panel P-7"));
  CHECK_THAT(texts["dossier-annex.pdf"], Contains("page A1 of A"));
  CHECK_THAT(texts["dossier-panels-1.pdf"], Contains("Panel P-1:") && Contains("page P1.1 of P1."));
  CHECK_THAT(texts["dossier-panels-2.pdf"], Contains("Panel P-40:") && Contains("page P2.1 of P2."));
  // A finding leads to the page of its derivation in the annex, the schedule to the page of the panel.
  const std::string& panels = texts["dossier-panels-1.pdf"];
  const std::size_t row = panels.find("Made-up check number 0");
  REQUIRE(row != std::string::npos);
  CHECK_THAT(panels.substr(row, panels.find('\n', row) - row), Contains("  A"));
  CHECK_THAT(main.substr(main.find("Schedule of panels")), Contains("P1.") && Contains("P2."));
}

TEST_CASE("A small dossier has no volumes, nor has one that nobody takes volumes of") {
  test::SyntheticDossier made = test::synthetic_dossier(3, 2);
  std::size_t volumes = 0;
  const VolumeSink count = [&](const std::filesystem::path&, const DossierVolume&) {
    ++volumes;
    return HexDigest(64, 'd');
  };
  write_dossier(made.content(), test::installed_fonts(), test::temporary_file("small_whole.pdf"), {}, count);
  made.settings.set("dossier.volume_panels", 1.0);
  write_dossier(made.content(), test::installed_fonts(), test::temporary_file("no_sink.pdf"));
  CHECK(volumes == 0);
}
