// The hand calculation of one panel beside the thermal plugin against the program's result for that panel.
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using nlohmann::json;

namespace {

const char* const kHandCalculation = PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/HAND_CALCULATION.md";

/// What the first group of `pattern` holds in the hand calculation.
std::string from_hand_calculation(const char* pattern) {
  const std::string text = text_of(kHandCalculation);
  std::smatch found;
  REQUIRE(std::regex_search(text, found, std::regex(pattern)));
  return found[1].str();
}

}  // namespace

TEST_CASE("The U-value worked out by hand is the program's to the last printed digit", "[outputs]") {
  const std::string mark = from_hand_calculation("Panel `([^`]+)`");
  const std::string by_hand = from_hand_calculation("\\*\\*U = ([0-9]+\\.[0-9]+) W/");
  const auto decimals = static_cast<double>(by_hand.size() - by_hand.find('.') - 1);
  REQUIRE(decimals == 4.0);
  const double unit = std::pow(10.0, decimals);
  const nlohmann::json& document = sample_results();
  int found = 0;
  for (const json& panel : document.at("panels")) {
    if (panel.at("mark") != mark) continue;
    for (const json& finding : panel.at("findings")) {
      if (finding.at("check") != "thermal.u_value") continue;
      ++found;
      CHECK(std::lround(finding.at("value").get<double>() * unit) == std::lround(std::stod(by_hand) * unit));
    }
  }
  CHECK(found == 1);
}
