#include "plugins/fire/evidence/resistance_check.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/fire/checks.h"
#include "tests/fire/fire_tables.h"
#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kSeparatingCheck = "fire.resistance_integrity_insulation";
constexpr const char* kLoadBearingCheck = "fire.resistance_load_bearing";

std::vector<Finding> findings_of(const Project& project, const Settings& settings = fire_settings()) {
  return fire::check_panel(project.panels.front(), project, settings, fire_tables());
}

}  // namespace

TEST_CASE("A panel gets one finding for each fire check, each with a clause") {
  const auto findings = findings_of(tested_load_bearing_panel());
  REQUIRE(findings.size() == fire::checks().size());
  for (const Finding& finding : findings) {
    INFO(finding.check);
    CHECK_FALSE(finding.clause.empty());
    CHECK_FALSE(finding.inputs.empty());
  }
}

TEST_CASE("A test that covers the panel passes on test evidence") {
  const auto findings = findings_of(tested_panel());
  const Finding& finding = finding_of(findings, kSeparatingCheck);
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.basis == Basis::test_evidence);
  CHECK(std::get<std::string>(finding.value) == "EI 60");
  CHECK(std::get<std::string>(finding.limit) == "EI 60");
}

TEST_CASE("A tested class shorter than required fails whatever the calculation says") {
  Project project = tested_panel();
  replace(properties_of(project), "Panel_FireEvidence", "Resistance", property_of("EI 30"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparatingCheck);
  CHECK(step_of(finding, "t_ins,in") > 60.0);
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.reason == "the tested class is shorter than the class required");
}

TEST_CASE("Evidence that does not cover the panel is asked for, point by point") {
  struct Case {
    const char* label;
    void (*spoil)(Project&);
    const char* reason;
  };
  const std::vector<Case> cases{
      {"too tall", [](Project& p) { replace(properties_of(p), "Panel_FireEvidence", "MaxHeight", property_of(2.9)); },
       "height of the panel is outside the field of application (Panel_FireEvidence.MaxHeight)"},
      {"too wide", [](Project& p) { replace(properties_of(p), "Panel_FireEvidence", "MaxWidth", property_of(2.0)); },
       "width of the panel is outside the field of application (Panel_FireEvidence.MaxWidth)"},
      {"field not given", [](Project& p) { remove(properties_of(p), "Panel_FireEvidence.MaxHeight"); },
       "height: the field of application is not given (Panel_FireEvidence.MaxHeight)"},
      {"negative field",
       [](Project& p) { replace(properties_of(p), "Panel_FireEvidence", "MaxWidth", property_of(-4.5)); },
       "width: the field of application is not given (Panel_FireEvidence.MaxWidth)"},
      {"no document", [](Project& p) { remove(properties_of(p), "Panel_FireEvidence.DocumentId"); },
       "no document (Panel_FireEvidence.DocumentId)"},
      {"document not in the export",
       [](Project& p) {
         p.evidence.clear();
         p.panels.front().evidence.clear();
       },
       "document 'FT-1' is not in the export (IfcDocumentReference)"},
      {"file missing", [](Project& p) { p.evidence[0].status = EvidenceStatus::missing; },
       "document 'FT-1': missing: no file at that place ('evidence/FT-1.txt')"},
      {"file refused", [](Project& p) { p.evidence[0].status = EvidenceStatus::refused; },
       "document 'FT-1': refused: the place lies outside the project folder ('evidence/FT-1.txt')"},
      {"no tested class", [](Project& p) { remove(properties_of(p), "Panel_FireEvidence.Resistance"); },
       "no tested class (Panel_FireEvidence.Resistance)"},
      {"tested class unreadable",
       [](Project& p) { replace(properties_of(p), "Panel_FireEvidence", "Resistance", property_of("one hour")); },
       "'one hour' is not a class of EN 13501-2 (IfcPropertySingleValue, line 7)"},
      {"direction not tested",
       [](Project& p) { replace(properties_of(p), "Panel_FireRequirement", "Resistance", property_of("EI 60 (i↔o)")); },
       "the test does not state the direction of fire that is required"}};
  for (const Case& open : cases) {
    Project project = tested_panel();
    open.spoil(project);
    const auto findings = findings_of(project);
    INFO(open.label);
    CHECK(finding_of(findings, kSeparatingCheck).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, kSeparatingCheck).reason == open.reason);
  }
}

