// The rows of carbon.csv.
#include "plugins/carbon/carbon_rows.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

struct Filed : DeclaredPanel {
  Filed() {
    declare_by_file(core_lines("WDP"))(project, settings);
    std::vector<InputProblem> problems;
    for (const carbon::DeclarationFile& file : carbon::read_declaration_files(project, problems)) {
      if (file.content) files["EPD-2"] = file;
    }
  }

  std::vector<OutputRow> rows() const { return carbon::carbon_rows("P-01", "W1", check(*this), carbon_tables()); }
};

bool has(const std::vector<OutputRow>& rows, std::string_view module, std::string_view indicator) {
  return std::any_of(rows.begin(), rows.end(), [&](const OutputRow& row) {
    return std::get<std::string>(row[2]) == module && std::get<std::string>(row[3]) == indicator;
  });
}

}  // namespace

TEST_CASE("each module has a row an indicator, and core indicators that are whole stand behind them") {
  const Filed model;
  const auto rows = model.rows();
  // A1–A3, A4, A5, B4, C1 to C4 and D by four indicators; eight core indicators by three groups of modules.
  REQUIRE(rows.size() == 9 * 4 + 8 * 3);
  CHECK(rows[0] == OutputRow{"P-01", "W1", "A1-A3", "GWP-fossil", 21.303, "kg CO2e"});
  CHECK(rows[1] == OutputRow{"P-01", "W1", "A1-A3", "GWP-biogenic", -59.535, "kg CO2e"});
  CHECK(rows[2] == OutputRow{"P-01", "W1", "A1-A3", "GWP-luluc", 0.08505, "kg CO2e"});
  CHECK(rows[3] == OutputRow{"P-01", "W1", "A1-A3", "GWP-total", -38.14695, "kg CO2e"});
  // Four modules at 0.5 for each of 0.08505 m³ and 64.8 kg.
  const OutputRow acidification{"P-01", "W1", "C1-C4", "AP", 129.7701, "mol H+ eq."};
  CHECK(std::find(rows.begin(), rows.end(), acidification) != rows.end());
  CHECK_FALSE(has(rows, "A1-A3", "WDP"));
}

TEST_CASE("a module that is not known whole has no row") {
  Filed model;
  model.replace(model.gypsum, "Panel_Supply", "ServiceLife", std::nullopt);
  CHECK_FALSE(has(model.rows(), "B4", "GWP-total"));
  CHECK(has(model.rows(), "A5", "GWP-total"));
  model.replace(model.gypsum, kDeclaredSet, "ValidUntil", std::string("2000-01-01"));
  CHECK_FALSE(has(model.rows(), "A1-A3", "GWP-total"));
  CHECK_FALSE(has(model.rows(), "A1-A3", "AP"));
}

TEST_CASE("the rows of the project are the sums of those of its panels, of materials of one name too") {
  Filed model;
  Panel second = model.panel();
  second.parts.erase(second.parts.begin());
  model.project.panels.push_back(second);
  const auto sums = [&] {
    const auto panels = check_panels(model);
    auto rows = carbon::carbon_rows("TOTAL", "", totals_of(model, panels), carbon_tables());
    std::vector<OutputRow> of_panels = carbon::carbon_rows("", "", panels[0].findings, carbon_tables());
    const auto of_second = carbon::carbon_rows("", "", panels[1].findings, carbon_tables());
    REQUIRE(rows.size() == of_panels.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double sum = std::get<double>(of_panels[i][4]) + std::get<double>(of_second[i][4]);
      CHECK(std::get<double>(rows[i][4]) == Approx(sum).epsilon(1e-12));
    }
    return rows;
  };
  const auto before = sums();
  for (Material& material : model.project.materials) material.name = "material";
  CHECK(sums() == before);
}
