// The files that travel inside the dossier.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/cli/build/output/kept_export.h"
#include "core/intake/inputs.h"
#include "core/seal/finish.h"

namespace panel_dossier {

/// The file of the results, and every input they were made from: what `verify` needs, and who later asks.
std::vector<Attachment> attachments_of(const Inputs& inputs, const KeptExport& export_file,
                                       const std::string& export_name, const std::filesystem::path& results);

}  // namespace panel_dossier
