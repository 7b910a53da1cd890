// What belongs to the whole program and no plugin may touch.
#pragma once

#include <string>
#include <vector>

namespace panel_dossier::testing {

struct GlobalState {
  std::string locale;      ///< of the C library, all categories
  std::string cpp_locale;  ///< name of the global std::locale
  std::string current_folder;
  std::vector<std::string> environment;
  int rounding_mode = 0;                     ///< of the calling thread
  std::vector<std::string> signal_handlers;  ///< by number of the signal, from 1
};

GlobalState global_state();

/// The names of what differs, separated by commas; empty when nothing does.
std::string global_state_difference(const GlobalState& before, const GlobalState& after);

}  // namespace panel_dossier::testing
