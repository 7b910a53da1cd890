#include "plugins/fire/evidence/resistance_evidence.h"

#include "core/api/support/words.h"
#include "plugins/fire/calculation/calculation_notes.h"
#include "plugins/fire/evidence/field_of_application.h"
#include "plugins/fire/evidence/resistance_class.h"

namespace panel_dossier::fire {

namespace {

void read_tested_class(FindingBuilder& builder, const Panel& panel, ShownResistance& shown) {
  const auto tested = panel.properties.text("Panel_FireEvidence", "Resistance");
  const auto declared = panel.properties.text("Pset_WallCommon", "FireRating");
  if (declared) builder.text("class declared for the panel", declared, {});
  if (tested) {
    builder.text("class shown by test", tested, {});
    shown.tested = parse_resistance_class(tested->value);
    if (!shown.tested) shown.open_points.push_back(not_a_class(*tested));
    return;
  }
  shown.open_points.push_back(declared ? "'" + declared->value +
                                             "' is declared (Pset_WallCommon.FireRating) but no tested class is given "
                                             "(Panel_FireEvidence.Resistance)"
                                       : std::string("no tested class (Panel_FireEvidence.Resistance)"));
}

void read_document(FindingBuilder& builder, const Panel& panel, const Project& project, ShownResistance& shown) {
  const auto id = panel.properties.text("Panel_FireEvidence", "DocumentId");
  if (!id || id->value.empty()) {
    shown.open_points.emplace_back("no document (Panel_FireEvidence.DocumentId)");
    return;
  }
  builder.text("document", id, {});
  const Evidence* document = find_evidence(project, id->value);
  if (document == nullptr) {
    shown.open_points.push_back("document '" + id->value + "' is not in the export (IfcDocumentReference)");
  } else if (document->status == EvidenceStatus::missing) {
    shown.open_points.push_back("file of document '" + id->value + "' is missing: '" + document->location + "'");
  } else if (document->status == EvidenceStatus::refused) {
    shown.open_points.push_back("file of document '" + id->value + "' lies outside the project folder: '" +
                                document->location + "'");
  } else {
    shown.document_present = true;
  }
}

}  // namespace

ShownResistance shown_resistance(FindingBuilder& builder, const Panel& panel, const Project& project,
                                 bool load_bearing) {
  ShownResistance shown;
  read_tested_class(builder, panel, shown);
  // Without a tested class there is no field of application to compare with.
  if (!panel.properties.find("Panel_FireEvidence", "Resistance")) return shown;
  read_document(builder, panel, project, shown);
  const auto outside = compare_field_of_application(builder, panel, project, load_bearing);
  shown.open_points.insert(shown.open_points.end(), outside.begin(), outside.end());
  return shown;
}

Finding judge_resistance(FindingBuilder& builder, const Requirement& requirement, const ShownResistance& shown,
                         std::string_view criteria) {
  const ResistanceClass& required = *requirement.asked;
  const std::string limit = class_text(required, criteria);
  builder.basis(shown.document_present ? Basis::test_evidence : Basis::declared);
  if (!shown.tested) {
    Finding finding =
        builder.judge_class({}, Relation::at_least, limit, Verdict::evidence_needed, joined(shown.open_points, "; "));
    finding.value = std::monostate{};
    return finding;
  }
  std::string value = class_text(*shown.tested, criteria);
  if (shown.tested->minutes_for(criteria) == 0) value = "no " + std::string(criteria);
  if (!shown.document_present) value += " declared, not shown";
  if (!shown.tested->meets(required, criteria)) {
    return builder.judge_class(value, Relation::at_least, limit, Verdict::fail,
                               "the tested class is shorter than the class required");
  }
  std::vector<std::string> open_points = shown.open_points;
  if (!shown.tested->covers_direction_of(required)) {
    open_points.emplace_back("the test does not state the direction of fire that is required");
  }
  if (!requirement.below_table.empty()) open_points.push_back(requirement.below_table);
  const Verdict verdict = open_points.empty() ? Verdict::pass : Verdict::evidence_needed;
  return builder.judge_class(value, Relation::at_least, limit, verdict, joined(open_points, "; "));
}

}  // namespace panel_dossier::fire
