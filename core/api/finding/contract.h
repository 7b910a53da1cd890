// What the program demands of a plugin's declarations and findings before it lets them into the results.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier {

/// The first breach among the declarations of a plugin, in words, or empty. Demanded: ids `<plugin_id>.name`, each
/// once; title, sentence and clause; a title of the project where the scope is both; each role once.
std::string declaration_breach(const std::vector<CheckDeclaration>& checks, std::string_view plugin_id);

/// The first breach of the contract in what one call gave, in words, or empty. `panel` is the GlobalId, empty for the
/// project. Demanded: each declared check of the scope once, as a finding or as not applicable with a reason, and no
/// other; the panel that was asked about; clause and unit of the declaration; a verdict of its kind; no pass
/// that value, limit or utilisation deny; finite numbers; a reason for every verdict that needs one; each value id
/// once; table rows as long as their head.
std::string contract_breach(const CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks,
                            std::string_view panel);

}  // namespace panel_dossier
