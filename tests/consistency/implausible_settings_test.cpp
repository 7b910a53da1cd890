// Every number of the sample's settings, far off: refused, or withheld and missed by every check that reads it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "tests/consistency/wrong_project.h"

using namespace panel_dossier;
using namespace panel_dossier::consistency;

namespace {

/// Numbers of the settings by dotted key.
using Numbers = std::map<std::string, double>;

void take_numbers(const nlohmann::json& value, const std::string& key, Numbers& numbers) {
  if (value.is_number()) numbers.emplace(key, value.get<double>());
  if (!value.is_structured()) return;
  for (const auto& [name, member] : value.items()) take_numbers(member, key.empty() ? name : key + "." + name, numbers);
}

Numbers numbers_of_settings() {
  Numbers numbers;
  outcome_of([&](WrongProject& project) { take_numbers(project.settings, {}, numbers); }, {});
  return numbers;
}

/// Puts these numbers into the settings; whole ones stay whole where the schema asks for it.
Edit put(const Numbers& numbers) {
  return [=](WrongProject& project) {
    for (const auto& [key, number] : numbers) {
      const bool is_whole = number == static_cast<double>(static_cast<long long>(number));
      set_setting(key, is_whole ? nlohmann::json(static_cast<long long>(number)) : nlohmann::json(number))(project);
    }
  };
}

/// The keys that are refused or withheld where all those numbers are wrong at once. Refused ones are put right first,
/// so that the others are looked at too.
std::set<std::string> noticed(const Numbers& wrong, const Numbers& sound) {
  std::set<std::string> keys;
  Outcome outcome = outcome_of(put(wrong), {});
  if (outcome.refused) {
    Numbers rest = wrong;
    for (const Diagnostic& diagnostic : outcome.diagnostics) {
      if (diagnostic.severity != Severity::error || rest.count(diagnostic.entity) == 0) continue;
      keys.insert(diagnostic.entity);
      rest[diagnostic.entity] = sound.at(diagnostic.entity);
    }
    outcome = outcome_of(put(rest), {});
    for (const Diagnostic& diagnostic : outcome.diagnostics) INFO(to_string(diagnostic));
    REQUIRE_FALSE(outcome.refused);
  }
  for (const auto& [key, why] : outcome.settings.withheld()) {
    // What contradicts another wrong setting might not contradict the sound one.
    if (why.find("outside of the usual") != std::string::npos) keys.insert(key);
  }
  return keys;
}

/// How a number is wrong.
enum class Wrong { thousandfold, thousandth, zero, negative };

double wrong_number(double number, Wrong how) {
  switch (how) {
    case Wrong::thousandfold: return number * 1000.0;
    case Wrong::thousandth: return number / 1000.0;
    case Wrong::zero: return 0.0;
    case Wrong::negative: break;
  }
  return -number;
}

/// A number that may be so all the same, with the reason why no range and no other source can tell.
struct MayBe {
  std::string key;
  std::set<Wrong> how;
};

bool may_be(const std::string& key, Wrong how) {
  using enum Wrong;
  static const std::vector<MayBe> kMayBe{
      // How much is listed, beside what is drawn: no result rests on it.
      {"quantities.sheet_layouts_listed", {thousandfold, zero}},
      // Any place of the project's frame, which may be that of a map; the load table ends where the crane is too far.
      {"structural.crane.x_m", {thousandfold, thousandth, zero, negative}},
      {"structural.crane.y_m", {thousandfold, thousandth, zero, negative}},
      // 0 deducts every opening, and a thousandth of a square metre does so too.
      {"quantities.opening_deduction_over_m2", {thousandth, zero}},
      // Loads may arrive on the day itself, and the programme says so.
      {"quantities.transport.lead_working_days", {zero}},
      // Nearer to the boundary more is asked of the wall, down to a wall that stands on it.
      {"building.boundary_distance_m", {thousandth, zero}},
      // The nearer blocks may stand, the more of them there are, and the more edges with their suction.
      {"building.block_gap_m", {thousandth, zero}},
      // Any winter, and it is for the profile of temperatures alone.
      {"thermal.external_temperature_c", {thousandth, zero, negative}},
      // Panels may end at the roof's surface, over it or below.
      {"thermal.details.parapet_height_m", {thousandth, zero, negative}},
      // 0 is a bare edge, flush with the wall: more heat is lost than with any other value.
      {"thermal.details.slab_edge_insulation_thickness_m", {thousandth, zero}},
      {"thermal.details.slab_edge_setback_m", {thousandth, zero}},
      // Frames may stand flush with the lining.
      {"thermal.details.window_frame_offset_m", {thousandth, zero}},
  };
  return std::any_of(kMayBe.begin(), kMayBe.end(),
                     [&](const MayBe& one) { return one.key == key && one.how.contains(how); });
}

}  // namespace

TEST_CASE("A number of the settings that is far off is refused or withheld") {
  const Numbers sound = numbers_of_settings();
  std::size_t tried = 0;
  for (const Wrong how : {Wrong::thousandfold, Wrong::thousandth, Wrong::zero, Wrong::negative}) {
    Numbers wrong;
    for (const auto& [key, number] : sound) {
      if (wrong_number(number, how) == number || may_be(key, how)) continue;
      wrong.emplace(key, wrong_number(number, how));
    }
    const std::set<std::string> keys = noticed(wrong, sound);
    for (const auto& [key, number] : wrong) {
      if (keys.contains(key)) continue;
      // What no range tells another source may, such as the storeys of the export.
      const Outcome alone = outcome_of(put({{key, number}}), {});
      INFO(key << " " << number << " in place of " << sound.at(key));
      CHECK((alone.refused || alone.settings.withheld().contains(key)));
    }
    tried += wrong.size();
  }
  CHECK(tried > 300);
}

