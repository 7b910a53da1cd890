#include "plugins/carbon/totals/targets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>
#include <tuple>
#include <utility>

#include "core/api/model/settings.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kTable = "carbon.targets";
constexpr const char* kTargetUnit = "kg CO2e/m²";

struct ModulesWord {
  std::string_view written;
  TargetModules modules;
  std::string_view printed;
};

constexpr std::array<ModulesWord, 3> kWords{{{"A1-A3", TargetModules::a1_a3, "A1–A3 less biogenic"},
                                             {"A1-A5", TargetModules::a1_a5, "A1–A5 less biogenic"},
                                             {"A-C", TargetModules::a_c, "A–C, GWP-total"}}};

std::optional<TargetModules> modules_of(const std::optional<Sourced<std::string>>& written) {
  for (const ModulesWord& word : kWords) {
    if (written && written->value == word.written) return word.modules;
  }
  return std::nullopt;
}

/// `A1–A5 less biogenic`.
std::string printed(TargetModules modules) {
  return std::string(kWords.at(static_cast<std::size_t>(modules)).printed);
}

struct Target {
  std::string name;
  TargetModules modules;
  std::string applies_to;        ///< a panel type, `kEveryPanel` or `kWholeProject`
  Sourced<double> limit;         ///< in kg CO2e/m², above 0
  std::string source;            ///< who set it and where
  std::string why_not_in_force;  ///< `it ran out on 2025-12-31`; empty for one that is valid on the assessment date
  std::string fault;             ///< why it cannot be judged, in words for a reason; else empty
};

std::string text_at(const Settings& settings, const std::string& key) {
  const auto text = settings.text(key);
  return text ? text->value : std::string();
}

bool is_date_or_empty(const std::string& text) {
  return text.empty() || is_iso_date(text);
}

bool has_row(const Settings& settings, const std::string& row) {
  const std::string prefix = row + ".";
  const auto first = settings.all().lower_bound(prefix);
  return first != settings.all().end() && first->first.starts_with(prefix);
}

/// Why the target is not in force on that day; empty when it is.
std::string why_not_in_force(const std::string& from, const std::string& until, const std::string& day) {
  if (!from.empty() && day < from) return "it counts from " + from + " only";
  if (!until.empty() && until < day) return "it ran out on " + until;
  return {};
}

/// What is wrong with a target that ends before it begins; empty for any other.
std::string fault_of_dates(const std::string& name, const std::string& from, const std::string& until) {
  if (from.empty() || until.empty() || from <= until) return {};
  return "target '" + name + "' ends on " + until + ", before it begins on " + from +
         "; correct valid_from and valid_until";
}

/// Settings `carbon.targets.N`, N from 0 without gaps. Rows that are not usable, and a date that is needed but absent,
/// are noted in `finding` as missing.
std::vector<Target> read_targets(const Settings& settings, FindingBuilder& finding) {
  std::vector<Target> targets;
  const std::string day = text_at(settings, "project.assessment_date");
  for (std::size_t i = 0;; ++i) {
    const std::string row = std::string(kTable) + "." + std::to_string(i);
    if (!has_row(settings, row)) break;
    const std::string name = text_at(settings, row + ".name");
    const auto modules = modules_of(settings.text(row + ".modules"));
    const std::string applies_to = text_at(settings, row + ".applies_to");
    const auto limit = settings.number(row + ".limit_kgco2e_per_m2");
    const std::string from = text_at(settings, row + ".valid_from");
    const std::string until = text_at(settings, row + ".valid_until");
    const std::string source = text_at(settings, row + ".source");
    if (name.empty() || !modules || applies_to.empty() || !limit || !std::isfinite(limit->value) ||
        limit->value <= 0.0 || !is_date_or_empty(from) || !is_date_or_empty(until) || source.empty()) {
      finding.missing(
          "setting '" + row +
          "' needs a name, modules (A1-A3, A1-A5 or A-C), applies_to, a limit above 0, dates YYYY-MM-DD where it "
          "has any, and a source");
      continue;
    }
    if (!is_iso_date(day) && !(from.empty() && until.empty())) {
      finding.missing("setting 'project.assessment_date' is missing or not a date YYYY-MM-DD");
      continue;
    }
    const Origin origin = settings_row_origin(settings, kTable, i, "limit_kgco2e_per_m2");
    targets.push_back({name,
                       *modules,
                       applies_to,
                       {limit->value, origin},
                       source,
                       why_not_in_force(from, until, day),
                       fault_of_dates(name, from, until)});
  }
  return targets;
}

