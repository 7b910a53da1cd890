// Bearing, rails, lintels, racking and the fixings of the sheathing, worked out by hand beside each check.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "core/api/testing/findings.h"
#include "core/api/testing/formula.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"
#include "tests/structural/windowed_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> findings_of(const Project& project, const Settings& settings = braced_settings()) {
  return findings_as_drawn(project, settings);
}

void make_unloaded(Project& project) {
  Properties& properties = project.panels.front().properties;
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(false));
  for (const char* load : {"PermanentLineLoad", "VariableLineLoad", "RackingLoad"}) {
    remove(properties, std::string("Panel_Structure.") + load);
  }
}

/// A window in a panel that carries nothing, without lintels: the trimmers take what there is.
Project unloaded_window() {
  Project project = project_with_window();
  make_unloaded(project);
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.kind == PartKind::lintel; });
  return project;
}

Part& stud_beside_window(Project& project) {
  for (Part& part : project.panels.front().parts) {
    if (part.kind == PartKind::stud && std::abs(part.bounds->centre().x - 1.8) < 0.01) return part;
  }
  throw std::out_of_range("no stud at 1.8 m");
}

void splice(Project& project, const std::string& name, double at_m) {
  Part other = part_named(project, name);
  other.name = "other piece";
  other.bounds->min.x = at_m;
  part_named(project, name).bounds->max.x = at_m;
  project.panels.front().parts.push_back(other);
}

/// A member along the wall whose underside is cut 20 mm deep between two places along the wall.
void cut_from_below(Part& part, double from_m, double to_m) {
  const Box3& box = *part.bounds;
  const double top = box.min.z + 0.020;
  Extrusion solid;
  // x of the profile along the wall, y up, so its normal is against the wall's y.
  solid.frame = {{0.0, box.max.y, 0.0}, {1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, -1.0, 0.0}};
  solid.outline = {{box.min.x, box.min.z}, {from_m, box.min.z},    {from_m, top},          {to_m, top},
                   {to_m, box.min.z},      {box.max.x, box.min.z}, {box.max.x, box.max.z}, {box.min.x, box.max.z}};
  solid.depth_m = box.size().y;
  part.volume_m3 = Sourced<double>{solid.volume_m3(), part.origin};
  part.solid = solid;
}

Box3 whole_height(Box3 box) {
  box.min.z = 0.0;
  box.max.z = 3.0;
  return box;
}

}  // namespace

