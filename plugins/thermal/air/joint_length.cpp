#include "plugins/thermal/air/joint_length.h"

#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

/// How the lengths of one panel were worked out; empty texts for those of the project.
struct Formulas {
  std::string head;
  std::string sole;
  std::string sides;
  std::string openings;
};

Finding close(const JointLengths& lengths, const Formulas& formulas, FindingBuilder builder) {
  if (builder.incomplete()) return builder.not_assessed();
  builder.step("head joints", "l_head", lengths.head_m, "m", formulas.head);
  builder.step("sole joints", "l_sole", lengths.sole_m, "m", formulas.sole);
  builder.step("side joints", "l_side", lengths.sides_m, "m", formulas.sides);
  builder.step("joints around openings", "l_o", lengths.openings_m, "m", formulas.openings);
  builder.note(
      "Net lengths on one face, without laps and waste. A joint between two panels counts with each of them; corners "
      "and intermediate floors follow the same edges. Thresholds of doors are part of the openings.");
  return builder.inform(lengths.total_m(), "m");
}

Table schedule(const Panel& panel) {
  Table table{"Tape schedule", {{"joint", ""}, {"length", "m"}}, {}};
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  table.rows.push_back({std::string("head"), width_m});
  table.rows.push_back({std::string("sole"), width_m});
  table.rows.push_back({std::string("left side"), height_m});
  table.rows.push_back({std::string("right side"), height_m});
  for (const Opening& opening : panel.openings) {
    table.rows.push_back({"around '" + opening.name + "'", 2.0 * (opening.width_m() + opening.height_m())});
  }
  return table;
}

}  // namespace

JointLengths joint_lengths(const Panel& panel) {
  JointLengths lengths{panel.width_m.value, panel.width_m.value, 2.0 * panel.height_m.value, 0.0};
  for (const Opening& opening : panel.openings) lengths.openings_m += 2.0 * (opening.width_m() + opening.height_m());
  return lengths;
}

const CheckDeclaration kJointLengthCheck{
    .id = "thermal.joint_length",
    .title = "Joints to be sealed around the panel and its openings",
    .project_title = "Joints to be sealed around all panels and their openings",
    .sentence =
        "The length is the perimeter of the panel and of each of its openings on one face; of the project, of "
        "all panels.",
    .clause = "length of the joints from the panel's geometry (common practice)",
    .units = {"m"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .limits = {"A joint between two panels counts with each of them.",
               "Laps, waste and penetrations by services are not included."}};

Finding check_joints(const Panel& panel) {
  FindingBuilder builder(kJointLengthCheck, panel.global_id);
  builder.positive("width of the panel", "b", "m", panel.width_m, {});
  builder.positive("height of the panel", "h", "m", panel.height_m, {});
  Formulas formulas{"l_head = b", "l_sole = b", "l_side = 2 · h", {}};
  for (std::size_t i = 0; i < panel.openings.size(); ++i) {
    const Opening& opening = panel.openings[i];
    const std::string width = numbered_symbol("b_o", i, panel.openings.size());
    const std::string height = numbered_symbol("h_o", i, panel.openings.size());
    builder.positive("width of opening '" + opening.name + "'", width, "m",
                     Sourced<double>{opening.width_m(), opening.origin}, {});
    builder.positive("height of opening '" + opening.name + "'", height, "m",
                     Sourced<double>{opening.height_m(), opening.origin}, {});
    formulas.openings.append(i == 0 ? "l_o = 2 · (" : " + 2 · (")
        .append(width)
        .append(" + ")
        .append(height)
        .append(")");
  }
  if (!builder.incomplete()) builder.table(schedule(panel));
  return close(joint_lengths(panel), formulas, std::move(builder));
}

Finding total_joints(const Project& project) {
  FindingBuilder builder(kJointLengthCheck, "");
  ExactSum head;
  ExactSum sole;
  ExactSum sides;
  ExactSum openings;
  for (const Panel& panel : project.panels) {
    const JointLengths lengths = joint_lengths(panel);
    head.add(lengths.head_m);
    sole.add(lengths.sole_m);
    sides.add(lengths.sides_m);
    openings.add(lengths.openings_m);
  }
  builder.positive("panels in the sum", "n", "",
                   Sourced<double>{static_cast<double>(project.panels.size()), project.origin}, {});
  return close({head.total(), sole.total(), sides.total(), openings.total()}, {}, std::move(builder));
}

}  // namespace panel_dossier::thermal
