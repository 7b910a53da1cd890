// Sentences of guidance: tables that are broken, conditions, facts that are missing, people, duties and lifting points.
#include "core/dossier/guidance/guidance.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/finding/roles.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

constexpr const char* kGuidanceHead = "id,topic,of,when,text,who,interval_years,source\n";

std::vector<GuidanceRow> rows_of(const std::string& rows) {
  return parse_guidance(kGuidanceHead + rows, "t.csv");
}

std::string guidance_fault(const std::string& bytes) {
  try {
    parse_guidance(bytes, "t.csv");
  } catch (const GuidanceFault& fault) {
    return fault.what();
  }
  return "none";
}

std::string row_fault(const std::string& row) {
  return guidance_fault(kGuidanceHead + row);
}

GuidanceTables shipped_tables() {
  const std::filesystem::path root = PANEL_DOSSIER_SOURCE_DIR;
  GuidanceTables tables = read_guidance_folder(root / "core/dossier/guidance");
  for (const char* plugin : {"fire", "structural", "thermal"})
    put_over(tables.rows, read_guidance(root / "plugins" / plugin / "guidance.csv"));
  return tables;
}

Guidance guidance_of(const test::SyntheticDossier& made, const GuidanceTables& tables) {
  return make_guidance(made.project, made.settings, made.results, tables);
}

Guidance guidance_with_rows(const test::SyntheticDossier& made, const std::string& rows) {
  GuidanceTables tables;
  tables.rows = rows_of(rows);
  return guidance_of(made, tables);
}

std::string all_texts(const Guidance& guidance, std::string_view topic) {
  std::string text;
  for (const Advice* advice : guidance.of_topic(topic)) text += advice->text + "\n";
  return text;
}

bool is_open(const Guidance& guidance, const std::string& words) {
  return std::any_of(guidance.open_points.begin(), guidance.open_points.end(), [&](const OpenPoint& point) {
    return point.what.find(words) != std::string::npos && !point.who.empty();
  });
}

void add_property(Properties& properties, const char* set, const char* name, const char* value) {
  properties.add(set, name, {std::string(value), "", test::export_origin("IfcPropertySingleValue", name, 7)});
}

void add_loop(test::SyntheticDossier& made, const char* reuse) {
  Part loop = test::box_part(PartKind::fastener, "Loop", 0, {0, 0, 3}, {0.1, 0.1, 3.1});
  loop.object_type = "LIFTING LOOP";
  if (reuse != nullptr) add_property(loop.properties, "Panel_Lifting", "Reuse", reuse);
  made.project.panels[0].parts.push_back(std::move(loop));
}

void add_certificate(test::SyntheticDossier& made, const char* scope) {
  Evidence document = made.project.evidence.front();
  document.id = "LIF-1";
  document.kind = EvidenceKind::lifting_certificate;
  document.scope = scope;
  document.number = "LIF-1";
  made.project.evidence.push_back(document);
  made.project.panels[0].evidence.push_back(made.project.evidence.size() - 1);
}

void replace_fire_finding(test::SyntheticDossier& made, Verdict verdict, Basis basis) {
  RecordedFinding& recorded = made.results.panels[0].findings[0];
  Finding finding = whole_finding(recorded);
  finding.value = std::string("EI 60");
  finding.limit = std::string("EI 60");
  finding.unit.clear();
  finding.utilisation.reset();
  finding.verdict = verdict;
  finding.basis = basis;
  finding.reason = verdict == Verdict::pass ? "" : "document 'TR-1' is not there";
  recorded = FindingRecorder().record(finding);
  test::claim(made.results.build, role::kFireResistance, finding.check);
}

DutyState duty_state(const Guidance& guidance, std::string_view id) {
  for (const DutyLine& line : guidance.duties) {
    if (line.duty.id == id) return line.state;
  }
  FAIL("no duty " << id);
  return DutyState::met;
}

}  // namespace

