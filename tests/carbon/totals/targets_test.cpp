// Targets of the project: which apply to what, when, and what each decides.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/testing/findings.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A light panel of type `light` beside the declared one of type `heavy`, of the same area.
struct TwoTypes : DeclaredPanel {
  TwoTypes() {
    Panel light = panel();
    panel().type = "heavy";
    light.type = "light";
    light.mark = "P-02";
    light.parts.erase(light.parts.begin());
    project.panels.push_back(light);
  }

  double per_area(std::size_t panel, const char* id = "carbon.total_per_area") const {
    return number_of(finding_of(check(*this, project.panels[panel]), id));
  }

  Finding total(const char* id = "carbon.total_per_area") const { return finding_of(totals_of(*this), id); }
};

}  // namespace

TEST_CASE("a target is shown with its value, use, verdict and source") {
  const DeclaredPanel model;
  const Finding finding = checked(model, "carbon.total_per_area");
  const Table* table = table_titled(finding, "Targets");
  REQUIRE(table != nullptr);
  REQUIRE(table->rows.size() == 1);
  const auto& row = table->rows.front();
  CHECK(std::get<std::string>(row[0]) == "Target 0");
  CHECK(std::get<std::string>(row[1]) == "A1–A5 less biogenic");
  CHECK(std::get<double>(row[2]) == number_of(finding));
  CHECK(std::get<double>(row[4]) == Approx(number_of(finding) / 1.2));
  CHECK(std::get<std::string>(row[5]) == "pass");
  CHECK(std::get<std::string>(row[6]) == "project brief");
  CHECK(std::get<double>(finding.limit) == 120.0);
}

TEST_CASE("targets that contradict are judged each, and the one exceeded is named") {
  DeclaredPanel model;
  model.set_target(1, "A1-A5", "every panel", 1.0);
  const Finding finding = checked(model, "carbon.total_per_area");
  CHECK(finding.verdict == Verdict::fail);
  CHECK(table_titled(finding, "Targets")->rows.size() == 2);
  CHECK(std::get<double>(finding.limit) == 1.0);
  CHECK(finding.reason.find("A1–A5 less biogenic is above the target 'Target 1' of 1.00") != std::string::npos);
  CHECK(finding.reason.find("Target 0") == std::string::npos);
}

TEST_CASE("a target for A1-A3 decides beside that for A1-A5") {
  DeclaredPanel model;
  const double a1_a3 = number_of(checked(model, "carbon.a1_a3")) / (2.4 * 2.7);
  model.set_target(1, "A1-A3", "every panel", a1_a3 * 1.001);
  CHECK(checked(model, "carbon.total_per_area").verdict == Verdict::pass);
  model.set_target(1, "A1-A3", "every panel", a1_a3 * 0.999);
  const Finding finding = checked(model, "carbon.total_per_area");
  CHECK(finding.verdict == Verdict::fail);
  // Another value decides, so neither a limit that is kept nor a use beside it.
  CHECK_FALSE(finding.utilisation);
  CHECK(std::holds_alternative<std::monostate>(finding.limit));
}

TEST_CASE("value, limit and use are of one thing, and a target that is used more is named beside") {
  DeclaredPanel model;
  const auto notes = [](const Finding& finding) {
    return std::count(finding.notes.begin(), finding.notes.end(),
                      "Most used is target 'Target 1', A1–A3 less biogenic: 82.5 %.");
  };
  CHECK(notes(checked(model, "carbon.total_per_area")) == 0);
  model.set_target(1, "A1-A3", "every panel", 4.0);
  const Finding finding = checked(model, "carbon.total_per_area");
  CHECK(notes(finding) == 1);
  CHECK(finding.utilisation.value() == Approx(number_of(finding) / 120.0));
  model.set_target(0, "A1-A5", "every panel", 6.1);
  CHECK(notes(checked(model, "carbon.total_per_area")) == 0);
}

TEST_CASE("a target without a name does not hide those after it") {
  DeclaredPanel model;
  model.set_target(1, "A1-A5", "every panel", 1.0);
  model.settings.set("carbon.targets.0.name", std::string());
  const Finding finding = checked(model, "carbon.total_per_area");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("setting 'carbon.targets.0' needs a name") != std::string::npos);
}

TEST_CASE("a target of a type is judged for its panels and their mean alone") {
  TwoTypes model;
  model.set_target(0, "A1-A5", "light", 1.0);
  CHECK(finding_of(check(model, model.project.panels[0]), "carbon.total_per_area").verdict == Verdict::information);
  CHECK(finding_of(check(model, model.project.panels[1]), "carbon.total_per_area").verdict == Verdict::fail);
  const Finding total = model.total();
  CHECK(total.verdict == Verdict::fail);
  CHECK(total.reason.find("of light is above") != std::string::npos);
  CHECK(table_titled(total, "Targets")->rows.size() == 1);
  CHECK(std::holds_alternative<std::monostate>(total.limit));
}

