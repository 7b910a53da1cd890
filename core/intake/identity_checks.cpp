#include "core/intake/identity_checks.h"

#include <algorithm>
#include <string>
#include <unordered_map>

#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

bool is_global_id(std::string_view text) {
  constexpr std::size_t kLength = 22;
  constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";
  return text.size() == kLength && text.find_first_not_of(kAlphabet) == std::string_view::npos && text.front() <= '3';
}

void check_identities(const Graph& graph, Reporter& report) {
  std::unordered_map<std::string, Element> first_use;
  for (const Element& entity : graph.rooted()) {
    const std::string id = own_global_id(entity);
    if (!is_global_id(id)) {
      report.error(entity, "GlobalId '" + id.substr(0, 60) + "' is malformed",
                   "use 22 characters of 0-9 A-Z a-z _ $, the first of them 0 to 3");
    }
    const auto [first, is_new] = first_use.try_emplace(id, entity);
    if (!is_new) {
      report.error(entity,
                   "GlobalId is already that of " + std::string(ifc_type(first->second)) + " at line " +
                       std::to_string(report.line(first->second)),
                   "give every object its own GlobalId");
    }
  }
}

}  // namespace panel_dossier
