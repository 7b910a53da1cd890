#include "plugins/thermal/project_limits.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

struct Result {
  std::optional<double> limit;
  std::string reason;
};

Result limit_for(const char* jurisdiction, const char* use, const char* date) {
  Settings settings;
  if (jurisdiction != nullptr) settings.set("project.jurisdiction", std::string(jurisdiction));
  if (use != nullptr) settings.set("project.use", std::string(use));
  if (date != nullptr) settings.set("project.assessment_date", std::string(date));
  FindingBuilder builder(thermal::kUValueCheck, "");
  const auto limit = thermal::find_limit(thermal_tables().u_value_limits, thermal::kWallLimit, settings, builder);
  return {limit, builder.not_assessed().reason};
}

}  // namespace

TEST_CASE("the limit follows the day of assessment") {
  CHECK(limit_for("England", "healthcare", "2022-06-14").limit == 0.35);
  CHECK(limit_for("England", "healthcare", "2022-06-15").limit == 0.26);
}

TEST_CASE("the limit follows the jurisdiction and the use") {
  CHECK(limit_for("Germany", "office", "2026-06-01").limit == 0.28);
  CHECK(limit_for("England", "dwellings", "2026-06-01").limit == 0.26);
}

TEST_CASE("a day or place without a row gives no limit and names the settings") {
  const auto early = limit_for("England", "healthcare", "1999-01-01");
  CHECK_FALSE(early.limit);
  CHECK(early.reason ==
        "u_value_limits.csv holds no limit for buildings other than dwellings in 'England' on 1999-01-01 (settings "
        "project.jurisdiction, project.use, project.assessment_date)");
  CHECK_FALSE(limit_for("Atlantis", "healthcare", "2026-06-01").limit);
}

TEST_CASE("limits that could not be vouched for are left out and their place, use and day named") {
  CHECK(limit_for("Wales", "dwellings", "2022-11-22").limit == 0.21);
  CHECK(limit_for("Wales", "healthcare", "2023-03-28").limit == 0.26);
  CHECK(limit_for("Northern Ireland", "dwellings", "2022-06-29").limit == 0.30);
  const auto wales = limit_for("Wales", "dwellings", "2026-06-01");
  CHECK_FALSE(wales.limit);
  CHECK(wales.reason.find("u_value_limits.csv holds no limit for dwellings in 'Wales' on 2026-06-01") == 0);
  const auto ulster = limit_for("Northern Ireland", "office", "2026-06-01");
  CHECK_FALSE(ulster.limit);
  CHECK(ulster.reason.find("no limit for buildings other than dwellings in 'Northern Ireland' on 2026-06-01") !=
        std::string::npos);
}

TEST_CASE("missing settings are named") {
  CHECK(limit_for(nullptr, "healthcare", "2026-06-01").reason ==
        "setting 'project.jurisdiction' is missing, so no limit is known");
  CHECK(limit_for("England", "healthcare", nullptr).reason ==
        "setting 'project.assessment_date' is missing, so no limit is known");
  CHECK(limit_for("England", "healthcare", "1 June 2026").reason ==
        "setting 'project.assessment_date' is not a date YYYY-MM-DD but '1 June 2026'");
}

TEST_CASE("a rule without its number or of an unknown scope is no rule, and says so") {
  const TemporaryFolder folder;
  Settings settings;
  settings.set("project.jurisdiction", std::string("Atlantis"));
  settings.set("project.use", std::string("office"));
  settings.set("project.assessment_date", std::string("2026-06-01"));
  const auto rule_of = [&](const std::string& limit, const std::string& scope, std::string& reason) {
    const DataTable table(
        folder.write("u_value_limits.csv",
                     "key,jurisdiction,dwelling,valid_from,valid_until,u_limit_w_per_m2k,single_limit,scope,source\n"
                     "row,Atlantis,no,2020-01-01,," +
                         limit + ",0.4," + scope + ",a source\n"));
    FindingBuilder builder(thermal::kUValueCheck, "");
    const auto rule = thermal::find_rule(table, thermal::kWallLimit, settings, builder);
    if (!rule) reason = builder.not_assessed().reason;
    return rule;
  };
  std::string reason;
  const auto sound = rule_of("0.3", "average", reason);
  REQUIRE(sound);
  CHECK(sound->value == 0.3);
  CHECK(sound->scope == thermal::LimitScope::average);
  CHECK(sound->single == 0.4);
  CHECK(rule_of("0.3", "", reason)->scope == thermal::LimitScope::element);
  CHECK_FALSE(rule_of("", "average", reason));
  CHECK(reason == "u_value_limits.csv row 'row' has no number in u_limit_w_per_m2k");
  CHECK_FALSE(rule_of("0", "average", reason));
  CHECK_FALSE(rule_of("0.3", "some", reason));
  CHECK(reason == "u_value_limits.csv row 'row' has the unknown scope 'some'");
}
