// What the program demands of every finding before it lets it into the results.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier {

/// The first breach of the contract among the findings of one call, in words, or empty. Demanded: ids
/// `<plugin_id>.name` with each id once a call, the panel that was asked about, finite numbers, a reason for every
/// verdict that needs one, a clause and table rows as long as their head.
std::string contract_breach(const std::vector<Finding>& findings, std::string_view plugin_id, std::string_view panel);

}  // namespace panel_dossier