TEST_CASE("A declared class alone is never a pass") {
  Project project = tested_panel();
  remove(properties_of(project), "Panel_FireEvidence.Resistance");
  properties_of(project).add("Pset_WallCommon", "FireRating", property_of("EI 120"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparatingCheck);
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.basis == Basis::declared);
  CHECK(
      finding.reason ==
      "'EI 120' is declared (Pset_WallCommon.FireRating) but no tested class is given (Panel_FireEvidence.Resistance)");
}

TEST_CASE("Each limit of the test is compared, and asked for where it is not given") {
  struct Case {
    const char* property;
    double inside;
    double outside;
    const char* name;
  };
  // Studs 145 mm deep at 600 mm; fasteners at 150 mm; a window of 1.2 m by 1.5 m; 14 kN/m.
  const std::vector<Case> cases{{"MaxHeight", 3.0, 2.9, "height"},
                                {"MaxWidth", 2.4, 2.3, "width"},
                                {"MaxLoad", 14000.0, 13999.0, "load, characteristic permanent and variable"},
                                {"MinStudDepth", 0.145, 0.170, "depth of the shallowest stud"},
                                {"MaxStudSpacing", 0.600, 0.400, "widest spacing of studs"},
                                {"MaxFixingSpacing", 0.150, 0.100, "widest spacing of the boards' fasteners"},
                                {"MaxOpeningWidth", 1.2, 1.1, "width of the widest opening"},
                                {"MaxOpeningHeight", 1.5, 1.4, "height of the tallest opening"}};
  for (const Case& limit : cases) {
    INFO(limit.property);
    Project project = tested_load_bearing_panel();
    add_window(project);
    replace(properties_of(project), "Panel_FireEvidence", limit.property, property_of(limit.inside));
    const std::string property = std::string("(Panel_FireEvidence.") + limit.property + ")";
    for (const char* check : {kSeparatingCheck, kLoadBearingCheck}) {
      Project given = project;
      CHECK(finding_of(findings_of(given), check).verdict == Verdict::pass);
      replace(properties_of(given), "Panel_FireEvidence", limit.property, property_of(limit.outside));
      const auto outside = findings_of(given);
      CHECK(finding_of(outside, check).verdict == Verdict::evidence_needed);
      CHECK(finding_of(outside, check).reason ==
            std::string(limit.name) + " of the panel is outside the field of application " + property);
      remove(properties_of(given), std::string("Panel_FireEvidence.") + limit.property);
      const auto missing = findings_of(given);
      CHECK(finding_of(missing, check).verdict == Verdict::evidence_needed);
      CHECK(finding_of(missing, check).reason ==
            std::string(limit.name) + ": the field of application is not given " + property);
    }
  }
}

TEST_CASE("A panel whose own studs or fasteners are not known is not covered by a test") {
  struct Case {
    const char* label;
    void (*spoil)(Project&);
    const char* reason;
  };
  const std::vector<Case> cases{
      {"no fasteners", remove_fasteners,
       "spacing of the fasteners of 'inner board', 'outer board' is not given (Panel_Fastener.Spacing)"},
      {"no spacing", [](Project& p) { remove(p.panels.front().parts.back().properties, "Panel_Fastener.Spacing"); },
       "spacing of the fasteners of 'outer board' is not given (Panel_Fastener.Spacing)"},
      {"a stud without a shape", [](Project& p) { p.panels.front().parts.front().bounds.reset(); },
       "depth and place of 'S1' are not given (its shape)"},
      {"no build-up", [](Project& p) { remove(properties_of(p), "Panel_FireEvidence.BuildUp"); },
       "the build-up tested is not given (Panel_FireEvidence.BuildUp)"}};
  for (const Case& unknown : cases) {
    Project project = tested_panel();
    unknown.spoil(project);
    const auto findings = findings_of(project);
    INFO(unknown.label);
    CHECK(finding_of(findings, kSeparatingCheck).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, kSeparatingCheck).reason == unknown.reason);
  }
}

