#include "plugins/fire/facade/cavity_check.h"

#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/fire/facade/cavity_panel.h"
#include "tests/fire/fire_tables.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding barriers(const Project& project, const Settings& settings = cassette_settings()) {
  return fire::cavity_barriers(project.panels.front(), project, settings, fire_tables());
}

}  // namespace

TEST_CASE("A panel without a cavity outside needs no cavity barriers") {
  CHECK(std::get<std::string>(barriers(cassette_project()).value) == "no cavity outside");
}

TEST_CASE("The cavity is closed at its foot and round openings, and at the head by the panel above") {
  Project project = panel_with_cavity();
  CHECK(std::get<double>(barriers(project).value) == Approx(2.4));
  project.panels.front().openings.push_back(cavity_window());
  // Foot 2.4, head and sill of the window 1.2 each, jambs 1.5 each.
  CHECK(std::get<double>(barriers(project).value) == Approx(2.4 + 2.0 * 1.2 + 2.0 * 1.5));
  CHECK(barriers(project).verdict == Verdict::evidence_needed);
}

TEST_CASE("The head is closed where no storey lies above, and floors that a panel passes are") {
  Project top = panel_with_cavity();
  top.storeys.pop_back();
  CHECK(std::get<double>(barriers(top).value) == Approx(2.0 * 2.4));
  Project tall = panel_with_cavity();
  tall.panels.front().height_m.value = 6.0;
  CHECK(std::get<double>(barriers(tall).value) == Approx(3.0 * 2.4));
  Settings one_compartment = cassette_settings();
  one_compartment.set("fire.compartment_floors", false);
  CHECK(std::get<double>(barriers(tall, one_compartment).value) == Approx(2.0 * 2.4));
}

TEST_CASE("A floor is closed beside the opening that it passes, and under a panel of an upper storey") {
  Project tall = panel_with_cavity();
  tall.panels.front().height_m.value = 6.0;
  Opening through = cavity_window();
  through.z_min_m = 2.0;
  through.z_max_m = 4.0;
  tall.panels.front().openings.push_back(through);
  // Foot and head 2.4 each; the floor at 3.0 m 0.6 on either side; round the window 2 · 1.2 and 2 · 2.0.
  CHECK(std::get<double>(barriers(tall).value) == Approx(2.0 * 2.4 + 2.0 * 0.6 + 2.4 + 4.0));
  // An opening that ends at the floor takes nothing from it, one that begins there does.
  tall.panels.front().openings.back().z_max_m = 3.0;
  CHECK(std::get<double>(barriers(tall).value) == Approx(3.0 * 2.4 + 2.4 + 2.0));
  tall.panels.front().openings.back().z_min_m = 3.0;
  tall.panels.front().openings.back().z_max_m = 4.0;
  CHECK(std::get<double>(barriers(tall).value) == Approx(2.0 * 2.4 + 1.2 + 2.4 + 2.0));

  Project upper = panel_with_cavity();
  upper.panels.front().storey = 1;
  upper.panels.front().frame.origin.z = 3.0;
  // Its floor, and its head, above which no storey lies.
  CHECK(barriers(upper).reason.find("floor 'upper', head of the cavity") != std::string::npos);
  CHECK(std::get<double>(barriers(upper).value) == Approx(2.0 * 2.4));
  Settings one_compartment = cassette_settings();
  one_compartment.set("fire.compartment_floors", false);
  CHECK(std::get<double>(barriers(upper, one_compartment).value) == Approx(2.4));
}

TEST_CASE("Cavity barriers of the export are compared line by line") {
  Project project = panel_with_cavity();
  project.panels.front().parts.push_back(foot_barrier(2.4));
  CHECK(barriers(project).verdict == Verdict::information);
  project.panels.front().parts.back().bounds->max.x = 2.3;
  CHECK(barriers(project).verdict == Verdict::evidence_needed);
  CHECK(barriers(project).reason == "cavity barriers of the export do not cover: foot of the cavity");
}

TEST_CASE("A barrier inside the panel closes no cavity outside") {
  Project project = panel_with_cavity();
  project.panels.front().parts.push_back(foot_barrier(2.4));
  CHECK(barriers(project).verdict == Verdict::information);
  project.panels.front().parts.back().bounds->min.y = 0.02;
  project.panels.front().parts.back().bounds->max.y = 0.058;
  CHECK(barriers(project).verdict == Verdict::evidence_needed);
}

TEST_CASE("A barrier at one end of a long cavity leaves the rest undivided") {
  Project project = panel_with_cavity();
  for (int i = 1; i < 9; ++i) {
    project.panels.push_back(project.panels.front());
    project.panels.back().frame.origin.x = 2.41 * i;
  }
  const auto reason = [&] { return fire::project_cavity_barriers(project, cassette_settings(), fire_tables()).reason; };
  const std::string all_lacks = reason();
  // At 1.2 m of 21.6 m: 20.4 m remain, and 20 m are allowed.
  project.panels.front().parts.push_back(upright_barrier(1.15));
  CHECK(reason() == all_lacks);
  project.panels.front().parts.back() = upright_barrier(2.2);
  CHECK(reason() != all_lacks);
}

