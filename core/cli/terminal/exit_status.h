// Exit statuses other programs rely on.
#pragma once

namespace panel_dossier::exit_status {

inline constexpr int kClean = 0;         ///< done, and nothing fails
inline constexpr int kVerdictFails = 1;  ///< built or verified, and something fails
inline constexpr int kInputRefused = 2;  ///< the input cannot be used; nothing was written
inline constexpr int kIncomplete = 3;    ///< a plugin or the environment failed
inline constexpr int kOpen = 4;          ///< built, nothing fails, but evidence is needed or a check was not assessed
inline constexpr int kUsage = 64;        ///< the command line is wrong

}  // namespace panel_dossier::exit_status
