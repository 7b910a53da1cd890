#include "core/pipeline/contract.h"

#include <algorithm>
#include <cmath>
#include <set>

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

std::string breach_of(const Finding& finding, std::string_view plugin_id, std::string_view panel) {
  const std::string prefix = std::string(plugin_id) + '.';
  if (finding.check.rfind(prefix, 0) != 0 || finding.check.size() == prefix.size()) {
    return "does not start with '" + prefix + "'";
  }
  if (finding.panel != panel) return "names panel '" + finding.panel + "' instead of '" + std::string(panel) + "'";
  if (!all_finite(finding)) return "holds a number that is not finite";
  if (needs_reason(finding.verdict) && finding.reason.empty()) {
    return "is '" + std::string(to_string(finding.verdict)) + "' without a reason";
  }
  if (finding.clause.empty()) return "names no clause";
  if (!tables_are_regular(finding)) return "has a table row that is not as long as its head";
  return {};
}

}  // namespace

std::string contract_breach(const std::vector<Finding>& findings, std::string_view plugin_id, std::string_view panel) {
  std::set<std::string_view> seen;
  for (const Finding& finding : findings) {
    std::string breach = breach_of(finding, plugin_id, panel);
    if (breach.empty() && !seen.insert(finding.check).second) breach = "stands twice";
    if (!breach.empty()) return "finding '" + finding.check + "' " + breach;
  }
  return {};
}

}  // namespace panel_dossier
