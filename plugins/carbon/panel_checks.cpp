#include "plugins/carbon/panel_checks.h"

#include "plugins/carbon/account/account.h"
#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/account/chain_of_custody.h"
#include "plugins/carbon/account/core_indicators.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/account/whole_life.h"
#include "plugins/carbon/totals/total_per_area.h"

namespace panel_dossier::carbon {

std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables) {
  PanelAccount account{panel, project, settings, measure_amounts(panel, project), {}, {}};
  account.materials.resize(account.amounts.materials.size());
  const Finding a1_a3 = check_product_stage(account);
  const Finding a4 = check_transport(account);
  const Finding c1_c4 = check_end_of_life(account);
  const Finding a5 = check_construction(account, {&a1_a3, &a4, &c1_c4});
  const Finding b4 = check_replacement(account, a5);
  const Finding d = check_beyond_boundary(account);
  return {a1_a3,
          a4,
          a5,
          b4,
          c1_c4,
          d,
          check_biogenic_storage(account, tables),
          check_total_per_area(account, a1_a3, a4, a5),
          check_whole_life(account, b4),
          check_core_indicators(account, tables),
          check_chain_of_custody(account)};
}

}  // namespace panel_dossier::carbon
