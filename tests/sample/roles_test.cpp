// The core asks for roles and never for a discipline: what the dossier asks for by role is given by exactly one of the
// program's plugins, and no file of core/ holds the id of a plugin or of a check.
#include "core/api/finding/roles.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <vector>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

namespace {

/// Ids of the plugins of this repository: the folders that have an entry.
std::vector<std::string> disciplines() {
  std::vector<std::string> ids;
  for (const auto& folder : fs::directory_iterator(PANEL_DOSSIER_SOURCE_DIR "/plugins")) {
    if (fs::exists(folder.path() / "entry.cpp")) ids.push_back(folder.path().filename().string());
  }
  return ids;
}

/// `"sound"`, `sound.reduction_index`, and the folder or namespace of the plugin.
std::regex naming(const std::string& id) {
  return std::regex("\"" + id + "\"|\\b" + id + "\\.[a-z_]+|plugins/" + id + "|\\b" + id + "::|\\b" + id + "\\.csv");
}

}  // namespace

TEST_CASE("Every role is claimed once, and no other", "[outputs]") {
  const nlohmann::json& results = sample_results();
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

TEST_CASE("The safety file points to the findings of the lifting points", "[outputs]") {
  const std::string& text = sample_pages().out;
  CHECK_THAT(text, Catch::Matchers::Contains("The lifting findings on the page of each panel"));
  CHECK_THAT(text, !Catch::Matchers::Contains("holds no check of lifting points"));
}

TEST_CASE("No file of core/ names a discipline or a check") {
  const std::vector<std::string> ids = disciplines();
  REQUIRE(ids.size() >= 5);
  CHECK(std::regex_search("the check thermal.u_value", naming("thermal")));
  CHECK_FALSE(std::regex_search("double thermal_conductivity = 0.1; // thermal. Next", naming("thermal")));
  std::map<std::string, std::regex> names;
  for (const std::string& id : ids) names.emplace(id, naming(id));
  std::size_t files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(PANEL_DOSSIER_SOURCE_DIR "/core")) {
    if (!entry.is_regular_file()) continue;
    ++files;
    const std::string text = text_of(entry.path());
    for (const auto& [id, name] : names) {
      if (text.find(id) == std::string::npos) continue;
      std::smatch found;
      INFO(entry.path().string());
      if (std::regex_search(text, found, name)) FAIL_CHECK("names '" << found.str() << "'");
    }
  }
  CHECK(files > 100);
}
