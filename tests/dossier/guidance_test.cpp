// Sentences of guidance: tables that are broken, conditions, facts that are missing, people, duties and lifting points.
#include "core/dossier/guidance/guidance.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <optional>
#include <string>
#include <vector>

#include "tests/dossier/shipped_guidance.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
using test::add_text;
using test::all_texts;
using test::duty_state;
using test::guidance_of;
using test::is_open;
using test::shipped_tables;

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

Guidance guidance_with_rows(const test::SyntheticDossier& made, const std::string& rows) {
  GuidanceTables tables;
  tables.rows = rows_of(rows);
  return guidance_of(made, tables);
}

void add_loop(test::SyntheticDossier& made, const char* reuse) {
  Part loop = test::box_part(PartKind::fastener, "Loop", 0, {0, 0, 3}, {0.1, 0.1, 3.1});
  loop.object_type = "LIFTING LOOP";
  if (reuse != nullptr) add_text(loop.properties, "Panel_Lifting", "Reuse", reuse);
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

}  // namespace

TEST_CASE("A serial number of blanks is not stated") {
  const std::string serial = "serial number is not stated";
  test::SyntheticDossier made = test::synthetic_dossier(1, 1);
  CHECK(test::is_open(test::guidance_of(made, test::shipped_tables()), serial));
  made.project.panels.front().properties.add("Pset_ManufacturerOccurrence", "SerialNumber", {std::string(" "), "", {}});
  CHECK(test::is_open(test::guidance_of(made, test::shipped_tables()), serial));
  test::SyntheticDossier stated = test::synthetic_dossier(1, 1);
  stated.project.panels.front().properties.add("Pset_ManufacturerOccurrence", "SerialNumber",
                                               {std::string("2026-7"), "", {}});
  CHECK_FALSE(test::is_open(test::guidance_of(stated, test::shipped_tables()), serial));
}

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
  CHECK_THAT(row_fault("a,safety.risk,project,open:masss>0,Text.,,,s\n"),
             Contains("t.csv:2: 'open:masss' names no role; they are mass, area"));
  CHECK_THAT(row_fault("a,safety.risk,project,,Text {open:}.,,,s\n"), Contains("'open:' names no role"));
  CHECK_THAT(row_fault("a,safety.risk,project,!party:,Text.,,,s\n"), Contains("'party:' names no role of a party"));
  CHECK_THAT(row_fault("a,safety.risk,project,panel.type or ,Text.,,,s\n"), Contains("is no fact"));
  for (const char* fact : {"lacking:safety.risk", "advice:safety.risk", "project.approved", "project.calendar_start"}) {
    INFO(fact);
    CHECK_THAT(row_fault("a,safety.risk,project,!" + std::string(fact) + ",Text.,,,s\n"),
               Contains("is known to duties alone"));
    CHECK_THAT(row_fault("a,safety.risk,project,,Text {" + std::string(fact) + "}.,,,s\n"),
               Contains("is known to duties alone"));
  }
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
                    Contains("p.csv:2: need 'perhaps' is not must, may or none"));
  const std::string duty_head = "id,jurisdictions,expectation,regulation,applies,part,when,unmet,who,source\n";
  CHECK_THROWS_WITH(parse_duties(duty_head + "d,England,e,r,,attic,party:client,u,w,s\n", "d.csv"),
                    Contains("d.csv:2: 'attic' is no part of the dossier"));
  for (const char* fact : {"lacking:safety.risks", "advice:safety.risks"}) {
    const std::string row = "d,England,e,r,," + ("panels,!" + std::string(fact)) + ",u,w,s\n";
    CHECK_THROWS_WITH(parse_duties(duty_head + row, "d.csv"),
                      Contains("d.csv:2: '" + std::string(fact) + "' names no topic; they are operation.function"));
  }
  CHECK_THROWS_WITH(parse_duties(duty_head + "d,England,e,r,,panels,!open:masses,u,w,s\n", "d.csv"),
                    Contains("d.csv:2: 'open:masses' names no role; they are mass"));
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
  const FactSource facts(made.settings, made.results);
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
  CHECK(holds("panel.type=other or panel.height_m>3.1"));
  CHECK_FALSE(holds("panel.type=other or panel.height_m>3.2"));
  CHECK_FALSE(holds("panel.type=other or panel.height_m>3.1; panel.type=other"));
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
  add_text(made.project.materials[0].properties, "Pset_ManufacturerTypeInformation", "Manufacturer", "Mill");
  made.project.parties.push_back({"supplier", "", "Mill", "", "mill@example.org", {}});
  guidance = guidance_with_rows(made, row);
  REQUIRE(guidance.of_topic("operation.inspect").size() == 1);
  CHECK(guidance.of_topic("operation.inspect")[0]->text == "Call mill@example.org.");
  CHECK(guidance.calendar.entries.size() == 9);
}