namespace {

/// The keys of the settings that the check does not declare to read.
std::set<std::string> undeclared(const CheckDeclaration& check, const Settings& settings) {
  std::set<std::string> keys;
  for (const auto& [key, value] : settings.all()) {
    bool is_declared = false;
    for (const CheckInput& input : check.inputs) {
      is_declared = is_declared || (input.source == CheckInput::Source::setting && names_input(input.name, key));
    }
    if (!is_declared) keys.insert(key);
  }
  return keys;
}

/// Checks of the plugin by the settings that they do not declare.
std::map<std::set<std::string>, std::set<std::string>> checks_by_undeclared(const Outcome& outcome) {
  std::map<std::set<std::string>, std::set<std::string>> groups;
  for (const CheckDeclaration& check : outcome.results.plugins.front().checks) {
    groups[undeclared(check, outcome.settings)].insert(check.id);
  }
  return groups;
}

bool holds(const RecordedFinding& finding) {
  return finding.verdict == Verdict::pass || finding.verdict == Verdict::information;
}

/// What of the findings differs in result: verdict, value, limit, utilisation, a step or a value by name; empty for
/// nothing, and where a note tells of it.
std::string difference_of(const RecordedFinding& one, const RecordedFinding& other) {
  if (one.verdict == other.verdict && one.derivation->notes != other.derivation->notes) return {};
  if (one.verdict != other.verdict) return "verdict: " + other.reason;
  if (one.value != other.value || one.limit != other.limit) return "value or limit";
  if (one.utilisation != other.utilisation) return "utilisation";
  if (one.derivation->steps.size() != other.derivation->steps.size()) return "number of steps";
  for (std::size_t i = 0; i < one.derivation->steps.size(); ++i) {
    if (one.derivation->steps[i].value != other.derivation->steps[i].value)
      return "step '" + one.derivation->steps[i].name + "'";
  }
  if (one.derivation->values.size() != other.derivation->values.size()) return "number of values";
  for (std::size_t i = 0; i < one.derivation->values.size(); ++i) {
    if (one.derivation->values[i].value != other.derivation->values[i].value)
      return "value '" + one.derivation->values[i].id + "'";
  }
  return {};
}

/// Findings by panel and check, those of the project first.
std::map<std::pair<std::string, std::string>, const RecordedFinding*> by_place(const Results& results) {
  std::map<std::pair<std::string, std::string>, const RecordedFinding*> found;
  const auto take = [&](const std::vector<RecordedFinding>& findings) {
    for (const RecordedFinding& finding : findings) found.emplace(std::pair(finding.panel, finding.check), &finding);
  };
  for (const auto& findings : results.panel_findings) take(findings);
  take(results.project_findings);
  return found;
}

/// A setting that is withheld takes the pass from the checks that declare to read it. So a check that holds must say
/// the same when it has those alone: what it read beside them could be wrong and would go unremarked.
void look_for_undeclared(const std::string& plugin, const Outcome& sound) {
  REQUIRE(sound.results.plugins.size() == 1);
  const auto before = by_place(sound.results);
  for (const auto& [keys, checks] : checks_by_undeclared(sound)) {
    Settings settings = sound.settings;
    for (const std::string& key : keys) settings.withhold(key, "setting " + key + " is far off");
    const Results results = results_of(sound.project, settings, plugin);
    for (const auto& [place, finding] : by_place(results)) {
      if (!checks.contains(place.second) || !holds(*finding)) continue;
      INFO(place.second << " of '" << place.first << "' with the settings alone that it declares");
      const auto same = before.find(place);
      REQUIRE(same != before.end());
      CHECK(difference_of(*same->second, *finding) == "");
    }
  }
}

}  // namespace

TEST_CASE("Checks of carbon rest on no setting that they do not declare") {
  look_for_undeclared("carbon", outcome_of({}, "carbon"));
}

TEST_CASE("Checks of fire rest on no setting that they do not declare") {
  look_for_undeclared("fire", outcome_of({}, "fire"));
}

TEST_CASE("Checks of quantities rest on no setting that they do not declare") {
  look_for_undeclared("quantities", outcome_of({}, "quantities"));
}

TEST_CASE("Checks of structure rest on no setting that they do not declare") {
  look_for_undeclared("structural", outcome_of({}, "structural"));
}

TEST_CASE("Checks of heat and moisture rest on no setting that they do not declare") {
  // Junctions take long to solve: with them a panel without a window, and one with a window without them.
  Outcome with_junctions = outcome_of({}, {});
  Outcome with_window = outcome_of(drop_setting("thermal.details"), {});
  for (const auto& [outcome, mark] : {std::pair(&with_junctions, "E1-03"), std::pair(&with_window, "S0-02")}) {
    std::erase_if(outcome->project.panels, [&](const Panel& panel) { return panel.mark != mark; });
    outcome->results = results_of(outcome->project, outcome->settings, "thermal");
    look_for_undeclared("thermal", *outcome);
  }
}
