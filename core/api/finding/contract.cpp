#include "core/api/finding/contract.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/api/finding/roles.h"
#include "core/api/support/text_encoding.h"

namespace panel_dossier {

namespace {

bool finite(const Value& value) {
  const double* number = std::get_if<double>(&value);
  return number == nullptr || std::isfinite(*number);
}

bool finite(const Vec2& point) {
  return std::isfinite(point.x) && std::isfinite(point.y);
}

bool finite(const Series& series) {
  return std::all_of(series.curves.begin(), series.curves.end(), [](const Curve& curve) {
    return std::all_of(curve.points.begin(), curve.points.end(), [](const Vec2& point) { return finite(point); });
  });
}

bool finite(const BarChart& chart) {
  return std::all_of(chart.bars.begin(), chart.bars.end(), [](const Bar& bar) {
    return std::all_of(bar.pieces.begin(), bar.pieces.end(),
                       [](const BarPiece& piece) { return std::isfinite(piece.from) && std::isfinite(piece.to); });
  });
}

bool finite(const Drawing& drawing) {
  const auto finite_outline = [](const DrawnPolygon& polygon) {
    return std::all_of(polygon.outline.begin(), polygon.outline.end(), [](const Vec2& point) { return finite(point); });
  };
  const auto finite_line = [](const auto& line) { return finite(line.from) && finite(line.to); };
  return std::all_of(drawing.polygons.begin(), drawing.polygons.end(), finite_outline) &&
         std::all_of(drawing.lines.begin(), drawing.lines.end(), finite_line) &&
         std::all_of(drawing.dimensions.begin(), drawing.dimensions.end(), finite_line) &&
         std::all_of(drawing.texts.begin(), drawing.texts.end(), [](const DrawnText& text) { return finite(text.at); });
}

bool all_finite(const Finding& finding) {
  const auto finite_value = [](const auto& item) { return finite(item.value); };
  const auto finite_row = [](const std::vector<Value>& row) {
    return std::all_of(row.begin(), row.end(), [](const Value& value) { return finite(value); });
  };
  return finite(finding.value) && finite(finding.limit) && std::isfinite(finding.utilisation.value_or(0.0)) &&
         std::all_of(finding.inputs.begin(), finding.inputs.end(), finite_value) &&
         std::all_of(finding.steps.begin(), finding.steps.end(), finite_value) &&
         std::all_of(finding.values.begin(), finding.values.end(), finite_value) &&
         std::all_of(
             finding.tables.begin(), finding.tables.end(),
             [&](const Table& table) { return std::all_of(table.rows.begin(), table.rows.end(), finite_row); }) &&
         std::all_of(finding.series.begin(), finding.series.end(),
                     [](const Series& series) { return finite(series); }) &&
         std::all_of(finding.bar_charts.begin(), finding.bar_charts.end(),
                     [](const BarChart& chart) { return finite(chart); }) &&
         std::all_of(finding.drawings.begin(), finding.drawings.end(),
                     [](const Drawing& drawing) { return finite(drawing); });
}

bool tables_are_regular(const Finding& finding) {
  return std::all_of(finding.tables.begin(), finding.tables.end(), [](const Table& table) {
    return std::all_of(table.rows.begin(), table.rows.end(),
                       [&](const std::vector<Value>& row) { return row.size() == table.columns.size(); });
  });
}

bool needs_reason(Verdict verdict) {
  return verdict != Verdict::pass && verdict != Verdict::information;
}

/// Whether value, limit or utilisation say themselves that the finding does not pass.
bool figures_deny_pass(const Finding& finding) {
  constexpr double kRounding = 1e-9;
  if (finding.utilisation.value_or(0.0) > 1.0 + kRounding) return true;
  const auto* value = std::get_if<double>(&finding.value);
  const auto* limit = std::get_if<double>(&finding.limit);
  if (value == nullptr || limit == nullptr) return false;
  const double slack = kRounding * std::abs(*limit);
  switch (finding.relation) {
    case Relation::at_most: return *value > *limit + slack;
    case Relation::at_least: return *value < *limit - slack;
    case Relation::equals: return std::abs(*value - *limit) > slack;
    case Relation::none: break;
  }
  return false;
}

/// Gathers what a finding says in words, to see that all of it can be written.
class Texts {
 public:
  void add(const std::string& text) { all_.push_back(&text); }
  void add(const Value& value) {
    if (const auto* text = std::get_if<std::string>(&value)) add(*text);
  }
  void add(const std::vector<std::string>& texts) {
    for (const std::string& text : texts) add(text);
  }