TEST_CASE("a sentence that lacks its fact still says what it is about") {
  const auto made = test::synthetic_dossier(1, 0);
  const char* kRow = "x,fire_safety.required,project,,Compartment lines: {setting:fire.compartment_floors},,,s\n";
  CHECK_THAT(all_texts(guidance_with_rows(made, kRow), "fire_safety.required"),
             Catch::StartsWith("Compartment lines. Not stated: setting 'fire.compartment_floors'"));
  const char* kBare = "x,fire_safety.required,project,,Have {setting:fire.compartment_floors} looked at.,,,s\n";
  CHECK_THAT(all_texts(guidance_with_rows(made, kBare), "fire_safety.required"), Catch::StartsWith("Not stated: "));
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
      add_text(made.project.panels[0].properties, "Panel_FireEvidence", "DocumentId", "TR-1");
      add_text(made.project.panels[0].properties, "Panel_FireEvidence", "BuildUp", "gypsum 15");
    }
    replace_fire_finding(made, verdict, basis);
    test::put_role(made, 0, role::kBearingInFire, std::string("not required"), Verdict::information);
    return all_texts(guidance_of(made, tables), "fire_safety.keep");
  };
  CHECK_THAT(texts(Verdict::pass, Basis::test_evidence, true), Contains("EI 60 by test report TR-1"));
  CHECK_THAT(texts(Verdict::pass, Basis::calculation, true), Contains("never outranks a test report"));
  for (const Verdict open : {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed}) {
    const std::string text = texts(open, Basis::test_evidence, true);
    CHECK_THAT(text, Contains("NOT PROVED") && !Contains("What keeps it"));
    CHECK_THAT(text, !Contains("EI 60 by"));
  }
  CHECK_THAT(texts(Verdict::pass, Basis::test_evidence, false),
             !Contains("EI 60 by test report") && Contains("Not stated: property 'Panel_FireEvidence.DocumentId'"));
  // Without any finding there is nothing that could be kept.
  const auto bare = test::synthetic_dossier(1, 0);
  CHECK_THAT(all_texts(guidance_of(bare, tables), "fire_safety.keep"), Contains("NOT PROVED"));
}

TEST_CASE("a panel that does not carry its load in a fire keeps no class, whatever it separates") {
  const GuidanceTables tables = shipped_tables();
  const auto texts = [&tables](const std::optional<Verdict>& bearing) {
    auto made = test::synthetic_dossier(1, 1);
    add_text(made.project.panels[0].properties, "Panel_FireEvidence", "DocumentId", "TR-1");
    add_text(made.project.panels[0].properties, "Panel_FireEvidence", "BuildUp", "gypsum 15");
    replace_fire_finding(made, Verdict::pass, Basis::test_evidence);
    if (bearing) test::put_role(made, 0, role::kBearingInFire, std::string("R 60"), *bearing);
    return all_texts(guidance_of(made, tables), "fire_safety.keep");
  };
  CHECK_THAT(texts(Verdict::pass),
             Contains("EI 60 by test report TR-1") && Contains("Load-bearing in fire: R 60 by test evidence"));
  for (const std::optional<Verdict>& open : {std::optional(Verdict::fail), std::optional(Verdict::evidence_needed),
                                             std::optional(Verdict::not_assessed), std::optional<Verdict>()}) {
    CHECK_THAT(texts(open), !Contains("EI 60 by") && Contains("no class of the panel may be relied on"));
  }
}