TEST_CASE("Bearing of a stud on the sole rail can be redone by hand") {
  const auto findings = findings_of(braced_project());
  const Finding& finding = finding_of(findings, "structural.bearing");
  // Imposed leads: (g_0 + 8.0)·1.35·0.6 + 6.0·1.5·0.6; medium-term: k_mod = 0.8. The edge stud has no 30 mm on its
  // outer side: l_ef = 45 + 30 = 75 mm, but carries half as much; an inner one has 45 + 2·30 = 105 mm.
  const double g = step_of(finding, "g_0");
  CHECK(step_of(finding, "F_c,90,d") == Approx((g + 8.0) * 1.35 * 0.6 + 6.0 * 1.5 * 0.6));
  CHECK(step_of(finding, "l_ef") == Approx(105.0));
  CHECK(std::get<double>(finding.value) == Approx(step_of(finding, "F_c,90,d") * 1e3 / (105.0 * 145.0)));
  CHECK(std::get<double>(finding.limit) == Approx(1.25 * 0.8 * 2.5 / 1.3));
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("A rail between fixings can be redone by hand") {
  Project project = braced_project();
  make_unloaded(project);
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.rail_bending");
  // w_d = 1.5·1.0·2.91/2 = 2.1825 kN/m; R_d = 2.1825·0.6 = 1.3095 kN; M = R·0.9/4 = 0.29464 kNm, for neighbours stand
  // 0.6 m away, beyond the span; more than w·e²/8 = 0.221 kNm. σ = 6·M/(45·145²) = 1.868 N/mm².
  CHECK(step_of(finding, "R_d") == Approx(1.3095));
  CHECK(step_of(finding, "F_d") == Approx(2.1825 * 0.9));
  CHECK(step_of(finding, "M_z,d") == Approx(1.3095 * 0.9 / 4.0));
  CHECK(step_of(finding, "σ_m,z,d") == Approx(0.294638e6 / (45.0 * 145.0 * 145.0 / 6.0)).epsilon(1e-4));
  CHECK(step_of(finding, "M_y,d") == 0.0);
  // A stud beside a fixing and the next one 0.6 m on: V = R·(1 + 0.3/0.9).
  CHECK(step_of(finding, "τ_d") == Approx(1.5 * 1309.5 * (1.0 + 0.3 / 0.9) / (0.67 * 45.0 * 145.0)).epsilon(1e-4));
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("The head rail of a load-bearing panel carries its load from stud to stud") {
  const auto findings = findings_of(braced_project());
  const Finding& finding = finding_of(findings, "structural.rail_bending");
  // Imposed leads: 1.35·8 + 1.5·6 = 19.8 kN/m over 0.6 m: 0.891 kNm on 145 · 45²/6 mm³.
  CHECK(step_of(finding, "M_y,d") == Approx(19.8 * 0.6 * 0.6 / 8.0));
  CHECK(step_of(finding, "σ_m,y,d") == Approx(0.891e6 / (145.0 * 45.0 * 45.0 / 6.0)));
}

TEST_CASE("Brackets among the parts give the spacing before the settings do") {
  Project project = braced_project();
  Part bracket = box_part("brackets", PartKind::fastener, kTimber, {{0.0, 0.0, 0.0}, {2.4, 0.1, 3.0}});
  bracket.object_type = "bracket";
  bracket.properties.add("Panel_Fastener", "Spacing", property_of(1.2));
  project.panels.front().parts.push_back(bracket);
  const auto findings = findings_of(project);
  for (const Input& input : finding_of(findings, "structural.rail_bending").inputs) {
    if (input.symbol == "e") CHECK(std::get<double>(input.value) == 1.2);
  }
}

TEST_CASE("A lintel carries half of the load above the opening and a trimmer the wind") {
  const auto findings = findings_of(project_with_window());
  const Finding& finding = finding_of(findings, "structural.lintel_bending");
  REQUIRE(finding.tables.size() == 1);
  REQUIRE(finding.tables[0].rows.size() == 4);
  // Two lintels of 45 × 195 over 1.155 m: q = ((g_a + 8)·1.35 + 6·1.5)/2, M = q·l²/8.
  CHECK(step_of(finding, "ρ_v") == 0.5);
  CHECK(step_of(finding, "ρ_w") == 0.0);
  const double q = ((step_of(finding, "g_a") + 8.0) * 1.35 + 9.0) / 2.0;
  CHECK(step_of(finding, "q_d") == Approx(q));
  CHECK(step_of(finding, "M_y,d") == Approx(q * 1.155 * 1.155 / 8.0));
  CHECK(step_of(finding, "σ_m,y,d") == Approx(q * 1.155 * 1.155 / 8.0 * 1e6 / (45.0 * 195.0 * 195.0 / 6.0)));
  // Head trimmer: wind on half of 1.2 m of opening and half of the 0.9 m above it.
  for (const auto& row : finding.tables[0].rows) {
    if (row[1] != Value("trimmer")) continue;
    CHECK(std::get<double>(row[4]) == Approx(1.5 * (0.6 + 0.45) * 1.155 * 1.155 / 8.0));
  }
}

TEST_CASE("A lintel whose top edge nothing holds loses strength to lateral buckling") {
  Project project = project_with_window();
  // Clear of the sheets and slender.
  part_named(project, "inner lintel").bounds->min.y = 0.030;
  part_named(project, "inner lintel").bounds->max.y = 0.055;
  part_named(project, "outer lintel").bounds->max.y = 0.137;
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.lintel_bending");
  // l_ef = 0.9·1.155 + 2·0.195; C24: σ_m,crit = 0.78·25²·7400/(195·l_ef), k_crit = 1.56 - 0.75·λ up to 1.4.
  const double effective_mm = 0.9 * 1155.0 + 2.0 * 195.0;
  const double slenderness = std::sqrt(24.0 / (0.78 * 25.0 * 25.0 * 7400.0 / (195.0 * effective_mm)));
  REQUIRE(slenderness > 0.75);
  REQUIRE(slenderness < 1.4);
  CHECK(step_of(finding, "l_ef") == Approx(effective_mm / 1e3));
  CHECK(step_of(finding, "λ_rel,m") == Approx(slenderness));
  CHECK(step_of(finding, "k_crit") == Approx(1.56 - 0.75 * slenderness));
  double modification = 0.0;
  for (const Input& input : finding.inputs) {
    if (input.symbol == "k_mod") modification = std::get<double>(input.value);
  }
  CHECK(step_of(finding, "f_m,y,d") == Approx((1.56 - 0.75 * slenderness) * modification * 24.0 / 1.3));
}

TEST_CASE("A head rail on its top or sheets along it hold a lintel") {
  const auto factor = [](const std::function<void(Project&)>& change) {
    Project project = project_with_window();
    part_named(project, "inner lintel").bounds->min.y = 0.040;
    part_named(project, "outer lintel").bounds->min.y = 0.140;
    change(project);
    const auto findings = findings_of(project);
    return step_of(finding_of(findings, "structural.lintel_bending"), "k_crit");
  };
  CHECK(factor([](Project&) {}) < 1.0);
  CHECK(factor([](Project& p) {
          for (const char* name : {"inner lintel", "outer lintel"}) {
            part_named(p, name).bounds->min.z = 2.76;
            part_named(p, name).bounds->max.z = 2.955;
          }
          p.panels.front().openings.front().z_max_m = 2.715;
          part_named(p, "trimmer").bounds->min.z = 2.715;
          part_named(p, "trimmer").bounds->max.z = 2.76;
        }) == 1.0);
  CHECK(factor([](Project& p) {
          part_named(p, "inner lintel").bounds->min.y = 0.012;
          part_named(p, "inner lintel").bounds->max.y = 0.029;
          p.panels.front().parts.push_back(
              box_part("outer sheet", PartKind::sheet, kOsb, {{0.0, 0.157, 0.0}, {2.4, 0.169, 3.0}}));
        }) == 1.0);
  // Two sheets hold it together, one of them over the last 78 mm; with a gap between them they do not.
  const auto two_sheets = [&](double second_from_m) {
    return factor([&](Project& p) {
      part_named(p, "inner lintel").bounds->min.y = 0.012;
      part_named(p, "inner lintel").bounds->max.y = 0.029;
      for (const auto& [from_m, to_m] : {std::pair{0.0, 1.7}, std::pair{second_from_m, 2.4}}) {
        p.panels.front().parts.push_back(
            box_part("outer sheet", PartKind::sheet, kOsb, {{from_m, 0.157, 0.0}, {to_m, 0.169, 3.0}}));
      }
    });
  };
  CHECK(two_sheets(1.7) == 1.0);
  CHECK(two_sheets(1.75) < 1.0);
}

TEST_CASE("A hole in a lintel weakens it in either direction") {
  Project project = project_with_window();
  make_unloaded(project);
  replace(project.panels.front().properties, "Panel_Structure", "DesignWindPressure", property_of(5000.0));
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.name == "trimmer"; });
  for (const char* name : {"inner lintel", "outer lintel"}) {
    part_named(project, name).properties.add("Panel_Member", "Holes", property_of("30@500"));
  }
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.lintel_bending");
  CHECK(formula_faults(finding) == std::vector<std::string>{});
  // Through the 45 mm, in the middle of the 195 mm.
  CHECK(step_of(finding, "W_y") == Approx(45.0 * (std::pow(195.0, 3) - std::pow(30.0, 3)) / (6.0 * 195.0)));
  CHECK(step_of(finding, "W_z") == Approx((195.0 - 30.0) * 45.0 * 45.0 / 6.0));
  CHECK(step_of(finding, "A_v") == Approx(45.0 * (195.0 - 30.0)));
  // Without a trimmer the lintels share the wind on half of 1.2 m of opening and half of the 0.9 m above it; holes are
  // short, so they do not count in the deflection.
  CHECK(std::get<double>(finding.tables.at(0).rows.at(1).at(4)) ==
        Approx(1.5 * 5.0 * 1.05 / 2.0 * 1.155 * 1.155 / 8.0));
  CHECK(step_of(finding, "u_w") ==
        Approx(5.0 * 1.05 / 2.0 *
               (5.0 * std::pow(1155.0, 4) / (384.0 * 11000.0 * 195.0 * std::pow(45.0, 3) / 12.0) +
                1.2 * 1155.0 * 1155.0 / (8.0 * 690.0 * 45.0 * 195.0))));
}

