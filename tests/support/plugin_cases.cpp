// The registered cases of the plugin that this test program is of, and what it says of the sample.
#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/check_cases.h"
#include "core/api/testing/tested_plugin.h"
#include "tests/support/held_findings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const Plugin& tested_plugin() {
  static const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/" PANEL_DOSSIER_TESTED_PLUGIN ".so");
  return *plugin;
}

}  // namespace

TEST_CASE("Every case of every check gives what its table says") {
  for (const CheckCases& cases : registered_cases()) {
    for (const std::string& fault : case_faults(tested_plugin(), cases)) FAIL_CHECK(fault);
  }
}

TEST_CASE("Every declared check has its cases") {
  for (const std::string& lack : checks_without_cases(tested_plugin(), registered_cases())) FAIL_CHECK(lack);
}

TEST_CASE("What the plugin says of a few panels of the sample is what it said", "[held]") {
  for (const std::string& fault : held_findings_faults(PANEL_DOSSIER_TESTED_PLUGIN)) {
    FAIL_CHECK(fault);
  }
}

TEST_CASE("All of the finding of every case is what it was", "[held]") {
  for (const std::string& fault : held_cases_faults(PANEL_DOSSIER_TESTED_PLUGIN)) FAIL_CHECK(fault);
}
