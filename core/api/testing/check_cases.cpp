#include "core/api/testing/check_cases.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <exception>
#include <memory>
#include <optional>
#include <set>
#include <string_view>
#include <utility>
#include <variant>

#include "core/api/finding/contract.h"
#include "core/api/testing/finding_difference.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/formula.h"
#include "core/api/testing/tested_plugin.h"

namespace panel_dossier::testing {

namespace {

/// What a run gave, as far as the cases look at it.
struct Observed {
  std::string panel_id;       ///< GlobalId of the first panel
  CheckOutcome panel = {};    ///< of the first panel
  CheckOutcome project = {};  ///< without anything where only the panel is looked at
};

std::string text_of_value(const Value& value) {
  if (const double* number = std::get_if<double>(&value)) return number_text(*number);
  const auto* text = std::get_if<std::string>(&value);
  return text == nullptr ? "nothing" : "'" + *text + "'";
}

std::string text_of_verdict(const std::optional<Verdict>& verdict) {
  return verdict ? "'" + std::string(to_string(*verdict)) + "'" : "'does not apply'";
}

/// What a check says in one outcome: a finding, or that it does not apply and why.
struct Answer {
  const Finding* finding = nullptr;
  const NotApplicable* absent = nullptr;

  std::optional<Verdict> verdict() const { return finding ? std::optional(finding->verdict) : std::nullopt; }
  std::string reason() const {
    if (finding != nullptr) return finding->reason;
    return absent == nullptr ? std::string() : absent->reason;
  }
};

Answer answer_of(const CheckOutcome& outcome, std::string_view check) {
  return {find_finding(outcome, check), find_not_applicable(outcome, check)};
}

/// Empty when both say the same in every member.
std::string answer_difference(const Answer& one, const Answer& other) {
  if (one.finding != nullptr && other.finding != nullptr) return finding_difference(*one.finding, *other.finding);
  const bool same = one.finding == other.finding && one.reason() == other.reason();
  return same ? std::string() : "applies: '" + one.reason() + "' and '" + other.reason() + "'";
}

/// Empty when verdict, value, unit, limit and reason are the same: what a reader takes from a finding.
std::string movement(const Answer& before, const Answer& after) {
  if (before.verdict() != after.verdict()) {
    return text_of_verdict(before.verdict()) + " became " + text_of_verdict(after.verdict());
  }
  if (before.reason() != after.reason()) return "its reason became '" + after.reason() + "'";
  if (before.finding == nullptr || after.finding == nullptr) return {};
  if (before.finding->value != after.finding->value || before.finding->unit != after.finding->unit) {
    return text_of_value(before.finding->value) + " " + before.finding->unit + " became " +
           text_of_value(after.finding->value) + " " + after.finding->unit;
  }
  if (before.finding->limit == after.finding->limit) return {};
  return "its limit of " + text_of_value(before.finding->limit) + " became " + text_of_value(after.finding->limit);
}

/// Runs the cases of one table.
class CaseTable {
 public:
  CaseTable(const Plugin& plugin, const CheckCases& cases)
      : plugin_(plugin),
        cases_(cases),
        of_project_(cases.of_project || is_of_project_alone(plugin, cases.check)),
        sound_(observe({})) {}

  std::vector<std::string> faults() {
    for (const CheckCase& one : cases_.cases) try_case(one);
    return std::move(faults_);
  }

 private:
  /// A case that ran, for comparison with those behind it.
  struct Ran {
    const CheckCase* expected;
    Observed observed;
  };

  const Plugin& plugin_;
  const CheckCases& cases_;
  bool of_project_;
  Observed sound_;
  std::vector<Ran> ran_;
  std::vector<std::string> faults_;
  const CheckCase* current_ = nullptr;

  static bool is_of_project_alone(const Plugin& plugin, std::string_view check) {
    const CheckDeclaration* declaration = find_declaration(plugin, check);
    return declaration != nullptr && declaration->scope == CheckScope::project;
  }

  void fault(const std::string& what) { faults_.push_back(cases_.check + ", case '" + current_->label + "': " + what); }

