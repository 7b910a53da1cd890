// Bad and missing data: named exactly, `not assessed`, never a pass.
#include <catch2/catch.hpp>
#include <functional>
#include <limits>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

struct BadPanel {
  const char* label;
  std::function<void(Project&)> spoil;
  const char* reason;
};

void set(Project& project, const char* set_name, const char* name, Property property) {
  replace(project.panels.front().properties, set_name, name, std::move(property));
}

void make_load_bearing(Project& project) {
  set(project, "Pset_WallCommon", "LoadBearing", property_of(true));
  set(project, "Panel_Structure", "PermanentLineLoad", property_of(8000.0));
  set(project, "Panel_Structure", "VariableLineLoad", property_of(6000.0));
  set(project, "Panel_Structure", "VariableLoadCategory", property_of("C"));
}

const std::vector<BadPanel>& bad_panels() {
  static const std::vector<BadPanel> panels{
      {"unknown strength class",
       [](Project& p) {
         replace(p.materials[kTimber].properties, "Pset_MaterialWood", "StrengthGrade", property_of("C99"));
       },
       "strength class 'C99' of material 'softwood' is unknown"},
      {"no strength class",
       [](Project& p) { remove(p.materials[kTimber].properties, "Pset_MaterialWood.StrengthGrade"); },
       "material 'softwood' has no strength class (Pset_MaterialWood.StrengthGrade)"},
      {"no studs",
       [](Project& p) {
         std::erase_if(p.panels.front().parts, [](const Part& part) { return part.kind == PartKind::stud; });
       },
       "the panel has no studs or posts (IfcMember STUD or POST)"},
      {"stud of negative length",
       [](Project& p) { std::swap(p.panels.front().parts[0].bounds->min.z, p.panels.front().parts[0].bounds->max.z); },
       "'S1' has a zero or negative size"},
      {"zero width", [](Project& p) { p.panels.front().width_m.value = 0.0; },
       "width of the panel must be greater than zero (IfcWall, line 10)"},
      {"width that is not a number",
       [](Project& p) { p.panels.front().width_m.value = std::numeric_limits<double>::quiet_NaN(); },
       "width of the panel must be greater than zero (IfcWall, line 10)"},
      {"load-bearing not said", [](Project& p) { remove(p.panels.front().properties, "Pset_WallCommon.LoadBearing"); },
       "Pset_WallCommon.LoadBearing"},
      {"load-bearing with no permanent load",
       [](Project& p) {
         make_load_bearing(p);
         remove(p.panels.front().properties, "Panel_Structure.PermanentLineLoad");
       },
       "Panel_Structure.PermanentLineLoad of a load-bearing panel"},
      {"load-bearing with a permanent load of zero",
       [](Project& p) {
         make_load_bearing(p);
         set(p, "Panel_Structure", "PermanentLineLoad", property_of(0.0));
       },
       "Panel_Structure.PermanentLineLoad of a load-bearing panel must be greater than zero"},
      {"load-bearing with no variable load",
       [](Project& p) {
         make_load_bearing(p);
         remove(p.panels.front().properties, "Panel_Structure.VariableLineLoad");
       },
       "Panel_Structure.VariableLineLoad of a load-bearing panel"},
      {"negative variable load",
       [](Project& p) {
         make_load_bearing(p);
         set(p, "Panel_Structure", "VariableLineLoad", property_of(-1.0));
       },
       "characteristic variable load on the head must not be negative (IfcPropertySingleValue, line 7)"},
      {"no category",
       [](Project& p) {
         make_load_bearing(p);
         remove(p.panels.front().properties, "Panel_Structure.VariableLoadCategory");
       },
       "Panel_Structure.VariableLoadCategory (EN 1990 table A1.1)"},
      {"unknown category",
       [](Project& p) {
         make_load_bearing(p);
         set(p, "Panel_Structure", "VariableLoadCategory", property_of("Z"));
       },
       "no combination factor for category 'Z' in combination_factors.csv"},
      {"not load-bearing beside loads",
       [](Project& p) {
         make_load_bearing(p);
         set(p, "Pset_WallCommon", "LoadBearing", property_of(false));
         set(p, "Panel_Structure", "RackingLoad", property_of(2000.0));
       },
       "Pset_WallCommon.LoadBearing is false (IfcPropertySingleValue, line 7) and contradicts "
       "Panel_Structure.PermanentLineLoad of 8000 N/m (IfcPropertySingleValue, line 7) and "
       "Panel_Structure.VariableLineLoad of 6000 N/m (IfcPropertySingleValue, line 7) and Panel_Structure.RackingLoad "
       "of "
       "2000 N (IfcPropertySingleValue, line 7): correct one of them"},
      {"load-bearing not said beside a load",
       [](Project& p) {
         remove(p.panels.front().properties, "Pset_WallCommon.LoadBearing");
         set(p, "Panel_Structure", "RackingLoad", property_of(2000.0));
       },
       "Pset_WallCommon.LoadBearing, which is absent beside Panel_Structure.RackingLoad of 2000 N "
       "(IfcPropertySingleValue, line 7)"},
      {"a load-bearing infill",
       [](Project& p) {
         make_load_bearing(p);
         set(p, "Panel_Identity", "Arrangement", property_of("INFILL"));
       },
       "Pset_WallCommon.LoadBearing is true (IfcPropertySingleValue, line 7) and contradicts "
       "Panel_Identity.Arrangement "
       "INFILL (IfcPropertySingleValue, line 7): correct one of them"},
      {"arranged as load-bearing, which it is not",
       [](Project& p) { set(p, "Panel_Identity", "Arrangement", property_of("LOADBEARING")); },
       "Pset_WallCommon.LoadBearing is false (IfcPropertySingleValue, line 7) and contradicts "
       "Panel_Identity.Arrangement LOADBEARING (IfcPropertySingleValue, line 7): correct one of them"},
      {"no barrier with a load of persons",
       [](Project& p) {
         set(p, "Panel_Structure", "BarrierLoadCategory", property_of("NONE"));
         set(p, "Panel_Structure", "BarrierLineLoad", property_of(740.0));
       },
       "Panel_Structure.BarrierLoadCategory NONE (IfcPropertySingleValue, line 7) contradicts "
       "Panel_Structure.BarrierLineLoad of 740 N/m (IfcPropertySingleValue, line 7): correct one of them"},
      {"support spacing of zero", [](Project& p) { set(p, "Panel_Structure", "SupportSpacing", property_of(0.0)); },
       "spacing of supports must be greater than zero (IfcPropertySingleValue, line 7)"},
      {"more above the highest support than there is panel",
       [](Project& p) { set(p, "Panel_Structure", "TopProjection", property_of(3.0)); },
       "Panel_Structure.TopProjection must be less than the height of the panel"},
      {"negative height above the highest support",
       [](Project& p) { set(p, "Panel_Structure", "TopProjection", property_of(-0.1)); },
       "height of the panel above its highest support must not be negative (IfcPropertySingleValue, line 7)"},
      {"zero height", [](Project& p) { p.panels.front().height_m.value = 0.0; },
       "height of the panel must be greater than zero (IfcWall, line 10)"},
      {"material without density",
       [](Project& p) { remove(p.materials[kOsb].properties, "Pset_MaterialCommon.MassDensity"); },
       "mass of the panel: material 'OSB' has no positive Pset_MaterialCommon.MassDensity"}};
  return panels;
}

}  // namespace

