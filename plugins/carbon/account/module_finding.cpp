#include "plugins/carbon/account/module_finding.h"

#include <utility>

namespace panel_dossier::carbon {

OpenFinding open_module(const PanelAccount& account, std::string check, std::string title, std::string clause) {
  OpenFinding finding(std::move(check), std::move(title), account.panel.global_id, std::move(clause));
  for (const std::string& missing : account.amounts.missing) finding.builder().missing(missing);
  if (!account.amounts.fillings.empty()) {
    finding.builder().note(
        "Windows and doors are an element of their own and are not counted, though fitted in the "
        "workshop: " +
        std::to_string(account.amounts.fillings.size()) + " in this panel.");
  }
  return finding;
}

}  // namespace panel_dossier::carbon
