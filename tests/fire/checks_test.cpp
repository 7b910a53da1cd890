#include "plugins/fire/checks.h"

#include <catch2/catch.hpp>

#include "tests/fire/fire_tables.h"
#include "tests/support/cassette_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::test;

namespace {

constexpr const char* kSeparating = "fire.resistance_integrity_insulation";
constexpr const char* kLoadBearing = "fire.resistance_load_bearing";

std::vector<Finding> findings_of(const Project& project, const Settings& settings = cassette_settings()) {
  return fire::check_panel(project.panels.front(), project, settings, fire_tables());
}

/// A panel that needs EI 60 and has a test of EI 60 up to 3.6 m by 4.5 m.
Project tested_panel() {
  Project project = cassette_project();
  project.evidence.push_back({"FT-1", "test report", "evidence/FT-1.txt", EvidenceStatus::present, {}});
  project.panels.front().evidence = {0};
  Properties& properties = project.panels.front().properties;
  properties.add("Panel_FireRequirement", "Resistance", property_of("EI 60"));
  properties.add("Panel_FireEvidence", "Resistance", property_of("EI 60"));
  properties.add("Panel_FireEvidence", "DocumentId", property_of("FT-1"));
  properties.add("Panel_FireEvidence", "MaxHeight", property_of(3.6));
  properties.add("Panel_FireEvidence", "MaxWidth", property_of(4.5));
  return project;
}

Project tested_load_bearing_panel() {
  Project project = tested_panel();
  Properties& properties = project.panels.front().properties;
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(true));
  replace(properties, "Panel_FireRequirement", "Resistance", property_of("REI 60"));
  replace(properties, "Panel_FireEvidence", "Resistance", property_of("REI 60"));
  properties.add("Panel_FireEvidence", "MaxLoad", property_of(20000.0));
  properties.add("Panel_Structure", "PermanentLineLoad", property_of(8000.0));
  properties.add("Panel_Structure", "VariableLineLoad", property_of(6000.0));
  return project;
}

Properties& properties_of(Project& project) {
  return project.panels.front().properties;
}

}  // namespace

TEST_CASE("A panel gets one finding for each fire check, each with a clause") {
  const auto findings = findings_of(tested_load_bearing_panel());
  REQUIRE(findings.size() == 5);
  for (const Finding& finding : findings) {
    INFO(finding.check);
    CHECK_FALSE(finding.clause.empty());
    CHECK_FALSE(finding.inputs.empty());
  }
}

TEST_CASE("A test that covers the panel passes on test evidence") {
  const auto findings = findings_of(tested_panel());
  const Finding& finding = finding_of(findings, kSeparating);
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.basis == Basis::test_evidence);
  CHECK(std::get<std::string>(finding.value) == "EI 60");
  CHECK(std::get<std::string>(finding.limit) == "EI 60");
}

TEST_CASE("A tested class shorter than required fails whatever the calculation says") {
  Project project = tested_panel();
  replace(properties_of(project), "Panel_FireEvidence", "Resistance", property_of("EI 30"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparating);
  CHECK(step_of(finding, "t_ins") > 60.0);
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
       "file of document 'FT-1' is missing: 'evidence/FT-1.txt'"},
      {"file refused", [](Project& p) { p.evidence[0].status = EvidenceStatus::refused; },
       "file of document 'FT-1' lies outside the project folder: 'evidence/FT-1.txt'"},
      {"no tested class", [](Project& p) { remove(properties_of(p), "Panel_FireEvidence.Resistance"); },
       "no tested class (Panel_FireEvidence.Resistance)"},
      {"tested class unreadable",
       [](Project& p) { replace(properties_of(p), "Panel_FireEvidence", "Resistance", property_of("one hour")); },
       "'one hour' is not a class of EN 13501-2 (IfcPropertySingleValue, line 7)"},
      {"direction not tested",
       [](Project& p) { replace(properties_of(p), "Panel_FireRequirement", "Resistance", property_of("EI 60 (o→i)")); },
       "the test does not state the direction of fire that is required"}};
  for (const Case& open : cases) {
    Project project = tested_panel();
    open.spoil(project);
    const auto findings = findings_of(project);
    INFO(open.label);
    CHECK(finding_of(findings, kSeparating).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, kSeparating).reason == open.reason);
  }
}

