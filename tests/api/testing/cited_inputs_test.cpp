// What findings cite, and projects in which it is spoilt or taken away.
#include "core/api/testing/cited_inputs.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/panels.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const CitedInput kLoad{CheckInput::Source::property, "Panel_Toy.Load"};
const CitedInput kLimit{CheckInput::Source::setting, "toy.limit"};

ProjectAndSettings given(double load, double limit) {
  ProjectAndSettings all;
  all.project.panels.push_back(plain_panel(1.0, 1.0));
  put(all.project.panels[0].properties, "Panel_Toy", "Load", load);
  all.settings.set("toy.limit", limit);
  return all;
}

/// The load and the limit once both are spoilt.
std::pair<double, double> spoilt_both(Spoiling how) {
  ProjectAndSettings all = given(2.0, 3.0);
  CHECK(spoil_input(all, kLoad, how));
  CHECK(spoil_input(all, kLimit, how));
  const auto load = all.project.panels[0].properties.number("Panel_Toy", "Load");
  const auto limit = all.settings.number("toy.limit");
  return {load ? load->value : 0.0, limit ? limit->value : 0.0};
}

}  // namespace

TEST_CASE("A number is spoilt by its sign, a thousandfold, or as none") {
  CHECK(spoilt_both(Spoiling::opposite_sign) == std::pair{-2.0, -3.0});
  CHECK(spoilt_both(Spoiling::thousandfold) == std::pair{2000.0, 3000.0});
  CHECK(std::isnan(spoilt_both(Spoiling::not_a_number).first));
  CHECK(std::isnan(spoilt_both(Spoiling::not_a_number).second));
}

TEST_CASE("What cannot be spoilt in that way stays, and that is told") {
  ProjectAndSettings all = given(0.0, 0.0);
  CHECK_FALSE(spoil_input(all, kLoad, Spoiling::thousandfold));
  CHECK_FALSE(spoil_input(all, kLimit, Spoiling::opposite_sign));
  CHECK_FALSE(spoil_input(all, kLimit, Spoiling::unknown_word));
  CHECK_FALSE(spoil_input(all, {CheckInput::Source::property, "Panel_Toy.Absent"}, Spoiling::not_a_number));
  CHECK_FALSE(spoil_input(all, {CheckInput::Source::setting, "toy.absent"}, Spoiling::not_a_number));
  CHECK_FALSE(spoil_input(all, {CheckInput::Source::table, "toy.limit"}, Spoiling::not_a_number));
  all.settings.set("toy.limit", std::string("word"));
  CHECK(spoil_input(all, kLimit, Spoiling::unknown_word));
  CHECK(all.settings.text("toy.limit").value().value == kUnknownWord);
  CHECK_FALSE(spoil_input(all, kLimit, Spoiling::not_a_number));
}

TEST_CASE("A setting is taken away with all that stands below it, a property from every entity") {
  ProjectAndSettings all = given(2.0, 3.0);
  all.settings.set("toy.limit.0.name", std::string("below"));
  all.settings.set("toy.limits", 4.0);
  put(all.project.properties, "Panel_Toy", "Load", 5.0);
  remove_input(all, kLimit);
  CHECK(all.settings.all().size() == 1);
  CHECK(all.settings.number("toy.limits"));
  remove_input(all, kLoad);
  CHECK_FALSE(all.project.properties.number("Panel_Toy", "Load"));
  CHECK_FALSE(all.project.panels[0].properties.number("Panel_Toy", "Load"));
}

TEST_CASE("An element of a list stands for the list, a member of an element for itself") {
  const auto whole = [](const char* name) { return whole_input({CheckInput::Source::setting, name}).name; };
  CHECK(whole("toy.lengths.12") == "toy.lengths");
  CHECK(whole("toy.table.1.20") == "toy.table");
  CHECK(whole("toy.rates.1.unit") == "toy.rates.1.unit");
  CHECK(whole_input({CheckInput::Source::property, "Panel_Toy.1"}).name == "Panel_Toy.1");
}

TEST_CASE("Properties, settings and tables of the plugin are cited, each once, other files and attributes are not") {
  Finding finding;
  const auto cite = [&](OriginKind kind, const char* property, const char* key, const char* table) {
    Input input;
    input.origin.kind = kind;
    input.origin.property = property;
    input.origin.key = key;
    input.origin.table = table;
    finding.inputs.push_back(input);
  };
  for (int twice = 0; twice < 2; ++twice) {
    cite(OriginKind::export_file, "Panel_Toy.Load", "", "");
    cite(OriginKind::input_table, "Panel_Toy.Share", "", "library.csv");
    cite(OriginKind::setting, "", "toy.limit", "");
    cite(OriginKind::data_table, "", "", "loads.csv");
    cite(OriginKind::export_file, "Width", "", "");
    cite(OriginKind::data_table, "", "", "evidence/report.csv");
    cite(OriginKind::data_table, "", "", "rates.csv");
    cite(OriginKind::data_table, "", "", "");
  }
  Settings settings;
  settings.set("toy.rates_file", std::string("rates.csv"));
  settings.set("toy.other", std::string("loads.csv"));
  std::vector<std::string> names;
  for (const CitedInput& input : cited_inputs(finding, settings)) names.push_back(input.name);
  CHECK(names == std::vector<std::string>{"Panel_Toy.Load", "Panel_Toy.Share", "toy.limit", "loads.csv"});
}
