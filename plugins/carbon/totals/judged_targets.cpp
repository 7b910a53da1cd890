#include "plugins/carbon/totals/judged_targets.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kUnit = "kg CO2e/m²";

/// What has been judged so far.
struct Judged {
  Table table;
  std::string exceeded;  ///< reasons, one for each target and subject; empty while all are met
  double largest_use = 0.0;
  std::optional<double> lowest_limit;  ///< for the value of the finding
  bool any = false;
  std::string most_used;  ///< the target of that use, with its modules and subject
};

bool selects(const Target& target, const TargetSubject& subject) {
  return std::find(subject.applies_to.begin(), subject.applies_to.end(), target.applies_to) != subject.applies_to.end();
}

bool limits_any(const Target& target, const TargetSubject& subject) {
  return std::any_of(subject.values.begin(), subject.values.end(),
                     [&](const TargetValue& value) { return value.modules == target.modules; });
}

Table empty_table(bool names_subjects) {
  Table table{"Targets", {{"target", ""}, {"modules", ""}}, {}};
  if (names_subjects) table.columns.push_back({"of", ""});
  for (const Column& column :
       {Column{"value", kUnit}, {"limit", kUnit}, {"use", "%"}, {"verdict", ""}, {"source", ""}}) {
    table.columns.push_back(column);
  }
  return table;
}

void judge_one(const Target& target, const TargetSubject& subject, double value, Judged& judged) {
  const bool met = value <= target.limit.value;
  std::vector<Value> row{target.name, std::string(printed(target.modules))};
  if (!subject.name.empty()) row.emplace_back(subject.name);
  row.emplace_back(value);
  row.emplace_back(target.limit.value);
  row.emplace_back(value / target.limit.value * units::kPercentPerWhole);
  row.emplace_back(std::string(to_string(met ? Verdict::pass : Verdict::fail)));
  row.emplace_back(target.source);
  judged.table.rows.push_back(std::move(row));
  judged.any = true;
  if (judged.most_used.empty() || value / target.limit.value > judged.largest_use) {
    judged.largest_use = value / target.limit.value;
    judged.most_used = "'" + target.name + "', " + std::string(printed(target.modules)) +
                       (subject.name.empty() ? "" : ", of " + subject.name);
  }
  if (met) return;
  judged.exceeded += (judged.exceeded.empty() ? "" : "; ") + fixed_text(value, 2) + " " + kUnit + " of " +
                     std::string(printed(target.modules)) + (subject.name.empty() ? "" : " of " + subject.name) +
                     " is above the target '" + target.name + "' of " + fixed_text(target.limit.value, 2);
}

void judge_subjects(const Target& target, const std::vector<TargetSubject>& subjects, Judged& judged) {
  for (const TargetSubject& subject : subjects) {
    if (!selects(target, subject)) continue;
    for (const TargetValue& value : subject.values) {
      if (value.modules != target.modules) continue;
      judge_one(target, subject, value.per_area, judged);
      const bool of_finding = &subject == &subjects.back() && &value == &subject.values.front();
      if (of_finding)
        judged.lowest_limit = std::min(judged.lowest_limit.value_or(target.limit.value), target.limit.value);
    }
  }
}

Finding close(FindingBuilder& builder, double value, Judged judged) {
  if (judged.any) builder.table(std::move(judged.table));
  if (!judged.any) builder.note("No target of the project is in force for this value.");
  // Else a reader would take the use for that of the value and limit beside it.
  if (judged.any && (!judged.lowest_limit || value / *judged.lowest_limit < judged.largest_use)) {
    builder.note("The utilisation is that of target " + judged.most_used + ".");
  }
  Finding closed;
  if (judged.lowest_limit) {
    closed = builder.judge(value, kUnit, Relation::at_most, *judged.lowest_limit, judged.exceeded);
  } else {
    closed = builder.inform(value, kUnit);
  }
  if (!judged.any || closed.verdict == Verdict::not_assessed) return closed;
  // A target of other modules, or of a type, decides too.
  closed.verdict = judged.exceeded.empty() ? Verdict::pass : Verdict::fail;
  closed.reason = judged.exceeded;
  closed.utilisation = judged.largest_use;
  return closed;
}

}  // namespace

Finding judge_targets(OpenFinding& finding, const Settings& settings, const std::vector<TargetSubject>& subjects) {
  FindingBuilder& builder = finding.builder();
  const bool of_project = !subjects.back().name.empty();
  Judged judged{empty_table(of_project), {}, 0.0, {}, false, {}};
  std::vector<std::string> selecting_nothing;
  for (const Target& target : read_targets(settings, builder)) {
    if (!limits_any(target, subjects.back())) continue;
    const bool selected = std::any_of(subjects.begin(), subjects.end(),
                                      [&](const TargetSubject& subject) { return selects(target, subject); });
    if (!selected && !of_project) continue;
    if (!target.why_not_in_force.empty()) {
      builder.note("Target '" + target.name + "' is not judged: " + target.why_not_in_force + ".");
    } else if (selected) {
      builder.positive("target '" + target.name + "', " + std::string(printed(target.modules)), "a_max", kUnit,
                       target.limit, {});
      judge_subjects(target, subjects, judged);
    } else {
      selecting_nothing.push_back("target '" + target.name + "' applies to '" + target.applies_to +
                                  "', which is no panel type; correct applies_to");
    }
  }
  for (const std::string& what : selecting_nothing) {
    // An exceeded target must not hide behind one that could not be judged.
    if (judged.exceeded.empty()) {
      builder.missing(what);
    } else {
      judged.exceeded += "; " + what;
    }
  }
  return close(builder, subjects.back().values.front().per_area, std::move(judged));
}

}  // namespace panel_dossier::carbon
