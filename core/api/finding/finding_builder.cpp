#include "core/api/finding/finding_builder.h"

#include <cmath>
#include <stdexcept>
#include <utility>

namespace panel_dossier {

FindingBuilder::FindingBuilder(const CheckDeclaration& check, std::string panel) {
  finding_.check = check.id;
  finding_.title = panel.empty() && !check.project_title.empty() ? check.project_title : check.title;
  finding_.panel = std::move(panel);
  finding_.clause = check.clause;
}

FindingBuilder& FindingBuilder::basis(Basis basis) {
  finding_.basis = basis;
  return *this;
}

FindingBuilder& FindingBuilder::decimals(int decimals) {
  finding_.decimals = decimals;
  return *this;
}

FindingBuilder& FindingBuilder::clause(std::string clause) {
  finding_.clause = std::move(clause);
  return *this;
}

std::optional<double> FindingBuilder::number(std::string name, std::string symbol, std::string unit,
                                             const std::optional<Sourced<double>>& value, std::string what_is_missing) {
  if (!value) {
    missing(std::move(what_is_missing));
    return std::nullopt;
  }
  if (!std::isfinite(value->value)) {
    missing(name + " is not a finite number (" + describe(value->origin) + ")");
    return std::nullopt;
  }
  finding_.inputs.push_back({std::move(name), std::move(symbol), value->value, std::move(unit), value->origin});
  return value->value;
}

std::optional<double> FindingBuilder::positive(std::string name, std::string symbol, std::string unit,
                                               const std::optional<Sourced<double>>& value,
                                               std::string what_is_missing) {
  const std::string label = name;
  const auto found = number(std::move(name), std::move(symbol), std::move(unit), value, std::move(what_is_missing));
  if (found && *found <= 0.0) {
    missing(label + " must be greater than zero (" + describe(value->origin) + ")");
    return std::nullopt;
  }
  return found;
}

std::optional<std::string> FindingBuilder::text(std::string name, const std::optional<Sourced<std::string>>& value,
                                                std::string what_is_missing) {
  if (!value || value->value.empty()) {
    missing(std::move(what_is_missing));
    return std::nullopt;
  }
  finding_.inputs.push_back({std::move(name), {}, value->value, {}, value->origin});
  return value->value;
}

std::optional<bool> FindingBuilder::logical(std::string name, const std::optional<Sourced<bool>>& value,
                                            std::string what_is_missing) {
  if (!value) {
    missing(std::move(what_is_missing));
    return std::nullopt;
  }
  finding_.inputs.push_back({std::move(name), {}, std::string(value->value ? "yes" : "no"), {}, value->origin});
  return value->value;
}

void FindingBuilder::missing(std::string what) {
  missing_.push_back(std::move(what));
}

FindingBuilder& FindingBuilder::step(std::string name, std::string symbol, double value, std::string unit,
                                     std::string formula) {
  if (!std::isfinite(value)) {
    missing("the intermediate result '" + name + "' is not a finite number");
    return *this;
  }
  finding_.steps.push_back({std::move(name), std::move(symbol), value, std::move(unit), std::move(formula)});
  return *this;
}

FindingBuilder& FindingBuilder::value(std::string id, double value, std::string unit) {
  if (!std::isfinite(value)) {
    missing("the result '" + id + "' is not a finite number");
    return *this;
  }
  add_value({std::move(id), value, std::move(unit)});
  return *this;
}

FindingBuilder& FindingBuilder::value_text(std::string id, std::string value) {
  add_value({std::move(id), std::move(value), {}});
  return *this;
}

void FindingBuilder::add_value(NamedValue value) {
  for (const NamedValue& present : finding_.values) {
    if (present.id == value.id) throw std::logic_error(finding_.check + " gives the value '" + value.id + "' twice");
  }
  finding_.values.push_back(std::move(value));
}

FindingBuilder& FindingBuilder::step_text(std::string name, std::string value) {
  finding_.steps.push_back({std::move(name), {}, std::move(value), {}, {}});
  return *this;
}

FindingBuilder& FindingBuilder::note(std::string text) {
  finding_.notes.push_back(std::move(text));
  return *this;
}

FindingBuilder& FindingBuilder::table(Table table) {
  finding_.tables.push_back(std::move(table));
  return *this;
}

FindingBuilder& FindingBuilder::series(Series series) {
  finding_.series.push_back(std::move(series));
  return *this;
}

FindingBuilder& FindingBuilder::bar_chart(BarChart chart) {
  finding_.bar_charts.push_back(std::move(chart));
  return *this;
}

FindingBuilder& FindingBuilder::drawing(Drawing drawing) {
  finding_.drawings.push_back(std::move(drawing));
  return *this;
}

Finding FindingBuilder::judge(double value, std::string unit, Relation relation, double limit,
                              std::string reason_when_failing) {
  if (incomplete()) return not_assessed();
  if (!std::isfinite(value) || !std::isfinite(limit)) return not_assessed("the result is not a finite number");
  finding_.value = value;
  finding_.unit = std::move(unit);
  finding_.relation = relation;
  finding_.limit = limit;
  bool holds = true;
  switch (relation) {
    case Relation::none: finding_.verdict = Verdict::information; return std::move(finding_);
    case Relation::at_most:
      holds = value <= limit;
      if (limit > 0.0 && value >= 0.0) finding_.utilisation = value / limit;
      break;
    case Relation::at_least:
      holds = value >= limit;
      if (value > 0.0 && limit >= 0.0) finding_.utilisation = limit / value;
      break;
    case Relation::equals: holds = value == limit; break;
  }
  finding_.verdict = holds ? Verdict::pass : Verdict::fail;
  if (!holds) finding_.reason = std::move(reason_when_failing);
  return std::move(finding_);
}

Finding FindingBuilder::judge_class(std::string value, Relation relation, std::string limit, Verdict verdict,
                                    std::string reason) {
  if (incomplete()) return not_assessed();
  finding_.value = std::move(value);
  finding_.relation = relation;
  finding_.limit = std::move(limit);
  finding_.verdict = verdict;
  if (verdict != Verdict::pass && verdict != Verdict::information) finding_.reason = std::move(reason);
  return std::move(finding_);
}

Finding FindingBuilder::inform(double value, std::string unit) {
  if (incomplete()) return not_assessed();
  if (!std::isfinite(value)) return not_assessed("the result is not a finite number");
  finding_.value = value;
  finding_.unit = std::move(unit);
  finding_.verdict = Verdict::information;
  return std::move(finding_);
}

Finding FindingBuilder::inform_text(std::string value) {
  if (incomplete()) return not_assessed();
  finding_.value = std::move(value);
  finding_.verdict = Verdict::information;
  return std::move(finding_);
}

Finding FindingBuilder::needs_evidence(std::string reason) {
  finding_.verdict = Verdict::evidence_needed;
  finding_.reason = with_missing(std::move(reason));
  return std::move(finding_);
}

Finding FindingBuilder::not_assessed(std::string_view reason) {
  finding_.verdict = Verdict::not_assessed;
  finding_.reason = with_missing(std::string(reason));
  return std::move(finding_);
}

std::string FindingBuilder::with_missing(std::string reason) const {
  for (const std::string& what : missing_) {
    if (!reason.empty()) reason += "; ";
    reason += what;
  }
  return reason;
}

}  // namespace panel_dossier
