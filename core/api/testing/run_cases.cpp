#include "core/api/testing/run_cases.h"

#include <cstddef>
#include <exception>
#include <iostream>
#include <utility>

#include "core/api/testing/check_cases.h"
#include "core/api/testing/plugin_trial.h"
#include "core/api/testing/tested_plugin.h"

namespace panel_dossier::testing {

namespace {

using NamedTest = std::pair<std::string, PlainTest>;

std::vector<NamedTest>& registered_tests() {
  static std::vector<NamedTest> tests;
  return tests;
}

/// Prints faults under the name of what was run, and counts.
class Tally {
 public:
  void add(const std::string& name, const PlainTest& test) {
    ++run_;
    std::vector<std::string> faults;
    try {
      faults = test();
    } catch (const std::exception& error) {
      faults = {std::string("threw: ") + error.what()};
    } catch (...) {
      faults = {"threw what is no std::exception"};
    }
    for (const std::string& fault : faults) std::cout << name << ": " << fault << '\n';
    if (!faults.empty()) ++wrong_;
  }

  int status() const {
    std::cout << run_ << " run, " << wrong_ << " wrong\n";
    return run_ > 0 && wrong_ == 0 ? 0 : 1;
  }

 private:
  std::size_t run_ = 0;
  std::size_t wrong_ = 0;
};

}  // namespace

RegisterTest::RegisterTest(std::string name, PlainTest test) {
  registered_tests().emplace_back(std::move(name), std::move(test));
}

int run_cases(const std::filesystem::path& shared_object) {
  Tally tally;
  try {
    const LoadedPlugin plugin(shared_object);
    for (const CheckCases& cases : registered_cases()) {
      tally.add("cases of " + cases.check, [&] { return case_faults(*plugin, cases); });
      tally.add("trial of " + cases.check,
                [&] { return try_plugin(*plugin, cases.sound_project(), cases.sound_settings()).faults; });
    }
    tally.add("checks without cases", [&] { return checks_without_cases(*plugin, registered_cases()); });
  } catch (const std::exception& error) {
    tally.add("loading", [&]() -> std::vector<std::string> { return {error.what()}; });
  }
  for (const auto& [name, test] : registered_tests()) tally.add(name, test);
  return tally.status();
}

}  // namespace panel_dossier::testing
