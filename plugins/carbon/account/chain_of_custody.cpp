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
#include "core/api/support/words.h"
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
  return "claimed_" + lower_case(claim);
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

std::string batch_label(const Batch& batch) {
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
  std::string delivery_note;
  std::string gap;  ///< why it does not count; empty when it does
};

/// In either case of letters, and not as a part of a longer word: `B1` is not named by `B10`.
bool names(std::string_view text, std::string_view what) {
  const std::string in = lower_case(text);
  const std::string word = lower_case(what);
  const auto is_of_word = [&](std::size_t at) {
    return at < in.size() && (std::isalnum(static_cast<unsigned char>(in[at])) != 0 || in[at] == '_');
  };
  for (std::size_t at = in.find(word); at != std::string::npos; at = in.find(word, at + 1)) {
    if ((at == 0 || !is_of_word(at - 1)) && !is_of_word(at + word.size())) return true;
  }
  return false;
}

std::string day_of(const Settings& settings) {
  const auto assessed = settings.text("project.assessment_date");
  return assessed ? assessed->value : std::string();
}

/// What a certificate must say of itself, and the column of the register of evidence that says it.
constexpr std::array<std::pair<std::string Evidence::*, std::string_view>, 5> kOfCertificate{
    {{&Evidence::number, "number"},
     {&Evidence::issuer, "issuer"},
     {&Evidence::subject, "subject, the holder"},
     {&Evidence::expires, "expires"},
     {&Evidence::scope, "scope, the products covered"}}};

/// By the name of the material or by that of its product, which a drawing may call otherwise.
bool names_material(const std::string& scope, const Material& material) {
  const auto product = material.properties.text("Pset_ManufacturerTypeInformation", "ModelLabel");
  return names(scope, material.name) || (product && !product->value.empty() && names(scope, product->value));
}

/// The certificate covers the material, and bears no other claim than that one.
std::string scope_gap(const Evidence& certificate, const Batch& batch, const std::string& claim) {
  const std::string of = "document '" + certificate.id + "'";
  if (!names_material(certificate.scope, *batch.material)) {
    return of + " covers '" + certificate.scope + "', which does not name '" + batch.material->name + "'";
  }
  const bool states_claims =
      std::any_of(kClaims.begin(), kClaims.end(), [&](std::string_view one) { return names(certificate.scope, one); });
  if (!states_claims || names(certificate.scope, claim)) return {};
  return of + " covers '" + certificate.scope + "', which does not hold the claim " + claim;
}

std::string certificate_gap(const Project& project, const Settings& settings, const Batch& batch,
                            const std::string& document, const std::string& claim) {
  if (document.empty()) return "Panel_Supply.ChainOfCustodyDocument is missing";
  const Evidence* certificate = find_evidence(project, document);
  if (certificate == nullptr) return "document '" + document + "' is not among those of the project";
  std::string fault = evidence_fault(*certificate, {EvidenceKind::chain_of_custody_certificate}, day_of(settings));
  if (!fault.empty()) return fault;
  std::string lacking;
  for (const auto& [member, column] : kOfCertificate) {
    if (((*certificate).*member).empty()) lacking += (lacking.empty() ? "" : "; ") + std::string(column);
  }
  if (!lacking.empty()) {
    return "document '" + document + "' does not say of itself (evidence/evidence.csv, columns): " + lacking;
  }
  return scope_gap(*certificate, batch, claim);
}

/// The certificate says what its holder may claim; that this wood bears the claim, only its delivery note does.
std::string delivery_gap(const Project& project, const Settings& settings, const Batch& batch,
                         const std::string& document, const std::string& certificate) {
  if (document.empty()) {
    return "Panel_Supply.DeliveryNote is missing, which shows that the certificate's claim goes with what was "
           "delivered";
  }
  if (document == certificate) return "delivery note '" + document + "' is the certificate itself";
  const Evidence* note = find_evidence(project, document);
  if (note == nullptr) return "delivery note '" + document + "' is not among the documents of the project";
  // A note has no kind of its own; by the words in it, it may look like a certificate.
  const std::vector<EvidenceKind> kinds{EvidenceKind::other, EvidenceKind::not_stated,
                                        EvidenceKind::chain_of_custody_certificate};
  std::string fault = evidence_fault(*note, kinds, day_of(settings));
  if (!fault.empty()) return "delivery note: " + fault;
  const std::string& what = batch.reference.empty() ? batch.material->name : batch.reference;
  if (names(note->scope, what) || names(note->subject, what)) return {};
  return "delivery note '" + document + "' does not name " +
         (batch.reference.empty() ? "the material" : "the batch '" + what + "'") +
         " in its scope or subject (evidence/evidence.csv)";
}

/// The day is one, not after the assessment and within the days of the certificate.
std::string date_gap(const Project& project, const Settings& settings, const Claim& claim) {
  const std::string& date = claim.date;
  if (date.empty()) return "Panel_Supply.ChainOfCustodyDate is missing";
  if (!is_iso_date(date)) return "Panel_Supply.ChainOfCustodyDate '" + date + "' is not a date YYYY-MM-DD";
  const std::string stated = "Panel_Supply.ChainOfCustodyDate " + date;
  const std::string day = day_of(settings);
  if (!day.empty() && date > day) return stated + " lies after project.assessment_date " + day;
  const Evidence* certificate = find_evidence(project, claim.document);
  if (certificate == nullptr) return {};
  if (!certificate->issued.empty() && date < certificate->issued) {
    return stated + " lies before document '" + certificate->id + "' was issued, on " + certificate->issued;
  }
  if (!certificate->expires.empty() && date > certificate->expires) {
    return stated + " lies after document '" + certificate->id + "' ran out, on " + certificate->expires;
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
    std::string gap = batch_label(batch) + ": ";
    gap.append(kSupply).append(".").append(name).append(" of ").append(name_of_part(part));
    gap.append(" is '").append(other).append("' but that of ").append(name_of_part(batch.parts.front()));
    gap.append(" is '").append(first).append("'; correct it, or give each delivery its own BatchReference");
    return gap;
  }
  return {};
}

