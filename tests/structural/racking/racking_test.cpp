// Racking face by face, tie-downs and the rules of the sheathing's fixings, worked out by hand beside each check.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <optional>

#include "core/api/support/fastener_kinds.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/fixings/fasteners.h"
#include "plugins/structural/racking/strips.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> racking_findings(const Project& project, const Settings& settings = braced_settings()) {
  return findings_as_drawn(project, settings);
}

Finding racking_of(const Project& project, const Settings& settings = braced_settings()) {
  return finding_of(racking_findings(project, settings), "structural.racking");
}

Finding fixings_of(const Project& project) {
  return finding_of(racking_findings(project), "structural.sheathing_fixings");
}

double resistance_of(const Project& project, const Settings& settings = braced_settings()) {
  const Finding finding = racking_of(project, settings);
  return step_of(finding, "F_v,Rd");
}

/// Sheets on the outer face between these positions and up to this height, with nails like those of the inner face.
Project with_outer_face(const std::vector<double>& edges_m, double height_m) {
  Project project = braced_project();
  Panel& panel = project.panels.front();
  for (std::size_t i = 0; i + 1 < edges_m.size(); ++i) {
    panel.parts.push_back(
        box_part("outer sheet", PartKind::sheet, kOsb, {{edges_m[i], 0.157, 0.0}, {edges_m[i + 1], 0.169, height_m}}));
  }
  Part nails = part_named(project, "nails");
  nails.name = "outer nails";
  nails.bounds->min.y = 0.157;
  nails.bounds->max.y = 0.169;
  panel.parts.push_back(nails);
  return project;
}

/// 4.5 kN of racking load, which lifts the ends.
Project lifted_project() {
  Project project = braced_project();
  replace(project.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(4500.0));
  return project;
}

Settings settings_of_method_b() {
  Settings settings = braced_settings();
  settings.set("structural.racking_method", std::string("B"));
  return settings;
}

}  // namespace

TEST_CASE("A bracing wall that lifts off asks for its tie-downs by place and force") {
  const Finding finding = racking_of(lifted_project());
  // 1.5·4.5/2 = 3.375 kN a sheet: 3.375·3.0/1.2 = 8.4375 kN, less 0.9·(g_0 + 8) on 0.6 m.
  const double uplift_kn = 8.4375 - 0.6 * step_of(finding, "g_t");
  REQUIRE(uplift_kn > 0.0);
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason.find("a tie-down (fastener TIE_DOWN with Panel_Fastener.DesignTension)") != std::string::npos);
  CHECK(finding.reason.find("at x = 0.00 m") != std::string::npos);
  CHECK(finding.reason.find("at x = 2.40 m") != std::string::npos);
  CHECK(std::get<double>(finding.tables[1].rows[0][3]) == Approx(uplift_kn));
}

TEST_CASE("Permanent load against uplift counts 0.9 times, that for k_i,q in full") {
  const Finding finding = racking_of(lifted_project(), settings_of_method_b());
  CHECK(step_of(finding, "g_t") == Approx(0.9 * step_of(finding, "g_d")));
}

TEST_CASE("Tie-downs are judged by their design tension, whatever their type is written like") {
  for (const char* type : {"TIE_DOWN", "tie-down strap", "Hold Down", "HOLD_DOWN_BRACKET"}) {
    Project project = lifted_project();
    project.panels.front().parts.push_back(tie_down_at(0.0, 20e3, type));
    project.panels.front().parts.push_back(tie_down_at(2.355, 20e3, type));
    CHECK_FALSE(holds_panel(project.panels.front().parts.back()));
    const Finding finding = racking_of(project);
    INFO(type);
    CHECK(finding.verdict == Verdict::evidence_needed);  // nails 9 mm from the edge of OSB, no tie-down
    CHECK(finding.utilisation.value() == Approx(6.75 / step_of(finding, "F_v,Rd")));
  }
}

TEST_CASE("The weaker of two tie-downs governs when it is used more than the sheathing") {
  Project project = lifted_project();
  project.panels.front().parts.push_back(tie_down_at(0.0, 20e3));
  project.panels.front().parts.push_back(tie_down_at(2.355, 2e3));
  const Finding finding = racking_of(project);
  CHECK(finding.verdict == Verdict::fail);
  CHECK(std::get<double>(finding.limit) == 2.0);
  CHECK(std::get<double>(finding.value) == Approx(8.4375 - 0.6 * step_of(finding, "g_t")));
  CHECK(finding.reason.find("is too weak for the uplift") != std::string::npos);
}