  Observed observe(const Change& change) const {
    Project project = cases_.sound_project();
    Settings settings = cases_.sound_settings();
    if (change) change(project, settings);
    Observed observed{project.panels.at(0).global_id};
    if (of_project_ || cases_.whole_run) {
      PluginOutcomes outcomes = outcomes_of(plugin_, project, settings);
      observed.panel = std::move(outcomes.panels.front());
      observed.project = std::move(outcomes.project);
    } else {
      observed.panel = prepared(plugin_, project, settings)->check_panel(project.panels.front());
    }
    return observed;
  }

  const CheckOutcome& outcome_of(const Observed& observed) const {
    return of_project_ ? observed.project : observed.panel;
  }

  Answer answer(const Observed& observed) const { return answer_of(outcome_of(observed), cases_.check); }

  void try_case(const CheckCase& one) {
    current_ = &one;
    judge_table(one);
    try {
      Observed observed = observe(one.change);
      judge_contract(observed);
      judge_answer(one, answer(observed));
      judge_effect(one, answer(observed));
      judge_others(one, observed);
      judge_against_earlier(one, answer(observed));
      ran_.push_back({&one, std::move(observed)});
    } catch (const std::exception& error) {
      fault(std::string("throws: ") + error.what());
    }
  }

  /// What is wrong with the case itself.
  void judge_table(const CheckCase& one) {
    if (one.label.empty()) fault("has no label");
    const auto same_label = [&](const CheckCase& other) { return other.label == one.label; };
    if (&*std::find_if(cases_.cases.begin(), cases_.cases.end(), same_label) != &one) fault("has the label of another");
    if (one.tolerance != 0.0 && one.why_tolerance.empty()) fault("does not say why it has a tolerance");
    const bool said = one.verdict == Verdict::pass || one.verdict == Verdict::information;
    if (said && !one.reason.empty()) fault("expects a reason, which no pass and no information has");
    if (!said && one.reason.empty()) fault("expects no reason");
  }

  void judge_contract(const Observed& observed) {
    std::string breach;
    if (!of_project_ || cases_.whole_run) breach = contract_breach(observed.panel, plugin_.checks(), observed.panel_id);
    if (breach.empty() && (of_project_ || cases_.whole_run)) {
      breach = contract_breach(observed.project, plugin_.checks(), "");
    }
    if (!breach.empty()) fault("breaks the contract: " + breach);
  }

  void judge_answer(const CheckCase& one, const Answer& found) {
    if (found.finding == nullptr && found.absent == nullptr) {
      fault("there is neither a finding nor the reason why there is none");
      return;
    }
    if (found.verdict() != one.verdict) {
      fault("is " + text_of_verdict(found.verdict()) + ", expected " + text_of_verdict(one.verdict) +
            (found.reason().empty() ? "" : "; its reason: " + found.reason()));
      return;
    }
    if (found.reason() != one.reason) fault("its reason is '" + found.reason() + "', expected '" + one.reason + "'");
    if (found.finding == nullptr) return;
    if (!has_value(one, found.finding->value)) {
      fault("its value is " + text_of_value(found.finding->value) + ", expected " + text_of_value(one.value));
    }
    for (const std::string& formula : formula_faults(*found.finding)) fault(formula);
  }

  static bool has_value(const CheckCase& one, const Value& found) {
    if (std::holds_alternative<std::monostate>(one.value)) return true;
    const double* expected = std::get_if<double>(&one.value);
    const double* number = std::get_if<double>(&found);
    if (expected == nullptr || number == nullptr) return found == one.value;
    constexpr double kRelative = 1.0e-9;
    const double tolerance = one.tolerance != 0.0 ? one.tolerance : kRelative * std::abs(*expected);
    return std::abs(*number - *expected) <= tolerance;
  }

  void judge_effect(const CheckCase& one, const Answer& found) {
    if (!one.change) return;
    const std::string difference = answer_difference(answer(sound_), found);
    if (one.unchanged && !difference.empty()) fault("must change nothing, but differs: " + difference);
    if (!one.unchanged && difference.empty()) fault("its change changes nothing of the finding");
  }

