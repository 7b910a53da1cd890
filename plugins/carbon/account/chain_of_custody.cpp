#include "plugins/carbon/account/chain_of_custody.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/evidence.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/take_off.h"
#include "core/api/support/units.h"
#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/account/module_finding.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::string_view kSupply = "Panel_Supply";

/// The wood of one delivery in the panel: one material with one batch reference, which may be empty.
struct Batch {
  const Material* material = nullptr;
  std::vector<const Part*> parts;  ///< null for a layer
  std::string reference;
  ExactSum volume_m3;
  bool measured = true;
};

using Batches = std::map<std::pair<std::size_t, std::string>, Batch>;

Batches batches_of(const PanelAccount& account) {
  Batches batches;
  for (const TakeOffItem& item : take_off(account.panel, account.project).items) {
    if (item.opening || !item.material || !is_wood(account.project.materials[*item.material])) continue;
    const Part* part = item.part ? &account.panel.parts[*item.part] : nullptr;
    const auto reference =
        part != nullptr ? part->properties.text("Pset_ManufacturerOccurrence", "BatchReference") : std::nullopt;
    const std::string name = reference ? reference->value : std::string();
    Batch& batch = batches[{*item.material, name}];
    if (batch.material == nullptr) batch = {&account.project.materials[*item.material], {}, name, {}, true};
    batch.parts.push_back(part);
    batch.measured = batch.measured && item.volume_m3 > 0.0;
    if (batch.measured) batch.volume_m3.add(item.volume_m3);
  }
  return batches;
}

std::string label_of(const Batch& batch) {
  const std::string material = "material '" + batch.material->name + "'";
  return batch.reference.empty() ? material : "batch '" + batch.reference + "' of " + material;
}

/// A property of the part, else of the batch's material.
std::optional<Sourced<std::string>> supply_text(const Batch& batch, const Part* part, std::string_view name) {
  auto own = part != nullptr ? part->properties.text(kSupply, name) : std::nullopt;
  return own ? own : batch.material->properties.text(kSupply, name);
}

std::string words_of(const std::optional<Sourced<std::string>>& text) {
  return text ? text->value : std::string();
}

struct Claim {
  std::string words;
  std::string document;
  std::string date;
  std::string gap;  ///< why it does not count; empty when it does
};

std::string document_gap(const Project& project, const std::string& label, const std::string& document) {
  if (document.empty()) return label + " has no Panel_Supply.ChainOfCustodyDocument";
  const Evidence* evidence = find_evidence(project, document);
  if (evidence == nullptr) return label + ": document '" + document + "' is not among those of the project";
  if (evidence->status != EvidenceStatus::present) {
    return label + ": document '" + document + "' cannot be read from the project folder";
  }
  return {};
}

std::string date_gap(const Settings& settings, const std::string& label, const std::string& date) {
  if (date.empty()) return label + " has no Panel_Supply.ChainOfCustodyDate";
  if (!is_iso_date(date)) {
    return label + ": Panel_Supply.ChainOfCustodyDate '" + date + "' is not a date YYYY-MM-DD";
  }
  const auto assessed = settings.text("project.assessment_date");
  if (assessed && date > assessed->value) {
    return label + ": Panel_Supply.ChainOfCustodyDate " + date + " lies after project.assessment_date " +
           assessed->value;
  }
  return {};
}

std::string name_of_part(const Part* part) {
  return part != nullptr ? "'" + part->name + "'" : "a layer";
}

/// Names the first part that says otherwise than the first of its batch; empty when all say the same.
std::string misfit_gap(const Batch& batch, std::string_view name) {
  const std::string first = words_of(supply_text(batch, batch.parts.front(), name));
  for (const Part* part : batch.parts) {
    const std::string other = words_of(supply_text(batch, part, name));
    if (other == first) continue;
    std::string gap = label_of(batch) + ": ";
    gap.append(kSupply).append(".").append(name).append(" of ").append(name_of_part(part));
    gap.append(" is '").append(other).append("' but that of ").append(name_of_part(batch.parts.front()));
    gap.append(" is '").append(first).append("'; correct it, or give each delivery its own BatchReference");
    return gap;
  }
  return {};
}

Claim claim_of(const PanelAccount& account, const Batch& batch) {
  for (const char* name : {"ChainOfCustodyClaim", "ChainOfCustodyDocument", "ChainOfCustodyDate"}) {
    const std::string gap = misfit_gap(batch, name);
    if (!gap.empty()) return {"several", {}, {}, gap};
  }
  const auto text = [&](std::string_view name) { return words_of(supply_text(batch, batch.parts.front(), name)); };
  Claim claim{text("ChainOfCustodyClaim"), text("ChainOfCustodyDocument"), text("ChainOfCustodyDate"), {}};
  const std::string label = label_of(batch);
  if (claim.words.empty()) {
    claim.gap = label + " has no Panel_Supply.ChainOfCustodyClaim";
  } else if (claim.words != "CERTIFIED" && claim.words != "CONTROLLED" && claim.words != "RECLAIMED") {
    claim.gap = label + " claims '" + claim.words + "', which is none of CERTIFIED, CONTROLLED and RECLAIMED";
  } else {
    claim.gap = document_gap(account.project, label, claim.document);
    if (claim.gap.empty()) claim.gap = date_gap(account.settings, label, claim.date);
  }
  return claim;
}

/// Volume by claim, of what is documented.
struct Shares {
  ExactSum all;
  ExactSum documented;
  std::map<std::string, ExactSum> by_claim;
};

Shares gather(const PanelAccount& account, OpenFinding& finding, Table& table) {
  Shares shares;
  for (const auto& [key, batch] : batches_of(account)) {
    if (!batch.measured) {
      finding.builder().missing("a part of " + label_of(batch) + " has no volume");
      continue;
    }
    const double volume_m3 = batch.volume_m3.total();
    finding.builder().number("volume of " + label_of(batch) + ", by take-off", "V", "m³",
                             Sourced<double>{volume_m3, account.panel.origin}, {});
    shares.all.add(volume_m3);
    const Claim claim = claim_of(account, batch);
    table.rows.push_back({batch.material->name, batch.reference, volume_m3, claim.words, claim.document, claim.date});
    if (!claim.gap.empty()) {
      finding.evidence_gap(claim.gap);
      continue;
    }
    shares.documented.add(volume_m3);
    shares.by_claim[claim.words].add(volume_m3);
  }
  return shares;
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
  Table table{"Batches",
              {{"material", ""}, {"batch", ""}, {"volume", "m³"}, {"claim", ""}, {"document", ""}, {"date", ""}},
              {}};
  const Shares shares = gather(account, finding, table);
  if (builder.incomplete()) return finding.close_incomplete();
  if (shares.all.total() <= 0.0) return builder.inform_text("no wood");
  builder.table(std::move(table));
  const double share = shares.documented.total() / shares.all.total() * units::kPercentPerWhole;
  builder.step("wood in all", "V", shares.all.total(), "m³");
  builder.step("of that, with claim, document and date", "V_doc", shares.documented.total(), "m³");
  for (const auto& [claim, volume] : shares.by_claim) {
    builder.step("of that, claimed as " + claim, "V_" + claim, volume.total(), "m³");
  }
  builder.step("share by volume", "p", share, "%", "V_doc / V · 100");
  builder.note(
      "The claim is the supplier's; whether the document covers the batch delivered is for the buyer to check.");
  return finding.complete() ? builder.inform(share, "%") : close_with_share(finding, share);
}

}  // namespace panel_dossier::carbon
