// Exit statuses other programs rely on.
#pragma once

#include <functional>

namespace panel_dossier::exit_status {

inline constexpr int kClean = 0;         ///< done, and nothing fails
inline constexpr int kVerdictFails = 1;  ///< built or verified, and something fails
inline constexpr int kInputRefused = 2;  ///< the input cannot be used; nothing was written
inline constexpr int kIncomplete = 3;    ///< a plugin or the environment failed
inline constexpr int kOpen = 4;          ///< built, nothing fails, but evidence is needed or a check was not assessed
inline constexpr int kUsage = 64;        ///< the command line is wrong

}  // namespace panel_dossier::exit_status

namespace panel_dossier {

/// Turns an input that cannot be read at all into its message and exit status: runs `command`; a std::runtime_error
/// from it is printed and becomes exit status 2.
int refusing_unreadable_input(const std::function<int()>& command);

}  // namespace panel_dossier
