// The rules of PDF/A-3, level U (ISO 19005-3:2012, by the clauses of its public validation profiles, from memory where
// no text was at hand) and of tagged structure (ISO 14289-1:2014) that the dossier relies on, each held to a file.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier::testing {

/// What breaks a rule: its clause and the object. Empty for a file that keeps all of them.
std::vector<std::string> archival_faults(const std::filesystem::path& file);

}  // namespace panel_dossier::testing
