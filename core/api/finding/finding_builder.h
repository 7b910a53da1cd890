// Builds one finding: gathers inputs, notes what is missing, and never lets a missing or non-finite value pass.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/origin.h"

namespace panel_dossier {

/// Use: construct, ask for inputs, return `not_assessed()` when `incomplete()`, add steps, then close with `judge`,
/// `judge_class`, `inform`, `inform_text` or `needs_evidence`. A closing call moves the finding out; the builder is
/// spent after it. Whatever closing call is used, a builder that is `incomplete()` gives `not assessed` (after
/// `needs_evidence`: `evidence needed`) and the reason lists all that is missing.
/// Holds no resources. Not thread-safe; one builder belongs to one finding.
class FindingBuilder {
 public:
  /// Title and clause are the declaration's. `panel` is the GlobalId, empty for a project finding.
  FindingBuilder(const CheckDeclaration& check, std::string panel);

  FindingBuilder& basis(Basis basis);          ///< `calculation` when not called
  FindingBuilder& decimals(int decimals);      ///< of the value and limit as printed; 2 when not called
  FindingBuilder& clause(std::string clause);  ///< one of the declaration's `other_clauses`

  /// Records the input and returns it. When it is absent or not finite, notes `what_is_missing` and returns none.
  std::optional<double> number(std::string name, std::string symbol, std::string unit,
                               const std::optional<Sourced<double>>& value, std::string what_is_missing);
  /// As `number`, and also refuses zero and negative values.
  std::optional<double> positive(std::string name, std::string symbol, std::string unit,
                                 const std::optional<Sourced<double>>& value, std::string what_is_missing);
  /// As `number`; an empty text counts as absent.
  std::optional<std::string> text(std::string name, const std::optional<Sourced<std::string>>& value,
                                  std::string what_is_missing);
  /// As `number`; recorded as `yes` or `no`.
  std::optional<bool> logical(std::string name, const std::optional<Sourced<bool>>& value, std::string what_is_missing);

  /// Notes that something needed is absent or unusable, and what to do about it.
  void missing(std::string what);
  bool incomplete() const { return !missing_.empty(); }

  /// A value that is not finite is noted as missing by the step's name and not recorded.
  FindingBuilder& step(std::string name, std::string symbol, double value, std::string unit, std::string formula = {});
  /// A result for other checks, outputs and the dossier, asked for by `id`. Throws std::logic_error for an id that
  /// stands already. A number that is not finite is noted as missing and not recorded.
  FindingBuilder& value(std::string id, double value, std::string unit);
  FindingBuilder& value_text(std::string id, std::string value);
  FindingBuilder& step_text(std::string name, std::string value);
  FindingBuilder& note(std::string text);
  FindingBuilder& table(Table table);
  FindingBuilder& series(Series series);
  FindingBuilder& bar_chart(BarChart chart);
  FindingBuilder& drawing(Drawing drawing);

  /// Compares value with limit. `at_most` sets utilisation value/limit, `at_least` limit/value, where both are positive
  /// (or the numerator is zero). Comparison is of the unrounded values; `equals` is exact, so it suits counts only, and
  /// `none` shows the limit and gives `information`. A value or limit that is not finite becomes `not assessed`.
  Finding judge(double value, std::string unit, Relation relation, double limit, std::string reason_when_failing);
  /// A classification as text, with a verdict the caller reached and, unless it is a pass or information, the reason.
  Finding judge_class(std::string value, Relation relation, std::string limit, Verdict verdict, std::string reason);
  /// A value without a limit. A value that is not finite becomes `not assessed`.
  Finding inform(double value, std::string unit);
  /// As `inform`, for a value in words.
  Finding inform_text(std::string value);
  /// `evidence needed`: nothing is wrong with the data, but a document that shows it is absent or does not cover the
  /// panel. The reason says which and what to do, followed by what is missing.
  Finding needs_evidence(std::string reason);
  /// `reason`, when given, then the list of what is missing, separated by `; `. One of them must be there: a finding
  /// without a reason breaks the contract and the pipeline refuses it.
  Finding not_assessed(std::string_view reason = {});

 private:
  Finding finding_;
  std::vector<std::string> missing_;

  void add_value(NamedValue value);
  /// `reason`, then all that is missing.
  std::string with_missing(std::string reason) const;
};

}  // namespace panel_dossier
