// The whole life: sums that agree everywhere, replacement, targets and uncertainty.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "core/api/support/exact_sum.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Three panels of odd sizes, declared by odd figures.
struct OddPanels : DeclaredPanel {
  explicit OddPanels(unsigned seed) {
    std::minstd_rand random(seed);
    std::uniform_real_distribution<double> any(0.1, 97.3);
    // As much as such wood may hold.
    const double up = 600.0 + any(random);
    for (const std::size_t material : {timber, gypsum}) {
      const double taken = material == timber ? up : 0.0;
      for (const char* name : {"GwpLulucA1A3", "GwpTotalC1", "GwpTotalC2", "GwpTotalC4", "GwpTotalB1"}) {
        replace(material, kDeclaredSet, name, any(random));
      }
      // By m³ of wood and by kg of board.
      replace(material, kDeclaredSet, "GwpFossilA1A3",
              material == timber ? 20.0 + any(random) : 0.1 + any(random) / 100.0);
      replace(material, kDeclaredSet, "GwpBiogenicA1A3", -taken);
      replace(material, kDeclaredSet, "GwpTotalC3", taken + any(random));
      replace(material, kDeclaredSet, "GwpTotalD", -any(random));
      replace(material, "Panel_Supply", "ServiceLife", any(random));
    }
    for (int i = 1; i < 3; ++i) {
      Panel other = project.panels.front();
      other.mark += std::to_string(i);
      other.type = i == 1 ? "another" : other.type;
      other.parts.erase(other.parts.begin());
      other.parts.back().solid.reset();
      other.parts.back().bounds = Box3{{0.0, 0.0, 0.0}, {any(random) / 40.0, 0.0125, 2.7}};
      other.parts.back().volume_m3 = Sourced<double>{any(random) / 1000.0, {}};
      project.panels.push_back(other);
    }
  }
};

double cell(const Table& table, const std::string& row, std::size_t column) {
  for (const auto& cells : table.rows) {
    if (std::get<std::string>(cells.front()) == row) return std::get<double>(cells[column]);
  }
  return 0.0;
}

bool has_range(const Finding& finding) {
  return std::any_of(finding.steps.begin(), finding.steps.end(), [](const Step& step) { return step.symbol == "Δ"; });
}

double column_sum(const Table& table, std::size_t column) {
  ExactSum sum;
  for (const auto& cells : table.rows) sum.add(std::get<double>(cells[column]));
  return sum.total();
}

double sum_of(const Table& by_module, std::initializer_list<const char*> modules, std::size_t column) {
  ExactSum sum;
  for (const char* module : modules) sum.add(cell(by_module, module, column));
  return sum.total();
}

/// Groups of `by_material` against the modules of `by_module`, to the last digit.
void require_agreement(const Table& by_module, const Table& by_material) {
  constexpr std::size_t kTotal = 4;
  CHECK(column_sum(by_material, 1) ==
        ExactSum().add(cell(by_module, "A1–A3", 1)).add(cell(by_module, "A1–A3", 3)).total());
  CHECK(column_sum(by_material, 2) == cell(by_module, "A1–A3", 2));
  CHECK(column_sum(by_material, 3) == sum_of(by_module, {"A4", "A5"}, kTotal));
  CHECK(column_sum(by_material, 4) == sum_of(by_module, {"B1", "B2", "B3", "B4", "B5"}, kTotal));
  CHECK(column_sum(by_material, 5) == sum_of(by_module, {"C1", "C2", "C3", "C4"}, kTotal));
  CHECK(column_sum(by_material, 6) ==
        sum_of(by_module, {"A1–A3", "A4", "A5", "B1", "B4", "C1", "C2", "C3", "C4"}, kTotal));
  CHECK(column_sum(by_material, 7) == cell(by_module, "D", kTotal));
}

}  // namespace