TEST_CASE("a broken table of guidance is told with file, line and what is wrong") {
  const std::string good = "a,safety.risk,project,,Text.,,,common practice\n";
  CHECK(row_fault(good) == "none");
  CHECK(guidance_fault("") == "t.csv:1: the file is empty");
  CHECK(guidance_fault("# nothing\n") == "t.csv:1: the table is empty");
  CHECK_THAT(guidance_fault("id,text\n"), Contains("t.csv:1: the columns are not id, topic, of"));
  CHECK_THAT(row_fault(good + good), Contains("t.csv:3: the id 'a' stands twice"));
  CHECK_THAT(row_fault("# a comment\na,safety.risk,project,,Text\n"), Contains("t.csv:3: the row has 5 fields"));
  CHECK_THAT(row_fault(",safety.risk,project,,Text.,,,s\n"), Contains("t.csv:2: the row has no id"));
  CHECK_THAT(row_fault("a,safety.danger,project,,Text.,,,s\n"), Contains("'safety.danger' is no topic"));
  CHECK_THAT(row_fault("a,safety.risk,wall,,Text.,,,s\n"), Contains("'wall' is nothing to speak of"));
  CHECK_THAT(row_fault("a,safety.risk,project,,,,,s\n"), Contains("the row has no text"));
  CHECK_THAT(row_fault("a,safety.risk,project,,Text.,,,\n"), Contains("the row has no source"));
  CHECK_THAT(row_fault("a,safety.risk,project,layer.name,Text.,,,s\n"), Contains("'layer.name' is no fact"));
  CHECK_THAT(row_fault("a,safety.risk,layer,role:mass.value>3,Text.,,,s\n"), Contains("'role:mass.value' is no fact"));
  CHECK_THAT(row_fault("a,safety.risk,panel,role:beauty.value,Text.,,,s\n"),
             Contains("'role:beauty.value' is no fact"));
  CHECK_THAT(row_fault("a,safety.risk,panel,panel.mass_kg>heavy,Text.,,,s\n"), Contains("'heavy' behind"));
  CHECK_THAT(row_fault("a,safety.risk,panel,panel.type=,Text.,,,s\n"),
             Contains("nothing is compared with 'panel.type'"));
  CHECK_THAT(row_fault("a,safety.risk,panel,panel.type;;panel.width_m,Text.,,,s\n"), Contains("an empty term"));
  CHECK_THAT(row_fault("a,safety.risk,panel,,Text {panel.type.,,,s\n"), Contains("a brace is not closed"));
  CHECK_THAT(row_fault("a,safety.risk,panel,,Text panel.type}.,,,s\n"), Contains("a brace is closed that is not open"));
  CHECK_THAT(row_fault("a,safety.risk,panel,,Text {panel.age}.,,,s\n"), Contains("'panel.age' is no fact"));
  CHECK_THAT(row_fault("a,operation.inspect,panel,,Text.,,0,s\n"), Contains("the interval '0'"));
  CHECK_THAT(row_fault("a,operation.inspect,panel,,Text.,,often,s\n"), Contains("the interval 'often'"));
  CHECK_THAT(row_fault("a,operation.inspect,panel,,\"Text.,,,s\n"), Contains("t.csv:2:"));
  CHECK_THROWS_WITH(parse_parties("role,also,why,need,who\nclient,,why,perhaps,who\n", "p.csv"),
                    Contains("p.csv:2: need 'perhaps'"));
  const std::string duty_head = "id,jurisdictions,expectation,regulation,applies,part,when,unmet,who,source\n";
  CHECK_THROWS_WITH(parse_duties(duty_head + "d,England,e,r,,attic,party:client,u,w,s\n", "d.csv"),
                    Contains("d.csv:2: 'attic' is no part of the dossier"));
  CHECK_THROWS_WITH(parse_duties(duty_head + "d,England,e,r,,panels,,u,w,s\n", "d.csv"),
                    Contains("does not say when the duty is met"));
}