TEST_CASE("A tie-down far from the end or without its resistance does not hold") {
  Project far = lifted_project();
  far.panels.front().parts.push_back(tie_down_at(0.0, 20e3));
  far.panels.front().parts.push_back(tie_down_at(1.8, 20e3));
  CHECK(racking_of(far).verdict == Verdict::evidence_needed);
  CHECK(racking_of(far).reason.find("at x = 0.00 m") == std::string::npos);
  Project silent = lifted_project();
  silent.panels.front().parts.push_back(tie_down_at(0.0, -1.0));
  silent.panels.front().parts.push_back(tie_down_at(2.355, 20e3));
  CHECK(racking_of(silent).verdict == Verdict::evidence_needed);
  CHECK(racking_of(silent).reason.find("Panel_Fastener.DesignTension of 'tie-down at 0.0") != std::string::npos);
}

TEST_CASE("The drawing hatches what counts and letters spacing and forces") {
  const Finding finding = racking_of(lifted_project());
  REQUIRE(finding.drawings.size() == 1);
  const Drawing& drawing = finding.drawings.front();
  const auto hatched = std::count_if(drawing.polygons.begin(), drawing.polygons.end(),
                                     [](const DrawnPolygon& p) { return p.hatch == Hatch::board; });
  CHECK(hatched == 2);
  CHECK(drawing.polygons[1].label == "s = 100 mm");
  // The load, the tie-down at the left end and the push at the right end.
  REQUIRE(drawing.texts.size() == 3);
  CHECK(drawing.texts[0].text == "6.75 kN");
  CHECK(drawing.texts[2].text == "8.44 kN");
}

TEST_CASE("A second face of narrower sheets counts by its own widths") {
  // Inner: 2·1.2·0.8 = 1.92 m of f/s; outer: 3·0.8·(0.8/1.5) = 1.28 m.
  const double one_face = resistance_of(braced_project());
  Project narrow = with_outer_face({0.0, 0.8, 1.6, 2.4}, 3.0);
  CHECK(racking_of(narrow).verdict == Verdict::not_assessed);
  CHECK(racking_of(narrow).reason ==
        "a stud over the height of the panel under the edge of the sheathing at x = 0.800 m; a stud over the height of "
        "the panel under the edge of the sheathing at x = 1.600 m");
  for (const double x_m : {0.8, 1.6}) {
    narrow.panels.front().parts.push_back(
        box_part("joint stud", PartKind::stud, kTimber, {{x_m - 0.0225, 0.012, 0.045}, {x_m + 0.0225, 0.157, 2.955}}));
  }
  CHECK(resistance_of(narrow) == Approx(one_face * (1.92 + 1.28) / 1.92));
}

TEST_CASE("A second face counts only where its sheets reach over the height") {
  const double one_face = resistance_of(braced_project());
  CHECK(resistance_of(with_outer_face({0.0, 1.2, 2.4}, 2.0)) == Approx(one_face));
  // 95 % of 3.0 m are 2.85 m.
  CHECK(resistance_of(with_outer_face({0.0, 1.2, 2.4}, 2.84)) == Approx(one_face));
  CHECK(resistance_of(with_outer_face({0.0, 1.2, 2.4}, 2.86)) == Approx(2.0 * one_face));
  CHECK(resistance_of(with_outer_face({0.0, 1.2}, 3.0)) == Approx(1.5 * one_face));
}

TEST_CASE("Of a second face that differs half counts, and the stronger one is found by its sum") {
  Project project = with_outer_face({0.0, 1.2, 2.4}, 3.0);
  replace(part_named(project, "outer nails").properties, "Panel_Fastener", "Spacing", property_of(0.150));
  const double one_face = resistance_of(braced_project());
  CHECK(resistance_of(project) == Approx(one_face * (1.0 + 0.5 / 1.5)));
  // One outer sheet at 60 mm: 0.96/0.06 = 16 of f against 1.92/0.1 = 19.2 of the inner face.
  Project dense = with_outer_face({0.0, 1.2}, 3.0);
  replace(part_named(dense, "outer nails").properties, "Panel_Fastener", "Spacing", property_of(0.060));
  CHECK(resistance_of(dense) == Approx(one_face * (1.0 + 0.5 * 16.0 / 19.2)));
}

