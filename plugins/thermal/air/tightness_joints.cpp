#include "plugins/thermal/air/tightness_joints.h"

#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kClause = "length of the joints from the panel's geometry (common practice)";

Finding close(const JointLengths& lengths, FindingBuilder builder) {
  if (builder.incomplete()) return builder.not_assessed();
  builder.step("head joints", "l_head", lengths.head_m, "m");
  builder.step("sole joints", "l_sole", lengths.sole_m, "m");
  builder.step("side joints", "l_side", lengths.sides_m, "m");
  builder.step("joints around openings", "l_o", lengths.openings_m, "m", "Σ 2 · (b_o + h_o)");
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

Finding check_joints(const Panel& panel) {
  FindingBuilder builder("thermal.joint_length", "Joints to be sealed around the panel and its openings",
                         panel.global_id, kClause);
  builder.positive("width of the panel", "b", "m", panel.width_m, {});
  builder.positive("height of the panel", "h", "m", panel.height_m, {});
  for (const Opening& opening : panel.openings) {
    builder.positive("width of opening '" + opening.name + "'", "b_o", "m",
                     Sourced<double>{opening.width_m(), opening.origin}, {});
    builder.positive("height of opening '" + opening.name + "'", "h_o", "m",
                     Sourced<double>{opening.height_m(), opening.origin}, {});
  }
  if (!builder.incomplete()) builder.table(schedule(panel));
  return close(joint_lengths(panel), std::move(builder));
}

Finding total_joints(const Project& project) {
  FindingBuilder builder("thermal.joint_length", "Joints to be sealed around all panels and their openings", "",
                         kClause);
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
  return close({head.total(), sole.total(), sides.total(), openings.total()}, std::move(builder));
}

}  // namespace panel_dossier::thermal