/// What has been judged so far.
struct Judged {
  Table table;
  std::string exceeded;  ///< reasons, one for each target and subject; empty while all are met
  std::string unsure;    ///< the same of those that are met, but not with the range of the value
  double largest_use = 0.0;
  std::string most_used;               ///< the target of that use, with its modules and subject
  std::optional<double> lowest_limit;  ///< for the value of the finding
  bool own_exceeded = false;           ///< the value of the finding exceeds one
  bool any = false;
  bool in_force = false;  ///< a target for these modules, be it for other subjects
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
  for (const Column& column : {Column{"value", kTargetUnit},
                               {"limit", kTargetUnit},
                               {"use", "%"},
                               {"verdict", ""},
                               {"source", ""},
                               {"range ±", kTargetUnit}}) {
    table.columns.push_back(column);
  }
  return table;
}

void judge_one(const Target& target, const TargetSubject& subject, const TargetValue& value, Judged& judged) {
  const double limit = target.limit.value;
  const bool met = value.per_area <= limit;
  const bool surely_met = met && value.per_area + value.range_per_area.value_or(0.0) <= limit;
  const std::string of = subject.name.empty() ? "" : " of " + subject.name;
  std::vector<Value> row{target.name, printed(target.modules)};
  if (!subject.name.empty()) row.emplace_back(subject.name);
  row.emplace_back(value.per_area);
  row.emplace_back(limit);
  row.emplace_back(value.per_area / limit * units::kPercentPerWhole);
  row.emplace_back(std::string(to_string(surely_met ? Verdict::pass : met ? Verdict::evidence_needed : Verdict::fail)));
  row.emplace_back(target.source);
  row.emplace_back(value.range_per_area ? Value(*value.range_per_area) : Value());
  judged.table.rows.push_back(std::move(row));
  judged.any = true;
  if (judged.most_used.empty() || value.per_area / limit > judged.largest_use) {
    judged.largest_use = value.per_area / limit;
    judged.most_used = "'" + target.name + "', " + printed(target.modules) + (of.empty() ? "" : "," + of);
  }
  if (surely_met) return;
  std::string& reasons = met ? judged.unsure : judged.exceeded;
  reasons += (reasons.empty() ? "" : "; ") + fixed_text(value.per_area, 2) + " " + kTargetUnit + " of " +
             printed(target.modules) + of;
  if (met) {
    reasons += " keeps the target '" + target.name + "' of " + fixed_text(limit, 2) + ", but not with the " +
               fixed_text(*value.range_per_area, 2) +
               " by which its declarations may be off: have specific data declared";
  } else {
    reasons += " is above the target '" + target.name + "' of " + fixed_text(limit, 2);
  }
}

void judge_subjects(const Target& target, const std::vector<TargetSubject>& subjects, Judged& judged) {
  for (const TargetSubject& subject : subjects) {
    if (!selects(target, subject)) continue;
    for (const TargetValue& value : subject.values) {
      if (value.modules != target.modules) continue;
      judge_one(target, subject, value, judged);
      const bool of_finding = &subject == &subjects.back() && &value == &subject.values.front();
      if (!of_finding) continue;
      judged.lowest_limit = std::min(judged.lowest_limit.value_or(target.limit.value), target.limit.value);
      judged.own_exceeded = value.per_area > *judged.lowest_limit;
    }
  }
}

constexpr const char* kNoTarget =
    "no target of the project is in force for these modules: give one in 'carbon.targets' or 'carbon.targets_file'";

