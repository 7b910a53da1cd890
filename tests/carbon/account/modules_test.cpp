#include <catch2/catch.hpp>
#include <limits>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr double kTimber_m3 = 5 * 0.045 * 0.140 * 2.7;
constexpr double kTimber_kg = kTimber_m3 * 420.0;
constexpr double kGypsum_kg = 2.4 * 2.7 * 0.0125 * 800.0;
constexpr double kArea_m2 = 2.4 * 2.7;
/// Values are kept to millionths of a kg or m³ each; two materials and a unit of 705 kg/m³ leave less than this.
constexpr double kRounding = 2e-3;

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

const char* const kChecks[] = {"carbon.a1_a3",
                               "carbon.a4",
                               "carbon.a5",
                               "carbon.b4",
                               "carbon.c1_c4",
                               "carbon.d",
                               "carbon.biogenic_storage",
                               "carbon.total_per_area",
                               "carbon.whole_life",
                               "carbon.core_indicators",
                               "carbon.chain_of_custody"};

const Input& input_of(const Finding& finding, const std::string& name) {
  for (const Input& input : finding.inputs) {
    if (input.name == name) return input;
  }
  throw std::out_of_range("no input '" + name + "'");
}

}  // namespace

TEST_CASE("every carbon finding can be followed: inputs with origin, steps, clause") {
  const auto findings = check(DeclaredPanel());
  REQUIRE(findings.size() == std::size(kChecks));
  for (const char* id : kChecks) {
    INFO(id);
    const Finding& finding = finding_of(findings, id);
    CHECK(std::holds_alternative<double>(finding.value));
    CHECK_FALSE(finding.inputs.empty());
    CHECK_FALSE(finding.steps.empty());
    CHECK_FALSE(finding.clause.empty());
    CHECK_FALSE(finding.notes.empty());
  }
}

TEST_CASE("A1-A3 leaves biogenic carbon out and prints it") {
  const auto findings = check(DeclaredPanel());
  const Finding& a1_a3 = finding_of(findings, "carbon.a1_a3");
  CHECK(number_of(a1_a3) == Approx(kTimber_m3 * 61.0 + kGypsum_kg * 0.25).margin(kRounding));
  CHECK(step_of(a1_a3, "A1–A3,bio") == Approx(-700.0 * kTimber_m3).margin(kRounding));
}

TEST_CASE("A4 is mass times distance times the project's factor") {
  const double expected = (kTimber_kg / 1000.0 * 400.0 + kGypsum_kg / 1000.0 * 100.0) * 0.1;
  CHECK(number_of(finding_of(check(DeclaredPanel()), "carbon.a4")) == Approx(expected).margin(kRounding));
}

TEST_CASE("the distance of A4 stands in kilometres, as the factor does") {
  const Finding a4 = finding_of(check(DeclaredPanel()), "carbon.a4");
  const Input& distance = input_of(a4, "distance by road of 'softwood'");
  CHECK(distance.unit == "km");
  CHECK(std::get<double>(distance.value) == 400.0);
}

TEST_CASE("indicators stand under readable names, and the waste rate is a share") {
  const auto findings = check(DeclaredPanel());
  CHECK(input_of(finding_of(findings, "carbon.a1_a3"), "GWP-fossil, A1–A3, of 'softwood'").unit ==
        "kg CO2e per declared unit");
  CHECK(std::get<double>(input_of(finding_of(findings, "carbon.c1_c4"), "GWP-total, C3, of 'softwood'").value) ==
        705.0);
  CHECK(std::get<double>(input_of(finding_of(findings, "carbon.d"), "GWP-total, D, of 'softwood'").value) == -120.0);
  const Finding& a5 = finding_of(findings, "carbon.a5");
  const Input& waste = input_of(a5, "share of 'softwood' lost as waste");
  CHECK(waste.unit.empty());
  CHECK(std::get<double>(waste.value) == 0.1);
}

