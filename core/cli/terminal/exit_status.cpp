#include "core/cli/terminal/exit_status.h"

#include <iostream>
#include <stdexcept>

#include "core/api/support/text_encoding.h"

namespace panel_dossier {

int refusing_unreadable_input(const std::function<int()>& command) {
  try {
    return command();
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: " << visible_text(error.what()) << '\n';
    return exit_status::kInputRefused;
  }
}

}  // namespace panel_dossier