TEST_CASE("materials, modules, panels and project add up to the last digit, whatever the figures") {
  const unsigned seed = GENERATE(range(1U, 40U));
  INFO("seed " << seed);
  const OddPanels model(seed);
  const std::vector<PanelFindings> panels = check_panels(model);
  std::vector<const Table*> of_panels;
  for (const PanelFindings& panel : panels) {
    const Finding& finding = finding_of(panel.findings, "carbon.whole_life");
    INFO(finding.reason);
    REQUIRE(std::holds_alternative<double>(finding.value));
    const Table* by_module = find_table(finding, carbon::kModulesTable);
    REQUIRE(by_module != nullptr);
    require_agreement(*by_module, *find_table(finding, carbon::kMaterialsTable));
    of_panels.push_back(by_module);
    for (const auto& row : by_module->rows) {
      CHECK(
          std::get<double>(row[4]) ==
          ExactSum().add(std::get<double>(row[1])).add(std::get<double>(row[2])).add(std::get<double>(row[3])).total());
    }
  }
  const auto totals = totals_of(model, panels);
  const Finding& total = finding_of(totals, "carbon.whole_life");
  const Table* by_module = table_titled(total, "By module, all panels");
  REQUIRE(by_module != nullptr);
  require_agreement(*by_module, *table_titled(total, "By material, GWP-total, all panels"));
  for (const auto& row : by_module->rows) {
    for (std::size_t column = 1; column < row.size(); ++column) {
      ExactSum sum;
      for (const Table* table : of_panels) sum.add(cell(*table, std::get<std::string>(row.front()), column));
      CHECK(std::get<double>(row[column]) == sum.total());
    }
  }
  CHECK(total.bar_charts.size() == 2);
}

TEST_CASE("a material that lasts as long as the study period is not replaced") {
  const DeclaredPanel model;
  CHECK(number_of(checked(model, "carbon.b4")) == 0.0);
}

TEST_CASE("each replacement is a new product and the end of the old one") {
  DeclaredPanel model;
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", 25.0);
  const double gypsum_kg = 2.4 * 2.7 * 0.0125 * 800.0;
  const double once = gypsum_kg * (0.25 + 0.01 + 0.05) + gypsum_kg * 0.25 * (0.25 + 0.01 + 0.04);
  // ⌈60 / 25 − 1⌉ = 2; A4 is 0.1 t·km at 100 km, so 0.01 per kg; waste of 20 % adds a quarter.
  CHECK(number_of(checked(model, "carbon.b4")) == Approx(2.0 * once).margin(1e-4));
}

TEST_CASE("layers that come off before one is replaced are named from the face on which it lies") {
  TimberPanel model;
  add_layer(model.panel(), "membrane", "membrane", model.gypsum, 0.001);
  add_layer(model.panel(), "cladding", "finish", model.timber, 0.02);
  const auto notes = [&](const std::map<std::size_t, double>& times) {
    return carbon::layers_in_the_way(model.panel(), model.project, times);
  };
  CHECK(notes({}).empty());
  CHECK(notes({{model.timber, 1.0}}).empty());  // the outermost
  CHECK(notes({{model.wool, 1.0}}).empty());    // between the studs
  CHECK(notes({{model.board, 2.0}, {model.timber, 1.0}}) ==
        std::vector<std::string>{"Before 'strand board' is replaced these must come off, which is not counted: 'gypsum "
                                 "board', 'softwood'."});
  CHECK(notes({{model.board, 1.0}, {model.gypsum, 1.0}, {model.timber, 1.0}}).empty());
  model.panel().parts.clear();  // no layer holds studs, so no face is known to be nearer
  CHECK(notes({{model.board, 1.0}}).empty());
}

TEST_CASE("a finding of replacement names what comes off with a layer") {
  DeclaredPanel model;
  Panel& panel = model.panel();
  panel.layers = TimberPanel().panel().layers;
  panel.layers[1].material = model.timber;
  panel.layers[2].material = model.gypsum;
  add_layer(panel, "cladding", "finish", model.timber, 0.02);
  add_part(panel, PartKind::sheet, "Board", model.gypsum, {{0.0, 0.1525, 0.0}, {2.4, 0.1645, 2.7}});
  add_part(panel, PartKind::sheet, "Cladding", model.timber, {{0.0, 0.1645, 0.0}, {2.4, 0.1845, 2.7}});
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", 30.0);
  const Finding finding = checked(model, "carbon.b4");
  INFO(finding.reason);
  const std::string note = "Before 'gypsum board' is replaced these must come off, which is not counted: 'softwood'.";
  CHECK(std::find(finding.notes.begin(), finding.notes.end(), note) != finding.notes.end());
}

