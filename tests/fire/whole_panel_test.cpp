// What must hold of all findings of a panel at once, whatever the order or gaps of its export.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/fire/checks.h"
#include "tests/fire/fire_tables.h"
#include "tests/fire/tested_panel.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Load-bearing, with a window and two sheets a board, so that joints and openings are in play.
Project whole_panel() {
  Project project = tested_load_bearing_panel();
  add_window(project);
  Panel& panel = project.panels.front();
  std::vector<Part> halves;
  for (Part& part : panel.parts) {
    if (part.kind != PartKind::sheet) continue;
    Part right = part;
    right.name += " right";
    right.bounds->min.x = 1.2;
    part.bounds->max.x = 1.2;
    halves.push_back(std::move(right));
  }
  panel.parts.insert(panel.parts.end(), halves.begin(), halves.end());
  std::uint32_t line = 100;
  for (Part& part : panel.parts) part.origin.line = ++line;
  return project;
}

Settings whole_settings() {
  Settings settings = cassette_settings();
  settings.set("building.sprinklers", true);
  settings.set("building.boundary_distance_m", 6.0);
  settings.set("building.ground_level_m", 0.0);
  settings.set("building.fire_resistance_minutes", 60.0);
  return settings;
}

std::vector<Finding> findings_of(const Project& project, const Settings& settings) {
  auto findings = fire::check_panel(project.panels.front(), project, settings, fire_tables());
  for (Finding& finding : fire::check_project(project, settings, fire_tables())) findings.push_back(std::move(finding));
  return findings;
}

class Printer {
 public:
  void add(const Value& value) {
    if (const auto* number = std::get_if<double>(&value)) {
      finite = finite && std::isfinite(*number);
      out << *number;
    } else if (const auto* text = std::get_if<std::string>(&value)) {
      out << *text;
    }
    out << '|';
  }

  void add(const Finding& finding) {
    out << finding.check << '|' << to_string(finding.verdict) << '|' << finding.reason << '\n';
    add(finding.value);
    add(finding.limit);
    for (const Input& input : finding.inputs) {
      out << input.name << '|' << describe(input.origin) << '|';
      add(input.value);
    }
    for (const Step& step : finding.steps) {
      out << step.name << '|' << step.formula << '|';
      add(step.value);
    }
    for (const Table& table : finding.tables) {
      for (const auto& row : table.rows) {
        for (const Value& cell : row) add(cell);
        out << '\n';
      }
    }
    for (const BarChart& chart : finding.bar_charts) {
      for (const Bar& bar : chart.bars) {
        out << bar.name << '|';
        for (const BarPiece& piece : bar.pieces) {
          add(Value{piece.from});
          add(Value{piece.to});
        }
      }
    }
    for (const std::string& note : finding.notes) out << note << '\n';
  }

  std::ostringstream out;
  bool finite = true;
};

std::string printed(const std::vector<Finding>& findings) {
  Printer printer;
  printer.out.precision(17);
  for (const Finding& finding : findings) printer.add(finding);
  return printer.out.str();
}

bool all_finite(const std::vector<Finding>& findings) {
  Printer printer;
  for (const Finding& finding : findings) printer.add(finding);
  return printer.finite;
}

/// Verdicts and all numbers, without the words beside them.
std::string figures_of(const std::vector<Finding>& findings) {
  std::ostringstream out;
  out.precision(17);
  const auto add = [&](const Value& value) {
    if (const auto* number = std::get_if<double>(&value)) out << *number << '|';
  };
  for (const Finding& finding : findings) {
    out << finding.check << '|' << to_string(finding.verdict) << '\n';
    add(finding.value);
    for (const Input& input : finding.inputs) add(input.value);
    for (const Step& step : finding.steps) add(step.value);
    for (const Table& table : finding.tables) {
      for (const auto& row : table.rows) {
        for (const Value& cell : row) add(cell);
      }
    }
  }
  return out.str();
}

/// A property of the panel, a material or a part, or a setting.
struct Place {
  enum class Owner { panel, material, part, setting } owner;
  std::size_t index;
  std::string name;
};

