#include "plugins/carbon/chain_of_custody.h"

#include <string>

#include "core/api/evidence.h"
#include "core/api/exact_sum.h"
#include "plugins/carbon/biogenic_storage.h"
#include "plugins/carbon/module_finding.h"

namespace panel_dossier::carbon {

namespace {

constexpr double kPercent = 100.0;

/// Why the material's claim does not count; empty when it does. Claim and document are recorded.
std::string claim_gap(const Project& project, const Material& material, FindingBuilder& builder) {
  const auto claim = material.properties.text("Panel_Supply", "ChainOfCustodyClaim");
  const auto document = material.properties.text("Panel_Supply", "ChainOfCustodyDocument");
  const std::string label = "material '" + material.name + "'";
  if (!claim || claim->value.empty()) return label + " has no Panel_Supply.ChainOfCustodyClaim";
  builder.text("chain-of-custody claim of '" + material.name + "'", claim, {});
  if (claim->value != "CERTIFIED" && claim->value != "CONTROLLED" && claim->value != "RECLAIMED") {
    return label + " claims '" + claim->value + "', which is none of CERTIFIED, CONTROLLED and RECLAIMED";
  }
  if (!document || document->value.empty()) return label + " has no Panel_Supply.ChainOfCustodyDocument";
  builder.text("chain-of-custody document of '" + material.name + "'", document, {});
  const Evidence* evidence = find_evidence(project, document->value);
  if (evidence == nullptr) return label + ": document '" + document->value + "' is not among those of the project";
  if (evidence->status != EvidenceStatus::present) {
    return label + ": document '" + document->value + "' cannot be read from the project folder";
  }
  return {};
}

/// Evidence needed, and yet with the share that is documented.
Finding close_with_share(OpenFinding& finding, double share) {
  Finding closed = finding.close_incomplete();
  closed.value = share;
  closed.unit = "%";
  return closed;
}

}  // namespace

Finding check_chain_of_custody(const PanelAccount& account) {
  OpenFinding finding =
      open_module(account, "carbon.chain_of_custody", "Wood with a documented chain of custody", "ISO 38200:2018");
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(1);
  ExactSum all;
  ExactSum documented;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const Material& material = account.material(row);
    if (!is_wood(material)) continue;
    const auto volume = account.amounts.materials[row].volume_m3;
    if (!volume) {
      builder.missing("a part of material '" + material.name + "' has no volume");
      continue;
    }
    builder.number("volume of '" + material.name + "', by take-off", "V", "m³",
                   Sourced<double>{*volume, account.panel.origin}, {});
    all.add(*volume);
    const std::string gap = claim_gap(account.project, material, builder);
    if (gap.empty()) {
      documented.add(*volume);
    } else {
      finding.evidence_gap(gap);
    }
  }
  if (builder.incomplete()) return finding.close_incomplete();
  if (all.total() <= 0.0) return builder.inform_text("no wood");
  const double share = documented.total() / all.total() * kPercent;
  builder.step("wood in all", "V", all.total(), "m³");
  builder.step("of that, with claim and document", "V_doc", documented.total(), "m³");
  builder.step("share by volume", "p", share, "%", "V_doc / V · 100");
  builder.note(
      "The claim is the supplier's; whether the document covers the batch delivered is for the buyer to check.");
  return finding.complete() ? builder.inform(share, "%") : close_with_share(finding, share);
}

}  // namespace panel_dossier::carbon