TEST_CASE("declared modules of use count once for each product built in") {
  DeclaredPanel model;
  model.replace(model.gypsum, kDeclaredSet, "GwpTotalB1", -0.1);
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", 30.0);
  const double gypsum_kg = 2.4 * 2.7 * 0.0125 * 800.0;
  CHECK(step_of(checked(model, "carbon.b4"), "B1–B3, B5") == Approx(-0.1 * gypsum_kg * 2.0).margin(1e-4));
  // 60 years hold 1.2 lives of 50 years: two products are built in, whose uptake lasts for 1.2 lives alone.
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", 50.0);
  CHECK(step_of(checked(model, "carbon.b4"), "B1–B3, B5") == Approx(-0.1 * gypsum_kg * 1.2).margin(1e-4));
  model.replace(model.gypsum, kDeclaredSet, "GwpTotalB1", 0.1);
  CHECK(step_of(checked(model, "carbon.b4"), "B1–B3, B5") == Approx(0.1 * gypsum_kg * 2.0).margin(1e-4));
  model.replace(model.gypsum, kDeclaredSet, "GwpTotalB1", 0.01);
  CHECK(step_of(checked(model, "carbon.b4"), "B1–B3, B5") == Approx(0.01 * gypsum_kg * 2.0).margin(1e-4));
}

TEST_CASE("without service life or study period replacement is not assessed, and says what to give") {
  DeclaredPanel model;
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", std::nullopt);
  CHECK(checked(model, "carbon.b4").verdict == Verdict::not_assessed);
  CHECK(checked(model, "carbon.b4").reason ==
        "material 'gypsum board' has no Panel_Supply.ServiceLife, and its declaration no reference service life");
  CHECK(checked(model, "carbon.whole_life").verdict == Verdict::not_assessed);
  DeclaredPanel no_period;
  no_period.settings.set("carbon.study_period_years", 0.0);
  CHECK(checked(no_period, "carbon.b4").reason.find("study period must be greater than zero") != std::string::npos);
}

TEST_CASE("modules that rest on a declaration out of date stand in no table by module") {
  const auto modules = [](const DeclaredPanel& model) {
    std::string names;
    const Finding finding = checked(model, "carbon.whole_life");
    for (const auto& row : find_table(finding, carbon::kModulesTable)->rows) {
      names += std::get<std::string>(row.front()) + " ";
    }
    return names;
  };
  DeclaredPanel model;
  CHECK(modules(model) == "A1–A3 A4 A5 B4 C1 C2 C3 C4 D ");
  model.replace(model.gypsum, kDeclaredSet, "ValidUntil", "2000-01-01");
  CHECK(modules(model) == "A4 ");
}

TEST_CASE("the whole life is judged against the project's own target") {
  DeclaredPanel model;
  model.set_target(1, "A1-A5", "every panel", 1000.0);
  CHECK(checked(model, "carbon.whole_life").verdict == Verdict::not_assessed);
  model.set_target(1, "A-C", "every panel", 1000.0);
  CHECK(checked(model, "carbon.whole_life").verdict == Verdict::pass);
  model.set_target(1, "A-C", "every panel", 1.0);
  CHECK(checked(model, "carbon.whole_life").verdict == Verdict::fail);
}