/// The verdict that the targets give, with its reason.
std::pair<Verdict, std::string> verdict_of(const Judged& judged, const std::string& range_needed) {
  if (!judged.exceeded.empty()) {
    return {Verdict::fail, judged.exceeded + (judged.unsure.empty() ? "" : "; " + judged.unsure)};
  }
  if (!judged.any) {
    return judged.in_force ? std::pair{Verdict::information, std::string()}
                           : std::pair{Verdict::not_assessed, std::string(kNoTarget)};
  }
  if (!range_needed.empty()) return {Verdict::not_assessed, range_needed};
  if (!judged.unsure.empty()) return {Verdict::evidence_needed, judged.unsure};
  return {Verdict::pass, {}};
}

Finding close(FindingBuilder& builder, double value, Judged judged, const std::string& range_needed) {
  // What another value decides would stand beside a limit that is kept.
  const bool shows_limit = judged.lowest_limit && (judged.exceeded.empty() || judged.own_exceeded);
  if (judged.any && (!shows_limit || value / *judged.lowest_limit < judged.largest_use)) {
    builder.note("Most used is target " + judged.most_used + ": " +
                 fixed_text(judged.largest_use * units::kPercentPerWhole, 1) + " %.");
  }
  if (judged.any) builder.table(std::move(judged.table));
  if (!judged.any) builder.note("No target of the project is in force for this value.");
  Finding closed = shows_limit
                       ? builder.judge(value, kTargetUnit, Relation::at_most, *judged.lowest_limit, judged.exceeded)
                       : builder.inform(value, kTargetUnit);
  // What is missing leaves no value.
  if (closed.verdict == Verdict::not_assessed) return closed;
  std::tie(closed.verdict, closed.reason) = verdict_of(judged, range_needed);
  return closed;
}

}  // namespace

std::vector<CheckInput> target_inputs() {
  std::vector<CheckInput> inputs{optional_setting("project.assessment_date"), optional_setting("carbon.targets_file")};
  for (const char* column :
       {"name", "modules", "applies_to", "limit_kgco2e_per_m2", "valid_from", "valid_until", "source"}) {
    inputs.push_back(optional_setting(std::string(kTable) + ".*." + column));
  }
  return inputs;
}

Finding judge_targets(OpenFinding& finding, const Settings& settings, const std::vector<TargetSubject>& subjects,
                      const std::string& range_needed) {
  FindingBuilder& builder = finding.builder();
  const bool of_project = !subjects.back().name.empty();
  Judged judged;
  judged.table = empty_table(of_project);
  std::vector<std::string> not_judged;
  for (const Target& target : read_targets(settings, builder)) {
    if (!limits_any(target, subjects.back())) continue;
    const bool selected = std::any_of(subjects.begin(), subjects.end(),
                                      [&](const TargetSubject& subject) { return selects(target, subject); });
    judged.in_force = judged.in_force || (target.fault.empty() && target.why_not_in_force.empty());
    if (!selected && !of_project) continue;
    if (!target.fault.empty()) {
      not_judged.push_back(target.fault);
    } else if (!target.why_not_in_force.empty()) {
      builder.note("Target '" + target.name + "' is not judged: " + target.why_not_in_force + ".");
    } else if (selected) {
      builder.positive("target '" + target.name + "', " + printed(target.modules), "a_max", kTargetUnit, target.limit,
                       {});
      judge_subjects(target, subjects, judged);
    } else {
      not_judged.push_back("target '" + target.name + "' applies to '" + target.applies_to +
                           "', which is no panel type; correct applies_to");
    }
  }
  for (const std::string& what : not_judged) {
    // An exceeded target must not hide behind one that could not be judged.
    if (judged.exceeded.empty()) {
      builder.missing(what);
    } else {
      judged.exceeded += "; " + what;
    }
  }
  return close(builder, subjects.back().values.front().per_area, std::move(judged), range_needed);
}

}  // namespace panel_dossier::carbon