TEST_CASE("On a barrier, members below the load are named and rails carry it on") {
  Project project = project_with_window();
  project.panels.front().properties.add("Panel_Structure", "BarrierLoadCategory", property_of("C1"));
  project.panels.front().properties.add("Panel_Structure", "BarrierHeight", property_of(1.1));
  project.panels.front().parts.push_back(
      box_part("cripple", PartKind::stud, kTimber, {{1.1775, 0.012, 0.045}, {1.2225, 0.157, 0.855}}));
  const auto findings = findings_of(project);
  const Finding& lintels = finding_of(findings, "structural.lintel_bending");
  CHECK(lintels.verdict == Verdict::not_assessed);
  CHECK(lintels.reason.find("'sill' under persons leaning on the panel") == 0);
  CHECK(lintels.reason.find("'trimmer'") == std::string::npos);
  const auto plain = findings_of(project_with_window());
  const Finding& rails = finding_of(findings, "structural.rail_bending");
  // Lever rule on studs 2.91 m long that begin 0.045 m above the foot: (2.91 − 1.055) / 2.91 comes to the foot.
  CHECK(step_of(rails, "k_B") == Approx((2.91 - 1.055) / 2.91));
  CHECK(std::get<double>(rails.value) > std::get<double>(finding_of(plain, "structural.rail_bending").value));
  CHECK(finding_of(plain, "structural.lintel_bending").verdict == Verdict::pass);
}

