#include "plugins/carbon/totals/targets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "core/api/model/settings.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kTable = "carbon.targets";
constexpr const char* kUnit = "kg CO2e/m²";

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
  std::vector<Value> row{target.name, printed(target.modules)};
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
    judged.most_used =
        "'" + target.name + "', " + printed(target.modules) + (subject.name.empty() ? "" : ", of " + subject.name);
  }
  if (met) return;
  judged.exceeded += (judged.exceeded.empty() ? "" : "; ") + fixed_text(value, 2) + " " + kUnit + " of " +
                     printed(target.modules) + (subject.name.empty() ? "" : " of " + subject.name) +
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

std::vector<CheckInput> target_inputs() {
  std::vector<CheckInput> inputs{optional_setting("project.assessment_date"), optional_setting("carbon.targets_file")};
  for (const char* column :
       {"name", "modules", "applies_to", "limit_kgco2e_per_m2", "valid_from", "valid_until", "source"}) {
    inputs.push_back(optional_setting(std::string(kTable) + ".*." + column));
  }
  return inputs;
}

Finding judge_targets(OpenFinding& finding, const Settings& settings, const std::vector<TargetSubject>& subjects) {
  FindingBuilder& builder = finding.builder();
  const bool of_project = !subjects.back().name.empty();
  Judged judged{empty_table(of_project), {}, 0.0, {}, false, {}};
  std::vector<std::string> not_judged;
  for (const Target& target : read_targets(settings, builder)) {
    if (!limits_any(target, subjects.back())) continue;
    const bool selected = std::any_of(subjects.begin(), subjects.end(),
                                      [&](const TargetSubject& subject) { return selects(target, subject); });
    if (!selected && !of_project) continue;
    if (!target.fault.empty()) {
      not_judged.push_back(target.fault);
    } else if (!target.why_not_in_force.empty()) {
      builder.note("Target '" + target.name + "' is not judged: " + target.why_not_in_force + ".");
    } else if (selected) {
      builder.positive("target '" + target.name + "', " + printed(target.modules), "a_max", kUnit, target.limit, {});
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
  return close(builder, subjects.back().values.front().per_area, std::move(judged));
}

}  // namespace panel_dossier::carbon