TEST_CASE("A class whose document is not there is declared, not shown") {
  struct Case {
    const char* label;
    void (*spoil)(Project&);
  };
  const std::vector<Case> cases{
      {"file missing", [](Project& p) { p.evidence[0].status = EvidenceStatus::missing; }},
      {"file refused", [](Project& p) { p.evidence[0].status = EvidenceStatus::refused; }},
      {"no document named", [](Project& p) { remove(properties_of(p), "Panel_FireEvidence.DocumentId"); }},
      {"document not in the export", [](Project& p) {
         p.evidence.clear();
         p.panels.front().evidence.clear();
       }}};
  for (const Case& absent : cases) {
    Project project = tested_panel();
    absent.spoil(project);
    const auto findings = findings_of(project);
    INFO(absent.label);
    CHECK(finding_of(findings, kSeparatingCheck).basis == Basis::declared);
    CHECK(std::get<std::string>(finding_of(findings, kSeparatingCheck).value) == "EI 60 declared, not shown");
    CHECK(finding_of(findings, kSeparatingCheck).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, "fire.evidence").basis == Basis::declared);
  }
  CHECK(finding_of(findings_of(tested_panel()), "fire.evidence").basis == Basis::test_evidence);
}

TEST_CASE("A requirement from the settings is used and said to be one") {
  Project project = tested_panel();
  remove(properties_of(project), "Panel_FireRequirement.Resistance");
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparatingCheck);
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.inputs[1].origin.kind == OriginKind::setting);
}

TEST_CASE("Without a requirement the tables give one, and where they cannot the setting is named") {
  Project project = tested_panel();
  remove(properties_of(project), "Panel_FireRequirement.Resistance");
  Settings settings = without(without(fire_settings(), "building.fire_resistance_minutes"), "building.sprinklers");
  const auto unknown = findings_of(project, settings);
  CHECK(finding_of(unknown, kSeparatingCheck).verdict == Verdict::not_assessed);
  CHECK(finding_of(unknown, kSeparatingCheck).reason == "setting building.sprinklers");
  settings.set("building.sprinklers", false);
  settings.set("building.boundary_distance_m", 2.0);
  const auto given = findings_of(project, settings);
  CHECK(std::get<std::string>(finding_of(given, "fire.required_resistance").value) == "EI 15 / E 60 (i→o)");
  CHECK(finding_of(given, kSeparatingCheck).verdict == Verdict::evidence_needed);
  CHECK(finding_of(given, kSeparatingCheck).reason == "the test does not state the direction of fire that is required");
  settings.set("project.jurisdiction", std::string("Scotland"));
  const auto elsewhere = findings_of(project, settings);
  CHECK(finding_of(elsewhere, kSeparatingCheck).verdict == Verdict::not_assessed);
  CHECK(finding_of(elsewhere, kSeparatingCheck).reason ==
        "the tables hold no period for 'office' in Scotland; the fire engineer gives the class by "
        "Panel_FireRequirement.Resistance or setting building.fire_resistance_minutes");
}

TEST_CASE("A top storey below the ground has no requirement in the tables") {
  Project project = tested_panel();
  remove(properties_of(project), "Panel_FireRequirement.Resistance");
  Settings settings = without(fire_settings(), "building.fire_resistance_minutes");
  settings.set("building.top_storey_height_m", -1.0);
  const auto findings = findings_of(project, settings);
  CHECK(finding_of(findings, kSeparatingCheck).verdict == Verdict::not_assessed);
  CHECK(finding_of(findings, kSeparatingCheck).reason ==
        "the height of the top storey above ground must not be negative");
}

TEST_CASE("A requirement below that of the tables needs its reason") {
  Project project = tested_panel();
  replace(properties_of(project), "Panel_FireRequirement", "Resistance", property_of("EI 30"));
  Settings settings = fire_settings();
  settings.set("building.sprinklers", false);
  settings.set("building.boundary_distance_m", 2.0);
  const auto findings = findings_of(project, settings);
  const char* reason =
      "the class required is below the EI 15 / E 60 (i→o) of the tables; the fire engineer must give the reason";
  for (const char* check : {"fire.required_resistance", kSeparatingCheck}) {
    CHECK(finding_of(findings, check).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, check).reason == reason);
  }
}