  /// False where one of them is not UTF-8, such as a cell of a table saved in another encoding.
  bool readable() const {
    return std::all_of(all_.begin(), all_.end(),
                       [](const std::string* text) { return text->empty() || !encoding_fault(*text); });
  }

 private:
  std::vector<const std::string*> all_;
};

void add_table(Texts& texts, const Table& table) {
  texts.add(table.id);
  texts.add(table.title);
  for (const Column& column : table.columns) {
    texts.add(column.name);
    texts.add(column.unit);
  }
  for (const std::vector<Value>& row : table.rows) {
    for (const Value& value : row) texts.add(value);
  }
}

void add_pictures(Texts& texts, const Finding& finding) {
  for (const Series& series : finding.series) {
    for (const std::string* text : {&series.title, &series.x_label, &series.x_unit, &series.y_label, &series.y_unit}) {
      texts.add(*text);
    }
    for (const Curve& curve : series.curves) texts.add(curve.name);
  }
  for (const BarChart& chart : finding.bar_charts) {
    texts.add(chart.title);
    texts.add(chart.parts);
    for (const Bar& bar : chart.bars) texts.add(bar.name);
  }
  for (const Drawing& drawing : finding.drawings) {
    texts.add(drawing.title);
    for (const DrawnPolygon& polygon : drawing.polygons) texts.add(polygon.label);
    for (const DrawnText& text : drawing.texts) texts.add(text.text);
  }
}

bool all_readable(const Finding& finding) {
  Texts texts;
  for (const std::string* text :
       {&finding.check, &finding.title, &finding.panel, &finding.unit, &finding.reason, &finding.clause}) {
    texts.add(*text);
  }
  texts.add(finding.value);
  texts.add(finding.limit);
  texts.add(finding.notes);
  for (const Input& input : finding.inputs) {
    for (const std::string* text : {&input.name, &input.symbol, &input.unit}) texts.add(*text);
    texts.add(input.value);
  }
  for (const Step& step : finding.steps) {
    for (const std::string* text : {&step.name, &step.symbol, &step.unit, &step.formula}) texts.add(*text);
    texts.add(step.value);
  }
  for (const NamedValue& value : finding.values) {
    texts.add(value.id);
    texts.add(value.unit);
    texts.add(value.value);
  }
  for (const Table& table : finding.tables) add_table(texts, table);
  add_pictures(texts, finding);
  return texts.readable();
}

/// Lower-case letters, digits and underscores, a letter first.
bool is_word(std::string_view text) {
  const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  return !text.empty() && is_letter(text.front()) && std::all_of(text.begin(), text.end(), [&](char c) {
    return is_letter(c) || (c >= '0' && c <= '9') || c == '_';
  });
}

bool covers(CheckScope scope, std::string_view panel) {
  return scope == CheckScope::panels_and_project || (scope == CheckScope::project) == panel.empty();
}

bool stands_in(const std::vector<std::string>& texts, const std::string& text) {
  return std::find(texts.begin(), texts.end(), text) != texts.end();
}

/// The first id that stands twice among the values, or empty.
std::string repeated_value(const Finding& finding) {
  std::set<std::string_view> seen;
  for (const NamedValue& value : finding.values) {
    if (!seen.insert(value.id).second) return value.id;
  }
  return {};
}

bool is_currency(std::string_view unit) {
  return unit.size() == 3 && std::all_of(unit.begin(), unit.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

bool allows_unit(const CheckDeclaration& check, const std::string& unit) {
  return stands_in(check.units, unit) || (is_currency(unit) && stands_in(check.units, "currency"));
}

/// What the finding says that its declaration does not allow.
std::string declaration_breach_of(const Finding& finding, const CheckDeclaration& check) {
  if (finding.clause != check.clause && !stands_in(check.other_clauses, finding.clause)) {
    return "has the clause '" + finding.clause + "', which its declaration does not name";
  }
  if (!finding.unit.empty() && !allows_unit(check, finding.unit)) {
    return "has the unit '" + finding.unit + "', which its declaration does not name";
  }
  const bool judged = finding.verdict == Verdict::pass || finding.verdict == Verdict::fail;
  if (check.kind == CheckKind::figure && judged) {
    return "is '" + std::string(to_string(finding.verdict)) + "' but is declared as a figure, which is not judged";
  }
  return {};
}

std::string breach_of(const Finding& finding, const CheckDeclaration& check, std::string_view panel) {
  if (finding.panel != panel) return "names panel '" + finding.panel + "' instead of '" + std::string(panel) + "'";
  if (!all_finite(finding)) return "holds a number that is not finite";
  if (!all_readable(finding)) return "holds a text that is not UTF-8";
  if (needs_reason(finding.verdict) && finding.reason.empty()) {
    return "is '" + std::string(to_string(finding.verdict)) + "' without a reason";
  }
  if (finding.verdict == Verdict::pass && figures_deny_pass(finding)) {
    return "is 'pass' though its value, limit or utilisation say that it fails";
  }
  if (finding.clause.empty()) return "names no clause";
  if (!tables_are_regular(finding)) return "has a table row that is not as long as its head";
  if (const std::string id = repeated_value(finding); !id.empty()) return "gives the value '" + id + "' twice";
  return declaration_breach_of(finding, check);
}

const CheckDeclaration* find_declaration(const std::vector<CheckDeclaration>& checks, std::string_view id) {
  const auto found =
      std::find_if(checks.begin(), checks.end(), [id](const CheckDeclaration& check) { return check.id == id; });
  return found == checks.end() ? nullptr : &*found;
}

std::string breach_of_declaration(const CheckDeclaration& check, std::string_view plugin_id) {
  const std::string prefix = std::string(plugin_id) + '.';
  if (!check.id.starts_with(prefix) || check.id.size() == prefix.size()) return "does not start with '" + prefix + "'";
  const std::string_view name = std::string_view(check.id).substr(prefix.size());
  if (!is_word(name)) return "is not named in lower-case letters, digits and underscores";
  if (name == "run") return "has the name of the finding by which the program tells that a plugin failed";
  if (!check.role.empty() && std::find(role::kAll.begin(), role::kAll.end(), check.role) == role::kAll.end()) {
    return "claims the role '" + check.role + "', which there is not";
  }
  if (check.title.empty()) return "has no title";
  if (check.sentence.empty()) return "has no sentence that says what is found";
  if (check.clause.empty()) return "names no clause";
  const bool is_both = check.scope == CheckScope::panels_and_project;
  if (is_both == check.project_title.empty()) {
    return is_both ? "has no title of the project's finding" : "has a title of the project's finding but gives none";
  }
  return {};
}

}  // namespace

std::string declaration_breach(const std::vector<CheckDeclaration>& checks, std::string_view plugin_id) {
  if (!is_word(plugin_id)) {
    return "the id '" + std::string(plugin_id) + "' is not of lower-case letters, digits and underscores";
  }
  std::set<std::string_view> ids;
  std::set<std::string_view> roles;
  for (const CheckDeclaration& check : checks) {
    std::string breach = breach_of_declaration(check, plugin_id);
    if (breach.empty() && !ids.insert(check.id).second) breach = "is declared twice";
    if (breach.empty() && !check.role.empty() && !roles.insert(check.role).second) {
      breach = "claims the role '" + check.role + "', which another check has already";
    }
    if (!breach.empty()) return "check '" + check.id + "' " + breach;
  }
  return {};
}

std::string contract_breach(const CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks,
                            std::string_view panel) {
  std::set<std::string_view> seen;
  for (const Finding& finding : outcome.findings) {
    const CheckDeclaration* check = find_declaration(checks, finding.check);
    std::string breach;
    if (check == nullptr || !covers(check->scope, panel)) {
      breach = panel.empty() ? "is not declared for the project" : "is not declared for panels";
    } else {
      breach = breach_of(finding, *check, panel);
    }
    if (breach.empty() && !seen.insert(finding.check).second) breach = "stands twice";
    if (!breach.empty()) return "finding '" + finding.check + "' " + breach;
  }
  for (const NotApplicable& absent : outcome.not_applicable) {
    const CheckDeclaration* check = find_declaration(checks, absent.check);
    if (check == nullptr || !covers(check->scope, panel)) {
      return "check '" + absent.check + "' is not declared for " + (panel.empty() ? "the project" : "panels");
    }
    if (!absent.reason.empty() && encoding_fault(absent.reason)) {
      return "check '" + absent.check + "' does not apply for a reason that is not UTF-8";
    }
    if (absent.reason.empty()) return "check '" + absent.check + "' does not apply, without a reason";
    if (!seen.insert(absent.check).second) return "check '" + absent.check + "' stands twice";
  }
  for (const CheckDeclaration& check : checks) {
    if (covers(check.scope, panel) && !seen.contains(check.id)) {
      return "declared check '" + check.id + "' gives neither a finding nor the reason why it does not apply";
    }
  }
  return {};
}

}  // namespace panel_dossier
