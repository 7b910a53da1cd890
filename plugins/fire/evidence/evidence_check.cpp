#include "plugins/fire/evidence/evidence_check.h"

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "plugins/fire/evidence/documents.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kContentNotRead =
    "What the report says beside its own number and kind is not read here: a competent person must read it.";

std::vector<CheckInput> evidence_check_inputs() {
  std::vector<CheckInput> inputs{property("Panel_FireEvidence.DocumentId")};
  for (CheckInput& input : document_use_inputs()) inputs.push_back(std::move(input));
  return inputs;
}

}  // namespace

const CheckDeclaration kFireEvidenceCheck{
    .id = "fire.evidence",
    .title = "Fire evidence of the panel",
    .project_title = "",
    .sentence =
        "The document that the panel names behind its fire resistance is in the export, its file holds text or pages "
        "and names its own number where it is text, and it is a fire test or classification report that is valid on "
        "the day of assessment, whose record states issuer, standard with edition, day of issue and sponsor, and that "
        "the maker of the panel may use in the country of the project.",
    .clause = "EN 13501-2:2016 (classification report behind the class)",
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels,
    .inputs = evidence_check_inputs(),
    .limits = {kContentNotRead},
    .role = ""};

namespace {

/// Few columns, so that none is narrower than its words: a number that is the id is not said again.
void add_row(Table& table, const Evidence& document, bool for_fire) {
  const bool numbered_otherwise = !document.number.empty() && document.number != document.id;
  const bool both = !document.issuer.empty() && !document.standard.empty();
  table.rows.push_back({document.id + (numbered_otherwise ? ", no. " + document.number : ""), document.name,
                        std::string(to_string(document.kind)), document.issuer + (both ? "; " : "") + document.standard,
                        document.issued, document.expires, document.location, std::string(for_fire ? "fire" : "other"),
                        std::string(to_string(document.status))});
}

void add_terms(FindingBuilder& builder, const Evidence& document) {
  if (!document.sponsor.empty()) builder.step_text("made for", document.sponsor);
  if (!document.permission.empty()) builder.step_text("permission to use it", document.permission);
  if (!document.countries.empty()) builder.step_text("countries in which it may be used", document.countries);
}

}  // namespace

Finding fire_evidence(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder builder(kFireEvidenceCheck, panel.global_id);
  builder.basis(Basis::declared);  // until the document is seen to serve
  const auto id = panel.properties.text("Panel_FireEvidence", "DocumentId");
  Table table{"Documents of the panel",
              {{"id", ""},
               {"name", ""},
               {"kind", ""},
               {"issuer; standard", ""},
               {"issued", ""},
               {"expires", ""},
               {"location", ""},
               {"for", ""},
               {"status", ""}},
              {}};
  const Evidence* document = id ? find_evidence(project, id->value) : nullptr;
  if (document != nullptr) add_row(table, *document, true);
  for (const std::size_t index : panel.evidence) {
    if (&project.evidence[index] != document) add_row(table, project.evidence[index], false);
  }
  if (!table.rows.empty()) builder.table(table);
  builder.note(kContentNotRead);
  if (const auto day = settings.text("project.assessment_date")) builder.text("day of assessment", day, {});
  if (!id || id->value.empty()) return builder.needs_evidence("no document is named (Panel_FireEvidence.DocumentId)");
  builder.text("document", id, {});
  if (document == nullptr) return builder.needs_evidence(not_in_the_export(id->value));
  builder.text("location", Sourced<std::string>{document->location, document->origin}, {});
  const std::string status(to_string(document->status));
  builder.step_text("document the panel names", id->value).step_text("its entry in the export", document->name);
  builder.step_text("its kind", std::string(to_string(document->kind)));
  builder.step_text("its file, '" + document->location + "'", status);
  const DocumentUse use = document_use(panel, settings);
  if (const auto maker = panel.properties.text("Pset_ManufacturerTypeInformation", "Manufacturer")) {
    builder.text("maker of the panel", maker, {});
  }
  if (const auto where = settings.text("project.jurisdiction")) builder.text("jurisdiction", where, {});
  add_terms(builder, *document);
  const std::string fault = resistance_report_fault(*document, project, use);
  if (!fault.empty()) return builder.needs_evidence(fault);
  builder.basis(Basis::test_evidence);
  Finding finding = builder.judge_class(id->value + ": " + status, Relation::none, {}, Verdict::pass, {});
  finding.limit = std::monostate{};
  return finding;
}

}  // namespace panel_dossier::fire