TEST_CASE("the tables that come with the program can be read, and no id stands twice") {
  const GuidanceTables tables = shipped_tables();
  std::vector<std::string> ids;
  for (const GuidanceRow& row : tables.rows) ids.push_back(row.id);
  std::sort(ids.begin(), ids.end());
  CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
  CHECK(ids.size() > 80);
  CHECK_FALSE(tables.parties.empty());
  CHECK_FALSE(tables.duties.empty());
}

TEST_CASE("a condition holds of words, numbers, and of what is given or absent") {
  const auto made = test::synthetic_dossier(1, 0);
  const Guidance guidance = guidance_with_rows(made, "x,safety.risk,project,,Text.,,,s\n");
  const FactSource facts(made.project, made.settings, made.results);
  const auto panel = std::find_if(guidance.subjects.all.begin(), guidance.subjects.all.end(),
                                  [](const Subject& subject) { return subject.kind == SubjectKind::panel; });
  REQUIRE(panel != guidance.subjects.all.end());
  const auto holds = [&](const std::string& condition) {
    return facts.holds(parse_condition(condition, SubjectKind::panel), *panel);
  };
  CHECK(holds("panel.type=t1 INFILL|other"));
  CHECK_FALSE(holds("panel.type=other"));
  CHECK(holds("panel.type!=other"));
  CHECK_FALSE(holds("panel.type!=T1 infill"));
  CHECK(holds("panel.height_m>3.1; panel.height_m<3.3"));
  CHECK_FALSE(holds("panel.height_m>3.2"));
  CHECK_FALSE(holds("panel.type>1"));
  CHECK(holds("panel.functions=membrane"));
  CHECK(holds("Panel_Inspection.Result=accepted"));
  CHECK(holds("!panel.mass_kg"));
  // What is not given is neither more nor less, and is none of the words.
  CHECK_FALSE(holds("panel.mass_kg>0"));
  CHECK_FALSE(holds("panel.mass_kg<1e9"));
  CHECK_FALSE(holds("panel.mass_kg=1"));
  CHECK(holds("panel.mass_kg!=1"));
}

TEST_CASE("a sentence that lacks a fact says what is missing and who can supply it, and is an open point") {
  auto made = test::synthetic_dossier(2, 0);
  const std::string row = "x,operation.inspect,product,product.category=wood,Call {product.contact}.,,1,s\n";
  Guidance guidance = guidance_with_rows(made, row);
  const auto advice = guidance.of_topic("operation.inspect");
  REQUIRE(advice.size() == 1);
  CHECK_THAT(advice[0]->text, Contains("Not stated: contact of the maker of the product"));
  CHECK_THAT(advice[0]->text, Contains("people"));
  CHECK_THAT(advice[0]->text, !Contains("{"));
  CHECK(is_open(guidance, "contact of the maker of the product is not stated: softwood C24"));
  // What is not whole is in no calendar.
  made.settings.set("handover.date", std::string("2026-07-01"));
  CHECK(guidance_with_rows(made, row).calendar.entries.empty());
  add_property(made.project.materials[0].properties, "Pset_ManufacturerTypeInformation", "Manufacturer", "Mill");
  made.project.parties.push_back({"supplier", "", "Mill", "", "mill@example.org", {}});
  guidance = guidance_with_rows(made, row);
  REQUIRE(guidance.of_topic("operation.inspect").size() == 1);
  CHECK(guidance.of_topic("operation.inspect")[0]->text == "Call mill@example.org.");
  CHECK(guidance.calendar.entries.size() == 9);
}

TEST_CASE("the practice's rows stand in place of the program's, and take sentences away") {
  std::vector<GuidanceRow> rows = rows_of("a,safety.risk,project,,One.,,,s\nb,safety.risk,project,,Two.,,,s\n");
  put_over(rows, rows_of("b,safety.risk,project,,Ours.,,,s\na,safety.risk,project,,none,,,s\n"
                         "c,safety.risk,project,,More.,,,s\nd,safety.risk,project,,none,,,s\n"));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].text == "Ours.");
  CHECK(rows[1].text == "More.");
}

