// A wall of a published catalogue with its tested classes, which no calculation may outrank.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "core/api/testing/findings.h"
#include "plugins/fire/checks.h"
#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kSeparatingWall = "fire.resistance_integrity_insulation";
constexpr const char* kBearingWall = "fire.resistance_load_bearing";

/// dataholz.eu, catalogue of tested timber walls, component awrhhi08a (ventilated), studs 160 mm deep, as read in 2026:
/// from inside gypsum board DF 12.5 (800 kg/m³), battens 40 with mineral wool, OSB 15 (600), studs 60 wide at 625 with
/// mineral wool of 16 kg/m³ or more, gypsum fibre 12.5 (1000), ventilated battens 30, larch 24 (600). Printed: REI 60
/// from inside, 30 from outside: test results, no calculation. The wind barrier is left out, and the sheets are one a
/// face.
Project tested_catalogue_wall() {
  CassetteSpec spec;
  spec.stud_width_m = 0.060;
  spec.stud_depth_m = 0.160;
  spec.spacing_m = 0.625;
  spec.width_m = 2.5;
  Project project = cassette_project(spec);
  std::vector<Material>& materials = project.materials;
  replace(materials[kTimber].properties, "Pset_MaterialCommon", "MassDensity", property_of(450.0));
  replace(materials[kOsb].properties, "Pset_MaterialCommon", "MassDensity", property_of(600.0));
  materials[kGypsum].name = "gypsum fibre";
  replace(materials[kGypsum].properties, "Pset_MaterialCommon", "MassDensity", property_of(1000.0));
  materials[kWool].name = "mineral wool";
  replace(materials[kWool].properties, "Pset_MaterialCommon", "MassDensity", property_of(16.0));
  const std::size_t lining = materials.size();
  materials.push_back(material_of("gypsum DF", "gypsum", 800.0));
  materials.back().properties.add("Panel_Fire", "ReactionToFire", property_of("A2-s1,d0"));
  const std::size_t larch = materials.size();
  materials.push_back(material_of("larch", "wood", 600.0));
  materials.back().properties.add("Panel_Fire", "ReactionToFire", property_of("D-s2,d0"));

  Panel& panel = project.panels.front();
  panel.layers.clear();
  // From the cassette's inner face, at which the parts stand, outwards; then inwards from it.
  constexpr double kBoard_m = 0.012;
  add_layer(panel, "inner board", "sheathing", kOsb, -0.003, kBoard_m);
  add_layer(panel, "studs", "insulation", kWool, kBoard_m, kBoard_m + 0.160);
  add_layer(panel, "outer board", "sheathing", kGypsum, kBoard_m + 0.160, kBoard_m + 0.1725);
  add_layer(panel, "ventilated battens", "air", larch, kBoard_m + 0.1725, kBoard_m + 0.2025);
  panel.layers.back().material.reset();
  add_layer(panel, "larch", "finish", larch, kBoard_m + 0.2025, kBoard_m + 0.2265);
  add_layer(panel, "battens", "insulation", kWool, -0.043, -0.003);
  add_layer(panel, "lining", "finish", lining, -0.0555, -0.043);
  std::sort(panel.layers.begin(), panel.layers.end(),
            [](const Layer& a, const Layer& b) { return a.y_inside_m < b.y_inside_m; });
  add_document(project, "FT-1", EvidenceKind::fire_test_report);
  for (const Layer& layer : std::vector<Layer>{panel.layers[2], panel.layers[4], panel.layers[0]}) {
    panel.parts.push_back(board_screws(layer.name + " screws", layer.y_inside_m, layer.y_outside_m));
  }
  for (const Layer& layer : std::vector<Layer>{panel.layers[0], panel.layers[6]}) {
    panel.parts.push_back(box_part(layer.name, PartKind::sheet, *layer.material,
                                   {{0.0, layer.y_inside_m, 0.0}, {spec.width_m, layer.y_outside_m, spec.height_m}}));
  }
  panel.parts.push_back(board_screws("larch screws", panel.layers[6].y_inside_m, panel.layers[6].y_outside_m));
  Properties& properties = panel.properties;
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(true));
  properties.add("Pset_ManufacturerTypeInformation", "Manufacturer", property_of(kPanelMaker));
  properties.add("Panel_FireEvidence", "Resistance", property_of("REI 60 (i→o); REI 30 (o→i)"));
  properties.add("Panel_FireEvidence", "DocumentId", property_of("FT-1"));
  properties.add("Panel_FireEvidence", "MaxHeight", property_of(3.0));
  properties.add("Panel_FireEvidence", "MaxWidth", property_of(3.0));
  properties.add("Panel_FireEvidence", "MaxLoad", property_of(20000.0));
  properties.add("Panel_FireEvidence", "MinStudDepth", property_of(0.160));
  properties.add("Panel_FireEvidence", "MaxStudSpacing", property_of(0.625));
  properties.add("Panel_FireEvidence", "MaxFixingSpacing", property_of(0.15));
  properties.add("Panel_FireEvidence", "BuildUp",
                 property_of("gypsum DF 12.5 (800 kg/m3); mineral wool 40 (16 kg/m3); OSB 15 (600 kg/m3); mineral wool "
                             "160 (16 kg/m3); gypsum fibre 12.5 (1000 kg/m3); air 30; larch 24 (600 kg/m3)"));
  properties.add("Panel_Structure", "PermanentLineLoad", property_of(8000.0));
  properties.add("Panel_Structure", "VariableLineLoad", property_of(6000.0));
  return project;
}

std::vector<Finding> asked_for(Project project, const char* required) {
  static const fire::Tables tables(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data");
  properties_of(project).add("Panel_FireRequirement", "Resistance", property_of(required));
  return fire::check_panel(project.panels.front(), project, fire_settings(), tables);
}

std::string shown(const Finding& finding) {
  return std::get<std::string>(finding.value);
}

}  // namespace

TEST_CASE("The catalogue's wall holds for the hour that its test shows from inside") {
  const auto findings = asked_for(tested_catalogue_wall(), "REI 60 (i→o)");
  for (const char* check : {kSeparatingWall, kBearingWall}) {
    const Finding& finding = finding_of(findings, check);
    INFO(finding.reason);
    CHECK(finding.basis == Basis::test_evidence);
    CHECK(finding.verdict == Verdict::pass);
    CHECK(finding.reason.empty());
  }
  CHECK(shown(finding_of(findings, kSeparatingWall)) == "EI 60 (i→o)");
  CHECK(shown(finding_of(findings, kBearingWall)) == "R 60 (i→o)");
}

TEST_CASE("The catalogue's wall fails where an hour is asked from both sides, whatever the calculation says") {
  Project project = tested_catalogue_wall();
  // Stone wool twice as dense: by calculation the same cassette lasts longer than an hour from outside.
  project.materials[kWool].name = "stone wool";
  replace(project.materials[kWool].properties, "Pset_MaterialCommon", "MassDensity", property_of(50.0));
  const auto findings = asked_for(project, "REI 60 (i↔o)");
  CHECK(step_of(finding_of(findings, kSeparatingWall), "t_ins,out") > 60.0);
  for (const char* check : {kSeparatingWall, kBearingWall}) {
    CHECK(finding_of(findings, check).verdict == Verdict::fail);
    CHECK(finding_of(findings, check).reason == "the tested class is shorter than the class required");
  }
  CHECK(shown(finding_of(findings, kSeparatingWall)) == "EI 30 (i↔o)");
}