std::vector<Place> places(const Project& project, const Settings& settings) {
  std::vector<Place> all;
  const auto add = [&](Place::Owner owner, std::size_t index, const Properties& properties) {
    for (const auto& [name, property] : properties.all()) all.push_back({owner, index, name});
  };
  const Panel& panel = project.panels.front();
  add(Place::Owner::panel, 0, panel.properties);
  for (std::size_t i = 0; i < project.materials.size(); ++i) {
    add(Place::Owner::material, i, project.materials[i].properties);
  }
  for (std::size_t i = 0; i < panel.parts.size(); ++i) add(Place::Owner::part, i, panel.parts[i].properties);
  for (const auto& [name, value] : settings.all()) all.push_back({Place::Owner::setting, 0, name});
  return all;
}

struct Subject {
  Project project = whole_panel();
  Settings settings = whole_settings();

  void drop(const Place& place) {
    switch (place.owner) {
      case Place::Owner::panel: remove(properties_of(project), place.name); break;
      case Place::Owner::material: remove(project.materials[place.index].properties, place.name); break;
      case Place::Owner::part: remove(project.panels.front().parts[place.index].properties, place.name); break;
      case Place::Owner::setting: settings = without(settings, place.name); break;
    }
  }

  std::vector<Finding> findings() const { return findings_of(project, settings); }
};

bool is_open(const Finding& finding) {
  return finding.verdict == Verdict::not_assessed || finding.verdict == Verdict::evidence_needed;
}

}  // namespace

TEST_CASE("The findings of a panel are the same in whatever order its parts are exported") {
  const Subject subject;
  const std::string expected = printed(subject.findings());
  std::mt19937 random(7);  // any sequence will do; a fixed one repeats
  for (int i = 0; i < 20; ++i) {
    Subject shuffled;
    auto& parts = shuffled.project.panels.front().parts;
    std::shuffle(parts.begin(), parts.end(), random);
    INFO(i);
    CHECK(printed(shuffled.findings()) == expected);
  }
}

TEST_CASE("A panel with everything given passes for both resistances") {
  const auto findings = Subject().findings();
  CHECK(all_finite(findings));
  CHECK(finding_of(findings, "fire.resistance_load_bearing").verdict == Verdict::pass);
  CHECK(finding_of(findings, "fire.resistance_integrity_insulation").verdict == Verdict::pass);
}

TEST_CASE("Without any one of the properties that show its resistance a panel does not pass") {
  for (const Place& place : places(whole_panel(), Settings())) {
    const bool shows = place.name.starts_with("Panel_FireEvidence.") || place.name == "Panel_Fastener.Spacing" ||
                       place.name == "Pset_WallCommon.LoadBearing" || place.name.starts_with("Panel_Structure.");
    if (!shows) continue;
    INFO(place.name);
    Subject subject;
    subject.drop(place);
    const auto findings = subject.findings();
    CHECK(is_open(finding_of(findings, "fire.resistance_load_bearing")));
    CHECK(is_open(finding_of(findings, "fire.resistance_integrity_insulation")));
  }
}

TEST_CASE("Removing a property or setting never closes an open finding, fails none and gives no number that is none") {
  const auto all = places(whole_panel(), whole_settings());
  for (const Place& first : all) {
    Subject without_one;
    without_one.drop(first);
    const auto before = without_one.findings();
    INFO("without " << first.name);
    CHECK(all_finite(before));
    for (const Finding& finding : before) CHECK(finding.verdict != Verdict::fail);
    for (const Place& second : all) {
      Subject without_two = without_one;
      without_two.drop(second);
      const auto after = without_two.findings();
      INFO("and without " << second.name);
      CHECK(all_finite(after));
      REQUIRE(after.size() == before.size());
      for (std::size_t i = 0; i < before.size(); ++i) {
        INFO(before[i].check);
        if (is_open(before[i]) && after[i].verdict == Verdict::pass) FAIL_CHECK(before[i].reason);
      }
    }
  }
}

TEST_CASE("Materials of one name give the figures of materials of different names") {
  Subject named;
  replace(named.project.materials[kWool].properties, "Panel_Fire", "InsulationType", property_of("STONE_WOOL"));
  Subject alike = named;
  for (Material& material : alike.project.materials) material.name = "material";
  replace(properties_of(alike.project), "Panel_FireEvidence", "BuildUp",
          property_of("material 12 (620 kg/m3); material 140 (50 kg/m3); material 12 (800 kg/m3)"));
  CHECK(figures_of(alike.findings()) == figures_of(named.findings()));
}

TEST_CASE("Layers of one name keep their own thickness and origin") {
  Subject named;
  Subject alike;
  for (Layer& layer : alike.project.panels.front().layers) layer.name = "layer";
  CHECK(figures_of(alike.findings()) == figures_of(named.findings()));
}
