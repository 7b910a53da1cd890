#include "core/trace/comparison_text.h"

#include <cstddef>
#include <nlohmann/json.hpp>

#include "core/api/support/words.h"
#include "core/pipeline/record/json.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kMarksInLine = 6;

using nlohmann::ordered_json;

std::string cause_line(const Cause& cause) {
  std::string text = "  " + to_string(cause) + ": " + to_string(cause.effects);
  if (!cause.panels.empty()) {
    text += "; data of " + std::to_string(cause.panels.size()) + " panels: " + list_some(cause.panels, kMarksInLine);
  } else if (cause.kind == CauseKind::export_file) {
    text += "; the data of no panel changed";
  }
  return text + "\n";
}

std::string change_lines(const Comparison& comparison, bool figures, ChangeLines as) {
  std::string lines;
  const auto add = [&](const std::string& text, const Change& change) {
    lines += "  " + text + " [" + causes_text(comparison, change) + "]\n";
  };
  if (as == ChangeLines::grouped) {
    for (const ChangeGroup& group : groups_of(comparison, figures)) add(to_string(group), *group.most);
    return lines;
  }
  for (const Change& change : comparison.changes) {
    const bool is_figure = change.kind == ChangeKind::value_changed;
    if (is_figure == figures && comparison.is_shown(change)) add(to_string(change), change);
  }
  return lines;
}

ordered_json build_json(const ComparedBuild& build) {
  return {{"time_utc", build.time_utc},
          {"issue", {{"id", build.issue.id}, {"status", build.issue.status}}},
          {"hash_tree_root", build.hash_tree_root}};
}

ordered_json effects_json(const Effects& effects) {
  return {{"figures", effects.figures}, {"verdicts", effects.verdicts}, {"worse", effects.worse}};
}

ordered_json cause_json(const Cause& cause) {
  return {{"kind", to_string(cause.kind)}, {"name", cause.name},     {"before", cause.before},
          {"after", cause.after},          {"panels", cause.panels}, {"effects", effects_json(cause.effects)}};
}

ordered_json change_json(const Change& change) {
  ordered_json json{{"kind", to_string(change.kind)},
                    {"panel", change.panel_mark},
                    {"check", change.check},
                    {"before", change.before},
                    {"after", change.after},
                    {"worse", change.worse},
                    {"share", nullptr},
                    {"causes", change.causes}};
  if (change.share) json["share"] = *change.share;
  return json;
}

}  // namespace

std::string comparison_text(const Comparison& comparison, ChangeLines lines) {
  std::string text = "from " + to_string(comparison.before) + " to " + to_string(comparison.after) + ": ";
  if (comparison.nothing_changed()) return text + "nothing changed\n";
  text += std::to_string(comparison.causes.size()) + (comparison.causes.size() == 1 ? " cause, " : " causes, ") +
          std::to_string(comparison.worse()) + " worse\ncauses:\n";
  for (const Cause& cause : comparison.causes) text += cause_line(cause);
  if (comparison.not_attributed.figures + comparison.not_attributed.verdicts > 0) {
    text += "  not attributed to one of them: " + to_string(comparison.not_attributed) + "\n";
  }
  const std::string percent = value_text(comparison.least_share * 100.0, "%", 1);
  const auto add = [&text](const std::string& heading, const std::string& changes) {
    if (!changes.empty()) text += heading + changes;
  };
  add("verdicts and panels that moved:\n", change_lines(comparison, false, lines));
  add("figures that moved by more than " + percent + ":\n", change_lines(comparison, true, lines));
  if (const std::size_t small = comparison.small_figures(); small > 0) {
    text += std::to_string(small) + " figures moved by " + percent + " or less\n";
  }
  return text;
}

std::string comparison_json(const Comparison& comparison) {
  const ordered_json json{{"format", "panel-dossier-comparison"},
                          {"version", 1},
                          {"before", build_json(comparison.before)},
                          {"after", build_json(comparison.after)},
                          {"least_share", comparison.least_share},
                          {"causes", json_array(comparison.causes, cause_json)},
                          {"not_attributed", effects_json(comparison.not_attributed)},
                          {"changes", json_array(comparison.changes, change_json)}};
  return json.dump(2) + "\n";
}

}  // namespace panel_dossier
