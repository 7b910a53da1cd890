// Declarations read from files: what counts, and how a contradiction with the export is named.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <string>
#include <tuple>
#include <vector>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/checks.h"
#include "plugins/carbon/declarations/declared_figure.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr double kTimber_m3 = 5 * 0.045 * 0.140 * 2.7;
constexpr double kGypsum_kg = 2.4 * 2.7 * 0.0125 * 800.0;
/// As in panel_checks_test.cpp: amounts and values are kept to millionths.
constexpr double kRounding = 2e-3;

Origin line_of_file(int line) {
  Origin origin;
  origin.kind = OriginKind::data_table;
  origin.table = "evidence/EPD-2.csv";
  origin.row = "line " + std::to_string(line);
  origin.source = "environmental declaration EPD-2";
  return origin;
}

/// The declared panel, whose softwood is declared in a file that says the same as the export.
struct FiledPanel : DeclaredPanel {
  FiledPanel() {
    project.evidence.push_back({"EPD-2", "EPD-2", "evidence/EPD-2.csv", EvidenceStatus::present, {}});
    carbon::Declaration& file = files["EPD-2"].content.emplace();
    file.amount = Sourced<double>{1.0, line_of_file(2)};
    file.unit = Sourced<std::string>{"m³", line_of_file(2)};
    file.valid_until = Sourced<std::string>{"2029", line_of_file(3)};
    file.kind = Sourced<std::string>{"specific dataset", line_of_file(4)};
    replace(timber, kDeclaredSet, "DocumentId", std::string("EPD-2"));
    for (const auto& [module, fossil, biogenic, luluc] : {std::tuple{"A1-A3", 60.0, -700.0, 1.0},
                                                          {"C1", 0.5, 0.0, 0.0},
                                                          {"C2", 3.9, 0.0, 0.1},
                                                          {"C3", 5.0, 700.0, 0.0},
                                                          {"C4", 0.0, 0.0, 0.0},
                                                          {"D", -120.0, 0.0, 0.0}}) {
      declare_in_file("GWP-fossil", module, fossil);
      declare_in_file("GWP-biogenic", module, biogenic);
      declare_in_file("GWP-luluc", module, luluc);
    }
  }

  carbon::Declaration& file() { return *files.at("EPD-2").content; }

  void declare_in_file(const char* indicator, const char* module, double value, const char* unit = "kg CO2 eq.") {
    const int line = 5 + static_cast<int>(file().values.size());
    file().values.push_back({indicator, module, {}, unit, {value, line_of_file(line)}});
  }

  /// Every figure of the module and indicator times a factor.
  void scale(const char* indicator, double factor) {
    for (carbon::DeclaredValue& value : file().values) {
      if (value.indicator == indicator) value.value.value *= factor;
    }
  }

  /// Takes every figure of the export away, so that the file stands alone.
  void drop_figures_of_export() {
    for (const char* name : {"GwpFossilA1A3", "GwpBiogenicA1A3", "GwpLulucA1A3", "GwpTotalC1", "GwpTotalC2",
                             "GwpTotalC3", "GwpTotalC4", "GwpTotalD", "DeclaredUnit", "ValidUntil"}) {
      replace(timber, kDeclaredSet, name, std::nullopt);
    }
  }
};

}  // namespace

TEST_CASE("a declaration of another density or thickness than what is built in is noted") {
  const auto noted = [](const FiledPanel& model, const std::string& words) {
    const Finding finding = checked(model, "carbon.a1_a3");
    return std::any_of(finding.notes.begin(), finding.notes.end(),
                       [&](const std::string& note) { return note.find(words) != std::string::npos; });
  };
  const std::string density = "'softwood' is declared for 600 kg/m³ and built in at 420 kg/m³";
  FiledPanel model;
  CHECK_FALSE(noted(model, density));
  model.file().density_kg_per_m3 = Sourced<double>{600.0, line_of_file(4)};
  CHECK(noted(model, density));
  model.file().density_kg_per_m3->value = 440.0;  // within 5 % of 420
  CHECK_FALSE(noted(model, "kg/m³"));
  add_layer(model.panel(), "lining", "finish", model.gypsum, 0.0125);
  model.replace(model.gypsum, kDeclaredSet, "DeclaredUnit", std::string("m2"));
  model.replace(model.gypsum, kDeclaredSet, "DeclaredThickness", 0.015);
  CHECK(noted(model, "'gypsum board' is declared per m² of 15.0 mm and built in at 12.5 mm"));
  model.replace(model.gypsum, kDeclaredSet, "DeclaredThickness", 0.0125);
  CHECK_FALSE(noted(model, "per m² of"));
}