TEST_CASE("A barrier that stops short of the foot or head divides no cavity") {
  Project project = panel_with_cavity();
  for (int i = 1; i < 9; ++i) {
    project.panels.push_back(project.panels.front());
    project.panels.back().frame.origin.x = 2.41 * i;
  }
  const auto reason = [&](double from_z_m, double to_z_m) {
    Project divided = project;
    divided.panels.at(4).parts.push_back(cavity_barrier(1.15, 1.25, from_z_m, to_z_m));
    return fire::project_cavity_barriers(divided, cassette_settings(), fire_tables()).reason;
  };
  // What cutting and fitting leave, up to 10 mm, is none; the middle of 21.6 m leaves less than 20 m on either side.
  CHECK(reason(0.0, 3.0) == reason(0.009, 3.0));
  CHECK(reason(0.0, 3.0) == reason(0.0, 2.991));
  CHECK(reason(0.0, 3.0) != reason(0.05, 3.0));
  CHECK(reason(0.0, 3.0) != reason(0.0, 2.95));
}

TEST_CASE("A cavity that nothing closes outside has no surface to take a length from") {
  Project project = panel_with_cavity();
  project.panels.front().layers.pop_back();
  for (const Step& step : barriers(project).steps) {
    if (step.name == "largest undivided length of the cavity") CHECK_FALSE(std::holds_alternative<double>(step.value));
  }
}

TEST_CASE("The undivided length of a cavity depends on the classes of its surfaces") {
  // Approved Document B vol. 2 table 9.1: 20 m with class C-s3,d2 or better, else 10 m; from memory.
  const auto limit_m = [](const Project& project) {
    for (const Step& step : barriers(project).steps) {
      const auto* length_m = std::get_if<double>(&step.value);
      if (step.name == "largest undivided length of the cavity" && length_m != nullptr) return *length_m;
    }
    return 0.0;
  };
  Project project = panel_with_cavity();
  CHECK(limit_m(project) == 20.0);
  project.panels.front().layers.back().material = kOsb;
  CHECK(limit_m(project) == 10.0);
  project = panel_with_cavity();
  auto& inside_first = project.panels.front().layers;
  inside_first.at(inside_first.size() - 3).material = kOsb;  // the board behind the cavity
  CHECK(limit_m(project) == 10.0);
  // Of either surface nothing may be known: then there is no limit.
  for (const std::size_t from_outside : {1U, 3U}) {
    Project unknown = panel_with_cavity();
    auto& layers = unknown.panels.front().layers;
    layers.at(layers.size() - from_outside).material.reset();
    CHECK(limit_m(unknown) == 0.0);
  }
}

TEST_CASE("The project closes cavities where they end and divides runs that are too long") {
  Project project = panel_with_cavity();
  for (int i = 1; i < 9; ++i) {
    project.panels.push_back(project.panels.front());
    project.panels.back().frame.origin.x = 2.41 * i;
  }
  const Finding finding = fire::project_cavity_barriers(project, cassette_settings(), fire_tables());
  // Nine panels of 2.4 m: 21.6 m in one run; two ends and one barrier between, each 3 m; feet 9 · 2.4 m.
  REQUIRE(finding.tables.size() == 1);
  CHECK(std::get<double>(finding.tables[0].rows.at(0).at(3)) == 2.0);
  CHECK(std::get<double>(finding.tables[0].rows.at(0).at(4)) == 1.0);
  CHECK(std::get<double>(finding.value) == Approx(9 * 2.4 + 3 * 3.0));
}

TEST_CASE("A cavity runs on to the next panel wherever on the site the two stand") {
  for (const double shift_m : {0.0, 0.01, 0.02, 0.03, 0.04}) {
    for (const Vec3& step : {Vec3{0.03, 0.0, 0.0}, Vec3{0.0, 0.03, 0.0}, Vec3{0.0, -0.03, 0.0}, Vec3{0.0, 0.0, 0.03},
                             Vec3{0.0, 0.0, -0.03}, Vec3{-0.03, 0.0, 0.0}}) {
      INFO(shift_m << " m, neighbour off by " << step.x << " " << step.y << " " << step.z);
      Project project = panel_with_cavity();
      project.panels.front().frame.origin = {shift_m, shift_m, shift_m};
      project.panels.push_back(project.panels.front());
      project.panels.back().frame.origin = Vec3{2.4 + shift_m, shift_m, shift_m} + step;
      const Finding finding = fire::project_cavity_barriers(project, cassette_settings(), fire_tables());
      CHECK(std::get<double>(finding.tables.at(0).rows.at(0).at(3)) == 2.0);
    }
  }
}

TEST_CASE("The project's finding tells how much of the needed length the export has and lacks") {
  Project project = panel_with_cavity();
  const auto told = [&](const char* id) {
    const Finding finding = fire::project_cavity_barriers(project, cassette_settings(), fire_tables());
    for (const NamedValue& value : finding.values) {
      if (value.id == id) return std::get<double>(value.value);
    }
    return -1.0;
  };
  const double needed =
      std::get<double>(fire::project_cavity_barriers(project, cassette_settings(), fire_tables()).value);
  CHECK(told("in_export") == 0.0);
  CHECK(told("not_in_export") == Approx(needed));
  project.panels.front().parts.push_back(foot_barrier(2.4));
  CHECK(told("in_export") == Approx(2.4));
  CHECK(told("not_in_export") == Approx(needed - 2.4));
}
