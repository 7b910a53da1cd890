#include "plugins/carbon/account/chain_of_custody.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/take_off.h"
#include "core/api/support/units.h"
#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/totals/project_sums.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::string_view kSupply = "Panel_Supply";
constexpr std::array<std::string_view, 3> kClaims{"CERTIFIED", "CONTROLLED", "RECLAIMED"};

/// Values of the finding, in m³.
constexpr const char* kWoodValue = "wood";
constexpr const char* kDocumentedValue = "documented";

/// Value of the finding, in m³: what is documented under that claim.
std::string claimed_value(std::string_view claim) {
  std::string id = "claimed_";
  for (const char c : claim) id += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return id;
}

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
  for (const TakeOffItem& item : take_off(account.panel, account.inputs.project).items) {
    if (item.opening || !item.material || !is_wood(account.inputs.project.materials[*item.material])) continue;
    const Part* part = item.part ? &account.panel.parts[*item.part] : nullptr;
    const auto reference =
        part != nullptr ? part->properties.text("Pset_ManufacturerOccurrence", "BatchReference") : std::nullopt;
    const std::string name = reference ? reference->value : std::string();
    Batch& batch = batches[{*item.material, name}];
    if (batch.material == nullptr) batch = {&account.inputs.project.materials[*item.material], {}, name, {}, true};
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
  } else if (std::find(kClaims.begin(), kClaims.end(), claim.words) == kClaims.end()) {
    claim.gap = label + " claims '" + claim.words + "', which is none of CERTIFIED, CONTROLLED and RECLAIMED";
  } else {
    claim.gap = document_gap(account.inputs.project, label, claim.document);
    if (claim.gap.empty()) claim.gap = date_gap(account.inputs.settings, label, claim.date);
  }
  return claim;
}

/// Volume by claim, of what is documented.
struct Shares {
  ExactSum all;
  ExactSum documented;
  std::map<std::string, ExactSum, std::less<>> by_claim;

  double claimed_m3(std::string_view claim) const {
    const auto found = by_claim.find(claim);
    return found == by_claim.end() ? 0.0 : found->second.total();
  }
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

/// Closes with the share that is documented, also where the rest needs evidence.
Finding close_with_share(Finding closed, double share) {
  closed.value = share;
  closed.unit = "%";
  return closed;
}

/// Volumes in m³ of one panel or of all, and the share that they give, in %.
struct Volumes {
  double all = 0.0;
  double documented = 0.0;
  std::array<double, kClaims.size()> claimed{};  ///< as `kClaims`
};

void add_volumes(const Volumes& volumes, const char* formula_of_all, FindingBuilder& builder) {
  builder.step("wood in all", "V_all", volumes.all, "m³", formula_of_all);
  builder.step("of that, with claim, document and date", "V_doc", volumes.documented, "m³");
  builder.value(kWoodValue, volumes.all, "m³").value(kDocumentedValue, volumes.documented, "m³");
}

double add_share(const Volumes& volumes, FindingBuilder& builder) {
  for (std::size_t i = 0; i < kClaims.size(); ++i) {
    const std::string claim(kClaims[i]);
    builder.value(claimed_value(claim), volumes.claimed[i], "m³");
    if (volumes.claimed[i] > 0.0) {
      builder.step("of that, claimed as " + claim, "V_" + claim, volumes.claimed[i], "m³");
    }
  }
  const double share = volumes.documented / volumes.all * units::kPercentPerWhole;
  builder.step("share by volume", "p", share, "%", "p = V_doc / V_all · 100");
  return share;
}

/// Marks of the panels whose wood could not be measured. A panel without wood is information, and takes no part.
std::string marks_not_assessed(const std::vector<PanelFindings>& panels) {
  std::string marks;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      if (finding.check != kChainOfCustodyCheck.id || finding.verdict != Verdict::not_assessed) continue;
      marks += (marks.empty() ? "" : ", ") + panel.panel->mark;
    }
  }
  return marks;
}

}  // namespace

const CheckDeclaration kChainOfCustodyCheck{
    .id = "carbon.chain_of_custody",
    .title = "Wood with a documented chain of custody",
    .project_title = "Wood of all panels with a documented chain of custody",
    .sentence =
        "All wood, batch by batch, has a claim of CERTIFIED, CONTROLLED or RECLAIMED, a document that lies in "
        "the project folder and a date not after the assessment; the value is the share by volume that has.",
    .clause = "ISO 38200:2018",
    .units = {"%"},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels_and_project,
    .inputs = {property("Panel_Supply.ChainOfCustodyClaim"), property("Panel_Supply.ChainOfCustodyDocument"),
               property("Panel_Supply.ChainOfCustodyDate"),
               optional_property("Pset_ManufacturerOccurrence.BatchReference"),
               optional_property("Panel_Timber.MoistureContent"),
               optional_property("Panel_Timber.ReferenceMoistureContent"), optional_setting("project.assessment_date")},
    .limits = {"What the document says: whether it covers the batch delivered is for the buyer to check.",
               "Fibre in materials of another category without a moisture content."}};

Finding check_chain_of_custody(const PanelAccount& account) {
  OpenFinding finding = account.open(kChainOfCustodyCheck);
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(1);
  Table table{"Batches",
              {{"material", ""}, {"batch", ""}, {"volume", "m³"}, {"claim", ""}, {"document", ""}, {"date", ""}},
              {}};
  const Shares shares = gather(account, finding, table);
  if (builder.incomplete()) return finding.close_incomplete();
  Volumes volumes{shares.all.total(), shares.documented.total()};
  if (volumes.all <= 0.0) return builder.inform_text("no wood");
  builder.table(std::move(table));
  for (std::size_t i = 0; i < kClaims.size(); ++i) volumes.claimed[i] = shares.claimed_m3(kClaims[i]);
  add_volumes(volumes, "V_all = sum(volume)", builder);
  const double share = add_share(volumes, builder);
  builder.note(
      "The claim is the supplier's; whether the document covers the batch delivered is for the buyer to check.");
  return finding.complete() ? builder.inform(share, "%") : close_with_share(finding.close_incomplete(), share);
}

Finding custody_of_project(const Project& project, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(kChainOfCustodyCheck, "");
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(1);
  const PanelValues values = panel_values(panels, kChainOfCustodyCheck.id);
  builder.number("panels with wood", "n", "",
                 Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  const std::string unmeasured = marks_not_assessed(panels);
  if (!unmeasured.empty()) builder.missing("the wood of these panels could not be measured: " + unmeasured);
  Volumes volumes{sum_of(values, kWoodValue, "m³"), sum_of(values, kDocumentedValue, "m³")};
  if (volumes.all <= 0.0) return builder.not_assessed("no panel holds wood whose volume is known");
  for (std::size_t i = 0; i < kClaims.size(); ++i) {
    volumes.claimed[i] = sum_of(values, claimed_value(kClaims[i]), "m³");
  }
  add_volumes(volumes, "", builder);
  if (builder.incomplete()) return finding.close_incomplete();
  const double share = add_share(volumes, builder);
  if (volumes.documented >= volumes.all) return builder.inform(share, "%");
  return close_with_share(builder.needs_evidence("part of the wood has no documented claim; see the panels' findings"),
                          share);
}

}  // namespace panel_dossier::carbon
