#include "core/api/testing/global_state.h"

#include <unistd.h>

#include <algorithm>
#include <cfenv>
#include <clocale>
#include <csignal>
#include <cstdint>
#include <filesystem>
#include <locale>
#include <system_error>

#include "core/api/support/words.h"

namespace panel_dossier::testing {

namespace {

std::string handler_of(int signal) {
  struct sigaction action {};
  if (::sigaction(signal, nullptr, &action) != 0) return "none";
  // Handlers are compared by their address; what they are called is not known.
  return std::to_string(reinterpret_cast<std::uintptr_t>(action.sa_handler)) + " " + std::to_string(action.sa_flags);
}

}  // namespace

GlobalState global_state() {
  GlobalState state;
  const char* const locale = std::setlocale(LC_ALL, nullptr);
  state.locale = locale == nullptr ? "" : locale;
  state.cpp_locale = std::locale().name();
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::current_path(error);
  state.current_folder = error ? error.message() : folder.string();
  for (char** entry = environ; entry != nullptr && *entry != nullptr; ++entry) state.environment.emplace_back(*entry);
  std::sort(state.environment.begin(), state.environment.end());
  state.rounding_mode = std::fegetround();
  for (int signal = 1; signal < NSIG; ++signal) state.signal_handlers.push_back(handler_of(signal));
  return state;
}

std::string global_state_difference(const GlobalState& before, const GlobalState& after) {
  std::vector<std::string> changed;
  if (before.locale != after.locale || before.cpp_locale != after.cpp_locale) changed.emplace_back("locale");
  if (before.current_folder != after.current_folder) changed.emplace_back("current folder");
  if (before.environment != after.environment) changed.emplace_back("environment");
  if (before.rounding_mode != after.rounding_mode) changed.emplace_back("rounding mode");
  if (before.signal_handlers != after.signal_handlers) changed.emplace_back("signal handlers");
  return joined(changed);
}

}  // namespace panel_dossier::testing
