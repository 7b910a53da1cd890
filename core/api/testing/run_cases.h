// The whole of a plugin's test program, for plugins that bring no test framework of their own.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace panel_dossier::testing {

/// A test beside the cases, such as a published example: gives what is wrong, one text each.
using PlainTest = std::function<std::vector<std::string>()>;

/// Use as a constant at namespace scope, in any file of the test program.
class RegisterTest {
 public:
  RegisterTest(std::string name, PlainTest test);
};

/// Loads the plugin and runs on it the registered cases, the demand that every declared check has some, the trial of
/// plugin_trial.h on the sound project of each check, and the registered tests. Prints what is wrong, then how much was
/// run. Gives the exit status: 0 when nothing is wrong and something was run, else 1.
int run_cases(const std::filesystem::path& shared_object);

}  // namespace panel_dossier::testing
