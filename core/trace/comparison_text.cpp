#include "core/trace/comparison_text.h"

#include <algorithm>
#include <cstddef>
#include <nlohmann/json.hpp>

#include "core/api/support/words.h"
#include "core/trace/json.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

std::string cause_line(const Cause& cause) {
  std::string text = "  " + to_string(cause) + ": " + to_string(cause.effects);
  if (!cause.panels.empty()) {
    text += "; data of " + std::to_string(cause.panels.size()) + " panels: " + some_marks(cause.panels);
  } else if (cause.kind == CauseKind::export_file) {
    text += "; the data of no panel changed";
  }
  return text + "\n";
}

/// The changes that stand one by one and fit, each with its causes.
template <typename Fits>
std::string change_lines(const Comparison& comparison, const std::string& heading, Fits fits) {
  std::string lines;
  for (const Change& change : comparison.changes) {
    if (!comparison.is_shown(change) || !fits(change)) continue;
    lines += "  " + to_string(change) + " [" + causes_text(comparison, change) + "]\n";
  }
  return lines.empty() ? lines : heading + lines;
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

std::string some_marks(const std::vector<std::string>& marks) {
  constexpr std::size_t kShown = 6;
  const std::size_t shown = std::min(kShown, marks.size());
  std::string text = joined({marks.begin(), marks.begin() + static_cast<std::ptrdiff_t>(shown)});
  if (shown < marks.size()) text += " and " + std::to_string(marks.size() - shown) + " more";
  return text;
}

std::string comparison_text(const Comparison& comparison) {
  std::string text = "from " + to_string(comparison.before) + " to " + to_string(comparison.after) + ": ";
  if (comparison.nothing_changed()) return text + "nothing changed\n";
  text += std::to_string(comparison.causes.size()) + (comparison.causes.size() == 1 ? " cause, " : " causes, ") +
          std::to_string(comparison.worse()) + " worse\ncauses:\n";
  for (const Cause& cause : comparison.causes) text += cause_line(cause);
  if (comparison.not_attributed.figures + comparison.not_attributed.verdicts > 0) {
    text += "  not attributed to one of them: " + to_string(comparison.not_attributed) + "\n";
  }
  const std::string percent = value_text(comparison.least_share * 100.0, "%", 1);
  text += change_lines(comparison, "verdicts and panels that moved:\n",
                       [](const Change& change) { return change.kind != ChangeKind::value_changed; });
  text += change_lines(comparison, "figures that moved by more than " + percent + ":\n",
                       [](const Change& change) { return change.kind == ChangeKind::value_changed; });
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
