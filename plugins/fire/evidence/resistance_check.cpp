#include "plugins/fire/evidence/resistance_check.h"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "plugins/fire/calculation/separating_function.h"
#include "plugins/fire/calculation/stud_steps.h"
#include "plugins/fire/evidence/documents.h"
#include "plugins/fire/evidence/field_of_application.h"
#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/evidence/resistance_class.h"

namespace panel_dossier::fire {

namespace {

// 7.3 is of elements that carry load, walls that separate among them; 7.5 of those that do not.
constexpr const char* kBearingClause =
    "EN 13501-2:2016 7.3 (class, from memory); EN 1995-1-2:2004 3.4, 4.2.2, annexes C to E (calculation beside the "
    "test)";
constexpr const char* kSeparatingClause =
    "EN 13501-2:2016 7.3 of a load-bearing wall, else 7.5 (class, from memory); EN 1995-1-2:2004 3.4, 4.2.2, annexes C "
    "to E (calculation beside the test)";

constexpr const char* kSitePenetrations =
    "Penetrations made on site are not in the export; each needs a seal of the panel's class by test.";

/// Each input once, in the order given.
std::vector<CheckInput> inputs_of(std::initializer_list<std::vector<CheckInput>> lists) {
  std::vector<CheckInput> all;
  for (const std::vector<CheckInput>& list : lists) {
    for (const CheckInput& input : list) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const CheckInput& other) {
        return other.source == input.source && other.name == input.name;
      });
      if (!known) all.push_back(input);
    }
  }
  return all;
}

std::vector<CheckInput> evidence_inputs() {
  return {property("Panel_FireEvidence.DocumentId"), property("Panel_FireEvidence.Resistance"),
          optional_property("Pset_WallCommon.FireRating")};
}

const std::vector<std::string>& evidence_limits() {
  static const std::vector<std::string> limits{
      "Whether the report says what the properties say is not read: a competent person must read it.",
      "Conditions of the test beyond size, load, studs, openings, fixings and layers, among them its joints of boards, "
      "are not compared.",
      "The test's layers are told by the materials' names, thicknesses and densities, not by their products."};
  return limits;
}

}  // namespace

const CheckDeclaration kLoadBearingResistanceCheck{
    .id = "fire.resistance_load_bearing",
    .title = "Fire resistance: load-bearing capacity",
    .project_title = "",
    .sentence =
        "The class R shown by a test whose report serves on the day of assessment and whose field of application "
        "covers "
        "the panel is no shorter than the class R required.",
    .clause = kBearingClause,
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::classification,
    .scope = CheckScope::panels,
    .inputs =
        with_model(inputs_of({requirement_inputs(),
                              evidence_inputs(),
                              document_use_inputs(),
                              {property("Panel_FireEvidence.MaxLoad"), property("Panel_Structure.PermanentLineLoad"),
                               property("Panel_Structure.VariableLineLoad")},
                              field_of_application_inputs(),
                              cassette_inputs(),
                              studs_in_fire_inputs()})),
    .limits = evidence_limits(),
    .role = std::string(role::kBearingInFire)};

const CheckDeclaration kSeparatingResistanceCheck{
    .id = "fire.resistance_integrity_insulation",
    .title = "Fire resistance: integrity and insulation",
    .project_title = "",
    .sentence =
        "The class EI shown by a test whose report serves on the day of assessment and whose field of application "
        "covers the panel is no shorter than the class EI required.",
    .clause = kSeparatingClause,
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::classification,
    .scope = CheckScope::panels,
    .inputs = with_model(inputs_of(
        {requirement_inputs(),
         evidence_inputs(),
         document_use_inputs(),
         {optional_property("Panel_FireEvidence.MaxLoad"), optional_property("Panel_Structure.PermanentLineLoad"),
          optional_property("Panel_Structure.VariableLineLoad")},
         field_of_application_inputs(),
         cassette_inputs(),
         separating_function_inputs()})),
    .limits = evidence_limits(),
    .role = std::string(role::kFireResistance)};

const CheckDeclaration kPenetrationSealsCheck{
    .id = "fire.penetration_seals",
    .title = "Seals of service penetrations",
    .project_title = "",
    .sentence =
        "Each opening that no window or door fills is a service penetration that needs a seal of the panel's "
        "class EI by test.",
    .clause = "EN 13501-2:2016 7.5.8 (penetration seals); EN 1366-3 by test",
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels,
    .inputs = requirement_inputs(),
    .limits = {kSitePenetrations, "Evidence of a seal is not read: each penetration stays an open point."},
    .role = ""};