TEST_CASE("A declared class alone is never a pass") {
  Project project = tested_panel();
  remove(properties_of(project), "Panel_FireEvidence.Resistance");
  properties_of(project).add("Pset_WallCommon", "FireRating", property_of("EI 120"));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparating);
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.basis == Basis::declared);
  CHECK(
      finding.reason ==
      "'EI 120' is declared (Pset_WallCommon.FireRating) but no tested class is given (Panel_FireEvidence.Resistance)");
}

TEST_CASE("Studs and openings are compared with the limits of the test where they are given") {
  struct Case {
    const char* property;
    double inside_m;
    double outside_m;
    const char* reason;
  };
  // Studs 145 mm deep at 600 mm; a window of 1.2 m by 1.5 m.
  const std::vector<Case> cases{
      {"MinStudDepth", 0.145, 0.170, "depth of the shallowest stud of the panel is outside the field of application"},
      {"MaxStudSpacing", 0.600, 0.400, "widest spacing of studs of the panel is outside the field of application"},
      {"MaxOpeningWidth", 1.2, 1.1, "width of the widest opening of the panel is outside the field of application"},
      {"MaxOpeningHeight", 1.5, 1.4, "height of the tallest opening of the panel is outside the field of application"}};
  for (const Case& limit : cases) {
    Project project = tested_panel();
    Opening window;
    window.x_min_m = 0.6;
    window.x_max_m = 1.8;
    window.z_min_m = 0.9;
    window.z_max_m = 2.4;
    project.panels.front().openings.push_back(window);
    properties_of(project).add("Panel_FireEvidence", limit.property, property_of(limit.inside_m));
    INFO(limit.property);
    CHECK(finding_of(findings_of(project), kSeparating).verdict == Verdict::pass);
    replace(properties_of(project), "Panel_FireEvidence", limit.property, property_of(limit.outside_m));
    const auto findings = findings_of(project);
    CHECK(finding_of(findings, kSeparating).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, kSeparating).reason ==
          std::string(limit.reason) + " (Panel_FireEvidence." + limit.property + ")");
  }
}

TEST_CASE("Limits of the test that the export does not give are named as not compared") {
  const auto note_of = [](const Project& project) {
    const auto findings = findings_of(project);
    std::string found;
    for (const std::string& note : finding_of(findings, kSeparating).notes) {
      if (note.starts_with("Not compared")) found = note;
    }
    return found;
  };
  const std::string end =
      ". A competent person must read the report for these and for every other condition of the test.";
  Project project = tested_panel();
  CHECK(note_of(project) ==
        "Not compared with the field of application, for the export gives no limit: depth of the shallowest stud "
        "(Panel_FireEvidence.MinStudDepth), widest spacing of studs (Panel_FireEvidence.MaxStudSpacing)" +
            end);
  properties_of(project).add("Panel_FireEvidence", "MinStudDepth", property_of(0.1));
  properties_of(project).add("Panel_FireEvidence", "MaxStudSpacing", property_of(0.625));
  CHECK(note_of(project).empty());
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
    CHECK(finding_of(findings, kSeparating).basis == Basis::declared);
    CHECK(std::get<std::string>(finding_of(findings, kSeparating).value) == "EI 60 declared, not shown");
    CHECK(finding_of(findings, kSeparating).verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, "fire.evidence").basis == Basis::declared);
  }
  CHECK(finding_of(findings_of(tested_panel()), "fire.evidence").basis == Basis::test_evidence);
}

TEST_CASE("A requirement from the settings is used and said to be one") {
  Project project = tested_panel();
  remove(properties_of(project), "Panel_FireRequirement.Resistance");
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparating);
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.inputs[1].origin.kind == OriginKind::setting);
  const auto none = findings_of(project, without(cassette_settings(), "building.fire_resistance_minutes"));
  CHECK(finding_of(none, kSeparating).verdict == Verdict::not_assessed);
  CHECK(finding_of(none, kSeparating).reason ==
        "Panel_FireRequirement.Resistance or setting building.fire_resistance_minutes");
}