TEST_CASE("Studs beside an opening take half of its width, whatever cripple studs stand in it") {
  Project project = project_with_window();
  project.panels.front().parts.push_back(
      box_part("cripple", PartKind::stud, kTimber, {{1.1775, 0.012, 0.045}, {1.2225, 0.157, 0.855}}));
  const auto findings = findings_of(project);
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  CHECK(step_of(bending, "b_t") == Approx((0.6 - 0.0225) / 2.0 + 1.2 / 2.0));
}

TEST_CASE("An opening without a lintel is named") {
  Project project = project_with_window();
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.kind == PartKind::lintel; });
  const auto findings = findings_of(project);
  CHECK(finding_of(findings, "structural.lintel_bending").verdict == Verdict::not_assessed);
  CHECK(finding_of(findings, "structural.lintel_bending").reason ==
        "no lintel spans opening 'O1' (IfcMember LINTEL over its whole width)");
}

TEST_CASE("A trimmer called a rail passes on its studs, and a post by any name carries it") {
  Project project = unloaded_window();
  CHECK(finding_of(findings_of(project), "structural.lintel_bending").verdict == Verdict::pass);
  part_named(project, "trimmer").kind = PartKind::rail;
  part_named(project, "sill").kind = PartKind::rail;
  stud_beside_window(project).kind = PartKind::rail;
  CHECK(finding_of(findings_of(project), "structural.lintel_bending").verdict == Verdict::pass);
}

TEST_CASE("Pieces that meet at an upright or at a support are no fault") {
  Project rails = braced_project();
  splice(rails, "head", 1.2);
  CHECK(finding_of(findings_of(rails), "structural.rail_bending").verdict == Verdict::pass);
  Project studs = braced_project();
  Part upper = part_named(studs, "S3");
  upper.bounds->min.z = 1.5;
  part_named(studs, "S3").bounds->max.z = 1.5;
  studs.panels.front().parts.push_back(upper);
  studs.panels.front().properties.add("Panel_Structure", "SupportSpacing", property_of(1.5));
  CHECK(finding_of(findings_of(studs), "structural.stud_bending").verdict == Verdict::pass);
  replace(studs.panels.front().properties, "Panel_Structure", "SupportSpacing", property_of(1.0));
  CHECK(finding_of(findings_of(studs), "structural.stud_bending").verdict == Verdict::not_assessed);
}