  void judge_others(const CheckCase& one, const Observed& observed) {
    const auto may_move = [&](const std::string& check) {
      const auto named = [&](const std::string& name) { return name == "*" || name == check; };
      return std::any_of(one.also_moves.begin(), one.also_moves.end(), named);
    };
    for (const CheckDeclaration& check : plugin_.checks()) {
      if (may_move(check.id)) continue;
      for (const auto part : {&Observed::panel, &Observed::project}) {
        const bool is_own = check.id == cases_.check && (part == &Observed::project) == of_project_;
        // The panels' findings of a case of the project are inputs of its finding, no consequence of it.
        if (is_own || (of_project_ && !cases_.whole_run && part == &Observed::panel)) continue;
        const std::string moved = movement(answer_of(sound_.*part, check.id), answer_of(observed.*part, check.id));
        if (moved.empty()) continue;
        fault("moves " + check.id + (part == &Observed::project ? " of the project" : "") + ": " + moved);
      }
    }
  }

  void judge_against_earlier(const CheckCase& one, const Answer& found) {
    if (one.unchanged) return;
    for (const Ran& earlier : ran_) {
      const CheckCase& other = *earlier.expected;
      const bool expects_same = other.verdict == one.verdict && other.value == one.value && other.reason == one.reason;
      if (!expects_same || other.unchanged || !answer_difference(answer(earlier.observed), found).empty()) continue;
      fault("expects and finds what case '" + other.label + "' does");
    }
  }
};

std::vector<CheckCases>& registry() {
  static std::vector<CheckCases> all;
  return all;
}

/// The verdicts that the cases of a check expect, of its panels' findings or of the project's.
std::set<std::optional<Verdict>> expected_verdicts(const CheckDeclaration& check, const std::vector<CheckCases>& all,
                                                   bool of_project) {
  std::set<std::optional<Verdict>> verdicts;
  for (const CheckCases& cases : all) {
    if (cases.check != check.id) continue;
    if (check.scope == CheckScope::panels_and_project && cases.of_project != of_project) continue;
    for (const CheckCase& one : cases.cases) verdicts.insert(one.verdict);
  }
  return verdicts;
}

std::string lack_of(const CheckDeclaration& check, const std::vector<CheckCases>& all) {
  const auto verdicts = expected_verdicts(check, all, false);
  const bool passes = verdicts.contains(Verdict::pass);
  const bool informs = verdicts.contains(Verdict::information);
  if (verdicts.empty()) return "has no case";
  if (check.scope == CheckScope::panels_and_project && expected_verdicts(check, all, true).empty()) {
    return "has no case of the project's finding";
  }
  if (check.kind == CheckKind::figure) return informs ? "" : "has no case that gives its figure";
  if (check.kind == CheckKind::limit) {
    if (!passes) return "has no case that passes";
    return verdicts.contains(Verdict::fail) ? "" : "has no case that fails";
  }
  if (!passes && !informs) return "has no case that passes";
  return verdicts.size() > std::size_t{passes} + std::size_t{informs} ? "" : "has no case that does not pass";
}

}  // namespace

std::vector<std::string> case_faults(const Plugin& plugin, const CheckCases& cases) {
  if (find_declaration(plugin, cases.check) == nullptr) return {cases.check + " is not declared"};
  try {
    return CaseTable(plugin, cases).faults();
  } catch (const std::exception& error) {
    return {cases.check + ": the sound project throws: " + error.what()};
  }
}

std::vector<std::string> checks_without_cases(const Plugin& plugin, const std::vector<CheckCases>& all) {
  std::vector<std::string> lacking;
  for (const CheckDeclaration& check : plugin.checks()) {
    const std::string lack = lack_of(check, all);
    if (!lack.empty()) lacking.push_back(check.id + " " + lack);
  }
  for (const CheckCases& cases : all) {
    if (find_declaration(plugin, cases.check) == nullptr) lacking.push_back(cases.check + " is not declared");
  }
  return lacking;
}

RegisterCases::RegisterCases(CheckCases cases) {
  registry().push_back(std::move(cases));
}

const std::vector<CheckCases>& registered_cases() {
  return registry();
}

}  // namespace panel_dossier::testing
