// Published U-values of timber-framed walls, through the checks of the plugin on whole panels.
#include <catch2/catch.hpp>
#include <optional>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/panels.h"
#include "plugins/thermal/checks.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const thermal::Tables& shipped_tables() {
  static const thermal::Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  return tables;
}

/// A wall of which the layers, and nothing else, are published.
struct Wall {
  Project project;
  Panel panel;
  Settings settings;

  Wall(double width_m, double height_m) : panel(plain_panel(width_m, height_m)) {
    settings.set("thermal.air_void_level", 0.0);
    settings.set("project.jurisdiction", std::string("England"));
    settings.set("project.use", std::string("dwellings"));
    settings.set("project.assessment_date", std::string("2026-06-01"));
  }

  std::size_t material(const std::string& category, double conductivity) {
    return add_material(project, category + " " + std::to_string(project.materials.size()), category, 500.0,
                        conductivity);
  }

  /// The next layer outwards, of a stated resistance in m²·K/W.
  void resist(const std::string& name, double thickness_m, double resistance) {
    add_layer(panel, name, "", material("", thickness_m / resistance), thickness_m);
  }

  Finding u_value() {
    project.panels = {panel};
    thermal::conduction::DetailSolver solver;
    return finding_of(
        thermal::check_panel(project.panels.front(), project, settings, shipped_tables(), solver).findings,
        "thermal.u_value");
  }
};

}  // namespace

// Approved Document L1 (England and Wales), 2002 edition, appendix B, example 2: timber-framed wall of brick 102 mm
// (R 0.132), slightly ventilated cavity (0.090), plywood 10 mm (0.077), mineral wool 140 mm of 0.038 W/(m·K) between
// timber of 0.13 W/(m·K) at a share of 15 %, plasterboard 25 mm (0.100); R_si 0.13, R_se 0.04. Printed there: upper
// limit 3.437, lower limit 3.271, total 3.354 m²·K/W, U before corrections 0.298 W/(m²·K). From memory. Tolerance: one
// unit of the last printed digit, for the example works with resistances already rounded to 0.001. Its cavity counts
// with a fixed resistance, as the rules of its day had it, so it stands as a layer of that resistance.
TEST_CASE("the timber-framed wall of the approved document has its published limits and U-value") {
  Wall wall(3.0, 2.5);
  wall.resist("plasterboard", 0.025, 0.100);
  add_layer(wall.panel, "frame", "insulation", wall.material("insulation", 0.038), 0.140);
  wall.resist("plywood", 0.010, 0.077);
  wall.resist("cavity", 0.050, 0.090);
  wall.resist("brick", 0.102, 0.132);
  wall.settings.set("thermal.assumed_framing_fraction", 0.15);
  wall.settings.set("thermal.assumed_framing_conductivity_w_per_mk", 0.13);
  const Finding finding = wall.u_value();
  INFO(finding.reason);
  CHECK(step_of(finding, "R'_tot") == Approx(3.437).margin(0.001));
  CHECK(step_of(finding, "R''_tot") == Approx(3.271).margin(0.001));
  CHECK(step_of(finding, "R_tot") == Approx(3.354).margin(0.001));
  CHECK(number_of(finding) == Approx(0.298).margin(0.001));
}

// Scottish Government, "6.B Worked examples of U-value calculations using the combined method", 6.B.2 timber-framed
// wall; read second hand on 29 November 2026. Resistances in m²·K/W, inside last: R_se 0.040, brick 0.132, cavity
// 0.180, sheathing 0.069, mineral wool 3.500 (85 %) beside timber 1.167 (15 %), plasterboard 0.060, R_si 0.130.
// Printed: paths 4.111 and 1.778, upper limit 3.435, lower 3.304, U 0.30 before any correction. Tolerance: half of the
// last printed digit and, for the limits, the rounding of the six resistances to 0.001 in them: one unit. The cavity is
// an unventilated air layer of 25 mm, whose 0.180 comes from the shipped table.
TEST_CASE("the timber-framed wall of the Scottish worked examples has its published paths, limits and U-value") {
  Wall wall(3.0, 2.5);
  wall.resist("plasterboard", 0.0125, 0.060);
  add_layer(wall.panel, "frame", "insulation", wall.material("insulation", 0.140 / 3.500), 0.140);
  wall.resist("sheathing", 0.009, 0.069);
  add_layer(wall.panel, "cavity", "air", std::nullopt, 0.025).is_ventilated = false;
  wall.resist("brick", 0.102, 0.132);
  wall.settings.set("thermal.assumed_framing_fraction", 0.15);
  wall.settings.set("thermal.assumed_framing_conductivity_w_per_mk", 0.140 / 1.167);
  const Finding finding = wall.u_value();
  INFO(finding.reason);
  const Table& sections = finding.tables.at(1);
  CHECK(std::get<double>(sections.rows.at(0).at(2)) == Approx(4.111).margin(0.0005));
  CHECK(std::get<double>(sections.rows.at(1).at(2)) == Approx(1.778).margin(0.0005));
  CHECK(step_of(finding, "R'_tot") == Approx(3.435).margin(0.001));
  CHECK(step_of(finding, "R''_tot") == Approx(3.304).margin(0.001));
  CHECK(number_of(finding) == Approx(0.30).margin(0.005));
}