TEST_CASE("An unreadable requirement is not assessed") {
  Project project = tested_panel();
  replace(properties_of(project), "Panel_FireRequirement", "Resistance", property_of("EI sixty"));
  const auto findings = findings_of(project);
  CHECK(finding_of(findings, kSeparating).verdict == Verdict::not_assessed);
  CHECK(finding_of(findings, kSeparating).reason ==
        "'EI sixty' is not a class of EN 13501-2 (IfcPropertySingleValue, line 7)");
}

TEST_CASE("A panel that carries no load needs no R and shows the charring all the same") {
  const auto findings = findings_of(tested_panel());
  const Finding& finding = finding_of(findings, kLoadBearing);
  CHECK(finding.verdict == Verdict::information);
  CHECK(std::get<std::string>(finding.value) == "not required");
  CHECK(step_of(finding, "d_char,n") > 0.0);
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
  const std::vector<std::string> sizes{"fire", "member", "b", "h", "d_ef", "b left", "h left"};
  CHECK(columns(finding_of(findings_of(tested_panel()), kLoadBearing)) == sizes);
  std::vector<std::string> with_resistance = sizes;
  with_resistance.insert(with_resistance.end(), {"b_t", "k_c,fi", "N_fi,Rd"});
  CHECK(columns(finding_of(findings_of(tested_load_bearing_panel()), kLoadBearing)) == with_resistance);
}

TEST_CASE("A load-bearing panel is judged for R with its load in the field of application") {
  Project project = tested_load_bearing_panel();
  CHECK(finding_of(findings_of(project), kLoadBearing).verdict == Verdict::pass);
  replace(properties_of(project), "Panel_FireEvidence", "MaxLoad", property_of(10000.0));
  const auto findings = findings_of(project);
  CHECK(finding_of(findings, kLoadBearing).verdict == Verdict::evidence_needed);
  CHECK(finding_of(findings, kLoadBearing).reason ==
        "load, characteristic permanent and variable of the panel is outside the field of application "
        "(Panel_FireEvidence.MaxLoad)");
}

TEST_CASE("A load-bearing panel without a load or a required R is not passed") {
  Project unloaded = tested_load_bearing_panel();
  remove(properties_of(unloaded), "Panel_Structure.PermanentLineLoad");
  const auto findings = findings_of(unloaded);
  CHECK(finding_of(findings, kLoadBearing).verdict == Verdict::evidence_needed);
  CHECK(finding_of(findings, kLoadBearing).reason ==
        "load of the panel is not given (Panel_Structure.PermanentLineLoad and VariableLineLoad)");

  Project without_r = tested_load_bearing_panel();
  replace(properties_of(without_r), "Panel_FireRequirement", "Resistance", property_of("EI 60"));
  CHECK(finding_of(findings_of(without_r), kLoadBearing).reason ==
        "the panel is load-bearing but the class required states no R");

  Project unknown = tested_panel();
  remove(properties_of(unknown), "Pset_WallCommon.LoadBearing");
  CHECK(finding_of(findings_of(unknown), kLoadBearing).verdict == Verdict::not_assessed);
  CHECK(finding_of(findings_of(unknown), kLoadBearing).reason == "Pset_WallCommon.LoadBearing");
}

