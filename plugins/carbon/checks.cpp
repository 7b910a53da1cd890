#include "plugins/carbon/checks.h"

#include "plugins/carbon/account/account.h"
#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/account/chain_of_custody.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/account/whole_life.h"
#include "plugins/carbon/core_indicators/core_indicators.h"
#include "plugins/carbon/declarations/declarations_check.h"
#include "plugins/carbon/totals/project_sums.h"

namespace panel_dossier::carbon {

const std::vector<CheckDeclaration>& checks() {
  // Built at the first call, when the declarations of all sources are made.
  static const std::vector<CheckDeclaration> kChecks{
      kProductStageCheck,    kTransportCheck,      kConstructionCheck, kReplacementCheck,
      kEndOfLifeCheck,       kBeyondBoundaryCheck, kTotalPerAreaCheck, kWholeLifeCheck,
      kBiogenicStorageCheck, kCoreIndicatorsCheck, kDeclarationsCheck, kChainOfCustodyCheck,
      // The scaffold enters a further check above this line: k@Check@Check,
  };
  return kChecks;
}

CheckOutcome check_panel(const Panel& panel, const RunInputs& inputs) {
  PanelAccount account(panel, inputs);
  // Each module fills its columns of the account, on which the next rest.
  const Finding a1_a3 = check_product_stage(account);
  const Finding a4 = check_transport(account);
  const Finding c1_c4 = check_end_of_life(account);
  const Finding a5 = check_construction(account, {&a1_a3, &a4, &c1_c4});
  const Finding b4 = check_replacement(account, a5);
  const Finding d = check_beyond_boundary(account);
  return {{
      a1_a3, a4, a5, b4, c1_c4, d, check_biogenic_storage(account), check_total_per_area(account, a1_a3, a4, a5),
      check_whole_life(account, b4), check_core_indicators(account), check_chain_of_custody(account),
      // The scaffold enters a further check above this line: check_@check@(panel, inputs.settings),
  }};
}

CheckOutcome check_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels) {
  const Summed summed[] = {{kProductStageCheck, "A1–A3,bio"},
                           {kTransportCheck},
                           {kConstructionCheck, "A5,bio"},
                           {kReplacementCheck, "B4,bio"},
                           {kEndOfLifeCheck, "C,bio"},
                           {kBeyondBoundaryCheck, "D,bio"},
                           {kBiogenicStorageCheck}};
  CheckOutcome outcome;
  for (const Summed& check : summed) outcome.findings.push_back(sum_check(check, inputs.project, panels));
  outcome.findings.push_back(total_per_area_of_project(inputs, panels));
  outcome.findings.push_back(whole_life_of_project(inputs, panels));
  outcome.findings.push_back(core_indicators_of_project(inputs, panels));
  outcome.findings.push_back(declarations_of_project(inputs, panels));
  outcome.findings.push_back(custody_of_project(inputs.project, panels));
  return outcome;
}

}  // namespace panel_dossier::carbon