Claim claim_of(const PanelAccount& account, const Batch& batch) {
  for (const char* name : {"ChainOfCustodyClaim", "ChainOfCustodyDocument", "ChainOfCustodyDate", "DeliveryNote"}) {
    const std::string gap = misfit_gap(batch, name);
    if (!gap.empty()) return {"several", {}, {}, {}, gap};
  }
  const auto text = [&](std::string_view name) { return words_of(supply_text(batch, batch.parts.front(), name)); };
  Claim claim{text("ChainOfCustodyClaim"),
              text("ChainOfCustodyDocument"),
              text("ChainOfCustodyDate"),
              text("DeliveryNote"),
              {}};
  const std::string label = batch_label(batch);
  if (claim.words.empty()) {
    claim.gap = label + " has no Panel_Supply.ChainOfCustodyClaim";
  } else if (std::find(kClaims.begin(), kClaims.end(), claim.words) == kClaims.end()) {
    claim.gap = label + " claims '" + claim.words + "', which is none of CERTIFIED, CONTROLLED and RECLAIMED";
  } else {
    const Project& project = account.inputs.project;
    const Settings& settings = account.inputs.settings;
    std::string gap = certificate_gap(project, settings, batch, claim.document, claim.words);
    if (gap.empty()) gap = date_gap(project, settings, claim);
    if (gap.empty()) gap = delivery_gap(project, settings, batch, claim.delivery_note, claim.document);
    if (!gap.empty()) claim.gap = label + ": " + gap;
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
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    std::string unknown = unknown_kind(account.material(row), account.inputs.tables.plausible_declarations);
    if (!unknown.empty()) finding.builder().missing(std::move(unknown));
  }
  Shares shares;
  for (const auto& [key, batch] : batches_of(account)) {
    if (!batch.measured) {
      finding.builder().missing("a part of " + batch_label(batch) + " has no volume");
      continue;
    }
    const double volume_m3 = batch.volume_m3.total();
    finding.builder().number("volume of " + batch_label(batch) + ", by take-off", "V", "m³",
                             Sourced<double>{volume_m3, account.panel.origin}, {});
    shares.all.add(volume_m3);
    const Claim claim = claim_of(account, batch);
    table.rows.push_back({batch.material->name, batch.reference, volume_m3, claim.words, claim.document, claim.date,
                          claim.delivery_note});
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
  builder.step("share by volume", "p", share, "%", "p = V_doc / V_all");
  return share;
}

/// Marks of the panels whose wood could not be measured, the first few by name. A panel without wood is information,
/// and takes no part.
std::string marks_not_assessed(const std::vector<PanelFindings>& panels) {
  constexpr std::size_t kMarksNamed = 5;
  std::string marks;
  std::size_t count = 0;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      if (finding.check != kChainOfCustodyCheck.id || finding.verdict != Verdict::not_assessed) continue;
      if (++count <= kMarksNamed) marks += (marks.empty() ? "" : ", ") + panel.panel->mark;
    }
  }
  if (count > kMarksNamed) {
    marks += " and " + std::to_string(count - kMarksNamed) + " more, each not assessed on its own sheet";
  }
  return marks;
}

}  // namespace

const CheckDeclaration kChainOfCustodyCheck{
    .id = "carbon.chain_of_custody",
    .title = "Wood with a documented chain of custody",
    .project_title = "Wood of all panels with a documented chain of custody",
    .sentence =
        "All wood, batch by batch, has a claim of CERTIFIED, CONTROLLED or RECLAIMED, a certificate in force with "
        "number, issuer, holder and the material in its scope, a date within its days and not after the assessment, "
        "and "
        "a delivery note that names the batch; the value is the share by volume that has.",
    .clause = "ISO 38200:2018",
    .units = {"%"},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model({property("Panel_Supply.ChainOfCustodyClaim"), property("Panel_Supply.ChainOfCustodyDocument"),
                          property("Panel_Supply.ChainOfCustodyDate"), property("Panel_Supply.DeliveryNote"),
                          optional_property("Pset_ManufacturerOccurrence.BatchReference"),
                          optional_property("Pset_ManufacturerTypeInformation.ModelLabel"),
                          optional_property("Panel_Timber.MoistureContent"),
                          optional_property("Panel_Timber.ReferenceMoistureContent"),
                          optional_setting("project.assessment_date"), data_table("plausible_declarations.csv")}),
    .limits = {"What the documents say beyond the register of evidence: their text is for the buyer to check, and the "
               "number of the certificate in the register of its scheme.",
               "Fibre in materials of another category without a moisture content."}};

Finding check_chain_of_custody(const PanelAccount& account) {
  OpenFinding finding = account.open(kChainOfCustodyCheck);
  FindingBuilder& builder = finding.builder();
  builder.basis(Basis::declared).decimals(1);
  Table table{"Batches",
              {{"material", ""},
               {"batch", ""},
               {"volume", "m³"},
               {"claim", ""},
               {"document", ""},
               {"date", ""},
               {"delivery note", ""}},
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
      "The claim is the supplier's. What certificate and delivery note say of themselves stands in the register of "
      "evidence; whether their text bears it out is for the buyer to check.");
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