TEST_CASE("A tested class too short in one criterion fails though it is long enough in the other") {
  Project project = tested_panel();
  replace(properties_of(project), "Panel_FireRequirement", "Resistance", property_of("EI 15 / E 60"));
  replace(properties_of(project), "Panel_FireEvidence", "Resistance", property_of("EI 30"));
  CHECK(finding_of(findings_of(project), kSeparatingCheck).verdict == Verdict::fail);
  replace(properties_of(project), "Panel_FireEvidence", "Resistance", property_of("EI 30 / E 60"));
  CHECK(finding_of(findings_of(project), kSeparatingCheck).verdict == Verdict::pass);
}

TEST_CASE("An unreadable requirement is not assessed") {
  Project project = tested_panel();
  replace(properties_of(project), "Panel_FireRequirement", "Resistance", property_of("EI sixty"));
  const auto findings = findings_of(project);
  CHECK(finding_of(findings, kSeparatingCheck).verdict == Verdict::not_assessed);
  CHECK(finding_of(findings, kSeparatingCheck).reason ==
        "'EI sixty' is not a class of EN 13501-2 (IfcPropertySingleValue, line 7)");
}

TEST_CASE("A panel that carries no load needs no R and shows the charring all the same") {
  const auto findings = findings_of(tested_panel());
  const Finding& finding = finding_of(findings, kLoadBearingCheck);
  CHECK(finding.verdict == Verdict::information);
  CHECK(std::get<std::string>(finding.value) == "not required");
  CHECK(step_of(finding, "d_char,n,in") > 0.0);
}

TEST_CASE("Resistances of studs in fire are shown only where they are calculated") {
  const auto columns = [](const Finding& finding) {
    REQUIRE(finding.tables.size() >= 1);
    const Table& table = finding.tables.back();
    CHECK(table.title == "Studs in fire, EN 1995-1-2:2004 3.4 and 4.2.2");
    for (const auto& row : table.rows) CHECK(row.size() == table.columns.size());
    std::vector<std::string> names;
    for (const Column& column : table.columns) names.push_back(column.name);
    return names;
  };
  const std::vector<std::string> sizes{"fire", "member", "b × h", "b left", "h left"};
  CHECK(columns(finding_of(findings_of(tested_panel()), kLoadBearingCheck)) == sizes);
  std::vector<std::string> with_resistance = sizes;
  with_resistance.insert(with_resistance.end(), {"b_t", "k_c,fi", "N_fi,Rd"});
  CHECK(columns(finding_of(findings_of(tested_load_bearing_panel()), kLoadBearingCheck)) == with_resistance);
}

TEST_CASE("A load-bearing panel is judged for R with its load in the field of application") {
  Project project = tested_load_bearing_panel();
  CHECK(finding_of(findings_of(project), kLoadBearingCheck).verdict == Verdict::pass);
  replace(properties_of(project), "Panel_FireEvidence", "MaxLoad", property_of(10000.0));
  const auto findings = findings_of(project);
  CHECK(finding_of(findings, kLoadBearingCheck).verdict == Verdict::evidence_needed);
  CHECK(finding_of(findings, kLoadBearingCheck).reason ==
        "load, characteristic permanent and variable of the panel is outside the field of application "
        "(Panel_FireEvidence.MaxLoad)");
}

TEST_CASE("A load of zero is a load in the field of application, one below zero is none") {
  const auto reason = [](const char* property, double n_per_m) {
    Project project = tested_load_bearing_panel();
    replace(properties_of(project), "Panel_Structure", property, property_of(n_per_m));
    return finding_of(findings_of(project), kLoadBearingCheck).reason;
  };
  const std::string negative = "load of the panel is negative (Panel_Structure.PermanentLineLoad and VariableLineLoad)";
  for (const char* property : {"PermanentLineLoad", "VariableLineLoad"}) {
    INFO(property);
    CHECK(reason(property, 0.0).find(negative) == std::string::npos);
    CHECK(reason(property, -1.0).find(negative) != std::string::npos);
  }
}

