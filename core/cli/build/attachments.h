// The files that travel inside the dossier.
#pragma once

#include <string>
#include <vector>

#include "core/intake/inputs.h"
#include "core/seal/finish.h"

namespace panel_dossier {

/// The results, and every input they were made from: what `verify` needs, and who later asks.
std::vector<Attachment> attachments_of(const Inputs& inputs, const std::string& export_name,
                                       const std::string& results);

}  // namespace panel_dossier