TEST_CASE("Two faces that begin at one stud lift it together and are held down once") {
  Project project = with_outer_face({0.0, 1.2, 2.4}, 3.0);
  replace(project.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(4500.0));
  const Finding finding = racking_of(project);
  REQUIRE(finding.tables[1].rows.size() == 2);
  CHECK(std::get<double>(finding.tables[1].rows[0][1]) == Approx(8.4375));
  CHECK(std::get<double>(finding.tables[1].rows[0][2]) == Approx(0.6 * step_of(finding, "g_t")));
}

TEST_CASE("By method B a sheet narrower than a quarter of the height makes a wall no longer") {
  // 2.4 m of whole sheets resist as much with 0.6 m beside them as without, but for the weight of what was added.
  const auto unloaded = [](const Project& project) {
    const Finding finding = racking_of(project, settings_of_method_b());
    return step_of(finding, "F_v,Rd") / step_of(finding, "k_i,q");
  };
  Project wider = braced_project();
  Panel& panel = wider.panels.front();
  panel.width_m.value = 3.0;
  panel.parts.push_back(box_part("narrow sheet", PartKind::sheet, kOsb, {{2.4, 0.0, 0.0}, {3.0, 0.012, 3.0}}));
  panel.parts.push_back(box_part("S6", PartKind::stud, kTimber, {{2.955, 0.012, 0.045}, {3.0, 0.157, 2.955}}));
  for (const char* rail : {"sole", "head"}) {
    Part& part = part_named(wider, rail);
    Box3 box = *part.bounds;
    box.max.x = 3.0;
    part = box_part(rail, PartKind::rail, kTimber, box);
  }
  CHECK(unloaded(wider) == Approx(unloaded(braced_project())));
  const Finding finding = racking_of(wider, settings_of_method_b());
  CHECK(step_of(finding, "b_w") == Approx(2.4));
}

TEST_CASE("A wall of two whole sheets and a narrow one by method B has the resistance found by another calculation") {
  // Panel E2-03 of the sample, 2685 x 3300: two sheets of 1200 and one of 285 mm beside them, F_f,Rd 321.851 N, nails
  // 2.5 mm at 100 mm in 350 kg/m³, 5.947 kN/m: 8.10 kN where the narrow sheet counts, 6.56 kN by an independent
  // program.
  const auto wall_n = [](double width_m) {
    return structural::racking_method_b(321.851, 0.0025, 350.0, width_m, 3.3, 0.1, 5947.0, 0.0).resistance_n;
  };
  CHECK(wall_n(2.685) == Approx(8100.0).margin(5.0));
  CHECK(wall_n(2.4) == Approx(6560.0).margin(5.0));
  Panel panel;
  panel.width_m.value = 2.685;
  panel.height_m.value = 3.3;
  structural::SheathingFace face;
  for (const double from_m : {0.0, 1.2, 2.4}) {
    face.sheets.push_back(panel.parts.size());
    panel.parts.push_back(
        box_part("sheet", PartKind::sheet, kOsb, {{from_m, 0.0, 0.0}, {std::min(from_m + 1.2, 2.685), 0.012, 3.3}}));
  }
  face.diameter_m = 0.0025;
  face.spacing_m = 0.1;
  face.timber_density_kg_per_m3 = 350.0;
  face.timber_modification = face.panel_modification = face.connection_partial_factor = 1.0;
  face.modes.fill({'a', 321.851, 0.0});
  const auto strips = structural::racking_strips(panel, {face}, false, 5947.0);
  REQUIRE(strips.size() == 1);
  CHECK(strips.front().to_m() == Approx(2.4));
  CHECK(strips.front().edges_m == std::vector<double>{0.0, 1.2, 2.4});
  CHECK(strips.front().resistance_n == Approx(6560.0).margin(5.0));
}

TEST_CASE("Permanent load holds down and raises the resistance only beside a stated uplift of wind, less that") {
  const auto with_uplift = [](std::optional<double> uplift_n_per_m) {
    Project project = lifted_project();
    remove(project.panels.front().properties, "Panel_Structure.WindUpliftLineLoad");
    if (uplift_n_per_m) {
      project.panels.front().properties.add("Panel_Structure", "WindUpliftLineLoad", property_of(*uplift_n_per_m));
    }
    return racking_of(project, settings_of_method_b());
  };
  const Finding none = with_uplift(0.0);
  const Finding some = with_uplift(2000.0);
  const Finding more = with_uplift(20000.0);
  const Finding unknown = with_uplift(std::nullopt);
  CHECK(step_of(some, "g_d") == Approx(step_of(none, "g_d") - 1.5 * 2.0));
  CHECK(step_of(some, "g_t") == Approx(step_of(none, "g_t") - 1.5 * 2.0));
  CHECK(step_of(more, "g_t") == 0.0);
  CHECK(step_of(unknown, "g_t") == 0.0);
  CHECK(step_of(unknown, "k_i,q") == 1.0);
  CHECK(with_uplift(-1.0).verdict == Verdict::not_assessed);
}

