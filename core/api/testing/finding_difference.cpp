#include "core/api/testing/finding_difference.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/testing/findings.h"

namespace panel_dossier::testing {

namespace {

// `difference(one, other)` of each type: empty when they are the same, else `.member: this and that`.

std::string both(const std::string& one, const std::string& other) {
  constexpr std::size_t kLongest = 120;
  const auto shown = [](const std::string& text) {
    return text.size() <= kLongest ? "'" + text + "'" : "'" + text.substr(0, kLongest) + "…'";
  };
  return ": " + shown(one) + " and " + shown(other);
}

std::string difference(const std::string& one, const std::string& other) {
  return one == other ? std::string() : both(one, other);
}

std::string difference(const SharedText& one, const SharedText& other) {
  return difference(one.str(), other.str());
}

std::string difference(double one, double other) {
  const bool same = one == other || (std::isnan(one) && std::isnan(other));
  return same ? std::string() : ": " + number_text(one) + " and " + number_text(other);
}

/// Integers and enumerators.
template <typename T>
std::string difference_of_counts(T one, T other) {
  return difference(static_cast<double>(one), static_cast<double>(other));
}

std::string difference(const Value& one, const Value& other) {
  const auto text = [](const Value& value) {
    if (const double* number = std::get_if<double>(&value)) return number_text(*number);
    const auto* words = std::get_if<std::string>(&value);
    return words == nullptr ? std::string("nothing") : "'" + *words + "'";
  };
  const double* number = std::get_if<double>(&one);
  const double* other_number = std::get_if<double>(&other);
  if (number != nullptr && other_number != nullptr) return difference(*number, *other_number);
  return one == other ? std::string() : ": " + text(one) + " and " + text(other);
}

std::string difference(const Vec2& one, const Vec2& other) {
  const std::string x = difference(one.x, other.x);
  return x.empty() ? difference(one.y, other.y) : x;
}

using Member = std::pair<std::string_view, std::string>;

/// The first of the members that differ, with its name in front.
std::string first_of(const std::vector<Member>& members) {
  for (const auto& [name, found] : members) {
    if (!found.empty()) return "." + std::string(name) + found;
  }
  return {};
}

template <typename T>
std::string difference(const std::vector<T>& one, const std::vector<T>& other);

std::string difference(const Origin& one, const Origin& other) {
  return first_of({{"kind", difference_of_counts(one.kind, other.kind)},
                   {"entity", difference(one.entity, other.entity)},
                   {"global_id", difference(one.global_id, other.global_id)},
                   {"line", difference_of_counts(one.line, other.line)},
                   {"property", difference(one.property, other.property)},
                   {"table", difference(one.table, other.table)},
                   {"row", difference(one.row, other.row)},
                   {"source", difference(one.source, other.source)},
                   {"key", difference(one.key, other.key)}});
}

std::string difference(const Input& one, const Input& other) {
  return first_of({{"name", difference(one.name, other.name)},
                   {"symbol", difference(one.symbol, other.symbol)},
                   {"value", difference(one.value, other.value)},
                   {"unit", difference(one.unit, other.unit)},
                   {"origin", difference(one.origin, other.origin)}});
}

std::string difference(const Step& one, const Step& other) {
  return first_of({{"name", difference(one.name, other.name)},
                   {"symbol", difference(one.symbol, other.symbol)},
                   {"value", difference(one.value, other.value)},
                   {"unit", difference(one.unit, other.unit)},
                   {"formula", difference(one.formula, other.formula)}});
}

std::string difference(const NamedValue& one, const NamedValue& other) {
  return first_of({{"id", difference(one.id, other.id)},
                   {"value", difference(one.value, other.value)},
                   {"unit", difference(one.unit, other.unit)}});
}

std::string difference(const Column& one, const Column& other) {
  return first_of({{"name", difference(one.name, other.name)}, {"unit", difference(one.unit, other.unit)}});
}

std::string difference(const Table& one, const Table& other) {
  return first_of({{"id", difference(one.id, other.id)},
                   {"title", difference(one.title, other.title)},
                   {"columns", difference(one.columns, other.columns)},
                   {"rows", difference(one.rows, other.rows)}});
}

std::string difference(const Curve& one, const Curve& other) {
  return first_of({{"name", difference(one.name, other.name)}, {"points", difference(one.points, other.points)}});
}

std::string difference(const Series& one, const Series& other) {
  return first_of({{"title", difference(one.title, other.title)},
                   {"x_label", difference(one.x_label, other.x_label)},
                   {"x_unit", difference(one.x_unit, other.x_unit)},
                   {"y_label", difference(one.y_label, other.y_label)},
                   {"y_unit", difference(one.y_unit, other.y_unit)},
                   {"curves", difference(one.curves, other.curves)}});
}

std::string difference(const BarPiece& one, const BarPiece& other) {
  return first_of({{"part", difference_of_counts(one.part, other.part)},
                   {"from", difference(one.from, other.from)},
                   {"to", difference(one.to, other.to)}});
}

std::string difference(const Bar& one, const Bar& other) {
  return first_of({{"name", difference(one.name, other.name)}, {"pieces", difference(one.pieces, other.pieces)}});
}

std::string difference(const BarChart& one, const BarChart& other) {
  return first_of({{"title", difference(one.title, other.title)},
                   {"axis_label", difference(one.axis_label, other.axis_label)},
                   {"axis_unit", difference(one.axis_unit, other.axis_unit)},
                   {"parts", difference(one.parts, other.parts)},
                   {"bars", difference(one.bars, other.bars)}});
}

std::string difference(const DrawnPolygon& one, const DrawnPolygon& other) {
  return first_of({{"outline", difference(one.outline, other.outline)},
                   {"hatch", difference_of_counts(one.hatch, other.hatch)},
                   {"style", difference_of_counts(one.style, other.style)},
                   {"label", difference(one.label, other.label)},
                   {"tint", difference_of_counts(one.tint, other.tint)}});
}

std::string difference(const DrawnLine& one, const DrawnLine& other) {
  return first_of({{"from", difference(one.from, other.from)},
                   {"to", difference(one.to, other.to)},
                   {"style", difference_of_counts(one.style, other.style)}});
}

std::string difference(const DrawnDimension& one, const DrawnDimension& other) {
  return first_of({{"from", difference(one.from, other.from)},
                   {"to", difference(one.to, other.to)},
                   {"offset", difference(one.offset, other.offset)},
                   {"text", difference(one.text, other.text)}});
}

std::string difference(const DrawnText& one, const DrawnText& other) {
  return first_of({{"at", difference(one.at, other.at)}, {"text", difference(one.text, other.text)}});
}

std::string difference(const Drawing& one, const Drawing& other) {
  return first_of({{"title", difference(one.title, other.title)},
                   {"polygons", difference(one.polygons, other.polygons)},
                   {"lines", difference(one.lines, other.lines)},
                   {"dimensions", difference(one.dimensions, other.dimensions)},
                   {"texts", difference(one.texts, other.texts)}});
}

template <typename T>
std::string difference(const std::vector<T>& one, const std::vector<T>& other) {
  const std::size_t shared = std::min(one.size(), other.size());
  for (std::size_t i = 0; i < shared; ++i) {
    const std::string found = difference(one[i], other[i]);
    if (!found.empty()) return "[" + std::to_string(i) + "]" + found;
  }
  if (one.size() == other.size()) return {};
  return ": " + std::to_string(one.size()) + " and " + std::to_string(other.size()) + " entries";
}

/// A utilisation; none differs from every number.
std::string difference(const std::optional<double>& one, const std::optional<double>& other) {
  const auto value = [](const std::optional<double>& number) { return number ? Value(*number) : Value(); };
  return difference(value(one), value(other));
}

}  // namespace

std::string finding_difference(const Finding& one, const Finding& other) {
  const std::string found =
      first_of({{"check", difference(one.check, other.check)},
                {"title", difference(one.title, other.title)},
                {"panel", difference(one.panel, other.panel)},
                {"verdict", difference(std::string(to_string(one.verdict)), std::string(to_string(other.verdict)))},
                {"value", difference(one.value, other.value)},
                {"unit", difference(one.unit, other.unit)},
                {"limit", difference(one.limit, other.limit)},
                {"relation", difference(std::string(to_string(one.relation)), std::string(to_string(other.relation)))},
                {"utilisation", difference(one.utilisation, other.utilisation)},
                {"decimals", difference_of_counts(one.decimals, other.decimals)},
                {"reason", difference(one.reason, other.reason)},
                {"basis", difference(std::string(to_string(one.basis)), std::string(to_string(other.basis)))},
                {"clause", difference(one.clause, other.clause)},
                {"inputs", difference(one.inputs, other.inputs)},
                {"steps", difference(one.steps, other.steps)},
                {"values", difference(one.values, other.values)},
                {"notes", difference(one.notes, other.notes)},
                {"tables", difference(one.tables, other.tables)},
                {"series", difference(one.series, other.series)},
                {"bar_charts", difference(one.bar_charts, other.bar_charts)},
                {"drawings", difference(one.drawings, other.drawings)}});
  return found.empty() ? found : found.substr(1);
}

std::string outcome_difference(const CheckOutcome& one, const CheckOutcome& other) {
  if (one.findings.size() != other.findings.size()) {
    return std::to_string(one.findings.size()) + " and " + std::to_string(other.findings.size()) + " findings";
  }
  for (std::size_t i = 0; i < one.findings.size(); ++i) {
    const std::string found = finding_difference(one.findings[i], other.findings[i]);
    if (!found.empty()) return one.findings[i].check + ": " + found;
  }
  const auto reasons = [](const CheckOutcome& outcome) {
    std::vector<std::string> result;
    for (const NotApplicable& absent : outcome.not_applicable) result.push_back(absent.check + ": " + absent.reason);
    return result;
  };
  const std::string found = difference(reasons(one), reasons(other));
  return found.empty() ? found : "checks that do not apply" + found;
}

}  // namespace panel_dossier::testing
