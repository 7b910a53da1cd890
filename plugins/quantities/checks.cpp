#include "plugins/quantities/checks.h"

#include <utility>

#include "plugins/quantities/delivery/deliveries.h"
#include "plugins/quantities/programme/programme.h"
#include "plugins/quantities/programme/records.h"
#include "plugins/quantities/records/batches.h"
#include "plugins/quantities/records/record_keys.h"
#include "plugins/quantities/sheets/planned_loss.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

namespace {

NotApplicable costs_without_rates() {
  return {kCostsCheck.id, "the settings give no rates of materials"};
}

}  // namespace

const std::vector<CheckDeclaration>& checks() {
  static const std::vector<CheckDeclaration> all{
      kAreaCheck,        kMassCheck,        kCentreOfGravityCheck, kLoadsCheck,      kTakeOffCheck,
      kCostsCheck,       kFixingsCheck,     kCuttingListCheck,     kStockYieldCheck, kSheetYieldCheck,
      kAssemblyCheck,    kAsBuiltSizeCheck, kErectionTimeCheck,    kDeliveriesCheck, kProgrammeCheck,
      kSiteStorageCheck, kWasteCheck,       kRecordsCheck,         kRecordKeysCheck, kBatchesCheck,
      // The scaffold enters a further check above this line: k@Check@Check,
  };
  return all;
}

CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings) {
  CheckOutcome outcome{{area(panel, settings), mass(panel, project), centre_of_gravity(panel, project),
                        loads(panel, project), take_off_measures(panel, project, settings), fixings(panel, project),
                        cutting_list(panel, project, settings), assembly(panel, project, settings),
                        as_built_size(panel, settings), erection_time(panel, settings)}};
  if (rates_given(settings)) {
    outcome.findings.push_back(costs(panel, project, settings));
  } else {
    outcome.not_applicable.push_back(costs_without_rates());
  }
  if (has_records(panel)) {
    outcome.findings.push_back(records(panel, settings));
  } else {
    outcome.not_applicable.push_back({kRecordsCheck.id, "the export tells of no inspection or installation"});
  }
  if (has_batch_records(panel)) {
    outcome.findings.push_back(batches(panel, project));
  } else {
    outcome.not_applicable.push_back({kBatchesCheck.id, "there is no record of a batch in the panel"});
  }
  // The scaffold enters a further check above this line: outcome.findings.push_back(check_@check@(panel, settings));
  return outcome;
}

CheckOutcome check_project(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  CheckOutcome outcome;
  std::vector<Finding>& findings = outcome.findings;
  findings.push_back(project_total({kAreaCheck, "m²", 2}, project, panels));
  findings.push_back(project_mass(project, panels));
  findings.push_back(project_total({kLoadsCheck, "kN", 1}, project, panels));
  findings.push_back(project_take_off(project, panels, settings));
  findings.push_back(project_fixings(project, panels));
  findings.push_back(project_total({kCuttingListCheck, "pieces", 0}, project, panels));
  const Finding stock = stock_yield(project, settings);
  const Finding sheets = sheet_yield(project, settings);
  findings.push_back(stock);
  findings.push_back(sheets);
  findings.push_back(waste_against_plans(project, stock, sheets));
  findings.push_back(project_erection_time(project, panels, settings));
  CheckOutcome site = site_findings(project, panels, settings);
  for (Finding& finding : site.findings) findings.push_back(std::move(finding));
  for (NotApplicable& one : site.not_applicable) outcome.not_applicable.push_back(std::move(one));
  if (!storage_limited(settings)) {
    outcome.not_applicable.push_back(
        {kSiteStorageCheck.id, "the settings do not say how much the site can store (quantities.site_storage_m2)"});
  }
  if (keeps_records(project)) {
    findings.push_back(record_keys(project));
  } else {
    outcome.not_applicable.push_back({kRecordKeysCheck.id, "the project keeps no records of its panels"});
  }
  if (rates_given(settings)) {
    findings.push_back(project_costs(project, panels, settings));
  } else {
    outcome.not_applicable.push_back(costs_without_rates());
  }
  return outcome;
}

}  // namespace panel_dossier::quantities