TEST_CASE("A method that the annex does not ask for is remarked on") {
  const auto remarks = [](const char* annex, const char* method) {
    Settings settings = braced_settings();
    settings.set("structural.national_annex", std::string(annex));
    settings.set("structural.racking_method", std::string(method));
    const Finding finding = racking_of(braced_project(), settings);
    return std::count_if(finding.notes.begin(), finding.notes.end(), [](const std::string& note) {
      return note.find("The structural engineer must agree to it.") != std::string::npos;
    });
  };
  CHECK(remarks("UK", "A") == 1);
  CHECK(remarks("UK", "B") == 0);
  CHECK(remarks("recommended", "A") == 0);
  CHECK(remarks("recommended", "B") == 1);
}

TEST_CASE("By method B the second face adds half of what lies behind") {
  // The outer sheets weigh, so k_i,q is set aside.
  const auto unloaded = [](const Project& project) {
    const Finding finding = racking_of(project, settings_of_method_b());
    return step_of(finding, "F_v,Rd") / step_of(finding, "k_i,q");
  };
  const double one_face = unloaded(braced_project());
  CHECK(unloaded(with_outer_face({0.0, 1.2, 2.4}, 3.0)) == Approx(1.5 * one_face));
  CHECK(unloaded(with_outer_face({0.0, 1.2, 2.4}, 2.0)) == Approx(one_face));
  const Project half = with_outer_face({0.0, 1.2}, 3.0);
  const Finding finding = racking_of(half, settings_of_method_b());
  // Behind 2.4 m stands 1.2 m alone: k_d = 0.4 in place of 0.8, and k_i,q of the shorter wall.
  const double q = step_of(finding, "g_d");
  const double load = 0.083 * q - 0.0008 * q * q;
  const double share = 0.25 * (1.0 + load * std::pow(2.0, 0.4)) / (1.0 + load);
  CHECK(step_of(finding, "k_n") == Approx(1.0 + 0.5 * share));
}

TEST_CASE("Screws count by the root of their thread unless their smooth shank reaches 4 d into the timber") {
  const auto screws = [](double root_m, double shank_m) {
    Project project = braced_project();
    Part& part = part_named(project, "nails");
    part.object_type = "SCREW";
    replace(part.properties, "Panel_Fastener", "Diameter", property_of(0.004));
    if (root_m > 0.0) replace(part.properties, "Panel_Fastener", "RootDiameter", property_of(root_m));
    if (shank_m > 0.0) replace(part.properties, "Panel_Fastener", "SmoothShankLength", property_of(shank_m));
    return fixings_of(project);
  };
  CHECK(step_of(screws(0.0026, 0.0), "d_ef") == Approx(2.86));
  // 12 mm of sheet and 16 mm of 4·d: 27 mm are too short, 28.1 mm are enough.
  CHECK(step_of(screws(0.0026, 0.027), "d_ef") == Approx(2.86));
  const Finding smooth = screws(0.0, 0.0281);
  CHECK(step_of(smooth, "d_ef") == Approx(4.0));
  CHECK(step_of(smooth, "M_y,Rk") == Approx(0.3 * 600.0 * std::pow(4.0, 2.6)));
  CHECK(step_of(screws(0.0026, 0.0), "M_y,Rk") == Approx(0.3 * 600.0 * std::pow(2.86, 2.6)));
  CHECK(screws(0.0, 0.0).verdict == Verdict::not_assessed);
  CHECK(screws(0.0, 0.0).reason.find("Panel_Fastener.RootDiameter of 'nails'") != std::string::npos);
  CHECK(screws(0.005, 0.0).reason.find("must not exceed its Diameter") != std::string::npos);
}