TEST_CASE("A5 is the waste of each material without biogenic carbon, and the assembly on site") {
  const double timber = kTimber_m3 * 61.0 + kTimber_kg * 0.4 * 0.1 + kTimber_m3 * (4.0 + 705.0 - 700.0);
  const double gypsum = kGypsum_kg * (0.25 + 0.04) + kGypsum_kg * 0.1 * 0.1;
  const double expected = timber * (1.0 / 0.9 - 1.0) + gypsum * (1.0 / 0.8 - 1.0) + 1.5 * kArea_m2;
  CHECK(number_of(finding_of(check(DeclaredPanel()), "carbon.a5")) == Approx(expected).margin(kRounding));
}

TEST_CASE("C1-C4 leaves out the biogenic carbon returned and shows it") {
  const auto findings = check(DeclaredPanel());
  const Finding& end = finding_of(findings, "carbon.c1_c4");
  CHECK(number_of(end) == Approx(kTimber_m3 * 9.5 + kGypsum_kg * 0.05).margin(kRounding));
  CHECK(step_of(end, "C,bio") == Approx(700.0 * kTimber_m3).margin(kRounding));
  CHECK(step_of(end, "C,tot") == Approx(kTimber_m3 * 709.5 + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("module D stands alone, of waste too") {
  const auto findings = check(DeclaredPanel());
  CHECK(number_of(finding_of(findings, "carbon.d")) == Approx(-120.0 / 0.9 * kTimber_m3).margin(kRounding));
}

TEST_CASE("storage counts wood alone and is added to nothing") {
  const auto findings = check(DeclaredPanel());
  CHECK(number_of(finding_of(findings, "carbon.biogenic_storage")) ==
        Approx(kTimber_kg / 1.12 * 0.5 * 44.0 / 12.0).margin(kRounding));
}

TEST_CASE("the total for each m² is A1 to A5 over the net area, against the target") {
  DeclaredPanel model;
  const auto findings = check(model);
  const Finding& total = finding_of(findings, "carbon.total_per_area");
  const double sum = number_of(finding_of(findings, "carbon.a1_a3")) + number_of(finding_of(findings, "carbon.a4")) +
                     number_of(finding_of(findings, "carbon.a5"));
  CHECK(number_of(total) == Approx(sum / kArea_m2).epsilon(1e-9));
  CHECK(total.verdict == Verdict::pass);
  model.set_target(0, "A1-A5", "every panel", 1.0);
  CHECK(finding_of(check(model), "carbon.total_per_area").verdict == Verdict::fail);
}

TEST_CASE("an opening whose window is not counted is no wall area to divide by") {
  DeclaredPanel model;
  add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
  const double opening_m2 = model.panel().openings.front().area_m2();
  REQUIRE(opening_m2 == Approx((1.1775 - 0.6225) * 1.0));
  const auto findings = check(model);
  for (const auto& [id, symbol] : {std::pair{"carbon.total_per_area", "ΣA1–A5"}, {"carbon.whole_life", "ΣA–C"}}) {
    INFO(id);
    const Finding& finding = finding_of(findings, id);
    CHECK(step_of(finding, "A") == Approx(kArea_m2 - opening_m2));
    CHECK(number_of(finding) == Approx(step_of(finding, symbol) / (kArea_m2 - opening_m2)).epsilon(1e-9));
  }
}

TEST_CASE("a panel that is all opening has no carbon for each m²") {
  DeclaredPanel model;
  add_window(model.panel(), 0.0, 2.4, 0.0, 2.7, 1.2);
  const Finding total = finding_of(check(model), "carbon.total_per_area");
  CHECK(total.verdict == Verdict::not_assessed);
  CHECK(total.reason.find("openings leave no net wall area") != std::string::npos);
}

TEST_CASE("a total declared alone is all fossil or all biogenic at most, and never below nothing") {
  DeclaredPanel model;
  // 96 % of 700 comes back: enough, but less than was taken up.
  model.replace(model.timber, kDeclaredSet, "GwpTotalC3", 672.0);
  const Finding end = finding_of(check(model), "carbon.c1_c4");
  CHECK(end.verdict == Verdict::information);
  CHECK(step_of(end, "C,bio") == Approx(672.0 * kTimber_m3).margin(kRounding));
  CHECK(number_of(end) == Approx(4.5 * kTimber_m3 + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("figures of the export for a tonne are those of a kilogram") {
  const std::string unit = GENERATE("t", "tonne");
  INFO(unit);
  DeclaredPanel model;
  model.replace(model.gypsum, kDeclaredSet, "DeclaredUnit", unit);
  for (const auto& [name, value] : {std::pair{"GwpFossilA1A3", 250.0},
                                    {"GwpTotalC1", 10.0},
                                    {"GwpTotalC2", 10.0},
                                    {"GwpTotalC3", 10.0},
                                    {"GwpTotalC4", 20.0}}) {
    model.replace(model.gypsum, kDeclaredSet, name, value);
  }
  const auto findings = check(model);
  CHECK(number_of(finding_of(findings, "carbon.a1_a3")) ==
        Approx(kTimber_m3 * 61.0 + kGypsum_kg * 0.25).margin(kRounding));
  CHECK(number_of(finding_of(findings, "carbon.c1_c4")) ==
        Approx(kTimber_m3 * 9.5 + kGypsum_kg * 0.05).margin(kRounding));
}

TEST_CASE("without a target the total is shown and not assessed") {
  DeclaredPanel model;
  Settings settings;
  for (const auto& [key, value] : model.settings.all()) {
    if (key.find("carbon.targets.") != 0) settings.set(key, value);
  }
  model.settings = settings;
  const Finding total = finding_of(check(model), "carbon.total_per_area");
  CHECK(total.verdict == Verdict::not_assessed);
  CHECK(total.reason.find("no target of the project is in force for these modules") == 0);
  CHECK(number_of(total) > 0.0);
}

TEST_CASE("a window fitted in the workshop is left out and said to be") {
  DeclaredPanel model;
  Opening& window = add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
  window.filling_properties = {};
  put(window.filling_properties, "Panel_Filling", "FactoryFitted", true);
  put(window.filling_properties, "Panel_Filling", "Mass", 60.0);
  const Finding a1_a3 = finding_of(check(model), "carbon.a1_a3");
  CHECK(a1_a3.verdict == Verdict::information);
  CHECK(a1_a3.notes.front().find("Windows and doors are an element of their own") == 0);
}

TEST_CASE("a gap in a declaration is evidence needed, naming material and property") {
  using Replacement = std::optional<std::variant<double, bool, std::string>>;
  struct Case {
    const char* set;
    const char* property;
    Replacement value;
    const char* reason;
  };
  const Case cases[] = {
      {kDeclaredSet, "ValidUntil", std::string("2026-05-31"),
       "the declaration of material 'softwood' ran out on 2026-05-31 (Panel_EnvironmentalDeclaration.ValidUntil), "
       "before "
       "project.assessment_date 2026-06-01; ask the supplier for the one in force"},
      {kDeclaredSet, "ValidUntil", std::string("31.12.2029"),
       "material 'softwood': Panel_EnvironmentalDeclaration.ValidUntil '31.12.2029' is not a date YYYY-MM-DD"},
      {kDeclaredSet, "ValidUntil", std::nullopt,
       "material 'softwood' has no Panel_EnvironmentalDeclaration.ValidUntil"},
      {kDeclaredSet, "DocumentId", std::nullopt,
       "material 'softwood' has no Panel_EnvironmentalDeclaration.DocumentId"},
      {kDeclaredSet, "DocumentId", std::string("EPD-9"),
       "declaration 'EPD-9' of material 'softwood' is not among the documents of the project"},
      {kDeclaredSet, "DeclaredUnit", std::nullopt,
       "material 'softwood' has no Panel_EnvironmentalDeclaration.DeclaredUnit"},
      {kDeclaredSet, "DeclaredUnit", std::string("pallet"),
       "material 'softwood' has Panel_EnvironmentalDeclaration.DeclaredUnit 'pallet', which is none of kg, m3, m2 and "
       "piece"},
      {kDeclaredSet, "DeclaredUnit", std::string("m2"),
       "material 'softwood' is declared per m2 but has no Panel_EnvironmentalDeclaration.DeclaredThickness; "
       "give the thickness of that m2"},
      {kDeclaredSet, "GwpFossilA1A3", std::nullopt,
       "material 'softwood' has no Panel_EnvironmentalDeclaration.GwpFossilA1A3"},
  };
  for (const Case& c : cases) {
    INFO(c.reason);
    DeclaredPanel model;
    model.replace(model.timber, c.set, c.property, c.value);
    const auto findings = check(model);
    const Finding& a1_a3 = finding_of(findings, "carbon.a1_a3");
    CHECK(a1_a3.verdict == Verdict::evidence_needed);
    CHECK(a1_a3.reason == c.reason);
    CHECK(std::holds_alternative<std::monostate>(a1_a3.value));
    CHECK(finding_of(findings, "carbon.total_per_area").verdict == Verdict::evidence_needed);
    CHECK(finding_of(findings, "carbon.total_per_area").reason.find(c.reason) != std::string::npos);
  }
}

TEST_CASE("a declaration file that is not there is evidence needed") {
  DeclaredPanel model;
  model.project.evidence.front().status = EvidenceStatus::missing;
  const Finding a1_a3 = finding_of(check(model), "carbon.a1_a3");
  CHECK(a1_a3.verdict == Verdict::evidence_needed);
  CHECK(a1_a3.reason.find("declaration of material 'softwood': document 'EPD-1': missing") != std::string::npos);
}

TEST_CASE("a declaration that takes up carbon and never gives it back is evidence needed") {
  DeclaredPanel model;
  model.replace(model.timber, kDeclaredSet, "GwpTotalC3", 10.0);
  const Finding end = finding_of(check(model), "carbon.c1_c4");
  CHECK(end.verdict == Verdict::evidence_needed);
  CHECK(end.reason.find("does not give back in C3 and C4") != std::string::npos);
}

TEST_CASE("unusable data of the model is not assessed, named, and never becomes a number") {
  struct Case {
    const char* label;
    void (*spoil)(DeclaredPanel&);
    const char* check;
    const char* reason;
  };
  const Case cases[] = {
      {"zero density", [](DeclaredPanel& m) { m.replace(m.gypsum, "Pset_MaterialCommon", "MassDensity", 0.0); },
       "carbon.a1_a3",
       "material 'gypsum board' is declared per kg but has no mass; give a Pset_MaterialCommon.MassDensity above 0"},
      {"zero density, transport",
       [](DeclaredPanel& m) { m.replace(m.timber, "Pset_MaterialCommon", "MassDensity", 0.0); }, "carbon.a4",
       "material 'softwood' has no positive Pset_MaterialCommon.MassDensity"},
      {"NaN density", [](DeclaredPanel& m) { m.replace(m.timber, "Pset_MaterialCommon", "MassDensity", kNan); },
       "carbon.biogenic_storage", "material 'softwood' has no positive Pset_MaterialCommon.MassDensity"},
      {"NaN indicator", [](DeclaredPanel& m) { m.replace(m.timber, kDeclaredSet, "GwpFossilA1A3", kNan); },
       "carbon.a1_a3", "GWP-fossil, A1–A3, of 'softwood' is not a finite number"},
      {"part without material", [](DeclaredPanel& m) { m.panel().parts[1].material.reset(); }, "carbon.a1_a3",
       "'Stud 2' has no material"},
      {"no parts and no layers",
       [](DeclaredPanel& m) {
         m.panel().parts.clear();
         m.panel().layers.clear();
       },
       "carbon.a1_a3", "the panel has neither parts nor material layers"},
      {"no distance", [](DeclaredPanel& m) { m.replace(m.gypsum, "Panel_Supply", "TransportDistance", std::nullopt); },
       "carbon.a4", "material 'gypsum board' has no Panel_Supply.TransportDistance"},
      {"negative distance", [](DeclaredPanel& m) { m.replace(m.gypsum, "Panel_Supply", "TransportDistance", -1.0); },
       "carbon.a4", "material 'gypsum board': Panel_Supply.TransportDistance is negative"},
      {"all is lost", [](DeclaredPanel& m) { m.replace(m.timber, kDeclaredSet, "WasteRateA5", 1.0); }, "carbon.a5",
       "material 'softwood': Panel_EnvironmentalDeclaration.WasteRateA5 must be at least 0 and below 1"},
      {"layer without part", [](DeclaredPanel& m) { add_layer(m.panel(), "wool", "insulation", m.wool, 0.14); },
       "carbon.a1_a3", "layer 'wool' has no part"},
      {"moisture content in per cent",
       [](DeclaredPanel& m) { m.replace(m.timber, "Panel_Timber", "ReferenceMoistureContent", 12.0); },
       "carbon.biogenic_storage",
       "material 'softwood': the moisture content is above 1; it is a ratio of masses, so 12 % is 0.12"},
      {"no moisture content",
       [](DeclaredPanel& m) { m.replace(m.timber, "Panel_Timber", "ReferenceMoistureContent", std::nullopt); },
       "carbon.biogenic_storage", "material 'softwood' has no Panel_Timber.ReferenceMoistureContent"},
      {"settings absent", [](DeclaredPanel& m) { m.settings = {}; }, "carbon.a4",
       "setting 'carbon.road_transport_gwp_kgco2e_per_tonne_km' is missing"},
      {"negative transport",
       [](DeclaredPanel& m) { m.settings.set("carbon.road_transport_gwp_kgco2e_per_tonne_km", -0.1); }, "carbon.a4",
       "setting 'carbon.road_transport_gwp_kgco2e_per_tonne_km' is negative"},
      {"negative assembly", [](DeclaredPanel& m) { m.settings.set("carbon.site_assembly_gwp_kgco2e_per_m2", -1.5); },
       "carbon.a5", "setting 'carbon.site_assembly_gwp_kgco2e_per_m2' is negative"},
      {"no day of assessment", [](DeclaredPanel& m) { m.settings = {}; }, "carbon.a1_a3",
       "setting 'project.assessment_date' is missing or not a date YYYY-MM-DD"},
  };
  for (const Case& c : cases) {
    INFO(c.label);
    DeclaredPanel model;
    c.spoil(model);
    const Finding finding = finding_of(check(model), c.check);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find(c.reason) != std::string::npos);
    CHECK(std::holds_alternative<std::monostate>(finding.value));
  }
}

TEST_CASE("many small parts of a thin layer are measured to the cubic millimetre") {
  DeclaredPanel model;
  Panel& panel = model.panel();
  panel.parts.clear();
  // 0.2 mm · 10 mm · 50.2 mm is 100.4 mm³ each, a tenth of a cubic centimetre.
  for (int i = 0; i < 1000; ++i) {
    Part& part = add_part(panel, PartKind::membrane, "Strip", model.timber, {{0.0, 0.0, 0.0}, {0.01, 0.0002, 0.0502}});
    part.volume_m3->value = 1.004e-7;
  }
  const auto amounts = carbon::measure_amounts(panel, model.project);
  REQUIRE(amounts.materials.size() == 1);
  CHECK(amounts.materials.front().volume_m3.value() == Approx(1.004e-4).epsilon(0.005));
}