TEST_CASE("A load-bearing panel without a load or a required R is not passed") {
  Project unloaded = tested_load_bearing_panel();
  remove(properties_of(unloaded), "Panel_Structure.PermanentLineLoad");
  const auto findings = findings_of(unloaded);
  CHECK(finding_of(findings, kLoadBearingCheck).verdict == Verdict::evidence_needed);
  CHECK(finding_of(findings, kLoadBearingCheck).reason ==
        "load of the panel is not given (Panel_Structure.PermanentLineLoad and VariableLineLoad)");

  Project without_r = tested_load_bearing_panel();
  replace(properties_of(without_r), "Panel_FireRequirement", "Resistance", property_of("EI 60"));
  CHECK(finding_of(findings_of(without_r), kLoadBearingCheck).reason ==
        "the panel is load-bearing but the class required states no R");

  Project unknown = tested_panel();
  remove(properties_of(unknown), "Pset_WallCommon.LoadBearing");
  CHECK(finding_of(findings_of(unknown), kLoadBearingCheck).verdict == Verdict::not_assessed);
  CHECK(finding_of(findings_of(unknown), kLoadBearingCheck).reason == "Pset_WallCommon.LoadBearing");
}

TEST_CASE("Resistance of the studs in fire can be redone by hand") {
  Project project = tested_load_bearing_panel();
  remove_fasteners(project);
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kLoadBearingCheck);
  // OSB 12 mm inside, ρk 550: k_ρ = √(450/550) = 0.9045, k_h = √(20/12) = 1.291, t_ch = 12/(0.9·0.9045·1.291) =
  // 11.418 min = t_f. Stone wool: annex C with k_s = 1.3, k_n = 1.5, k_3 = 1 + 0.036·11.418 = 1.4111;
  // β_n = 1.3·1.5·1.4111·0.65 = 1.7885 mm/min; d_char,n = 1.7885·48.582 = 86.89 mm; d_ef = 93.89 mm; h left 51.11 mm.
  // Falling off 4 min earlier gives 84.4 mm only.
  CHECK(step_of(finding, "k_ρ,in") == Approx(0.9045).epsilon(1e-3));
  CHECK(step_of(finding, "k_h,in") == Approx(1.291).epsilon(1e-3));
  CHECK(step_of(finding, "β_0,in") == Approx(0.65));
  CHECK(step_of(finding, "t_ch,in") == Approx(11.418).epsilon(1e-3));
  CHECK(step_of(finding, "d_char,n,in") == Approx(86.89).epsilon(1e-3));
  CHECK(step_of(finding, "d_ef,in") == Approx(93.89).epsilon(1e-3));
  // Gypsum H 12 mm outside: t_ch = 19.6 min; k_3 = 1.7056; β_n = 2.1618; d_char,n = 87.34; d_ef = 94.34; h left 50.66
  // mm. Fire outside with fixed sheets inside: λ_y = 2910/(50.66/√12) = 198.98; with gypsum away from the fire inside
  // the stud buckles along the wall: λ_z = 2910/(45/√12) = 224.01; λ_rel = 224.01/π·√(21/7400) = 3.7985; k = 0.5·(1 +
  // 0.2·3.4985 + 14.4288) = 8.0642; k_c,z = 1/(8.0642 + √(65.032 − 14.4288)) = 0.06589. N = 0.06589·1.25·21·45·50.66
  // = 3.943 kN for fire outside, where the export gives no fasteners either.
  CHECK(step_of(finding, "k_c,fi") == Approx(0.06589).epsilon(1e-3));
  CHECK(step_of(finding, "N_fi,Rd") == Approx(3.943).epsilon(2e-3));
}

TEST_CASE("Each stud in fire carries its own width of wall") {
  const auto findings = findings_of(tested_load_bearing_panel());
  const Finding& finding = finding_of(findings, kLoadBearingCheck);
  // Studs at 22.5, 600, 1200, 1800 and 2377.5 mm of 2.4 m: the middle one carries 0.6 m, those beside it
  // (577.5 + 600)/2 = 588.75 mm, those at the edges 22.5 + 577.5/2 = 311.25 mm.
  const Table& table = finding.tables.back();
  const std::vector<double> widths_m{0.31125, 0.58875, 0.6, 0.58875, 0.31125};
  REQUIRE(table.rows.size() == 10);
  for (std::size_t i = 0; i < 10; ++i) CHECK(std::get<double>(table.rows[i][5]) == Approx(widths_m[i % 5]));
  CHECK(step_of(finding, "b_t") == Approx(0.6));
  // n_d = 1.35·(8 + g) + 1.5·6 kN/m; 0.6 of it in fire on 0.6 m.
  const double load_kn = 0.6 * (1.35 * (8.0 + step_of(finding, "g")) + 1.5 * 6.0) * 0.6;
  CHECK(step_of(finding, "N_d,fi") == Approx(load_kn));
  CHECK(step_of(finding, "η") == Approx(load_kn / step_of(finding, "N_fi,Rd")));
}