TEST_CASE("Fasteners above 6 mm, plywood without a characteristic density and unknown spacings are named") {
  struct Case {
    std::function<void(Project&)> spoil;
    const char* reason;
  };
  const std::vector<Case> cases{
      {[](Project& p) {
         replace(part_named(p, "nails").properties, "Panel_Fastener", "Diameter", property_of(0.0061));
       },
       "thicker than 6 mm"},
      {[](Project& p) {
         replace(p.materials[kOsb].properties, "Panel_Board", "ProductStandard", property_of("EN 636 plywood"));
       },
       "Panel_Board.CharacteristicDensity"},
      {[](Project& p) { remove(part_named(p, "nails").properties, "Panel_Fastener.IntermediateSpacing"); },
       "Panel_Fastener.IntermediateSpacing of the inner sheathing"}};
  for (const Case& bad : cases) {
    Project project = braced_project();
    bad.spoil(project);
    const Finding finding = fixings_of(project);
    INFO(finding.reason);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find(bad.reason) != std::string::npos);
  }
}

TEST_CASE("Plywood is embedded by its characteristic density, not its mean one") {
  Project project = braced_project();
  Properties& board = project.materials[kOsb].properties;
  replace(board, "Panel_Board", "ProductStandard", property_of("EN 636 plywood"));
  board.add("Panel_Board", "CharacteristicDensity", property_of(410.0));
  // (8.20): 0.11·410·2.5^-0.3; the mean density of the material is 620 kg/m³.
  CHECK(step_of(fixings_of(project), "f_h,1,k") == Approx(0.11 * 410.0 * std::pow(2.5, -0.3)));
}

TEST_CASE("Spacing between the edges is at most twice that along them, and 300 mm") {
  struct Case {
    double edge_m;
    double between_m;
    double limit_mm;
  };
  for (const Case& bad : {Case{0.100, 0.210, 200.0}, Case{0.150, 0.310, 300.0}}) {
    Project project = braced_project();
    Properties& nails = part_named(project, "nails").properties;
    replace(nails, "Panel_Fastener", "Spacing", property_of(bad.edge_m));
    replace(nails, "Panel_Fastener", "IntermediateSpacing", property_of(bad.between_m));
    const Finding finding = fixings_of(project);
    CHECK(finding.verdict == Verdict::fail);
    CHECK(std::get<double>(finding.limit) == Approx(bad.limit_mm));
    CHECK(finding.reason.find("spacing on studs between the edges, largest is not kept") == 0);
  }
}

TEST_CASE("The distance from a sheet's edge has one clause and says where it is common practice") {
  const auto rule = [](const Project& project) {
    const Finding finding = fixings_of(project);
    for (const auto& row : finding.tables[1].rows) {
      if (row[0] != Value("distance from the edge of the sheet")) continue;
      return std::get<std::string>(row[1]) + ": " + std::get<std::string>(row[2]) + ": " +
             std::get<std::string>(row[5]);
    }
    return std::string();
  };
  CHECK(rule(braced_project()) == "table 8.2: 3 d, common practice; table 8.2 (a_4,c) asks for 5 d: open");
  CHECK(fixings_of(braced_project()).clause == "EN 1995-1-1:2004+A1:2008 table 8.2");
  Project plywood = braced_project();
  Properties& board = plywood.materials[kOsb].properties;
  replace(board, "Panel_Board", "ProductStandard", property_of("EN 636 plywood"));
  board.add("Panel_Board", "CharacteristicDensity", property_of(410.0));
  CHECK(rule(plywood) == "8.3.1.3(2): 3 d: kept");
  CHECK(fixings_of(plywood).clause == "EN 1995-1-1:2004+A1:2008 8.2.2");
}

TEST_CASE("Thick nails and dense timber ask for more of the spacing along the grain") {
  // EN 1995-1-1 table 8.2 without predrilled holes, along the grain: a_1 = 10 d below 5 mm and 12 d from 5 mm on in
  // timber up to 420 kg/m³, 15 d above it; between panel and timber 0.85 times that, 8.3.1.3(1).
  struct Nail {
    double diameter_m;
    double density_kg_per_m3;
    double diameters;
  };
  for (const Nail& nail : {Nail{0.003, 350.0, 10.0}, Nail{0.00499, 420.0, 10.0}, Nail{0.005, 350.0, 12.0},
                           Nail{0.0052, 420.0, 12.0}, Nail{0.003, 421.0, 15.0}, Nail{0.006, 450.0, 15.0}}) {
    INFO(nail.diameter_m << " m in " << nail.density_kg_per_m3 << " kg/m³");
    structural::SheathingFace face;
    face.diameter_m = nail.diameter_m;
    face.timber_density_kg_per_m3 = nail.density_kg_per_m3;
    CHECK(structural::distance_rules(face).front().limit_m ==
          Approx(0.85 * nail.diameters * nail.diameter_m).epsilon(1e-9));
  }
}

