// What the carbon account of the sample leaves in its files.
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using nlohmann::json;

namespace {

/// The first four and the fifth cell of a line of carbon.csv; none of the sample's cells holds a comma.
struct Line {
  std::string panel;
  std::string type;
  std::string module;
  std::string indicator;
  double value = 0.0;
};

template <typename Visit>
void for_each_line(const Visit& visit) {
  std::istringstream csv(text_of(sample_out() / "carbon.csv"));
  std::string text;
  std::getline(csv, text);
  while (std::getline(csv, text)) {
    std::istringstream cells(text);
    Line line;
    std::string value;
    for (std::string* cell : {&line.panel, &line.type, &line.module, &line.indicator, &value}) {
      std::getline(cells, *cell, ',');
    }
    line.value = std::stod(value);
    visit(line);
  }
}

}  // namespace

TEST_CASE("carbon.csv adds up to its total, and holds core indicators of panels whose materials all declare them") {
  // In whole millionths, to which the values are rounded, so that the sum is exact.
  long long panels = 0;
  long long total = 0;
  std::set<std::string> types;
  for_each_line([&](const Line& line) {
    if (line.module == "A1-A3" && line.indicator == "GWP-fossil") {
      (line.panel == "TOTAL" ? total : panels) += std::llround(line.value * 1e6);
    }
    if (line.indicator == "AP") types.insert(line.type);
  });
  CHECK(total > 0);
  CHECK(panels == total);
  // The declaration of the cladding of the other types is text, from which no figure is read.
  CHECK(types == std::set<std::string>{"INF-D", "INF-R", "INF-S", "INF-W", "LBW-S", "LBW-W"});
}

TEST_CASE("the tables that the settings name and the confirmations are hashed and attached to the dossier",
          "[outputs]") {
  std::set<std::string> hashed;
  const nlohmann::json& document = sample_results();
  for (const json& file : document.at("build").at("settings_files")) hashed.insert(file.at("name"));
  CHECK(hashed == std::set<std::string>{"carbon_targets.csv", "confirmations.csv", "lifting.csv", "materials.csv",
                                        "people.csv", "rates.csv"});
  const std::string attached = run_command("pdfdetach -list " + quoted(sample_out() / "dossier.pdf")).out;
  for (const std::string& name : hashed) CHECK(attached.find(": " + name + "\n") != std::string::npos);
}