namespace {

/// What the evidence shows, and every point on which it does not yet cover the panel.
struct ShownResistance {
  std::vector<ResistanceClass> tested;           ///< by side of fire; empty when none is given or it cannot be read
  std::optional<Sourced<std::string>> declared;  ///< Pset_WallCommon.FireRating
  bool document_serves = false;                  ///< the document that the panel names is there and is such a report
  std::vector<std::string> open_points;          ///< empty: the evidence covers the panel
};

void read_tested_class(FindingBuilder& builder, const Panel& panel, ShownResistance& shown) {
  const auto tested = panel.properties.text("Panel_FireEvidence", "Resistance");
  shown.declared = panel.properties.text("Pset_WallCommon", "FireRating");
  const auto& declared = shown.declared;
  if (declared) builder.text("class declared for the panel", declared, {});
  if (tested) {
    builder.text("class shown by test", tested, {});
    auto classes = parse_resistance_classes(tested->value);
    if (!classes) shown.open_points.push_back(not_a_class(*tested));
    if (classes) shown.tested = std::move(*classes);
    return;
  }
  shown.open_points.push_back(declared ? "'" + declared->value +
                                             "' is declared (Pset_WallCommon.FireRating) but no tested class is given "
                                             "(Panel_FireEvidence.Resistance)"
                                       : std::string("no tested class (Panel_FireEvidence.Resistance)"));
}

void read_document(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
                   ShownResistance& shown) {
  const auto id = panel.properties.text("Panel_FireEvidence", "DocumentId");
  if (!id || id->value.empty()) {
    shown.open_points.emplace_back("no document (Panel_FireEvidence.DocumentId)");
    return;
  }
  builder.text("document", id, {});
  const Evidence* document = find_evidence(project, id->value);
  std::string fault = document == nullptr ? not_in_the_export(id->value)
                                          : resistance_report_fault(*document, project, document_use(panel, settings));
  shown.document_serves = fault.empty();
  if (!fault.empty()) shown.open_points.push_back(std::move(fault));
}

/// Reads Panel_FireEvidence and Pset_WallCommon.FireRating, records them and the panel's size as inputs and adds the
/// table of the field of application. The load is compared when `load_bearing`.
ShownResistance shown_resistance(FindingBuilder& builder, const Panel& panel, const Project& project,
                                 const Settings& settings, bool load_bearing) {
  ShownResistance shown;
  read_tested_class(builder, panel, shown);
  const bool tested = panel.properties.find("Panel_FireEvidence", "Resistance") != nullptr;
  if (tested) read_document(builder, panel, project, settings, shown);
  builder.number("height of the panel", "H", "m", panel.height_m, {});
  builder.number("width of the panel", "B", "m", panel.width_m, {});
  // Without a tested class there is no field of application to compare with.
  if (!tested) return shown;
  const auto outside = compare_field_of_application(builder, panel, project, load_bearing);
  shown.open_points.insert(shown.open_points.end(), outside.begin(), outside.end());
  return shown;
}

/// Why the sides of fire that are asked for are not shown; empty when they are, and when neither class names a side and
/// the tables ask for the inside alone.
std::string side_fault(FindingBuilder& builder, const Requirement& requirement, const ResistanceClass& tested) {
  ResistanceClass required = *requirement.asked;
  const bool stated = required.direction != FireDirection::not_stated;
  required.direction = requirement.sides();
  if (!stated && tested.direction == FireDirection::not_stated && required.direction != FireDirection::both) {
    builder.note(
        "Neither the class required nor the class tested names the side of the fire (i→o), (o→i) or (i↔o); a competent "
        "person must see in the report that it was the side required.");
    return {};
  }
  if (required.direction == FireDirection::not_stated && tested.direction != FireDirection::both) {
    return "the class required names no side of the fire, and the test is for one side";
  }
  if (tested.covers_direction_of(required)) return {};
  return "the test does not state the direction of fire that is required";
}

/// What is declared beside the test must not say more than the test, nor less than is required.
std::string declared_fault(const ShownResistance& shown, const ResistanceClass& tested, const ResistanceClass& required,
                           std::string_view criteria) {
  if (!shown.declared) return {};
  const auto declared = parse_resistance_class(shown.declared->value);
  if (!declared || (tested.meets(*declared, criteria) && declared->meets(required, criteria))) return {};
  return "'" + shown.declared->value + "' is declared (Pset_WallCommon.FireRating), and the test shows " +
         class_text(tested, criteria) + " (Panel_FireEvidence.Resistance)";
}

/// Closes the finding: fail when the tested class is too short in any criterion, evidence needed on any open point of
/// the test or the requirement, else pass. The basis is test evidence only when the document serves; without it the
/// class is `declared, not shown`. `criteria` are the letters judged, for example `EI`.
Finding judge_resistance(FindingBuilder& builder, const Requirement& requirement, const ShownResistance& shown,
                         std::string_view criteria) {
  const ResistanceClass& required = *requirement.asked;
  const std::string limit = class_text(required, criteria);
  builder.basis(shown.document_serves ? Basis::test_evidence : Basis::declared);
  if (shown.tested.empty()) {
    Finding finding =
        builder.judge_class({}, Relation::at_least, limit, Verdict::evidence_needed, joined(shown.open_points, "; "));
    finding.value = std::monostate{};
    return finding;
  }
  const ResistanceClass tested = class_for(shown.tested, requirement.sides());
  std::string value = class_text(tested, criteria);
  if (tested.minutes_for(criteria) == 0) value = "no " + std::string(criteria);
  if (!shown.document_serves) value += " declared, not shown";
  if (!tested.meets(required, criteria)) {
    return builder.judge_class(value, Relation::at_least, limit, Verdict::fail,
                               "the tested class is shorter than the class required");
  }
  std::vector<std::string> open_points = shown.open_points;
  for (std::string point : {side_fault(builder, requirement, tested), declared_fault(shown, tested, required, criteria),
                            requirement.open_point}) {
    if (!point.empty()) open_points.push_back(std::move(point));
  }
  const Verdict verdict = open_points.empty() ? Verdict::pass : Verdict::evidence_needed;
  return builder.judge_class(value, Relation::at_least, limit, verdict, joined(open_points, "; "));
}

}  // namespace

