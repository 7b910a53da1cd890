// Duties of Great Britain: a sound handover meets them all, and one thing wrong leaves those open that rest on it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <string>
#include <vector>

#include "tests/dossier/shipped_guidance.h"

using namespace panel_dossier;
using namespace panel_dossier::test;
using Catch::Matchers::Contains;

namespace {

constexpr const char* kDutyHead = "id,jurisdictions,expectation,regulation,applies,part,when,unmet,who,source\n";

/// A building in England of which everything that the duties ask for is there.
SyntheticDossier sound_handover() {
  SyntheticDossier made = synthetic_dossier(2, 0);
  const std::vector<const char*> kinds{"wood", "gypsum", "wood", "plastic", "insulation"};
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    made.project.materials[i].category = kinds[i];
    add_text(made.project.materials[i].properties, "Panel_Safety", "Treatment", "none");
  }
  Evidence& document = made.project.evidence[0];
  document.kind = EvidenceKind::fire_test_report;
  document.issued = "2026-01-01";
  for (const char* role : {"client", "facilities manager", "responsible person", "principal designer",
                           "principal contractor", "panel designer", "panel manufacturer", "installer",
                           "structural engineer", "fire engineer", "dossier editor"}) {
    name_party(made, role);
  }
  for (std::size_t panel = 0; panel < made.project.panels.size(); ++panel) {
    Properties& stated = made.project.panels[panel].properties;
    add_text(stated, "Panel_FireEvidence", "DocumentId", "TR-1");
    add_text(stated, "Panel_FireEvidence", "BuildUp", "gypsum 15, insulation 195");
    put_role(made, panel, role::kMass, 400.0, Verdict::information);
    put_role(made, panel, role::kHookLoad, 500.0, Verdict::pass);
    put_role(made, panel, role::kCentreOfGravity, 1.2, Verdict::information);
    put_role(made, panel, role::kLifting, 0.4, Verdict::pass);
    put_role(made, panel, role::kFireResistance, std::string("EI 60"), Verdict::pass);
    put_role(made, panel, role::kBearingInFire, std::string("not required"), Verdict::information);
  }
  Settings& settings = made.settings;
  settings.set("project.jurisdiction", std::string("England"));
  settings.set("project.assessment_date", std::string("2026-06-01"));
  settings.set("building.top_storey_height_m", 7.2);
  settings.set("handover.date", std::string("2026-07-01"));
  settings.set("handover.design_life_years", 60.0);
  settings.set("fire.compartment_floors", true);
  for (const char* field :
       {"project", "originator", "functional_breakdown", "spatial_breakdown", "form", "discipline", "number"}) {
    settings.set(std::string("information.identifier.") + field, std::string("AB"));
  }
  settings.set("information.revision", std::string("P03"));
  settings.set("information.status_code", std::string("S4"));
  settings.set("information.approvals.0.role", std::string("technical manager"));
  settings.set("information.approvals.0.decision", std::string("approved"));
  settings.set("information.approvals.0.day", std::string("2026-11-24"));
  settings.set("information.approvals.0.revision", std::string("P03"));
  return made;
}

void forget_party(SyntheticDossier& made, const std::string& role) {
  auto& parties = made.project.parties;
  parties.erase(std::remove_if(parties.begin(), parties.end(), [&](const Party& party) { return party.role == role; }),
                parties.end());
}

void spoil(SyntheticDossier& made, std::string_view role, Verdict verdict) {
  put_role(made, 1, role, std::string("R 30"), verdict);
}

}  // namespace

TEST_CASE("a sound handover meets every duty of England, and the golden thread does not apply to a low building") {
  const SyntheticDossier made = sound_handover();
  const Guidance guidance = guidance_of(made, shipped_tables());
  CHECK(guidance.duties.size() > 10);
  for (const DutyLine& line : guidance.duties) {
    INFO(line.duty.id << ": " << line.what);
    CHECK(line.state == (line.duty.id == "gb.bsa.golden" ? DutyState::not_applicable : DutyState::met));
  }
}