// Whoever adds a row that prints what a finding found has to say what it prints where that is not proved.
TEST_CASE("no sentence prints the value of a finding without asking its verdict") {
  const auto asks = [](const GuidanceRow& row, const std::string& verdict) {
    return std::any_of(row.when.begin(), row.when.end(), [&](const GuidanceAlternatives& terms) {
      return std::all_of(terms.begin(), terms.end(), [&](const GuidanceTerm& term) {
        return term.key == verdict && term.test == GuidanceTerm::Test::is;
      });
    });
  };
  const auto silent_rows = [&](const std::vector<GuidanceRow>& rows) {
    std::vector<std::string> silent;
    for (const GuidanceRow& row : rows) {
      for (const std::string& key : placeholders_in(row.text + row.interval_years)) {
        const auto fact = parse_finding_fact(key);
        if (!fact || (!fact->is_named_value && fact->field != "value")) continue;
        const std::string verdict = key.substr(0, key.find(':') + 1) + std::string(fact->name) + ".verdict";
        if (!asks(row, verdict)) silent.push_back(row.id + " prints " + key);
      }
    }
    return silent;
  };
  CHECK(silent_rows(shipped_tables().rows) == std::vector<std::string>());
  // What the search finds, and what it lets stand.
  CHECK(silent_rows(rows_of("a,safety.risk,panel,role:mass.verdict=pass,{role:mass.value},,,s\n")).empty());
  CHECK(silent_rows(rows_of("a,safety.risk,panel,,{role:mass.value},,,s\n")).size() == 1);
  CHECK(silent_rows(rows_of("a,safety.risk,panel,role:mass.verdict,{role:mass.value},,,s\n")).size() == 1);
  CHECK(silent_rows(rows_of("a,safety.risk,panel,role:area.verdict=pass,{role:mass.value},,,s\n")).size() == 1);
  CHECK(silent_rows(rows_of("a,safety.risk,panel,role:area.verdict=pass,{role:area#gross},,,s\n")).empty());
  CHECK(silent_rows(rows_of("a,safety.risk,panel,,{role:area#gross},,,s\n")).size() == 1);
  CHECK(silent_rows(rows_of("a,safety.risk,panel,role:mass.verdict=pass or panel.type=a,{role:mass.value},,,s\n"))
            .size() == 1);
}

TEST_CASE("an interval that is no number of years is an open point and has no day") {
  for (const char* stated : {"soon", "300 months", "0", "-5", "1000", "5 to 10"}) {
    INFO(stated);
    auto made = test::synthetic_dossier(1, 0);
    made.settings.set("handover.date", std::string("2026-07-01"));
    made.settings.set("handover.design_life_years", 60.0);
    for (Material& material : made.project.materials) add_text(material.properties, "Own_Life", "Years", stated);
    const Guidance guidance =
        guidance_with_rows(made, "x,operation.replace,product,product.category=wood,Renew.,owner,{Own_Life.Years},s\n");
    CHECK(guidance.calendar.entries.empty());
    CHECK(is_open(guidance, "property 'Own_Life.Years' is '" + std::string(stated) + "', which is no number of years"));
    CHECK(is_open(guidance, "'x' has no day in the calendar: softwood C24"));
  }
  auto made = test::synthetic_dossier(1, 0);
  made.settings.set("handover.date", std::string("2026-07-01"));
  made.settings.set("handover.design_life_years", 60.0);
  for (Material& material : made.project.materials) add_text(material.properties, "Own_Life", "Years", "25 years");
  const Guidance guidance =
      guidance_with_rows(made, "x,operation.replace,product,product.category=wood,Renew.,owner,{Own_Life.Years},s\n");
  CHECK(guidance.calendar.entries.size() == 2);
  CHECK_FALSE(is_open(guidance, "no number of years"));
}