Finding integrity_and_insulation(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, const Cassette& cassette) {
  FindingBuilder builder(kSeparatingResistanceCheck, panel.global_id);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  const Requirement required = required_resistance(panel, project, settings, tables, load_bearing.value_or(false));
  add_requirement(builder, required, load_bearing.value_or(false));
  if (required.asked && required.asked->minutes_for("EI") == 0) {
    builder.missing("the class required states no E and I, or no common period for both");
  }
  if (const std::string fault = load_contradiction(panel); !fault.empty()) builder.missing(fault);
  if (builder.incomplete()) return builder.not_assessed();
  const ShownResistance shown = shown_resistance(builder, panel, project, settings, *load_bearing);
  add_separating_function(builder, panel, project, cassette, tables);
  return judge_resistance(builder, required, shown, "EI");
}

Finding load_bearing_capacity(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, const Cassette& cassette) {
  FindingBuilder builder(kLoadBearingResistanceCheck, panel.global_id);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  if (!load_bearing) return builder.not_assessed();
  if (const std::string fault = load_contradiction(panel); !fault.empty()) builder.missing(fault);
  const Requirement required = required_resistance(panel, project, settings, tables, *load_bearing);
  add_requirement(builder, required, *load_bearing);
  if (builder.incomplete() || !required.asked) return builder.not_assessed();
  const int required_min = required.asked->minutes_for("R");
  if (required_min == 0 && *load_bearing) {
    builder.missing("the panel is load-bearing but the class required states no R");
    return builder.not_assessed();
  }
  if (required_min == 0) {
    const int period_min = required.asked->minutes_for("EI");
    add_studs_in_fire(builder, panel, project, settings, cassette, tables, period_min, false);
    builder.note("The panel carries no load of the building, so no class R is asked of it.");
    return builder.inform_text("not required");
  }
  const ShownResistance shown = shown_resistance(builder, panel, project, settings, *load_bearing);
  add_studs_in_fire(builder, panel, project, settings, cassette, tables, required_min, *load_bearing);
  return judge_resistance(builder, required, shown, "R");
}

Finding penetration_seals(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kPenetrationSealsCheck, panel.global_id);
  builder.basis(Basis::declared);
  const auto load_bearing = builder.logical("load-bearing", panel.load_bearing(), "Pset_WallCommon.LoadBearing");
  builder.step("openings of the panel", "", static_cast<double>(panel.openings.size()), "");
  Table table{"Openings that nothing fills", {{"opening", ""}, {"width", "m"}, {"height", "m"}, {"seal", ""}}, {}};
  const auto asked = required_resistance(panel, project, settings, tables, load_bearing.value_or(false)).asked;
  const std::string seal = asked ? class_text(*asked, "EI") : std::string("class not known");
  for (const Opening& opening : panel.openings) {
    if (opening.filling_entity.empty()) {
      table.rows.push_back({opening.name, opening.width_m(), opening.height_m(), seal});
    }
  }
  builder.step("of these without window or door: taken as penetrations", "", static_cast<double>(table.rows.size()),
               "");
  builder.note(kSitePenetrations);
  if (builder.incomplete()) return builder.not_assessed();
  if (table.rows.empty()) return builder.inform_text("none in the export");
  const auto count = std::to_string(table.rows.size());
  builder.table(std::move(table));
  return builder.needs_evidence(count + " penetrations need seals of " + seal + " by test (EN 1366-3)");
}

}  // namespace panel_dossier::fire