TEST_CASE("A wood panel away from the fire holds the studs along the wall only when its fasteners are known") {
  const auto fire_outside = [](const Project& project) {
    const auto findings = findings_of(project);
    return std::get<double>(finding_of(findings, kLoadBearingCheck).tables.back().rows[5][6]);
  };
  // λ_y = 2910/(50.66/√12) = 198.98; λ_rel = 198.98/π·√(21/7400) = 3.374; k = 0.5·(1 + 0.2·3.074 + 11.384) = 6.4994;
  // k_c,y = 1/(6.4994 + √(42.242 − 11.384)) = 0.08296.
  Project project = tested_load_bearing_panel();
  CHECK(fire_outside(project) == Approx(0.08296).epsilon(2e-3));
  remove_fasteners(project);
  CHECK(fire_outside(project) == Approx(0.06589).epsilon(1e-3));
}

TEST_CASE("A load ratio out of range and negative loads are refused") {
  const auto refusal = [](const Project& project, const Settings& settings) {
    const auto findings = findings_of(project, settings);
    for (const Step& step : finding_of(findings, kLoadBearingCheck).steps) {
      if (step.name == "load in fire: not calculated") return std::get<std::string>(step.value);
    }
    return std::string();
  };
  for (const double ratio : {0.0, -0.6, 1.01}) {
    Settings settings = fire_settings();
    settings.set("fire.load_ratio_in_fire", ratio);
    INFO(ratio);
    CHECK(refusal(tested_load_bearing_panel(), settings) ==
          "setting fire.load_ratio_in_fire must be above 0 and at most 1");
  }
  Project lifted = tested_load_bearing_panel();
  replace(properties_of(lifted), "Panel_Structure", "PermanentLineLoad", property_of(-1.0));
  CHECK(refusal(lifted, fire_settings()) ==
        "Panel_Structure.PermanentLineLoad and VariableLineLoad must not be negative");
  const auto findings = findings_of(lifted);
  CHECK(finding_of(findings, kLoadBearingCheck).verdict == Verdict::evidence_needed);
  CHECK(finding_of(findings, kLoadBearingCheck).reason ==
        "load of the panel is negative (Panel_Structure.PermanentLineLoad and VariableLineLoad)");
}

TEST_CASE("The build-up tested is compared layer by layer") {
  Project project = tested_panel();
  CHECK(finding_of(findings_of(project), kSeparatingCheck).verdict == Verdict::pass);
  const std::vector<std::pair<const char*, const char*>> cases{
      {"OSB 12 (620 kg/m3); stone wool 160 (50 kg/m3); gypsum 12 (800 kg/m3)",
       "the panel has no layer 'stone wool' of the thickness tested, in its place (Panel_FireEvidence.BuildUp)"},
      {"gypsum 12 (800 kg/m3); OSB 12 (620 kg/m3)",
       "the panel has no layer 'OSB' of the thickness tested, in its place (Panel_FireEvidence.BuildUp)"},
      {"OSB",
       "the build-up tested cannot be read (Panel_FireEvidence.BuildUp: material, thickness in mm and density in "
       "brackets, separated by semicolons)"}};
  for (const auto& [text, reason] : cases) {
    replace(properties_of(project), "Panel_FireEvidence", "BuildUp", property_of(text));
    const auto findings = findings_of(project);
    INFO(text);
    CHECK(finding_of(findings, kSeparatingCheck).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, kSeparatingCheck).reason == reason);
  }
}

