// Net and gross measures of materials.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

TEST_CASE("the gross measure leaves small openings in, layer by layer") {
  Panel panel = cassette("P1");
  panel.openings.push_back({});
  panel.openings[0].x_max_m = 0.5;
  panel.openings[0].z_max_m = 1.0;
  Settings limit = settings();
  limit.set("quantities.opening_deduction_over_m2", 0.5);
  const auto board = [&](const Settings& chosen) {
    const Finding found = take_off_measures(panel, project_of({panel}), chosen);
    for (const auto& row : found.tables.at(0).rows) {
      if (std::get<std::string>(row[0]) == "particle board") return std::get<double>(row[4]) - std::get<double>(row[3]);
    }
    return -1.0;
  };
  CHECK(board(limit) == Approx(0.5).epsilon(1e-9));
  limit.set("quantities.opening_deduction_over_m2", 0.49);
  CHECK(board(limit) == 0.0);
}

TEST_CASE("the volumes of the take-off add up to the panel's") {
  const Panel panel = cassette("P1");
  const Finding found = take_off_measures(panel, project_of({panel}), settings());
  double sum = 0.0;
  for (const auto& row : found.tables.at(0).rows) sum += std::get<double>(row[5]);
  CHECK(std::get<double>(found.value) == Approx(sum).epsilon(1e-12));
  const double framing_m3 = (5 * 2.31 + 2 * 2.4) * 0.045 * 0.145;
  CHECK(std::get<double>(found.value) == Approx(framing_m3 + 2.4 * 2.4 * 0.012).margin(1e-5));
}

TEST_CASE("a material of zero density gives volumes and no mass") {
  Project project = project_of({cassette("P1")});
  project.materials[0] = material("softwood", 0.0);
  CHECK(mass(project.panels[0], project).verdict == Verdict::not_assessed);
  CHECK(take_off_measures(project.panels[0], project, settings()).verdict == Verdict::information);
}
