// What the dossier asks for by role is given by exactly one of the program's plugins.
#include "core/api/finding/roles.h"

#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;

TEST_CASE("Every role is claimed once, and no other") {
  const auto results = nlohmann::json::parse(text_of(sample_out() / "results.json"));
  std::map<std::string, int> claims;
  for (const auto& plugin : results.at("build").at("plugins")) {
    for (const auto& check : plugin.at("checks")) {
      if (const auto role = check.at("role").get<std::string>(); !role.empty()) ++claims[role];
    }
  }
  CHECK(claims.size() == role::kAll.size());
  for (const std::string_view role : role::kAll) {
    INFO(role);
    CHECK(claims[std::string(role)] == 1);
  }
}

TEST_CASE("The safety file points to the findings of the lifting points") {
  const std::string text = run_command("pdftotext -layout " + quoted(sample_out() / "dossier.pdf") + " -").out;
  CHECK_THAT(text, Catch::Matchers::Contains("The lifting findings on the panel's sheet"));
  CHECK_THAT(text, !Catch::Matchers::Contains("holds no check of lifting points"));
}