TEST_CASE("With glass wool nothing of the studs is counted after their board has fallen off") {
  Project project = tested_load_bearing_panel();
  project.materials[kWool].name = "glass wool";
  replace(properties_of(project), "Panel_FireEvidence", "BuildUp",
          property_of("OSB 12 (620 kg/m3); glass wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kLoadBearingCheck);
  CHECK(step_of(finding, "N_fi,Rd") == 0.0);
  CHECK(finding.verdict == Verdict::pass);
  const auto fails = [](const Step& step) {
    return step.name == "members, fire inside" &&
           step.value == Value{std::string("fail at t_f: glass wool does not protect them then (annex C)")};
  };
  CHECK(std::any_of(finding.steps.begin(), finding.steps.end(), fails));
}

TEST_CASE("Beyond 60 minutes the studs in fire are not calculated") {
  Project project = tested_load_bearing_panel();
  replace(properties_of(project), "Panel_FireRequirement", "Resistance", property_of("REI 90"));
  replace(properties_of(project), "Panel_FireEvidence", "Resistance", property_of("REI 90"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kLoadBearingCheck);
  REQUIRE(finding.steps.size() == 1);
  CHECK(finding.steps[0].name == "calculation beside the evidence: not made");
  CHECK(std::get<std::string>(finding.steps[0].value) ==
        "the period is 90 min; EN 1995-1-2 annexes C and D end at 60 min");
}

TEST_CASE("The load in fire follows the national annex, and the note on wind names it") {
  const auto findings_by = [](const Settings& settings) { return findings_of(tested_load_bearing_panel(), settings); };
  const auto has_note = [](const std::vector<Finding>& findings, const char* start) {
    const auto& notes = finding_of(findings, kLoadBearingCheck).notes;
    return std::any_of(notes.begin(), notes.end(), [&](const std::string& note) { return note.starts_with(start); });
  };
  Settings settings = fire_settings();
  CHECK(has_note(findings_by(settings), "Wind is not combined with fire: ψ_2 = 0 by the national annex 'recommended'"));
  settings.set("structural.national_annex", std::string("UK"));
  CHECK(has_note(findings_by(settings), "Wind acts with fire at ψ_1 > 0 by the national annex 'UK'"));
  settings.set("structural.national_annex", std::string("elsewhere"));
  const auto unknown = findings_by(settings);
  CHECK_THROWS_AS(step_of(finding_of(unknown, kLoadBearingCheck), "n_d"), std::out_of_range);
  CHECK_FALSE(has_note(unknown, "Wind"));
}

TEST_CASE("What annex E has no values for is said, not guessed") {
  Project project = tested_panel();
  project.materials[kWool].name = "wood fibre";
  replace(properties_of(project), "Panel_FireEvidence", "BuildUp",
          property_of("OSB 12 (620 kg/m3); wood fibre 140 (50 kg/m3); gypsum 12 (800 kg/m3)"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparatingCheck);
  CHECK(finding.verdict == Verdict::pass);
  REQUIRE_FALSE(finding.steps.empty());
  CHECK(std::get<std::string>(finding.steps.front().value) ==
        "layer 'studs' is neither stone wool nor glass wool (Panel_Fire.InsulationType); EN 1995-1-2 annex E has no "
        "values for it");
}

TEST_CASE("Evidence passes when its file is there and is asked for when it is not") {
  Project project = tested_panel();
  CHECK(finding_of(findings_of(project), "fire.evidence").verdict == Verdict::pass);
  project.evidence[0].status = EvidenceStatus::missing;
  const auto findings = findings_of(project);
  CHECK(finding_of(findings, "fire.evidence").verdict == Verdict::evidence_needed);
  CHECK(finding_of(findings, "fire.evidence").reason ==
        "document 'FT-1': missing: no file at that place ('evidence/FT-1.txt')");
  REQUIRE(finding_of(findings, "fire.evidence").tables.size() == 1);
  CHECK(finding_of(findings, "fire.evidence").tables[0].rows.size() == 2);
}

TEST_CASE("Openings that nothing fills need seals of the panel's class") {
  Project project = cassette_project();
  const auto seals = [&] {
    return fire::penetration_seals(project.panels.front(), project, fire_settings(), fire_tables());
  };
  add_window(project);
  CHECK(std::get<std::string>(seals().value) == "none in the export");
  project.panels.front().openings.back().filling_entity.clear();
  CHECK(seals().verdict == Verdict::evidence_needed);
  CHECK(seals().reason == "1 penetrations need seals of EI 60 by test (EN 1366-3)");
}
