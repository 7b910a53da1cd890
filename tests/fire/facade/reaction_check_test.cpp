#include "plugins/fire/facade/reaction_check.h"

#include <catch2/catch.hpp>

#include "core/api/testing/properties.h"
#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

TEST_CASE("Both surfaces are listed with every layer between") {
  const Project project = classified_panel();
  const Finding finding = fire::reaction_to_fire(project.panels.front(), project, cassette_settings());
  CHECK(finding.verdict == Verdict::information);
  CHECK(finding.basis == Basis::declared);
  CHECK(std::get<std::string>(finding.value) == "inner D-s2,d0; outer A2-s1,d0");
  CHECK(finding.tables.at(0).rows.size() == 3);
}

TEST_CASE("A surface without a class, or with one that is none, is named") {
  Project project = classified_panel();
  remove(project.materials[kGypsum].properties, "Panel_Fire.ReactionToFire");
  CHECK(fire::reaction_to_fire(project.panels.front(), project, cassette_settings()).reason ==
        "a class is needed of every layer; material 'gypsum': Panel_Fire.ReactionToFire");
  project.materials[kGypsum].properties.add("Panel_Fire", "ReactionToFire", property_of("Class 0"));
  const Finding finding = fire::reaction_to_fire(project.panels.front(), project, cassette_settings());
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason ==
        "a class is needed of every layer; 'Class 0' of material 'gypsum' is not a class of EN 13501-1");
}

TEST_CASE("Classes rest on a document of the right kind, of the panel or of each material") {
  Project project = classified_panel();
  const auto verdict = [&] {
    return fire::reaction_to_fire(project.panels.front(), project, cassette_settings()).verdict;
  };
  CHECK(verdict() == Verdict::information);
  project.evidence.front().kind = EvidenceKind::environmental_declaration;
  CHECK(verdict() == Verdict::evidence_needed);
  project.evidence.front().kind = EvidenceKind::product_declaration;
  CHECK(verdict() == Verdict::information);
  project.panels.front().evidence.clear();
  CHECK(verdict() == Verdict::evidence_needed);
  for (Material& material : project.materials) {
    material.properties.add("Panel_Fire", "DocumentId", property_of("RF-1"));
  }
  CHECK(verdict() == Verdict::information);
}

TEST_CASE("The report of fire resistance is none of reaction to fire") {
  Project project = classified_panel();
  project.panels.front().properties.add("Panel_FireEvidence", "DocumentId", property_of("RF-1"));
  CHECK(fire::reaction_to_fire(project.panels.front(), project, cassette_settings()).verdict ==
        Verdict::evidence_needed);
}

TEST_CASE("Combustible mass is all that is not A1 or A2") {
  Project project = classified_panel();
  const auto finding = [&] { return fire::construction_fire(project.panels.front(), project); };
  const auto rows = finding().tables.at(0).rows;
  REQUIRE(rows.size() == 3);
  CHECK(std::get<std::string>(rows[2][0]) == "D");
  const double wood_kg = std::get<double>(rows[2][1]);
  CHECK(std::get<double>(finding().value) == Approx(wood_kg / (2.4 * 3.0)));
  remove(project.materials[kWool].properties, "Panel_Fire.ReactionToFire");
  CHECK(std::get<double>(finding().value) == Approx((wood_kg + 0.001) / (2.4 * 3.0)));
  remove(project.materials[kTimber].properties, "Pset_MaterialCommon.MassDensity");
  CHECK(finding().verdict == Verdict::not_assessed);
}

TEST_CASE("A window fitted in the factory is no material of the wall") {
  Project project = classified_panel();
  Opening window;
  window.filling_entity = "IfcWindow";
  window.filling_name = "window";
  window.x_max_m = 1.0;
  window.z_max_m = 1.0;
  window.filling_properties.add("Panel_Filling", "FactoryFitted", property_of(true));
  window.filling_properties.add("Panel_Filling", "Mass", property_of(40.0));
  project.panels.front().openings.push_back(window);
  const Finding finding = fire::construction_fire(project.panels.front(), project);
  REQUIRE(finding.tables.at(0).rows.size() == 3);
  for (const auto& row : finding.tables.at(0).rows) CHECK(std::get<std::string>(row[0]) != "no class");
}

TEST_CASE("When the lining covers a panel is read from its records") {
  Project project = classified_panel();
  Properties& properties = project.panels.front().properties;
  const auto state = [&] {
    const Finding finding = fire::construction_fire(project.panels.front(), project);
    for (const Step& step : finding.steps) {
      if (step.name == "inner face") return std::get<std::string>(step.value);
    }
    return std::string();
  };
  CHECK(state() == "not recorded (Panel_Construction.LiningFitted: FACTORY or SITE)");
  properties.add("Panel_Construction", "LiningFitted", property_of("SITE"));
  CHECK(state() == "to be lined on site: open until then");
  properties.add("Panel_Install", "LiningDate", property_of("2026-05-04"));
  CHECK(state() == "lined on site on 2026-05-04");
  replace(properties, "Panel_Construction", "LiningFitted", property_of("YES"));
  CHECK(state() == "'YES' is neither FACTORY nor SITE");
}

TEST_CASE("A panel is lined when the factory did it, or the site with its day") {
  Project project = classified_panel();
  Properties& properties = project.panels.front().properties;
  const auto lined = [&] {
    const Finding finding = fire::project_construction_fire(project);
    return std::get<double>(finding.tables.at(0).rows.at(0).at(2)) == 1.0;
  };
  CHECK_FALSE(lined());
  properties.add("Panel_Construction", "LiningFitted", property_of("SITE"));
  CHECK_FALSE(lined());
  properties.add("Panel_Install", "LiningDate", property_of("2026-05-04"));
  CHECK(lined());
  replace(properties, "Panel_Construction", "LiningFitted", property_of("YES"));
  CHECK_FALSE(lined());
  replace(properties, "Panel_Construction", "LiningFitted", property_of("FACTORY"));
  CHECK(lined());
}