TEST_CASE("uncertainty comes from the settings for the kind of data of every material, or not at all") {
  DeclaredPanel model;
  model.replace(model.timber, kDeclaredSet, "DataKind", std::string("SPECIFIC"));
  model.replace(model.gypsum, kDeclaredSet, "DataKind", std::string("GENERIC"));
  CHECK_FALSE(has_range(checked(model, "carbon.whole_life")));
  model.settings.set("carbon.uncertainty_specific", 0.1);
  const Finding partly = checked(model, "carbon.whole_life");
  CHECK_FALSE(has_range(partly));
  CHECK(partly.notes.front().find("No range of uncertainty: the declaration of 'gypsum board'") == 0);
  model.settings.set("carbon.uncertainty_generic", 0.3);
  const Finding finding = checked(model, "carbon.whole_life");
  const Table& table = *find_table(finding, carbon::kMaterialsTable);
  const double expected = 0.1 * cell(table, "softwood", 6) + 0.3 * cell(table, "gypsum board", 6);
  CHECK(step_of(finding, "Δ") == Approx(expected).margin(2e-6));
  CHECK(step_of(finding, "ΣA–C,min") < step_of(finding, "ΣA–C"));
  CHECK(step_of(finding, "Δ_a") == Approx(expected / (2.4 * 2.7)).margin(2e-6));
  CHECK(finding.notes.end() != std::find_if(finding.notes.begin(), finding.notes.end(), [](const std::string& note) {
          return note.find("neither surely kept nor missed") != std::string::npos;
        }));
  Opening opening;
  opening.x_max_m = 0.6;
  opening.z_max_m = 1.0;
  model.project.panels.front().openings.push_back(opening);
  const Finding pierced = checked(model, "carbon.whole_life");
  CHECK(step_of(pierced, "Δ_a") == Approx(step_of(pierced, "Δ") / (2.4 * 2.7 - 0.6)).margin(2e-6));
}

TEST_CASE(
    "biogenic carbon of packaging is taken up and given back within the whole life, of waste and replacements too") {
  DeclaredPanel model;
  model.replace(model.gypsum, kDeclaredSet, "GwpBiogenicA1A3", -0.1);
  model.replace(model.gypsum, kDeclaredSet, "GwpBiogenicA5", 0.118);
  model.replace(model.gypsum, kDeclaredSet, "GwpTotalC3", 0.0);
  model.replace(model.gypsum, kDeclaredSet, "GwpTotalC4", 0.0);
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", 30.0);
  const Finding finding = checked(model, "carbon.whole_life");
  INFO(finding.reason);
  CHECK(step_of(finding, "bio") == Approx(0.0).margin(1e-5));
  const Finding a5 = checked(model, "carbon.a5");
  // What is lost takes up and gives back the same; what is built in gives its packaging back here.
  CHECK(step_of(a5, "A5,bio") == Approx(0.1 * 2.4 * 2.7 * 0.0125 * 800.0).margin(1e-4));
}

TEST_CASE("a target on generic data is judged with their uncertainty, and not at all without it") {
  DeclaredPanel model;
  model.replace(model.gypsum, kDeclaredSet, "DataKind", std::string("GENERIC"));
  for (const char* id : {"carbon.total_per_area", "carbon.whole_life"}) {
    INFO(id);
    const double value = number_of(checked(model, id));
    CHECK(checked(model, id).verdict == Verdict::not_assessed);
    CHECK(checked(model, id).reason ==
          "a target on generic data needs their uncertainty: the data of 'gypsum board' are generic and setting "
          "'carbon.uncertainty_generic' is missing");
    DeclaredPanel given = model;
    given.settings.set("carbon.uncertainty_generic", 0.3);
    given.settings.set("carbon.uncertainty_specific", 0.1);
    CHECK(checked(given, id).verdict == Verdict::pass);
    const bool whole = std::string(id) == "carbon.whole_life";
    given.set_target(whole ? 1 : 0, whole ? "A-C" : "A1-A5", "every panel", value * 1.001);
    const Finding unsure = checked(given, id);
    CHECK(unsure.verdict == Verdict::evidence_needed);
    CHECK(unsure.reason.find("by which its declarations may be off") != std::string::npos);
    CHECK(unsure.utilisation.value() == Approx(1.0 / 1.001));
    given.set_target(whole ? 1 : 0, whole ? "A-C" : "A1-A5", "every panel", value * 0.999);
    CHECK(checked(given, id).verdict == Verdict::fail);
    const Finding total = finding_of(totals_of(given), id);
    CHECK(total.verdict == Verdict::fail);
    given.set_target(whole ? 1 : 0, whole ? "A-C" : "A1-A5", "every panel", value * 1.001);
    CHECK(finding_of(totals_of(given), id).verdict == Verdict::evidence_needed);
    CHECK(finding_of(totals_of(model), id).verdict == Verdict::not_assessed);
  }
  model.replace(model.gypsum, kDeclaredSet, "DataKind", std::nullopt);
  CHECK(checked(model, "carbon.whole_life").reason.find("does not say whether its data are specific") !=
        std::string::npos);
}