TEST_CASE("what one of many things of a kind does not state is not given of all of them") {
  auto made = test::synthetic_dossier(2, 0);
  for (std::size_t panel = 0; panel < 2; ++panel) {
    Part barrier = test::box_part(PartKind::fastener, "Barrier", 0, {0, 0, 3}, {0.1, 0.1, 3.1});
    barrier.object_type = "CAVITY_BARRIER";
    if (panel == 0) add_text(barrier.properties, "Panel_FireEvidence", "DocumentId", "TR-1");
    made.project.panels[panel].parts.push_back(std::move(barrier));
  }
  const char* kRow = "x,fire_safety.evidence,fixing,,Report {Panel_FireEvidence.DocumentId}.,,,s\n";
  const char* kLacks = "Not stated: property 'Panel_FireEvidence.DocumentId'";
  CHECK_THAT(all_texts(guidance_with_rows(made, kRow), "fire_safety.evidence"),
             Contains(kLacks) && !Contains("Report TR-1"));
  add_text(made.project.panels[1].parts.back().properties, "Panel_FireEvidence", "DocumentId", "TR-2");
  CHECK(all_texts(guidance_with_rows(made, kRow), "fire_safety.evidence") == "Report TR-1, TR-2.\n");
}

TEST_CASE("a certificate stands for the lifting points that it speaks of, in the panels that name it") {
  const GuidanceTables tables = shipped_tables();
  // Two panels with the same loop; only the first has the paper.
  auto made = test::synthetic_dossier(2, 0);
  add_loop(made, "REUSABLE");
  made.project.panels[1].parts.push_back(made.project.panels[0].parts.back());
  add_certificate(made, "loops");
  const Guidance guidance = guidance_of(made, tables);
  const auto of = [&guidance](std::size_t panel) {
    std::string texts;
    for (const Advice* advice : guidance.of_topic("safety.lifting")) {
      if (advice->panels == std::vector<std::size_t>{panel}) texts += advice->text + "\n";
    }
    return texts;
  };
  CHECK_THAT(of(0), Contains("certificate LIF-1"));
  CHECK_THAT(of(1), Contains("It is not shown") || Contains("Not stated"));
  CHECK_THAT(of(1), !Contains("LIF-1"));

  // The same loop without a word on reuse in both: the certificate is still that of the first alone.
  auto unstated = test::synthetic_dossier(2, 0);
  add_loop(unstated, nullptr);
  unstated.project.panels[1].parts.push_back(unstated.project.panels[0].parts.back());
  add_certificate(unstated, "loops");
  CHECK(is_open(guidance_of(unstated, tables), "certificate of the lifting point is not stated"));
}

TEST_CASE("single use of one product is none of another, and a paper of another product offers no reuse") {
  auto made = test::synthetic_dossier(1, 0);
  add_loop(made, "REUSABLE");
  made.project.panels[0].parts.back().name = "Wire loop";
  add_loop(made, "REUSABLE");
  made.project.panels[0].parts.back().name = "Screwed anchor";
  made.project.panels[0].parts.back().object_type = "LIFTING ANCHOR";
  add_certificate(made, "Wire loop, single use");
  add_certificate(made, "Screwed anchor");
  const Panel& panel = made.project.panels[0];
  const Part& anchor = panel.parts.back();
  const Part& loop = panel.parts[panel.parts.size() - 2];
  CHECK(lifting_reuse(made.project, made.settings, panel, loop) == LiftingReuse::single_use);
  CHECK(lifting_reuse(made.project, made.settings, panel, anchor) == LiftingReuse::certified);
  CHECK(lifting_certificates(made.project, made.settings, panel, loop).size() == 1);
  // A paper that names no point of the panel counts against each of them, and for none.
  made.project.evidence.back().scope = "Some other thing";
  CHECK(lifting_reuse(made.project, made.settings, panel, anchor) == LiftingReuse::not_shown);
  made.project.evidence.back().scope = "Some other thing, single-use";
  CHECK(lifting_reuse(made.project, made.settings, panel, anchor) == LiftingReuse::single_use);
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
  CHECK(is_open(guidance, "the file is not complete: not named: principal designer"));
  // Whether it is a high building is not known, so the duty is not waved through.
  CHECK(duty_state(guidance, "gb.bsa.golden") == DutyState::unmet);
  made.settings.set("building.top_storey_height_m", 7.2);
  CHECK(duty_state(guidance_of(made, tables), "gb.bsa.golden") == DutyState::not_applicable);
  made.settings.set("building.top_storey_height_m", 18.0);
  CHECK(duty_state(guidance_of(made, tables), "gb.bsa.golden") == DutyState::unmet);
  made.project.parties.push_back({"Principal designer", "", "Office", "", "office@example.org", {}});
  CHECK_FALSE(is_open(guidance_of(made, tables), "not named: principal designer"));
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