TEST_CASE("The edge detail letters edge distances and spacing") {
  const Finding finding = fixings_of(braced_project());
  REQUIRE(finding.drawings.size() == 1);
  std::string letters;
  for (const DrawnDimension& dimension : finding.drawings.front().dimensions) letters += dimension.text + "; ";
  // The sheets meet in the middle of 45 mm: 22.5 - 9 = 13.5 mm are left to the edge of the stud.
  CHECK(letters == "e = 9.0; a_4 = 13.5; b = 45.0; s = 100.0; ");
}

TEST_CASE("Nails set so densely that the sheet between them gives first fail by the sheet's shear strength") {
  Project project = braced_project();
  replace(part_named(project, "nails").properties, "Panel_Fastener", "Spacing", property_of(0.005));
  replace(project.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(100e3));
  const Finding finding = racking_of(project);
  // Each of two sheets 1.2 m wide and 12 mm thick takes half of 1.5·100 kN; OSB/3: f_v,k 6.8 N/mm², k_mod 0.7 in
  // service class 2, γ_M 1.2.
  CHECK(number_of(finding) == Approx(1.5 * 100e3 / 2.0 / (1200.0 * 12.0)));
  CHECK(std::get<double>(finding.limit) == Approx(0.7 * 6.8 / 1.2));
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.reason == "the sheet is too weak in shear");
}

TEST_CASE("Of sheets of two widths that with the larger stress is shown, wherever it stands") {
  // By method A a sheet of 0.9 m counts 0.9/1.5 for its shape, one of 1.5 m in full: they share the load as 0.54
  // to 1.5.
  for (const bool narrow_first : {true, false}) {
    INFO(narrow_first);
    Project project = braced_project();
    const double joint_m = narrow_first ? 0.9 : 1.5;
    part_named(project, "inner sheet").bounds->max.x = joint_m;
    part_named(project, "right sheet").bounds->min.x = joint_m;
    Box3& stud = *part_named(project, narrow_first ? "S2" : "S4").bounds;
    stud.min.x = joint_m - 0.0225;
    stud.max.x = joint_m + 0.0225;
    const Finding finding = racking_of(project);
    CHECK(step_of(finding, "b_s") == Approx(1.5));
    CHECK(step_of(finding, "F_s") == Approx(1.5 * 2.0 * 1.5 / 2.04));
    CHECK(step_of(finding, "τ_d") == Approx(1.5 * 2000.0 * 1.5 / 2.04 / (1500.0 * 12.0)));
  }
}

TEST_CASE("A sheet thinner than a hundredth of the room between its studs may buckle, which is not assessed") {
  // Without the studs at 0.6 and 1.8 m 1.1325 m lie between two: 94.4 times 12 mm, 103 times 11 mm.
  const auto slender = [](double thickness_m) {
    Project project = braced_project();
    std::erase_if(project.panels.front().parts,
                  [](const Part& part) { return part.name == "S2" || part.name == "S4"; });
    for (Part& part : project.panels.front().parts) {
      if (part.kind == PartKind::sheet) part.bounds->min.y = 0.012 - thickness_m;
    }
    return racking_of(project);
  };
  CHECK(slender(0.012).utilisation.value() <= 1.0);
  CHECK(slender(0.011).verdict == Verdict::not_assessed);
  CHECK(slender(0.011).reason ==
        "shear buckling of the sheet: b_net / t exceeds 100, 9.2.4.2(11); studs nearer to each other");
}

TEST_CASE(
    "The rope effect of a nail is a quarter of its withdrawal capacity, at most 15 % of a smooth one's own part") {
  const auto resistance_n = [](std::optional<double> withdrawal_n) {
    Project project = braced_project();
    if (withdrawal_n) {
      part_named(project, "nails").properties.add("Panel_Fastener", "WithdrawalCapacity", property_of(*withdrawal_n));
    }
    return step_of(racking_of(project), "F_v,Rk");
  };
  const double alone_n = resistance_n(std::nullopt);
  CHECK(resistance_n(0.0) == alone_n);
  CHECK(resistance_n(100.0) == Approx(alone_n + 25.0));
  REQUIRE(0.15 * alone_n > 25.0);
  CHECK(resistance_n(10e3) == Approx(1.15 * alone_n));
}

TEST_CASE("Nails no longer than the sheet is thick hold nothing") {
  Project project = braced_project();
  replace(part_named(project, "nails").properties, "Panel_Fastener", "Length", property_of(0.012));
  CHECK(racking_of(project).reason == "the fasteners of the inner sheathing are no longer than the sheet is thick");
}
