// Turns an input that cannot be read at all into its message and exit status.
#pragma once

#include <functional>

namespace panel_dossier {

/// Runs `command`; a std::runtime_error from it is printed and becomes exit status 2.
int refusing_unreadable_input(const std::function<int()>& command);

}  // namespace panel_dossier