TEST_CASE("a file alone is enough, and its figures carry their lines") {
  FiledPanel model;
  model.drop_figures_of_export();
  const auto findings = check(model);
  const Finding& a1_a3 = finding_of(findings, "carbon.a1_a3");
  INFO(a1_a3.reason);
  CHECK(number_of(a1_a3) == Approx(kTimber_m3 * 61.0 + kGypsum_kg * 0.25).margin(kRounding));
  CHECK(finding_of(findings, "carbon.whole_life").verdict == Verdict::pass);
  bool traced = false;
  for (const Input& input : a1_a3.inputs) {
    traced = traced || describe(input.origin) == "evidence/EPD-2.csv, row 'line 5' (environmental declaration EPD-2)";
  }
  CHECK(traced);
}

TEST_CASE("a declaration for a thousand kilograms or a tonne is that of a kilogram") {
  struct Case {
    double amount;
    const char* unit;
  };
  const Case c = GENERATE(Case{1000.0, "kg"}, Case{1.0, "t"});
  INFO(c.unit);
  FiledPanel model;
  model.drop_figures_of_export();
  model.scale("GWP-biogenic", 1500.0 / 700.0);  // what a tonne of wood may hold
  model.file().amount->value = c.amount;
  model.file().unit->value = c.unit;
  const Finding a1_a3 = finding_of(check(model), "carbon.a1_a3");
  CHECK(number_of(a1_a3) == Approx(kTimber_m3 * 420.0 * 0.061 + kGypsum_kg * 0.25).margin(kRounding));
}

TEST_CASE("file per kilogram and export per tonne say the same") {
  FiledPanel model;
  model.drop_figures_of_export();
  for (const char* indicator : {"GWP-fossil", "GWP-luluc"}) model.scale(indicator, 1e-3);
  model.scale("GWP-biogenic", 1.5 / 700.0);
  model.file().unit->value = "kg";
  model.replace(model.timber, kDeclaredSet, "DeclaredUnit", std::string("t"));
  model.replace(model.timber, kDeclaredSet, "GwpFossilA1A3", 60.0);
  const Finding a1_a3 = finding_of(check(model), "carbon.a1_a3");
  INFO(a1_a3.reason);
  CHECK(number_of(a1_a3) ==
        Approx(kTimber_m3 * 420.0 * 0.061 + kGypsum_kg * 0.25).margin(kTimber_m3 * 1e-3 + kRounding));
}

TEST_CASE("usual spellings of kg CO2 eq. are one unit, and no other is") {
  using carbon::same_unit;
  for (const char* spelling :
       {"kg CO2 eq.", "kg CO2e", "kgCO2e", "kg CO₂e", "kg CO₂-eq.", "kg CO2-Äq.", "kg CO2-Äqv.", "kg CO2-A\u0308qv.",
        "kg CO2-Äquiv.", "kg CO2 eqv", "kg CO2 equiv.", "kg CO2 equivalent", "kg CO2 (eq)", "KG CO2 EQ"}) {
    INFO(spelling);
    CHECK(same_unit(spelling, "kg CO2 eq."));
  }
  for (const char* other : {"t CO2e", "g CO2 eq.", "kg CO2", "kg C eq.", "kg SO2 eq.", "kg", "kg CO2 eq./kg", ""}) {
    INFO(other);
    CHECK_FALSE(same_unit(other, "kg CO2 eq."));
  }
}

TEST_CASE("wood that declares no biogenic carbon at its end of life does not return it, whatever its fossil figure") {
  FiledPanel model;
  model.drop_figures_of_export();
  for (carbon::DeclaredValue& value : model.file().values) {
    if (value.module != "C3") continue;
    if (value.indicator == "GWP-fossil") value.value.value = 705.0;
    if (value.indicator == "GWP-biogenic") value.value.value = 0.0;
  }
  const Finding end = finding_of(check(model), "carbon.c1_c4");
  CHECK(end.verdict == Verdict::evidence_needed);
  CHECK(end.reason.find("does not give back in C3 and C4") != std::string::npos);
}