TEST_CASE("a lifting point is offered for reuse only with the word of its maker and a certificate that holds") {
  const GuidanceTables tables = shipped_tables();
  const auto texts = [&tables](const char* reuse, const char* scope) {
    auto made = test::synthetic_dossier(1, 0);
    add_loop(made, reuse);
    if (scope != nullptr) add_certificate(made, scope);
    return all_texts(guidance_of(made, tables), "safety.lifting");
  };
  constexpr const char* kOffer = "Stated for repeated use";
  CHECK_THAT(texts("REUSABLE", "loops"), Contains(kOffer) && Contains("LIF-1"));
  CHECK_THAT(texts("SINGLE_USE", "loops"), !Contains(kOffer) && Contains("Single use"));
  CHECK_THAT(texts("REUSABLE", "Single use: cut off"), !Contains(kOffer) && Contains("Single use"));
  CHECK_THAT(texts("REUSABLE", nullptr), !Contains(kOffer) && Contains("not stated", Catch::CaseSensitive::No));
  CHECK_THAT(texts(nullptr, "loops"), !Contains(kOffer));
  CHECK_THAT(texts(nullptr, nullptr), !Contains(kOffer));
}

TEST_CASE("a class of which the report is missing is not said to be kept") {
  const GuidanceTables tables = shipped_tables();
  const auto texts = [&tables](Verdict verdict, Basis basis, bool names_report) {
    auto made = test::synthetic_dossier(1, 1);
    if (names_report) {
      add_property(made.project.panels[0].properties, "Panel_FireEvidence", "DocumentId", "TR-1");
      add_property(made.project.panels[0].properties, "Panel_FireEvidence", "BuildUp", "gypsum 15");
    }
    replace_fire_finding(made, verdict, basis);
    return all_texts(guidance_of(made, tables), "fire_safety.keep");
  };
  CHECK_THAT(texts(Verdict::pass, Basis::test_evidence, true), Contains("EI 60 by test report TR-1"));
  CHECK_THAT(texts(Verdict::pass, Basis::calculation, true), Contains("never outranks a test report"));
  for (const Verdict open : {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed}) {
    const std::string text = texts(open, Basis::test_evidence, true);
    CHECK_THAT(text, Contains("NOT PROVED") && !Contains("What keeps it"));
    CHECK_THAT(text, !Contains("EI 60 by"));
  }
  CHECK_THAT(texts(Verdict::pass, Basis::test_evidence, false), !Contains("EI 60 by test report"));
  // Without any finding there is nothing that could be kept.
  const auto bare = test::synthetic_dossier(1, 0);
  CHECK_THAT(all_texts(guidance_of(bare, tables), "fire_safety.keep"), Contains("NOT PROVED"));
}

TEST_CASE("parties, status and duties that are blank are open points with who can close them") {
  const GuidanceTables tables = shipped_tables();
  auto made = test::synthetic_dossier(2, 1);
  Guidance guidance = guidance_of(made, tables);
  CHECK(is_open(guidance, "principal designer is not named"));
  CHECK(is_open(guidance, "setting information.identifier is blank"));
  CHECK(is_open(guidance, "setting information.approvals is blank"));
  CHECK(is_open(guidance, "setting project.jurisdiction is blank"));
  CHECK(guidance.duties.empty());

  made.settings.set("project.jurisdiction", std::string("Atlantis"));
  CHECK(is_open(guidance_of(made, tables), "there is no table of duties for 'Atlantis'"));

  made.settings.set("project.jurisdiction", std::string("England"));
  guidance = guidance_of(made, tables);
  CHECK(duty_state(guidance, "gb.cdm.file") == DutyState::unmet);
  CHECK(duty_state(guidance, "gb.reg38") == DutyState::unmet);
  CHECK(is_open(guidance, "the principal designer, who prepares the file, is not named"));
  // Whether it is a high building is not known, so the duty is not waved through.
  CHECK(duty_state(guidance, "gb.bsa.golden") == DutyState::unmet);
  made.settings.set("building.top_storey_height_m", 7.2);
  CHECK(duty_state(guidance_of(made, tables), "gb.bsa.golden") == DutyState::not_applicable);
  made.settings.set("building.top_storey_height_m", 18.0);
  CHECK(duty_state(guidance_of(made, tables), "gb.bsa.golden") == DutyState::unmet);
  made.project.parties.push_back({"Principal designer", "", "Office", "", "office@example.org", {}});
  CHECK(duty_state(guidance_of(made, tables), "gb.cdm.file") == DutyState::met);
}