TEST_CASE("one thing that is wrong leaves the duties open that rest on it") {
  struct Case {
    const char* label;
    std::vector<const char*> open;
    std::function<void(SyntheticDossier&)> change;
  };
  const std::vector<Case> cases{
      {"load-bearing in fire fails",
       {"gb.reg38", "gb.fso"},
       [](SyntheticDossier& made) { spoil(made, role::kBearingInFire, Verdict::fail); }},
      {"nobody looks at load-bearing in fire",
       {"gb.reg38", "gb.fso"},
       [](SyntheticDossier& made) { made.results.panels[0].findings.pop_back(); }},
      {"separating in fire needs evidence",
       {"gb.reg38", "gb.fso", "gb.reg7"},
       [](SyntheticDossier& made) { spoil(made, role::kFireResistance, Verdict::evidence_needed); }},
      {"the build-up tested is not stated",
       {"gb.reg38", "gb.fso"},
       [](SyntheticDossier& made) {
         made.project.panels[0].properties = {};
         add_text(made.project.panels[0].properties, "Panel_FireEvidence", "DocumentId", "TR-1");
       }},
      {"the report is not named",
       {"gb.reg38", "gb.fso"},
       [](SyntheticDossier& made) { made.project.panels[0].properties = {}; }},
      {"compartments are not stated",
       {"gb.reg38"},
       [](SyntheticDossier& made) {
         Settings settings;
         for (const auto& [key, value] : made.settings.all()) {
           if (key != "fire.compartment_floors") settings.set(key, value);
         }
         made.settings = settings;
       }},
      {"lifting points fail",
       {"gb.cdm.file", "gb.cdm.structure", "gb.cdm.residual"},
       [](SyntheticDossier& made) { spoil(made, role::kLifting, Verdict::fail); }},
      {"a mass is not known",
       {"gb.cdm.file", "gb.cdm.structure", "gb.cdm.residual", "gb.cdm.dismantling"},
       [](SyntheticDossier& made) { spoil(made, role::kMass, Verdict::not_assessed); }},
      {"the load on the hook is too much",
       {"gb.cdm.residual"},
       [](SyntheticDossier& made) { spoil(made, role::kHookLoad, Verdict::fail); }},
      {"a centre of gravity is not known",
       {"gb.cdm.dismantling"},
       [](SyntheticDossier& made) { spoil(made, role::kCentreOfGravity, Verdict::not_assessed); }},
      {"a wood product without a word on its treatment",
       {"gb.cdm.hazardous", "gb.cdm.file"},
       [](SyntheticDossier& made) { made.project.materials[0].properties = {}; }},
      {"a product without a category",
       {"gb.cdm.hazardous", "gb.cdm.file"},
       [](SyntheticDossier& made) {
         made.project.materials[2].properties = {};
         made.project.materials[2].category.clear();
       }},
      {"a product of an unknown category",
       {"gb.cdm.hazardous", "gb.cdm.file"},
       [](SyntheticDossier& made) {
         made.project.materials[2].properties = {};
         made.project.materials[2].category = "board";
       }},
      {"an expired document",
       {"gb.reg7"},
       [](SyntheticDossier& made) { made.project.evidence[0].expires = "2026-05-31"; }},
      {"a document with faults",
       {"gb.reg7"},
       [](SyntheticDossier& made) { made.project.evidence[0].faults = {"two days of issue"}; }},
      {"a document that does not say what it is",
       {"gb.reg7"},
       [](SyntheticDossier& made) { made.project.evidence[0].kind = EvidenceKind::not_stated; }},
      {"no document at all", {"gb.reg7"}, [](SyntheticDossier& made) { made.project.evidence.clear(); }},
      {"a finding of any kind needs evidence",
       {"gb.reg7"},
       [](SyntheticDossier& made) { put_role(made, 0, role::kArea, 4.0, Verdict::evidence_needed); }},
      {"no principal designer",
       {"gb.cdm.file", "gb.cdm.residual", "gb.19650.3"},
       [](SyntheticDossier& made) { forget_party(made, "principal designer"); }},
      {"a principal designer without a name",
       {"gb.cdm.file", "gb.cdm.residual", "gb.19650.3"},
       [](SyntheticDossier& made) {
         forget_party(made, "principal designer");
         made.project.parties.push_back({"principal designer", "", " ", "", "", {}});
       }},
      {"no responsible person",
       {"gb.reg38", "gb.fso", "gb.19650.3"},
       [](SyntheticDossier& made) { forget_party(made, "responsible person"); }},
      {"a cladding whose cleaning cannot be told",
       {"gb.cdm.cleaning", "gb.cdm.hazardous", "gb.cdm.file"},
       [](SyntheticDossier& made) {
         Material material;
         material.name = "boards";
         made.project.materials.push_back(material);
         made.project.panels[0].layers.back().category = "cladding";
         made.project.panels[0].layers.back().material = made.project.materials.size() - 1;
       }},
      {"18 m",
       {"gb.bsa.golden"},
       [](SyntheticDossier& made) { made.settings.set("building.top_storey_height_m", 18.0); }},
      {"seven storeys",
       {"gb.bsa.golden"},
       [](SyntheticDossier& made) {
         for (int i = 3; i < 7; ++i)
           made.project.storeys.push_back({"s" + std::to_string(i), "Floor", "Block A", std::nullopt, {}});
       }},
      {"no storeys in the model and no height", {"gb.bsa.golden"}, [](SyntheticDossier& made) {
         for (Panel& panel : made.project.panels) panel.storey.reset();
         made.project.storeys.clear();
         Settings settings;
         for (const auto& [key, value] : made.settings.all()) {
           if (key != "building.top_storey_height_m") settings.set(key, value);
         }
         made.settings = settings;
       }}};
  const GuidanceTables tables = shipped_tables();
  for (const Case& one : cases) {
    INFO(one.label);
    SyntheticDossier made = sound_handover();
    one.change(made);
    const Guidance guidance = guidance_of(made, tables);
    std::vector<std::string> open;
    for (const DutyLine& line : guidance.duties) {
      if (line.state == DutyState::unmet) open.push_back(line.duty.id);
    }
    std::vector<std::string> expected(one.open.begin(), one.open.end());
    std::sort(open.begin(), open.end());
    std::sort(expected.begin(), expected.end());
    CHECK(open == expected);
  }
}