TEST_CASE("biogenic carbon is taken out of the module declared by its total alone") {
  FiledPanel model;
  model.drop_figures_of_export();
  // C3 declares 300 of 700 as biogenic; C4 holds the rest in a total of 410.
  std::erase_if(model.file().values, [](const carbon::DeclaredValue& value) { return value.module == "C4"; });
  for (carbon::DeclaredValue& value : model.file().values) {
    if (value.module == "C3" && value.indicator == "GWP-biogenic") value.value.value = 300.0;
  }
  model.declare_in_file("GWP-total", "C4", 410.0);
  const Finding end = finding_of(check(model), "carbon.c1_c4");
  INFO(end.reason);
  CHECK(step_of(end, "C,bio") == Approx(kTimber_m3 * 700.0).margin(kRounding));
  CHECK(number_of(end) == Approx(kTimber_m3 * (4.5 + 5.0 + 10.0) + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("GWP-biogenic beside the total is what the module returns") {
  FiledPanel model;
  model.drop_figures_of_export();
  std::erase_if(model.file().values, [](const carbon::DeclaredValue& value) { return value.module == "C3"; });
  model.declare_in_file("GWP-total", "C3", 705.0);
  model.declare_in_file("GWP-biogenic", "C3", 0.0);
  CHECK(finding_of(check(model), "carbon.c1_c4").verdict == Verdict::evidence_needed);
  model.file().values.back().value.value = 690.0;
  const Finding end = finding_of(check(model), "carbon.c1_c4");
  CHECK(step_of(end, "C,bio") == Approx(kTimber_m3 * 690.0).margin(kRounding));
  CHECK(number_of(end) == Approx(kTimber_m3 * 19.5 + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("three modules A1, A2 and A3 are A1-A3") {
  FiledPanel model;
  model.drop_figures_of_export();
  model.file().values.front().module = "A1";
  model.file().values.front().value.value = 40.0;
  model.declare_in_file("GWP-fossil", "A2", 15.0);
  model.declare_in_file("GWP-fossil", "A3", 5.0);
  CHECK(number_of(finding_of(check(model), "carbon.a1_a3")) ==
        Approx(kTimber_m3 * 61.0 + kGypsum_kg * 0.25).margin(kRounding));
}

TEST_CASE("a file that is faulty, expired or contradicted is evidence needed, with what to do") {
  struct Case {
    const char* label;
    std::function<void(FiledPanel&)> spoil;
    const char* reason;
  };
  const Case cases[] = {
      {"faulty", [](FiledPanel& m) { m.files.at("EPD-2").fault = "evidence/EPD-2.csv:7: no number"; },
       "declaration 'EPD-2' of material 'softwood' is faulty: evidence/EPD-2.csv:7: no number"},
      {"expired year", [](FiledPanel& m) { m.file().valid_until->value = "2025"; }, "ran out on 2025-12-31"},
      {"unit of the export differs",
       [](FiledPanel& m) { m.replace(m.timber, kDeclaredSet, "DeclaredUnit", std::string("kg")); },
       "is declared per m³ (evidence/EPD-2.csv, row 'line 2' (environmental declaration EPD-2)) but its DeclaredUnit "
       "in the export is 'kg'; correct the export"},
      {"unknown unit", [](FiledPanel& m) { m.file().unit->value = "pallet"; }, "'pallet', which is none of kg"},
      {"m2 without thickness",
       [](FiledPanel& m) {
         m.replace(m.timber, kDeclaredSet, "DeclaredUnit", std::nullopt);
         m.file().unit->value = "m2";
       },
       "is declared per m2 but has no Panel_EnvironmentalDeclaration.DeclaredThickness"},
      {"figure of the export differs", [](FiledPanel& m) { m.replace(m.timber, kDeclaredSet, "GwpFossilA1A3", 80.0); },
       "GwpFossilA1A3 in the export is not that of the declaration (evidence/EPD-2.csv, row 'line 5'"},
      {"total is no sum", [](FiledPanel& m) { m.declare_in_file("GWP-total", "A1-A3", -600.0); },
       "GWP-total of A1–A3 is not the sum of GWP-fossil, -biogenic and -luluc"},
      {"two scenarios", [](FiledPanel& m) { m.declare_in_file("GWP-fossil", "A1-A3", 61.0); },
       "has several figures of GWP-fossil for A1-A3; name one scenario"},
      {"unit of the indicator", [](FiledPanel& m) { m.file().values.front().unit = "t CO2e"; },
       "evidence/EPD-2.csv, the declaration of material 'softwood', states GWP-fossil in 't CO2e'; ask the supplier "
       "for "
       "it in kg CO2 eq."},
      {"indicator without unit",
       [](FiledPanel& m) {
         m.drop_figures_of_export();
         m.file().values.front().unit.clear();
       },
       "states GWP-fossil without a unit; ask the supplier for it in kg CO2 eq."},
      {"no fossil",
       [](FiledPanel& m) {
         m.drop_figures_of_export();
         m.file().values.erase(m.file().values.begin());
       },
       "the declaration of material 'softwood' has no GWP-fossil for A1–A3"},
  };
  for (const Case& c : cases) {
    INFO(c.label);
    FiledPanel model;
    c.spoil(model);
    const Finding finding = finding_of(check(model), "carbon.a1_a3");
    INFO(finding.reason);
    CHECK(finding.verdict == Verdict::evidence_needed);
    CHECK(finding.reason.find(c.reason) != std::string::npos);
    CHECK(std::holds_alternative<std::monostate>(finding.value));
  }
}

TEST_CASE("a named scenario picks its figures") {
  FiledPanel model;
  model.drop_figures_of_export();
  for (carbon::DeclaredValue& value : model.file().values) {
    if (value.module == "C3") value.scenario = "energy recovery";
  }
  model.declare_in_file("GWP-fossil", "C3", 900.0);
  model.file().values.back().scenario = "landfill";
  CHECK(finding_of(check(model), "carbon.c1_c4").verdict == Verdict::evidence_needed);
  model.replace(model.timber, kDeclaredSet, "Scenario", std::string("energy recovery"));
  CHECK(number_of(finding_of(check(model), "carbon.c1_c4")) ==
        Approx(kTimber_m3 * 9.5 + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("the default of the scenarios counts where nobody names one, and a name only where it is known") {
  FiledPanel model;
  model.drop_figures_of_export();
  for (carbon::DeclaredValue& value : model.file().values) {
    if (value.module == "C3") value.scenario = "S2";
    if (value.module == "D") value.scenario = "E1";
  }
  model.declare_in_file("GWP-fossil", "C3", 900.0);
  model.file().values.back().scenario = "S1";
  model.declare_in_file("GWP-fossil", "D", -10.0);
  model.file().values.back().scenario = "E2";
  const auto of = [&](const char* id) { return finding_of(check(model), id); };
  CHECK(
      of("carbon.c1_c4").reason ==
      "the declaration of material 'softwood' has several figures of GWP-fossil for C3, of scenarios 'S2', 'S1'; name "
      "one scenario in Panel_EnvironmentalDeclaration.Scenario");
  model.file().scenarios = {{"S1", "disposal", false}, {"S2", "disposal", true}, {"E1", "", false}, {"E2", "", true}};
  CHECK(number_of(of("carbon.c1_c4")) == Approx(kTimber_m3 * 9.5 + kGypsum_kg * 0.05).margin(kRounding));
  CHECK(number_of(of("carbon.d")) == Approx(kTimber_m3 * -10.0 / 0.9).margin(kRounding));
  // A name of another module leaves the default of C3.
  model.replace(model.timber, kDeclaredSet, "Scenario", std::string("E1"));
  CHECK(number_of(of("carbon.c1_c4")) == Approx(kTimber_m3 * 9.5 + kGypsum_kg * 0.05).margin(kRounding));
  CHECK(number_of(of("carbon.d")) == Approx(kTimber_m3 * -120.0 / 0.9).margin(kRounding));
  model.replace(model.timber, kDeclaredSet, "Scenario", std::string("E1; S2"));
  CHECK(number_of(of("carbon.c1_c4")) == Approx(kTimber_m3 * 9.5 + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("a sum that strays by a fifth of a per cent is that of a genuine declaration, one by more is none") {
  FiledPanel model;
  model.declare_in_file("GWP-total", "A1-A3", -639.0 + 761.0 * 0.002);
  CHECK(finding_of(check(model), "carbon.a1_a3").verdict == Verdict::information);
  model.file().values.back().value.value = -639.0 + 761.0 * 0.006;
  CHECK(finding_of(check(model), "carbon.a1_a3").verdict == Verdict::evidence_needed);
}

TEST_CASE("a service life longer than the declaration's is shown by nobody") {
  FiledPanel model;
  model.file().reference_service_life = Sourced<double>{50.0, line_of_file(4)};
  const Finding finding = finding_of(check(model), "carbon.b4");
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason.find("Panel_Supply.ServiceLife of 60 years is longer than the declaration's reference service "
                            "life of 50 (evidence/EPD-2.csv") != std::string::npos);
  model.file().reference_service_life->value = 60.0;
  CHECK(finding_of(check(model), "carbon.b4").verdict == Verdict::information);
}

TEST_CASE("the declarations of the project stand in a table with the other indicators of files") {
  FiledPanel model;
  model.declare_in_file("AP", "A1-A3", 0.4, "mol H+-eq.");
  model.declare_in_file("AP", "C2", 0.1, "mol H+ eq");
  const std::vector<PanelFindings> panels{{&model.project.panels.front(), check(model)}};
  const auto totals = totals_of(model, panels);
  const Finding& finding = finding_of(totals, "carbon.declarations");
  CHECK(number_of(finding) == 2.0);
  CHECK(step_of(finding, "n_file") == 1.0);
  REQUIRE(finding.tables.size() == 2);
  REQUIRE(finding.tables[1].rows.size() == 1);
  const auto& row = finding.tables[1].rows.front();
  CHECK(std::get<std::string>(row[1]) == "AP");
  CHECK(std::get<double>(row[3]) == Approx(kTimber_m3 * 0.4));
  CHECK(std::get<double>(row[4]) == Approx(kTimber_m3 * 0.1));
  CHECK(row[5].index() == 0);
}

TEST_CASE("abbreviations of ILCD data sets are those of the standard, and their units are checked") {
  FiledPanel model;
  model.declare_in_file("ADPE", "A1-A3", 0.001, "kg Sb eq.");
  model.declare_in_file("ADPF", "A1-A3", 900.0, "MJ, net calorific value");
  model.declare_in_file("WDP", "A1-A3", 7.0, "m3 world eq. deprived");
  const std::vector<PanelFindings> panels{{&model.project.panels.front(), check(model)}};
  const auto declarations = [&] { return finding_of(totals_of(model, panels), "carbon.declarations"); };
  const Finding finding = declarations();
  CHECK(finding.verdict == Verdict::information);
  REQUIRE(finding.tables.size() == 2);
  const auto& rows = finding.tables[1].rows;
  REQUIRE(rows.size() == 3);
  CHECK(std::get<std::string>(rows[0][1]) == "ADP-minerals&metals");
  CHECK(std::get<double>(rows[1][3]) == Approx(kTimber_m3 * 900.0));
  CHECK(std::get<std::string>(rows[2][1]) == "WDP");
  model.file().values.back().unit = "l";
  const Finding wrong = declarations();
  CHECK(wrong.verdict == Verdict::evidence_needed);
  CHECK(wrong.reason ==
        "evidence/EPD-2.csv, the declaration of material 'softwood', states WDP in 'l'; ask the supplier for it in "
        "m³ world eq.");
  CHECK(wrong.tables[1].rows.size() == 2);
}

TEST_CASE("two materials of one name stand in rows of their own") {
  FiledPanel model;
  Material other = model.project.materials[model.gypsum];
  other.name = model.project.materials[model.timber].name;
  const double other_kg = 2.4 * 2.7 * 0.010 * 800.0;
  model.project.materials.push_back(other);
  add_part(model.panel(), PartKind::sheet, "Second board", model.project.materials.size() - 1,
           {{0.0, 0.2, 0.0}, {2.4, 0.21, 2.7}});
  model.declare_in_file("AP", "A1-A3", 0.4, "mol H+ eq.");
  const std::vector<PanelFindings> panels{{&model.project.panels.front(), check(model)}};
  const Table* by_material = table_titled(finding_of(panels.front().findings, "carbon.a1_a3"), "By material");
  REQUIRE(by_material != nullptr);
  REQUIRE(by_material->rows.back().front() == Value(std::string("softwood (2)")));
  CHECK(std::get<double>(by_material->rows.back()[1]) == Approx(other_kg));
  const auto totals = totals_of(model, panels);
  const Finding& finding = finding_of(totals, "carbon.declarations");
  CHECK(number_of(finding) == 3.0);
  CHECK(step_of(finding, "n_file") == 1.0);
  REQUIRE(finding.tables[1].rows.size() == 1);
  CHECK(std::get<double>(finding.tables[1].rows.front()[3]) == Approx(kTimber_m3 * 0.4));
}

TEST_CASE("declared A4 and A5 stand beside the project's own and change nothing") {
  FiledPanel model;
  const auto before = check(model);
  model.declare_in_file("GWP-total", "A4", 9.0);
  model.declare_in_file("GWP-fossil", "A5", 3.0);
  model.declare_in_file("GWP-biogenic", "A5", 2.0);
  model.declare_in_file("GWP-luluc", "A5", 0.5);
  const auto after = check(model);
  for (const char* id : {"carbon.a4", "carbon.a5", "carbon.whole_life"}) {
    CHECK(number_of(finding_of(after, id)) == number_of(finding_of(before, id)));
  }
  const std::vector<PanelFindings> panels{{&model.project.panels.front(), after}};
  const auto totals = totals_of(model, panels);
  const Table* table = table_titled(finding_of(totals, "carbon.declarations"),
                                    "Declared A4 and A5 beside the project's own, amount in all panels");
  REQUIRE(table != nullptr);
  REQUIRE(table->rows.size() == 1);
  const auto& row = table->rows.front();
  CHECK(std::get<std::string>(row[0]) == "softwood");
  CHECK(std::get<double>(row[1]) == Approx(kTimber_m3 * 9.0).margin(1e-6));
  CHECK(std::get<double>(row[2]) == Approx(kTimber_m3 * 420.0 / 1000.0 * 400.0 * 0.1).margin(kRounding));
  CHECK(std::get<double>(row[3]) == Approx(kTimber_m3 * 5.5).margin(3e-6));
  CHECK(std::get<double>(row[4]) > 0.0);
}

TEST_CASE("where the project's own A4 is less than the declared one, both are said") {
  FiledPanel model;
  const auto notes = [](const FiledPanel& of) {
    std::string text;
    const std::vector<PanelFindings> panels{{&of.project.panels.front(), check(of)}};
    const std::vector<Finding> totals = totals_of(of, panels);
    for (const std::string& note : finding_of(totals, "carbon.declarations").notes) text += note + "\n";
    return text;
  };
  model.declare_in_file("GWP-total", "A4", 9.0);
  CHECK(notes(model).find("counts less than is declared") == std::string::npos);
  FiledPanel far;
  far.declare_in_file("GWP-total", "A4", 90.0);
  // 0.08505 m³: 1.4 kg CO2e over 400 km by the project's vehicle, 7.7 declared.
  CHECK(notes(far).find("less than is declared, kg CO2e: 'softwood' in A4 1.4 instead of 7.7") != std::string::npos);
}

TEST_CASE("a declared A4 in a foreign unit is left out of the comparison, for nothing rests on it") {
  FiledPanel model;
  model.declare_in_file("GWP-total", "A4", 9.0, "t CO2e");
  const std::vector<PanelFindings> panels{{&model.project.panels.front(), check(model)}};
  const auto totals = totals_of(model, panels);
  const Finding& finding = finding_of(totals, "carbon.declarations");
  CHECK(finding.verdict == Verdict::information);
  CHECK(finding.tables.size() == 1);
}

TEST_CASE("amounts without what the unit needs are refused with the property") {
  carbon::MaterialAmount amount;
  CHECK(carbon::declared_amount(amount, "kg", {}).gap.find("Pset_MaterialCommon.MassDensity") != std::string::npos);
  CHECK(carbon::declared_amount(amount, "m3", {}).gap == "is declared per m3 but a part of it has no volume");
  CHECK(carbon::declared_amount(amount, "piece", {}).gap == "is declared per piece but is not measured in pieces");
  amount.volume_m3 = 0.3;
  CHECK(
      carbon::declared_amount(amount, "m2", {}).gap ==
      "is declared per m2 but has no Panel_EnvironmentalDeclaration.DeclaredThickness; give the thickness of that m2");
  CHECK(carbon::declared_amount(amount, "t", {}).gap ==
        "has Panel_EnvironmentalDeclaration.DeclaredUnit 't', which is none of kg, m3, m2 and piece");
}
