// The members of findings and of what a plugin declares, for the compact form.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "core/pipeline/byte_form/byte_form.h"

namespace panel_dossier {

template <>
inline constexpr OriginKind kLastOf<OriginKind> = OriginKind::setting;
template <>
inline constexpr Verdict kLastOf<Verdict> = Verdict::information;
template <>
inline constexpr Basis kLastOf<Basis> = Basis::declared;
template <>
inline constexpr Relation kLastOf<Relation> = Relation::equals;
template <>
inline constexpr LineStyle kLastOf<LineStyle> = LineStyle::centre;
template <>
inline constexpr Hatch kLastOf<Hatch> = Hatch::air;
template <>
inline constexpr CheckKind kLastOf<CheckKind> = CheckKind::evidence;
template <>
inline constexpr CheckScope kLastOf<CheckScope> = CheckScope::panels_and_project;
template <>
inline constexpr CheckInput::Source kLastOf<CheckInput::Source> = CheckInput::Source::model;

void fields(auto& archive, EitherOf<Origin> auto& origin) {
  archive(origin.kind, origin.entity, origin.global_id);
  archive.line(origin.line);
  archive(origin.property, origin.table, origin.row, origin.source, origin.key);
}

void fields(auto& archive, EitherOf<Input> auto& input) {
  archive(input.name, input.symbol, input.value, input.unit, input.origin);
}

void fields(auto& archive, EitherOf<Step> auto& step) {
  archive(step.name, step.symbol, step.value, step.unit, step.formula);
}

void fields(auto& archive, EitherOf<Column> auto& column) {
  archive(column.name, column.unit);
}

void fields(auto& archive, EitherOf<Table> auto& table) {
  archive(table.title, table.columns, table.rows, table.id);
}

void fields(auto& archive, EitherOf<NamedValue> auto& named) {
  archive(named.id, named.value, named.unit);
}

void fields(auto& archive, EitherOf<Vec2> auto& point) {
  archive(point.x, point.y);
}

void fields(auto& archive, EitherOf<DrawnLine> auto& line) {
  archive(line.from, line.to, line.style);
}

void fields(auto& archive, EitherOf<DrawnPolygon> auto& polygon) {
  archive(polygon.outline, polygon.hatch, polygon.style, polygon.label, polygon.tint);
}

void fields(auto& archive, EitherOf<DrawnDimension> auto& dimension) {
  archive(dimension.from, dimension.to, dimension.offset, dimension.text);
}

void fields(auto& archive, EitherOf<DrawnText> auto& text) {
  archive(text.at, text.text);
}

void fields(auto& archive, EitherOf<Drawing> auto& drawing) {
  archive(drawing.title, drawing.polygons, drawing.lines, drawing.dimensions, drawing.texts);
}

void fields(auto& archive, EitherOf<Curve> auto& curve) {
  archive(curve.name, curve.points);
}

void fields(auto& archive, EitherOf<Series> auto& series) {
  archive(series.title, series.x_label, series.x_unit, series.y_label, series.y_unit, series.curves);
}

void fields(auto& archive, EitherOf<BarPiece> auto& piece) {
  archive(piece.part, piece.from, piece.to);
}

void fields(auto& archive, EitherOf<Bar> auto& bar) {
  archive(bar.name, bar.pieces);
}

void fields(auto& archive, EitherOf<BarChart> auto& chart) {
  archive(chart.title, chart.axis_label, chart.axis_unit, chart.parts, chart.bars);
}

void fields(auto& archive, EitherOf<Finding> auto& finding) {
  archive(finding.check, finding.title, finding.panel, finding.value, finding.unit, finding.limit, finding.relation,
          finding.utilisation, finding.decimals, finding.verdict, finding.reason, finding.basis, finding.clause,
          finding.inputs, finding.steps, finding.values, finding.notes, finding.tables, finding.series,
          finding.bar_charts, finding.drawings);
}

void fields(auto& archive, EitherOf<NotApplicable> auto& not_applicable) {
  archive(not_applicable.check, not_applicable.reason);
}

void fields(auto& archive, EitherOf<CheckOutcome> auto& outcome) {
  archive(outcome.findings, outcome.not_applicable);
}

void fields(auto& archive, EitherOf<InputProblem> auto& problem) {
  archive(problem.file, problem.line, problem.message, problem.advice);
}

void fields(auto& archive, EitherOf<PluginInfo> auto& info) {
  archive(info.id, info.title, info.version, info.standards, info.caution);
}

void fields(auto& archive, EitherOf<CheckInput> auto& input) {
  archive(input.source, input.name, input.optional);
}

static_assert(sizeof(CheckDeclaration) == 304, "a member that is new has to be written below");

void fields(auto& archive, EitherOf<CheckDeclaration> auto& check) {
  archive(check.id, check.title, check.project_title, check.sentence, check.clause, check.other_clauses, check.units,
          check.kind, check.scope, check.inputs, check.limits, check.role, check.for_workshop);
}

}  // namespace panel_dossier