TEST_CASE("Pieces of different timber may meet at a support of the panel, and on a rail between them") {
  const auto verdict = [](double lower_top_m, double upper_foot_m, bool supported) {
    Project project = braced_project();
    Panel& panel = project.panels.front();
    if (supported) panel.properties.add("Panel_Structure", "SupportSpacing", property_of(1.5));
    project.materials.push_back(project.materials[kTimber]);
    replace(project.materials.back().properties, "Pset_MaterialWood", "StrengthGrade", property_of("C30"));
    for (std::size_t i = 0; i < 5; ++i) {
      Part upper = panel.parts[i];
      REQUIRE(upper.kind == PartKind::stud);
      upper.name += " above";
      upper.bounds->min.z = upper_foot_m;
      upper.material = project.materials.size() - 1;
      panel.parts[i].bounds->max.z = lower_top_m;
      panel.parts.push_back(upper);
    }
    panel.parts.push_back(
        box_part("middle rail", PartKind::blocking, kTimber, {{0.0, 0.012, lower_top_m}, {2.4, 0.157, upper_foot_m}}));
    if (lower_top_m == upper_foot_m) panel.parts.pop_back();
    return finding_of(findings_of(project), "structural.stud_bending").verdict;
  };
  CHECK(verdict(1.5, 1.5, true) == Verdict::pass);
  CHECK(verdict(1.5, 1.5, false) == Verdict::not_assessed);
  CHECK(verdict(1.5, 1.545, false) == Verdict::pass);
}

TEST_CASE("A member of several solids that fill its box is named, not taken for one piece") {
  const auto as_box = [](const char* name) {
    Project project = with_drawn_members(project_with_window());
    part_named(project, name).solid.reset();
    return structural::check_panel(project.panels.front(), project, braced_settings(), structural_tables()).findings;
  };
  const auto names = [](const std::vector<Finding>& findings, const char* check, const std::string& member) {
    const Finding& finding = finding_of(findings, check);
    INFO(check << ": " << finding.reason);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find("'" + member + "' is of several solids or known by its box alone") != std::string::npos);
  };
  for (const char* check : {"structural.stud_bending", "structural.stud_stability", "structural.stud_shear",
                            "structural.deflection", "structural.bearing"}) {
    names(as_box("S2"), check, "S2");
  }
  names(as_box("sole"), "structural.rail_bending", "sole");
  names(as_box("sole"), "structural.bearing", "sole");
  names(as_box("outer lintel"), "structural.lintel_bending", "outer lintel");
}

