#include "plugins/fire/evidence/documents.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier::fire {

namespace {

/// Tests of walls and the classification that they lead to (EN 13501-2:2016 7.3 and 7.5), and tests of curtain walls.
constexpr std::array<std::string_view, 6> kResistanceStandards{"13501-2", "1363-1", "1364-1",
                                                               "1364-3",  "1364-4", "1365-1"};

bool may_classify(const Evidence& document, std::string_view resistance_report) {
  // A file that cannot be read, or is another than it should be, does not say what the document is: it may be the one.
  const bool unread = document.status != EvidenceStatus::present &&
                      (document.kind == EvidenceKind::not_stated || document.status == EvidenceStatus::unnamed);
  const bool may_be = unread || document.kind == EvidenceKind::classification_report ||
                      document.kind == EvidenceKind::product_declaration;
  return may_be && document.id != resistance_report;
}

void add_once(std::vector<std::string>& faults, std::string fault) {
  const bool known = std::find(faults.begin(), faults.end(), fault) != faults.end();
  if (!fault.empty() && !known) faults.push_back(std::move(fault));
}

}  // namespace

std::string assessment_day(const Settings& settings) {
  const auto day = settings.text("project.assessment_date");
  return day ? day->value : std::string();
}

std::string not_in_the_export(std::string_view id) {
  return "document '" + std::string(id) + "' is not in the export (IfcDocumentReference)";
}

std::string resistance_report_fault(const Evidence& document, const std::string& day) {
  std::string fault =
      evidence_fault(document, {EvidenceKind::fire_test_report, EvidenceKind::classification_report}, day);
  if (!fault.empty() || document.standard.empty()) return fault;
  const bool known =
      std::any_of(kResistanceStandards.begin(), kResistanceStandards.end(),
                  [&](std::string_view standard) { return document.standard.find(standard) != std::string::npos; });
  if (known) return {};
  return "document '" + document.id + "' is to '" + document.standard + "', which gives no class of EN 13501-2";
}

std::string reaction_document_fault(const Evidence& document, const std::string& day) {
  std::string fault =
      evidence_fault(document, {EvidenceKind::classification_report, EvidenceKind::product_declaration}, day);
  if (!fault.empty() || document.standard.empty() || document.kind != EvidenceKind::classification_report) return fault;
  if (document.standard.find("13501-1") != std::string::npos) return {};
  return "document '" + document.id + "' is to '" + document.standard + "', which gives no class of EN 13501-1";
}

namespace {

/// What is wrong with each document of the panel that could stand behind a class; empty when one serves.
std::vector<std::string> panel_document_faults(const Panel& panel, const Project& project, const std::string& day) {
  const auto report = panel.properties.text("Panel_FireEvidence", "DocumentId");
  std::vector<std::string> faults;
  for (const std::size_t index : panel.evidence) {
    const Evidence& document = project.evidence[index];
    if (!may_classify(document, report ? std::string_view(report->value) : std::string_view())) continue;
    std::string fault = reaction_document_fault(document, day);
    if (fault.empty()) return {};
    faults.push_back(std::move(fault));
  }
  if (faults.empty()) {
    faults.emplace_back(
        "no classification report and no declaration of performance of the panel stands behind the reaction to fire "
        "classes (IfcRelAssociatesDocument, or Panel_Fire.DocumentId of the material)");
  }
  return faults;
}

}  // namespace

std::string missing_class_documents(const Panel& panel, const Project& project, const Settings& settings,
                                    const std::vector<std::optional<std::size_t>>& materials) {
  const std::string day = assessment_day(settings);
  std::vector<std::string> faults;
  bool needs_panel_document = false;
  for (const auto& material : materials) {
    const auto id = material ? project.materials[*material].properties.text("Panel_Fire", "DocumentId") : std::nullopt;
    needs_panel_document = needs_panel_document || !id;
    const Evidence* document = id ? find_evidence(project, id->value) : nullptr;
    if (document != nullptr) add_once(faults, reaction_document_fault(*document, day));
    if (id && document == nullptr) add_once(faults, not_in_the_export(id->value));
  }
  if (needs_panel_document) {
    for (std::string& fault : panel_document_faults(panel, project, day)) add_once(faults, std::move(fault));
  }
  return joined(faults, "; ");
}

std::vector<CheckInput> class_document_inputs() {
  return {optional_property("Panel_Fire.DocumentId"), optional_property("Panel_FireEvidence.DocumentId"),
          optional_setting("project.assessment_date")};
}

}  // namespace panel_dossier::fire