namespace {

/// A bay in which studs at 625 mm and battens at 400 mm come out even.
constexpr double kBay_m = 10.0;
constexpr double kHeight_m = 4.0;
constexpr double kTimberWidth_m = 0.060;

/// Component awrhhi08a from inside: gypsum board DF 12.5, 40 mm battens crossing the studs with wool or air between,
/// OSB 15, studs with wool, gypsum fibre 12.5, ventilated battens and larch.
Wall catalogue_wall(double stud_m, bool wool_between_battens) {
  Wall wall(kBay_m, kHeight_m);
  const std::size_t timber = wall.material("wood", 0.12);
  const std::size_t wool = wall.material("insulation", 0.040);
  add_layer(wall.panel, "gypsum board", "lining", wall.material("gypsum", 0.25), 0.0125);
  if (wool_between_battens) {
    add_layer(wall.panel, "battens", "insulation", wool, 0.040);
  } else {
    add_layer(wall.panel, "battens", "air", std::nullopt, 0.040).is_ventilated = false;
  }
  add_layer(wall.panel, "OSB", "sheathing", wall.material("wood", 0.13), 0.015);
  add_layer(wall.panel, "studs", "insulation", wool, stud_m);
  add_layer(wall.panel, "gypsum fibre", "sheathing", wall.material("gypsum", 0.32), 0.0125);
  add_layer(wall.panel, "ventilated battens", "air", std::nullopt, 0.030).is_ventilated = true;
  add_layer(wall.panel, "larch", "cladding", wall.material("wood", 0.155), 0.024);
  const Layer& battens = wall.panel.layers[1];
  const Layer& studs = wall.panel.layers[3];
  for (int i = 0; i < 16; ++i) {
    const double x = 0.625 * i + 0.3;
    add_part(wall.panel, PartKind::stud, "Stud", timber,
             {{x, studs.y_inside_m, 0.0}, {x + kTimberWidth_m, studs.y_outside_m, kHeight_m}});
  }
  for (int i = 0; i < 10; ++i) {
    const double z = 0.4 * i + 0.2;
    add_part(wall.panel, PartKind::batten, "Batten", timber,
             {{0.0, battens.y_inside_m, z}, {kBay_m, battens.y_outside_m, z + kTimberWidth_m}});
  }
  return wall;
}

}  // namespace

// dataholz.eu, catalogue of tested timber walls, component awrhhi08a (ventilated), read on 29 November 2026, outside to
// inside, mm (λ in W/(m·K)): larch 24 (0.155), ventilated battens 30, wind barrier, gypsum fibre 12.5 (0.32), studs 60
// wide at 625 (0.12) with mineral wool 0.040, OSB 15 (0.13), battens 40 deep at 400 (0.12) with the same wool, gypsum
// board DF 12.5 (0.25). Printed: studs 160 deep U 0.21; studs 120: 0.26; studs 160 and the batten space empty: 0.25.
// The width of the battens is not printed: 60 mm are taken, as of the studs. Tolerance: half of the last printed digit.
TEST_CASE("the ventilated timber wall of the catalogue has its published U-values") {
  struct Published {
    double stud_m;
    bool wool_between_battens;
    double u_w_per_m2k;
  };
  for (const Published& published :
       {Published{0.160, true, 0.21}, Published{0.120, true, 0.26}, Published{0.160, false, 0.25}}) {
    Wall wall = catalogue_wall(published.stud_m, published.wool_between_battens);
    const Finding finding = wall.u_value();
    INFO(published.stud_m << ' ' << published.wool_between_battens << ' ' << finding.reason);
    CHECK(number_of(finding) == Approx(published.u_w_per_m2k).margin(0.005));
  }
}
