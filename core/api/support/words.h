// Words and phrases put together for sentences and cells.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// The texts in their order with `separator` between each two; empty for none.
std::string joined(const std::vector<std::string>& texts, std::string_view separator = ", ");

}  // namespace panel_dossier