TEST_CASE("the identifier needs all of its fields, and an approval counts for its revision and up to the build") {
  const GuidanceTables tables = shipped_tables();
  auto made = test::synthetic_dossier(1, 0);
  const auto field = [&made](const std::string& name, const char* text) {
    made.settings.set("information." + name, std::string(text));
  };
  for (const auto& [name, text] :
       {std::pair("project", "AB1"), std::pair("originator", "XYZ"), std::pair("functional_breakdown", "ZZ"),
        std::pair("spatial_breakdown", "ZZ"), std::pair("form", "T"), std::pair("discipline", "Z")}) {
    field(std::string("identifier.") + name, text);
  }
  Guidance guidance = guidance_of(made, tables);
  CHECK(guidance.information.identifier.empty());
  CHECK(is_open(guidance, "setting information.identifier lacks number"));
  field("identifier.number", "0001");
  CHECK(guidance_of(made, tables).information.identifier == "AB1-XYZ-ZZ-ZZ-T-Z-0001");

  field("revision", "P03");
  field("approvals.0.role", "technical manager");
  field("approvals.0.decision", "approved");
  field("approvals.0.day", "2026-11-24");
  field("approvals.0.revision", "P02");
  const char* kNone = "no approval is of this revision";
  CHECK(is_open(guidance_of(made, tables), kNone));
  field("approvals.0.revision", "P03");
  CHECK_FALSE(is_open(guidance_of(made, tables), kNone));
  field("approvals.1.role", "technical manager");
  field("approvals.1.decision", "rejected");
  field("approvals.1.day", "2026-11-25");
  field("approvals.1.revision", "P03");
  CHECK(is_open(guidance_of(made, tables), kNone));
  field("approvals.1.day", "2026-11-23");
  CHECK_FALSE(is_open(guidance_of(made, tables), kNone));
  field("approvals.1.day", "2026-11-24");
  CHECK(is_open(guidance_of(made, tables), kNone));
  field("approvals.1.role", "client");
  field("approvals.1.day", "2026-11-01");
  CHECK(is_open(guidance_of(made, tables), kNone));
  field("approvals.1.decision", "approved");
  CHECK_FALSE(is_open(guidance_of(made, tables), kNone));
  field("approvals.1.day", "2026-11-26");
  field("approvals.0.day", "2026-11-26");
  CHECK(is_open(guidance_of(made, tables), kNone));
  made.results.build.issue = {"P04", ""};
  CHECK(is_open(guidance_of(made, tables), "the build is issue P04, the setting information.revision says P03"));
}

TEST_CASE("layers come off from the side on which they lie, and each says what it is for") {
  const auto made = test::synthetic_dossier(1, 0);
  const Guidance guidance = guidance_of(made, shipped_tables());
  REQUIRE(guidance.subjects.build_ups.size() == 1);
  const BuildUp& build_up = guidance.subjects.build_ups.front();
  REQUIRE(build_up.subjects.size() == 6);
  const auto position = [&](std::size_t layer) {
    return guidance.subjects.all[build_up.subjects[layer]].facts.at("layer.position").front();
  };
  CHECK(position(1) == "inside");
  CHECK(position(2) == "core");
  CHECK(position(4) == "outside");
  CHECK_THAT(guidance.texts_on(build_up.subjects[1], "operation.function").at(0), Contains("out of the insulation"));
  CHECK_THAT(guidance.texts_on(build_up.subjects[4], "operation.function").at(0), Contains("keeps rain and wind out"));
}
