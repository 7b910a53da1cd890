// cobie.xlsx: the panels and what is known of them in the open form for handing over facilities, COBie 2.4.
#pragma once

#include <filesystem>

#include "core/dossier/handover/handover.h"

namespace panel_dossier {

/// Writes all 20 sheets with all their columns, those of which nothing is known with their head alone. Same content,
/// same bytes. Throws std::runtime_error naming the first rows that break COBie's own rules, before anything is
/// written, or the file when it cannot be written.
void write_cobie(const HandoverContent& content, const std::filesystem::path& file);

}  // namespace panel_dossier
