#include "core/trace/results_document.h"

#include <algorithm>

namespace panel_dossier {

const CheckDeclaration* check_of_role(const BuildSummary& build, std::string_view role) {
  for (const PluginSummary& plugin : build.plugins) {
    for (const CheckDeclaration& check : plugin.checks) {
      if (check.role == role) return &check;
    }
  }
  return nullptr;
}

const Finding* finding_of_role(const BuildSummary& build, const std::vector<Finding>& findings, std::string_view role) {
  const CheckDeclaration* check = check_of_role(build, role);
  if (check == nullptr) return nullptr;
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [check](const Finding& finding) { return finding.check == check->id; });
  return found == findings.end() ? nullptr : &*found;
}

}  // namespace panel_dossier
