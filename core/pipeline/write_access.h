// Who may change a file that the program runs or signs with.
#pragma once

#include <filesystem>
#include <string>

namespace panel_dossier {

/// Who beside the user of this process and the system's administrator may write the file or folder, and what to do, as
/// the end of a sentence: `can be written by all users; …`; empty when nobody may. Links are followed. Also says so
/// when the access rights cannot be read.
std::string writable_by_others(const std::filesystem::path& path);

}  // namespace panel_dossier