TEST_CASE("a target of the project is judged for the mean over the area of all panels") {
  TwoTypes model;
  const double mean = (model.per_area(0) + model.per_area(1)) / 2.0;
  REQUIRE(model.per_area(0) > model.per_area(1));
  model.set_target(0, "A1-A5", "project", mean * 1.001);
  CHECK(model.total().verdict == Verdict::pass);
  CHECK(finding_of(check(model, model.project.panels[0]), "carbon.total_per_area").verdict == Verdict::information);
  model.set_target(0, "A1-A5", "every panel", mean * 1.001);
  CHECK(model.total().verdict == Verdict::fail);  // the mean of the heavy type
  CHECK(table_titled(model.total(), "Targets")->rows.size() == 3);
}

TEST_CASE("targets for the whole life go with it by type and project too") {
  TwoTypes model;
  model.set_target(1, "A-C", "every panel", 1.0);
  const Finding total = model.total("carbon.whole_life");
  CHECK(total.verdict == Verdict::fail);
  CHECK(table_titled(total, "Targets")->rows.size() == 3);
  CHECK(model.total().verdict == Verdict::pass);
}

TEST_CASE("a target that ran out or does not count yet is named and not judged") {
  DeclaredPanel model;
  model.set_target(1, "A1-A5", "every panel", 1.0);
  model.settings.set("carbon.targets.1.valid_until", std::string("2025-12-31"));
  model.set_target(2, "A1-A5", "every panel", 1.0);
  model.settings.set("carbon.targets.2.valid_from", std::string("2030-01-01"));
  const Finding finding = checked(model, "carbon.total_per_area");
  CHECK(finding.verdict == Verdict::pass);
  CHECK(table_titled(finding, "Targets")->rows.size() == 1);
  const auto noted = [&](const std::string& text) {
    return std::find(finding.notes.begin(), finding.notes.end(), text) != finding.notes.end();
  };
  CHECK(noted("Target 'Target 1' is not judged: it ran out on 2025-12-31."));
  CHECK(noted("Target 'Target 2' is not judged: it counts from 2030-01-01 only."));
}

TEST_CASE("a target counts on its first and on its last day") {
  DeclaredPanel model;
  const std::string day = model.settings.text("project.assessment_date")->value;
  model.settings.set("carbon.targets.0.valid_from", day);
  model.settings.set("carbon.targets.0.valid_until", day);
  CHECK(checked(model, "carbon.total_per_area").verdict == Verdict::pass);
}

TEST_CASE("a target of a type that no panel has leaves the project not assessed, but hides no failure") {
  TwoTypes model;
  model.set_target(1, "A1-A5", "lihgt", 100.0);
  CHECK(model.total().verdict == Verdict::not_assessed);
  CHECK(model.total().reason.find("target 'Target 1' applies to 'lihgt', which is no panel type; correct applies_to") !=
        std::string::npos);
  model.set_target(0, "A1-A5", "every panel", 1.0);
  CHECK(model.total().verdict == Verdict::fail);
  CHECK(model.total().reason.find("'lihgt'") != std::string::npos);
}

TEST_CASE("a target in the settings that is not usable is named") {
  DeclaredPanel model;
  const auto spoil = GENERATE(std::pair<const char*, Settings::Value>{"modules", std::string("B6")},
                              std::pair<const char*, Settings::Value>{"limit_kgco2e_per_m2", -1.0},
                              std::pair<const char*, Settings::Value>{"valid_until", std::string("31.12.2027")},
                              std::pair<const char*, Settings::Value>{"source", std::string()},
                              std::pair<const char*, Settings::Value>{"applies_to", std::string()});
  INFO(spoil.first);
  model.settings.set(std::string("carbon.targets.0.") + spoil.first, spoil.second);
  const Finding finding = checked(model, "carbon.total_per_area");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("setting 'carbon.targets.0' needs a name, modules") != std::string::npos);
}

TEST_CASE("the limit's origin is the line of the targets file, else the key of the settings") {
  DeclaredPanel model;
  const auto origin = [&] {
    const Finding finding = checked(model, "carbon.total_per_area");
    for (const Input& input : finding.inputs) {
      if (input.symbol == "a_max") return describe(input.origin);
    }
    return std::string();
  };
  CHECK(origin() == "setting 'carbon.targets.0.limit_kgco2e_per_m2'");
  model.settings.set("carbon.targets_file", std::string("targets.csv"));
  model.settings.set("carbon.targets.0.line", 4.0);
  CHECK(origin() == "targets.csv, row 'line 4' (project brief)");
}

TEST_CASE("a limit of nothing is no target, and an uncertainty of nothing is one that can be given") {
  DeclaredPanel model;
  model.settings.set("carbon.uncertainty_specific", 0.0);
  CHECK(checked(model, "carbon.total_per_area").verdict == Verdict::pass);
  model.set_target(0, "A1-A5", "every panel", 0.0);
  CHECK_THAT(checked(model, "carbon.total_per_area").reason,
             Catch::Contains("setting 'carbon.targets.0' needs a name, modules"));
}