TEST_CASE("Bad panel data are named and no check on studs is made") {
  for (const BadPanel& bad : bad_panels()) {
    Project project = cassette_project();
    project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
    bad.spoil(project);
    const auto findings = findings_as_drawn(project, cassette_settings());
    for (const char* check :
         {"structural.stud_bending", "structural.stud_stability", "structural.stud_shear", "structural.deflection"}) {
      const Finding& finding = finding_of(findings, check);
      INFO(bad.label << ", " << check);
      CHECK(finding.verdict == Verdict::not_assessed);
      CHECK(finding.value == Value{});
      CHECK(finding.reason == bad.reason);
    }
  }
}

TEST_CASE("Missing settings are named") {
  struct Case {
    const char* key;
    const char* check;
    const char* reason;
  };
  const std::vector<Case> cases{
      {"structural.national_annex", "structural.stud_bending", "setting structural.national_annex (recommended or UK)"},
      {"structural.service_class", "structural.stud_shear",
       "service class 1, 2 or 3 of material 'softwood' (Panel_Timber.ServiceClass or setting "
       "structural.service_class)"},
      {"structural.deflection_limit_ratio", "structural.deflection", "setting structural.deflection_limit_ratio"}};
  for (const Case& missing : cases) {
    Project project = cassette_project();
    project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
    const auto findings = findings_as_drawn(project, without(cassette_settings(), missing.key));
    INFO(missing.key);
    CHECK(finding_of(findings, missing.check).verdict == Verdict::not_assessed);
    CHECK(finding_of(findings, missing.check).reason.find(missing.reason) != std::string::npos);
  }
}

TEST_CASE("Studs are not assessed when the wind is not") {
  const Project project = cassette_project();
  const auto findings = findings_as_drawn(project, without(cassette_settings(), "building.height_m"));
  CHECK(finding_of(findings, "structural.stud_bending").reason ==
        "structural.wind_pressure is not assessed: setting building.height_m");
}
