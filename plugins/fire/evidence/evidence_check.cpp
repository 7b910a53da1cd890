#include "plugins/fire/evidence/evidence_check.h"

#include <string>
#include <variant>

#include "core/api/finding/finding_builder.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kContentNotRead =
    "Only whether the document is there is judged here; its content must be read by a competent person.";

}  // namespace

const CheckDeclaration kFireEvidenceCheck{
    .id = "fire.evidence",
    .title = "Fire evidence of the panel",
    .project_title = "",
    .sentence =
        "The document that the panel names behind its fire resistance is in the export and its file is in the "
        "project folder.",
    .clause = "EN 13501-2:2016 (classification report behind the class)",
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels,
    .inputs = {property("Panel_FireEvidence.DocumentId")},
    .limits = {kContentNotRead},
    .role = ""};

namespace {

std::string status_text(EvidenceStatus status) {
  switch (status) {
    case EvidenceStatus::present: return "present";
    case EvidenceStatus::missing: return "file missing";
    case EvidenceStatus::refused: break;
  }
  return "refused: outside the project folder";
}

void add_row(Table& table, const Evidence& document, bool for_fire) {
  table.rows.push_back({document.id, document.name, document.location,
                        std::string(for_fire ? "fire resistance" : "other"), status_text(document.status)});
}

}  // namespace

Finding fire_evidence(const Panel& panel, const Project& project) {
  FindingBuilder builder(kFireEvidenceCheck, panel.global_id);
  builder.basis(Basis::declared);  // until the document is seen to be there
  const auto id = panel.properties.text("Panel_FireEvidence", "DocumentId");
  Table table{"Documents of the panel", {{"id", ""}, {"name", ""}, {"location", ""}, {"for", ""}, {"status", ""}}, {}};
  const Evidence* document = id ? find_evidence(project, id->value) : nullptr;
  if (document != nullptr) add_row(table, *document, true);
  for (const std::size_t index : panel.evidence) {
    if (&project.evidence[index] != document) add_row(table, project.evidence[index], false);
  }
  if (!table.rows.empty()) builder.table(table);
  builder.note(kContentNotRead);
  if (!id || id->value.empty()) return builder.needs_evidence("no document is named (Panel_FireEvidence.DocumentId)");
  builder.text("document", id, {});
  if (document == nullptr) {
    return builder.needs_evidence("document '" + id->value + "' is not in the export (IfcDocumentReference)");
  }
  builder.text("location", Sourced<std::string>{document->location, document->origin}, {});
  const std::string status = status_text(document->status);
  builder.step_text("document the panel names", id->value).step_text("its entry in the export", document->name);
  builder.step_text("its file, '" + document->location + "'", status);
  if (document->status == EvidenceStatus::present) {
    builder.basis(Basis::test_evidence);
    Finding finding = builder.judge_class(id->value + ": " + status, Relation::none, {}, Verdict::pass, {});
    finding.limit = std::monostate{};
    return finding;
  }
  return builder.needs_evidence("document '" + id->value + "': " + status + " ('" + document->location + "')");
}

}  // namespace panel_dossier::fire