TEST_CASE("Resistance of the studs in fire can be redone by hand") {
  const auto findings = findings_of(tested_load_bearing_panel());
  const Finding& finding = finding_of(findings, kLoadBearing);
  // Gypsum H 12 mm outside: t_ch = 19.6 min; the char is 25 mm deep at 19.6 + 15.625 = 35.225 min (before 2·19.6 min)
  // and 25 + 0.8·24.775 = 44.82 mm at 60 min; d_ef = 51.82 mm; h left = 93.18 mm on 45 mm (stone wool keeps the sides).
  // OSB 12 mm inside: k_ρ = √(450/620) = 0.852, k_h = √(20/12) = 1.291, t_ch = 12/(0.9·0.852·1.291) = 12.12 min;
  // twice the rate until 24.24 min (2·t_ch): 19.39 mm, then 0.8·35.76 = 28.61: 48.0 mm; d_ef = 55.0 mm; h left = 90.0
  // mm.
  CHECK(step_of(finding, "t_ch") == Approx(12.12).epsilon(1e-3));
  CHECK(step_of(finding, "d_char,n") == Approx(48.0).epsilon(1e-3));
  CHECK(step_of(finding, "d_ef") == Approx(55.0).epsilon(1e-3));
  // λ = 2910/(90/√12) = 112.0; λ_rel = 112.0/π·√(21/7400) = 1.899; k = 0.5·(1 + 0.2·1.599 + 3.607) = 2.464;
  // k_c,y = 1/(2.464 + √(6.069 − 3.607)) = 0.2480. The board away from that fire is gypsum, so the stud also buckles
  // along the wall: λ = 2910/(45/√12) = 224.0; λ_rel = 224.0/π·√(21/7400) = 3.7985;
  // k = 0.5·(1 + 0.2·3.4985 + 14.4288) = 8.0642; k_c,z = 1/(8.0642 + √(65.032 − 14.4288)) = 0.06589.
  // N = 0.06589·1.25·21·45·90.0 = 7.005 kN.
  CHECK(step_of(finding, "k_c,fi") == Approx(0.06589).epsilon(1e-3));
  CHECK(step_of(finding, "N_fi,Rd") == Approx(7.005).epsilon(2e-3));
}

TEST_CASE("Each stud in fire carries its own width of wall") {
  const auto findings = findings_of(tested_load_bearing_panel());
  const Finding& finding = finding_of(findings, kLoadBearing);
  // Studs at 22.5, 600, 1200, 1800 and 2377.5 mm of 2.4 m: the middle one carries 0.6 m, those beside it
  // (577.5 + 600)/2 = 588.75 mm, those at the edges 22.5 + 577.5/2 = 311.25 mm.
  const Table& table = finding.tables.back();
  const std::vector<double> widths_m{0.31125, 0.58875, 0.6, 0.58875, 0.31125};
  REQUIRE(table.rows.size() == 10);
  for (std::size_t i = 0; i < 10; ++i) CHECK(std::get<double>(table.rows[i][7]) == Approx(widths_m[i % 5]));
  CHECK(step_of(finding, "b_t") == Approx(0.6));
  // n_d = 1.35·(8 + g) + 1.5·6 kN/m; 0.6 of it in fire on 0.6 m.
  const double load_kn = 0.6 * (1.35 * (8.0 + step_of(finding, "g")) + 1.5 * 6.0) * 0.6;
  CHECK(step_of(finding, "N_d,fi") == Approx(load_kn));
  CHECK(step_of(finding, "η") == Approx(load_kn / step_of(finding, "N_fi,Rd")));
}

TEST_CASE("A wood panel away from the fire holds the studs along the wall, gypsum does not") {
  Project project = tested_load_bearing_panel();
  const auto by_direction = [](const Finding& finding) {
    const Table& table = finding.tables.back();
    return std::pair(std::get<double>(table.rows[0][8]), std::get<double>(table.rows[5][8]));
  };
  const auto [fire_inside, fire_outside] = by_direction(finding_of(findings_of(project), kLoadBearing));
  CHECK(fire_inside < 0.07);
  // λ_y = 2910/(93.18/√12) = 108.2; λ_rel = 1.834; k = 0.5·(1 + 0.2·1.534 + 3.365) = 2.336; k_c,y = 0.2644.
  CHECK(fire_outside == Approx(0.2644).epsilon(2e-3));
  project.panels.front().layers.back().material = kOsb;
  CHECK(by_direction(finding_of(findings_of(project), kLoadBearing)).first == Approx(0.2480).epsilon(2e-3));
}

TEST_CASE("Studs without stone wool beside them char on three faces") {
  Project project = tested_load_bearing_panel();
  project.materials[kWool].name = "glass wool";
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kLoadBearing);
  CHECK(step_of(finding, "N_fi,Rd") == 0.0);
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("What annex E has no values for is said, not guessed") {
  Project project = tested_panel();
  project.materials[kWool].name = "wood fibre";
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, kSeparating);
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
  CHECK(finding_of(findings, "fire.evidence").reason == "document 'FT-1': file missing ('evidence/FT-1.txt')");
  REQUIRE(finding_of(findings, "fire.evidence").tables.size() == 1);
  CHECK(finding_of(findings, "fire.evidence").tables[0].rows.size() == 1);
}
