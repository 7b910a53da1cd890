#include "core/api/finding/finding.h"

#include <algorithm>
#include <stdexcept>

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Finding::Finding() = default;
Finding::Finding(const Finding&) = default;
Finding::Finding(Finding&&) noexcept = default;
Finding& Finding::operator=(const Finding&) = default;
Finding& Finding::operator=(Finding&&) noexcept = default;
Finding::~Finding() = default;

Finding result_only(Finding finding) {
  finding.inputs = {};
  finding.steps = {};
  finding.notes = {};
  std::erase_if(finding.tables, [](const Table& table) { return table.id.empty(); });
  finding.series = {};
  finding.bar_charts = {};
  finding.drawings = {};
  return finding;
}

std::string_view to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass: return "pass";
    case Verdict::fail: return "fail";
    case Verdict::evidence_needed: return "evidence needed";
    case Verdict::not_assessed: return "not assessed";
    case Verdict::information: break;
  }
  return "information";
}

std::string_view to_string(Basis basis) {
  switch (basis) {
    case Basis::calculation: return "calculation";
    case Basis::test_evidence: return "test evidence";
    case Basis::declared: break;
  }
  return "declared";
}

std::string_view to_string(Relation relation) {
  switch (relation) {
    case Relation::none: return "none";
    case Relation::at_most: return "at most";
    case Relation::at_least: return "at least";
    case Relation::equals: break;
  }
  return "equals";
}

namespace {

const NamedValue* named_value(const Finding& finding, std::string_view id) {
  const auto found = std::find_if(finding.values.begin(), finding.values.end(),
                                  [id](const NamedValue& value) { return value.id == id; });
  return found == finding.values.end() ? nullptr : &*found;
}

[[noreturn]] void refuse(const Finding& finding, const std::string& what) {
  throw std::runtime_error("finding '" + finding.check + "' of " +
                           (finding.panel.empty() ? "the project" : "panel '" + finding.panel + "'") + " " + what);
}

}  // namespace

double value_of(const Finding& finding, std::string_view id, std::string_view unit) {
  const auto value = find_value(finding, id, unit);
  if (!value) refuse(finding, "has no number '" + std::string(id) + "' in " + std::string(unit.empty() ? "1" : unit));
  return *value;
}

const std::string& text_of(const Finding& finding, std::string_view id) {
  const NamedValue* value = named_value(finding, id);
  const std::string* text = value == nullptr ? nullptr : std::get_if<std::string>(&value->value);
  if (text == nullptr) refuse(finding, "has no text '" + std::string(id) + "'");
  return *text;
}

std::optional<double> find_value(const Finding& finding, std::string_view id, std::string_view unit) {
  const NamedValue* value = named_value(finding, id);
  if (value == nullptr) return std::nullopt;
  const double* number = std::get_if<double>(&value->value);
  if (number == nullptr) refuse(finding, "has '" + std::string(id) + "' as text, not as a number");
  if (value->unit != unit) {
    refuse(finding, "has '" + std::string(id) + "' in '" + value->unit + "', asked for in '" + std::string(unit) + "'");
  }
  return *number;
}

const Table* find_table(const Finding& finding, std::string_view id) {
  const auto found =
      std::find_if(finding.tables.begin(), finding.tables.end(), [id](const Table& table) { return table.id == id; });
  return found == finding.tables.end() ? nullptr : &*found;
}

}  // namespace panel_dossier