TEST_CASE("storeys of two buildings are not added up") {
  SyntheticDossier made = sound_handover();
  for (int i = 0; i < 6; ++i)
    made.project.storeys.push_back({"t" + std::to_string(i), "Floor", "Block B", std::nullopt, {}});
  CHECK(duty_state(guidance_of(made, shipped_tables()), "gb.bsa.golden") == DutyState::not_applicable);
}

TEST_CASE("a party is found however its role is written, and by the further words of the table") {
  for (const char* role : {" Responsible Person ", "RESPONSIBLE PERSON", "responsible person for fire safety"}) {
    INFO(role);
    SyntheticDossier made = sound_handover();
    forget_party(made, "responsible person");
    made.project.parties.push_back({role, "R. Person", "Office", "", "office@example.org", {}});
    const Guidance guidance = guidance_of(made, shipped_tables());
    CHECK(duty_state(guidance, "gb.reg38") == DutyState::met);
    CHECK_FALSE(is_open(guidance, "responsible person is not named"));
    const auto file = temporary_file("responsible.pdf");
    DossierContent content = made.content();
    content.guidance = &guidance;
    write_dossier(content, installed_fonts(), file);
    CHECK_THAT(output_of("pdftotext '" + file.string() + "' - 2>/dev/null"),
               Contains("Responsible person: R. Person, Office, office@example.org."));
  }
}

TEST_CASE("what a practice leaves out of the tables of parties and duties is said, and is no open point") {
  GuidanceTables tables = shipped_tables();
  GuidanceTables own;
  own.duties = parse_duties(kDutyHead + std::string("gb.reg7,,none,,,,,,,\nno.such,,none,,,,,,,\n"), "duties-own.csv");
  own.parties = parse_parties("role,also,why,need,who\nInstaller,,,none,\nno such,,,none,\n", "parties.csv");
  put_over(tables, own);
  SyntheticDossier made = sound_handover();
  forget_party(made, "installer");
  made.project.evidence.clear();
  for (Panel& panel : made.project.panels) panel.evidence.clear();
  const Guidance guidance = guidance_of(made, tables);
  CHECK(duty_state(guidance, "gb.reg7") == DutyState::left_out);
  CHECK(guidance.roles_left_out == std::vector<std::string>{"installer"});
  CHECK_FALSE(is_open(guidance, "evidence for materials"));
  CHECK_FALSE(is_open(guidance, "installer"));
  const auto file = temporary_file("left_out.pdf");
  DossierContent content = made.content();
  content.guidance = &guidance;
  write_dossier(content, installed_fonts(), file);
  const std::string text = output_of("pdftotext '" + file.string() + "' - 2>/dev/null");
  CHECK_THAT(text, Contains("LEFT OUT") && Contains("own table of parties: installer"));
}

TEST_CASE("an approval that does not count says why") {
  SyntheticDossier made = sound_handover();
  const GuidanceTables tables = shipped_tables();
  const auto why_not = [&](const char* key, const char* value) {
    SyntheticDossier changed = made;
    changed.settings.set(key, std::string(value));
    return guidance_of(changed, tables).information.approvals.at(0).why_not;
  };
  CHECK(guidance_of(made, tables).information.approvals.at(0).why_not.empty());
  CHECK(why_not("information.approvals.0.revision", "P02") == "of another revision than P03");
  CHECK(why_not("information.approvals.0.day", "2026-11-26") == "of a day after the build of 2026-11-25");
  CHECK(why_not("information.approvals.0.day", "") == "without a day");
  CHECK(why_not("information.revision", "") == "the revision of this dossier is not stated");
}