TEST_CASE("What frame and sheathing lack is named") {
  struct Case {
    const char* label;
    std::function<void(Project&, Settings&)> spoil;
    const char* check;
    const char* reason;
  };
  const std::vector<Case> cases{
      {"no racking load",
       [](Project& p, Settings&) { remove(p.panels.front().properties, "Panel_Structure.RackingLoad"); },
       "structural.racking", "Panel_Structure.RackingLoad of a load-bearing panel"},
      {"negative racking load",
       [](Project& p, Settings&) {
         replace(p.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(-1.0));
       },
       "structural.racking", "Panel_Structure.RackingLoad of a load-bearing panel"},
      {"no method", [](Project&, Settings& s) { s = without(s, "structural.racking_method"); }, "structural.racking",
       "setting structural.racking_method (A or B)"},
      {"no nails",
       [](Project& p, Settings&) {
         std::erase_if(p.panels.front().parts, [](const Part& part) { return part.kind == PartKind::fastener; });
       },
       "structural.sheathing_fixings", "no nails or screws of the inner sheathing"},
      {"no edge distance",
       [](Project& p, Settings&) { remove(part_named(p, "nails").properties, "Panel_Fastener.EdgeDistance"); },
       "structural.sheathing_fixings", "Panel_Fastener.EdgeDistance of 'nails'"},
      {"negative diameter",
       [](Project& p, Settings&) {
         replace(part_named(p, "nails").properties, "Panel_Fastener", "Diameter", property_of(-0.0025));
       },
       "structural.sheathing_fixings", "Panel_Fastener.Diameter of 'nails'"},
      {"unknown board",
       [](Project& p, Settings&) {
         replace(p.materials[kOsb].properties, "Panel_Board", "ProductStandard", property_of("board"));
       },
       "structural.racking", "product of the inner sheathing"},
      {"one stud alone",
       [](Project& p, Settings&) {
         std::erase_if(p.panels.front().parts,
                       [](const Part& part) { return part.kind == PartKind::stud && part.bounds->max.x > 0.1; });
       },
       "structural.racking", "a stud over the height of the panel under the edge of the sheathing at x = 1.200 m"},
      {"no fixings to the frame", [](Project&, Settings& s) { s = without(s, "structural.fixing_spacing_m"); },
       "structural.rail_bending", "spacing of the fixings to the frame"},
      {"no rails",
       [](Project& p, Settings&) {
         std::erase_if(p.panels.front().parts, [](const Part& part) { return part.kind == PartKind::rail; });
       },
       "structural.bearing", "'S1' meets no rail or other framing member at its lower end, 0.045 m above the foot"},
      {"studs that stand on what the panel is fixed to",
       [](Project& p, Settings&) {
         std::erase_if(p.panels.front().parts, [](const Part& part) { return part.kind == PartKind::rail; });
         for (Part& part : p.panels.front().parts) {
           if (part.kind == PartKind::stud) part = box_part(part.name, part.kind, kTimber, whole_height(*part.bounds));
         }
       },
       "structural.bearing", "no stud or post stands on a rail"},
      {"a lintel that ends short of the stud beside it",
       [](Project& p, Settings&) {
         p = project_with_window();
         std::erase_if(p.panels.front().parts, [](const Part& part) {
           return part.kind == PartKind::stud && std::abs(part.bounds->centre().x - 1.8) < 0.01;
         });
       },
       "structural.lintel_bending", "no stud or post carries the right end of 'inner lintel'"},
      {"a trimmer called a rail that ends short of the stud beside it",
       [](Project& p, Settings&) {
         p = unloaded_window();
         part_named(p, "trimmer").kind = PartKind::rail;
         part_named(p, "trimmer").bounds->max.x = 1.7745;
         stud_beside_window(p).bounds->min.x += 0.015;
       },
       "structural.lintel_bending", "no stud or post carries the right end of 'trimmer'"},
      {"a sill of two pieces",
       [](Project& p, Settings&) {
         p = unloaded_window();
         Part right = part_named(p, "sill");
         right.name = "right half of the sill";
         right.bounds->min.x = 1.2;
         part_named(p, "sill").bounds->max.x = 1.2;
         p.panels.front().parts.push_back(right);
       },
       "structural.lintel_bending", "'sill' ends within opening 'O1', and no splice there is verified"},
      {"a lintel of two pieces beside a whole one",
       [](Project& p, Settings&) {
         p = project_with_window();
         part_named(p, "inner lintel").bounds->max.x = 1.2;
       },
       "structural.lintel_bending", "'inner lintel' ends within opening 'O1', and no splice there is verified"},
      {"a head rail spliced between two studs", [](Project& p, Settings&) { splice(p, "head", 0.9); },
       "structural.rail_bending", "the splice of 'head' and 'other piece' at x = 0.900 m, where no upright holds both"},
      {"a head called blocking, spliced between two studs",
       [](Project& p, Settings&) {
         splice(p, "head", 0.9);
         part_named(p, "head").kind = PartKind::blocking;
         part_named(p, "other piece").kind = PartKind::blocking;
       },
       "structural.rail_bending", "the splice of 'head' and 'other piece' at x = 0.900 m, where no upright holds both"},
      {"a stud of two pieces without a support between them",
       [](Project& p, Settings&) {
         Part upper = part_named(p, "S3");
         upper.name = "upper piece";
         upper.bounds->min.z = 1.5;
         part_named(p, "S3").bounds->max.z = 1.5;
         p.panels.front().parts.push_back(upper);
       },
       "structural.stud_bending",
       "the splice of 'S3' and 'upper piece' 1.500 m above the foot of the panel, where no support holds the member"},
      {"a stud of two pieces of different timber",
       [](Project& p, Settings&) {
         p.materials.push_back(p.materials[kTimber]);
         replace(p.materials.back().properties, "Pset_MaterialWood", "StrengthGrade", property_of("C30"));
         Part upper = part_named(p, "S3");
         upper.name = "upper piece";
         upper.bounds->min.z = 1.5;
         upper.material = p.materials.size() - 1;
         part_named(p, "S3").bounds->max.z = 1.5;
         p.panels.front().parts.push_back(upper);
       },
       "structural.stud_bending",
       "the splice of 'S3' and 'upper piece' 1.500 m above the foot of the panel, where no support holds the member"},
      {"a stud of two pieces of different width",
       [](Project& p, Settings&) {
         Part upper = part_named(p, "S3");
         upper.name = "upper piece";
         upper.bounds->min.z = 1.5;
         upper.bounds->max.x += 0.010;
         part_named(p, "S3").bounds->max.z = 1.5;
         p.panels.front().parts.push_back(upper);
       },
       "structural.stud_bending",
       "the splice of 'S3' and 'upper piece' 1.500 m above the foot of the panel, where no support holds the member"},
      {"a hole in a lintel larger than a quarter of its depth",
       [](Project& p, Settings&) {
         p = project_with_window();
         part_named(p, "inner lintel").properties.add("Panel_Member", "Holes", property_of("60@500"));
       },
       "structural.lintel_bending", "'inner lintel': the hole of 60 mm at 500 mm is larger than a quarter of 195 mm"},
      {"a lintel notched at its end",
       [](Project& p, Settings&) {
         p = project_with_window();
         Part& lintel = part_named(p, "inner lintel");
         const Box3& box = *lintel.bounds;
         Extrusion solid;
         solid.outline = {{box.min.x, box.min.y + 0.015}, {box.min.x + 0.080, box.min.y + 0.015},
                          {box.min.x + 0.080, box.min.y}, {box.max.x, box.min.y},
                          {box.max.x, box.max.y},         {box.min.x, box.max.y}};
         solid.frame.origin.z = box.min.z;
         solid.depth_m = box.size().z;
         lintel.volume_m3 = Sourced<double>{solid.volume_m3(), lintel.origin};
         lintel.solid = solid;
       },
       "structural.lintel_bending", "'inner lintel' has a notched end, which is not verified (EN 1995-1-1 6.5.2)"},
      {"a sole notched between its ends",
       [](Project& p, Settings&) { cut_from_below(part_named(p, "sole"), 1.0, 1.1); }, "structural.bearing",
       "the contact on 'sole', whose faces are notched or no rectangle"},
      {"a sole of an unknown strength class",
       [](Project& p, Settings&) {
         p.materials.push_back(p.materials[kTimber]);
         p.materials.back().name = "rail wood";
         replace(p.materials.back().properties, "Pset_MaterialWood", "StrengthGrade", property_of("C99"));
         part_named(p, "sole").material = p.materials.size() - 1;
       },
       "structural.bearing", "strength class 'C99' of material 'rail wood' is unknown"},
      {"a stud that ends in the air", [](Project& p, Settings&) { part_named(p, "S3").bounds->max.z = 1.0; },
       "structural.stud_bending",
       "'S3' meets no rail or other framing member at its upper end, 1.000 m above the foot"},
      {"rail of negative size",
       [](Project& p, Settings&) {
         Box3& box = *part_named(p, "head").bounds;
         std::swap(box.min.y, box.max.y);
       },
       "structural.rail_bending", "'S1' meets no rail or other framing member at its upper end"},
      {"rail of no size",
       [](Project& p, Settings&) {
         Box3& box = *part_named(p, "head").bounds;
         box.max.z = box.min.z;
       },
       "structural.rail_bending", "'head' has a zero or negative size"}};
  for (const Case& bad : cases) {
    Project project = braced_project();
    Settings settings = braced_settings();
    bad.spoil(project, settings);
    const auto findings = findings_of(project, settings);
    const Finding& finding = finding_of(findings, bad.check);
    INFO(bad.label << ": " << finding.reason);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.value == Value{});
    CHECK(finding.reason.find(bad.reason) != std::string::npos);
  }
}
