#include "core/pipeline/record/finding_json.h"

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

constexpr LineStyle kLineStyles[] = {LineStyle::thin, LineStyle::normal, LineStyle::heavy, LineStyle::dashed,
                                     LineStyle::centre};
constexpr Hatch kHatches[] = {Hatch::none,    Hatch::timber, Hatch::insulation, Hatch::board, Hatch::membrane,
                              Hatch::masonry, Hatch::glass,  Hatch::metal,      Hatch::air};

std::string_view drawing_word(LineStyle style) {
  switch (style) {
    case LineStyle::thin: return "thin";
    case LineStyle::normal: return "normal";
    case LineStyle::heavy: return "heavy";
    case LineStyle::dashed: return "dashed";
    case LineStyle::centre: return "centre";
  }
  throw std::logic_error("line style without a drawing_word");
}

std::string_view drawing_word(Hatch hatch) {
  switch (hatch) {
    case Hatch::none: return "none";
    case Hatch::timber: return "timber";
    case Hatch::insulation: return "insulation";
    case Hatch::board: return "board";
    case Hatch::membrane: return "membrane";
    case Hatch::masonry: return "masonry";
    case Hatch::glass: return "glass";
    case Hatch::metal: return "metal";
    case Hatch::air: return "air";
  }
  throw std::logic_error("hatch without a drawing_word");
}

LineStyle style_of(const ordered_json& json) {
  return word_member(json, "style", kLineStyles, [](LineStyle style) { return drawing_word(style); });
}

ordered_json point_to_json(const Vec2& point) {
  return ordered_json::array({point.x, point.y});
}

Vec2 point_from_json(const ordered_json& json) {
  if (!json.is_array() || json.size() != 2 || !json[0].is_number() || !json[1].is_number()) {
    throw std::runtime_error("a point is not a pair of numbers");
  }
  return {json[0].get<double>(), json[1].get<double>()};
}

Vec2 point_member(const ordered_json& object, const char* name) {
  return point_from_json(member<ordered_json>(object, name));
}

ordered_json polygon_to_json(const DrawnPolygon& polygon) {
  ordered_json json{{"outline", json_array(polygon.outline, point_to_json)},
                    {"hatch", drawing_word(polygon.hatch)},
                    {"style", drawing_word(polygon.style)},
                    {"label", polygon.label}};
  if (polygon.tint != 0) json["tint"] = polygon.tint;
  return json;
}

DrawnPolygon polygon_from_json(const ordered_json& json) {
  return {members(json, "outline", point_from_json),
          word_member(json, "hatch", kHatches, [](Hatch hatch) { return drawing_word(hatch); }), style_of(json),
          member<std::string>(json, "label"), json.contains("tint") ? member<std::size_t>(json, "tint") : 0};
}

ordered_json line_to_json(const DrawnLine& line) {
  return {{"from", point_to_json(line.from)}, {"to", point_to_json(line.to)}, {"style", drawing_word(line.style)}};
}

DrawnLine line_from_json(const ordered_json& json) {
  return {point_member(json, "from"), point_member(json, "to"), style_of(json)};
}

ordered_json dimension_to_json(const DrawnDimension& dimension) {
  return {{"from", point_to_json(dimension.from)},
          {"to", point_to_json(dimension.to)},
          {"offset", dimension.offset},
          {"text", dimension.text}};
}

DrawnDimension dimension_from_json(const ordered_json& json) {
  return {point_member(json, "from"), point_member(json, "to"), member<double>(json, "offset"),
          member<std::string>(json, "text")};
}

ordered_json text_to_json(const DrawnText& text) {
  return {{"at", point_to_json(text.at)}, {"text", text.text}};
}

DrawnText text_from_json(const ordered_json& json) {
  return {point_member(json, "at"), member<std::string>(json, "text")};
}

ordered_json curve_to_json(const Curve& curve) {
  return {{"name", curve.name}, {"points", json_array(curve.points, point_to_json)}};
}

Curve curve_from_json(const ordered_json& json) {
  return {member<std::string>(json, "name"), members(json, "points", point_from_json)};
}

ordered_json bar_to_json(const Bar& bar) {
  return {{"name", bar.name}, {"pieces", json_array(bar.pieces, [](const BarPiece& piece) {
                                 return ordered_json{{"part", piece.part}, {"from", piece.from}, {"to", piece.to}};
                               })}};
}

Bar bar_from_json(const ordered_json& json) {
  return {
      member<std::string>(json, "name"), members(json, "pieces", [](const ordered_json& piece) {
        return BarPiece{member<std::size_t>(piece, "part"), member<double>(piece, "from"), member<double>(piece, "to")};
      })};
}

ordered_json drawing_to_json(const Drawing& drawing) {
  return {{"title", drawing.title},
          {"polygons", json_array(drawing.polygons, polygon_to_json)},
          {"lines", json_array(drawing.lines, line_to_json)},
          {"dimensions", json_array(drawing.dimensions, dimension_to_json)},
          {"texts", json_array(drawing.texts, text_to_json)}};
}

Drawing drawing_from_json(const ordered_json& json) {
  return {member<std::string>(json, "title"), members(json, "polygons", polygon_from_json),
          members(json, "lines", line_from_json), members(json, "dimensions", dimension_from_json),
          members(json, "texts", text_from_json)};
}

ordered_json series_to_json(const Series& series) {
  return {{"title", series.title},   {"x_label", series.x_label},
          {"x_unit", series.x_unit}, {"y_label", series.y_label},
          {"y_unit", series.y_unit}, {"curves", json_array(series.curves, curve_to_json)}};
}

Series series_from_json(const ordered_json& json) {
  return {member<std::string>(json, "title"),  member<std::string>(json, "x_label"),
          member<std::string>(json, "x_unit"), member<std::string>(json, "y_label"),
          member<std::string>(json, "y_unit"), members(json, "curves", curve_from_json)};
}

ordered_json bar_chart_to_json(const BarChart& chart) {
  return {{"title", chart.title},
          {"axis_label", chart.axis_label},
          {"axis_unit", chart.axis_unit},
          {"parts", chart.parts},
          {"bars", json_array(chart.bars, bar_to_json)}};
}

BarChart bar_chart_from_json(const ordered_json& json) {
  return {member<std::string>(json, "title"), member<std::string>(json, "axis_label"),
          member<std::string>(json, "axis_unit"), member<std::vector<std::string>>(json, "parts"),
          members(json, "bars", bar_from_json)};
}

constexpr Verdict kVerdicts[] = {Verdict::pass, Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed,
                                 Verdict::information};
constexpr Basis kBases[] = {Basis::calculation, Basis::test_evidence, Basis::declared};
constexpr Relation kRelations[] = {Relation::none, Relation::at_most, Relation::at_least, Relation::equals};
constexpr OriginKind kOriginKinds[] = {OriginKind::export_file, OriginKind::data_table, OriginKind::input_table,
                                       OriginKind::setting};

constexpr auto kWord = [](auto enumerator) { return to_string(enumerator); };

std::string_view word(OriginKind kind) {
  switch (kind) {
    case OriginKind::export_file: return "export";
    case OriginKind::data_table: return "data table";
    case OriginKind::input_table: return "input table";
    case OriginKind::setting: return "setting";
  }
  throw std::logic_error("origin kind without a word");
}

ordered_json value_to_json(const Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return *number;
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  return nullptr;
}

Value value_from_json(const ordered_json& json) {
  if (json.is_null()) return {};
  if (json.is_number()) return json.get<double>();
  if (json.is_string()) return json.get<std::string>();
  throw std::runtime_error("a value is neither a number nor text nor null");
}

Value value_member(const ordered_json& object, const char* name) {
  return value_from_json(member<ordered_json>(object, name));
}

ordered_json origin_to_json(const Origin& origin) {
  ordered_json json{{"kind", word(origin.kind)}};
  switch (origin.kind) {
    case OriginKind::export_file:
      json["entity"] = origin.entity;
      json["global_id"] = origin.global_id;
      json["line"] = origin.line;
      json["property"] = origin.property;
      break;
    case OriginKind::data_table:
      json["table"] = origin.table;
      json["row"] = origin.row;
      json["source"] = origin.source;
      break;
    case OriginKind::input_table:
      json["table"] = origin.table;
      json["row"] = origin.row;
      json["property"] = origin.property;
      json["source"] = origin.source;
      break;
    case OriginKind::setting: json["key"] = origin.key; break;
  }
  return json;
}

Origin origin_from_json(const ordered_json& json) {
  Origin origin;
  origin.kind = word_member(json, "kind", kOriginKinds, word);
  switch (origin.kind) {
    case OriginKind::export_file:
      origin.entity = member<std::string>(json, "entity");
      origin.global_id = member<std::string>(json, "global_id");
      origin.line = member<std::uint32_t>(json, "line");
      origin.property = member<std::string>(json, "property");
      break;
    case OriginKind::data_table:
      origin.table = member<std::string>(json, "table");
      origin.row = member<std::string>(json, "row");
      origin.source = member<std::string>(json, "source");
      break;
    case OriginKind::input_table:
      origin.table = member<std::string>(json, "table");
      origin.row = member<std::string>(json, "row");
      origin.property = member<std::string>(json, "property");
      origin.source = member<std::string>(json, "source");
      break;
    case OriginKind::setting: origin.key = member<std::string>(json, "key"); break;
  }
  return origin;
}

ordered_json input_to_json(const DerivationInput& input) {
  return {{"name", input.name},
          {"symbol", input.symbol},
          {"value", value_to_json(input.value)},
          {"unit", input.unit},
          {"origin", input.origin ? origin_to_json(*input.origin) : ordered_json(nullptr)}};
}

DerivationInput input_from_json(const ordered_json& json) {
  DerivationInput input{member<std::string>(json, "name"), member<std::string>(json, "symbol"),
                        value_member(json, "value"), member<std::string>(json, "unit"), std::nullopt};
  const auto origin = member<ordered_json>(json, "origin");
  if (!origin.is_null()) input.origin = origin_from_json(origin);
  return input;
}

/// One entry an input of the derivation: the finding's own origin, or null where the derivation has it.
ordered_json origins_to_json(const RecordedFinding& finding) {
  auto json = ordered_json::array();
  auto own = finding.origins.begin();
  for (const DerivationInput& input : finding.derivation->inputs) {
    json.push_back(input.origin ? ordered_json(nullptr) : origin_to_json(*own++));
  }
  return json;
}

std::vector<Origin> origins_from_json(const ordered_json& json, const Derivation& derivation) {
  const auto entries = members(json, "origins", [](const ordered_json& entry) { return entry; });
  if (entries.size() != derivation.inputs.size()) {
    throw std::runtime_error("there are " + std::to_string(entries.size()) + " origins for the " +
                             std::to_string(derivation.inputs.size()) + " inputs of its derivation");
  }
  std::vector<Origin> own;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const DerivationInput& input = derivation.inputs[i];
    if (entries[i].is_null() != input.origin.has_value()) {
      throw std::runtime_error("the origin of input '" + input.name + "' stands " +
                               (input.origin ? "in both finding and derivation" : "in neither finding nor derivation"));
    }
    if (!input.origin) own.push_back(origin_from_json(entries[i]));
  }
  return own;
}

ordered_json step_to_json(const Step& step) {
  return {{"name", step.name},
          {"symbol", step.symbol},
          {"value", value_to_json(step.value)},
          {"unit", step.unit},
          {"formula", step.formula}};
}

Step step_from_json(const ordered_json& json) {
  return {member<std::string>(json, "name"), member<std::string>(json, "symbol"), value_member(json, "value"),
          member<std::string>(json, "unit"), member<std::string>(json, "formula")};
}

ordered_json named_value_to_json(const NamedValue& value) {
  return {{"id", value.id}, {"value", value_to_json(value.value)}, {"unit", value.unit}};
}

NamedValue named_value_from_json(const ordered_json& json) {
  return {member<std::string>(json, "id"), value_member(json, "value"), member<std::string>(json, "unit")};
}

ordered_json table_to_json(const Table& table) {
  const auto column = [](const Column& c) { return ordered_json{{"name", c.name}, {"unit", c.unit}}; };
  const auto row = [](const std::vector<Value>& cells) { return json_array(cells, value_to_json); };
  return {{"id", table.id},
          {"title", table.title},
          {"columns", json_array(table.columns, column)},
          {"rows", json_array(table.rows, row)}};
}

std::vector<Value> row_from_json(const ordered_json& json) {
  if (!json.is_array()) throw std::runtime_error("a table row is not an array");
  std::vector<Value> cells;
  for (const auto& cell : json) cells.push_back(value_from_json(cell));
  return cells;
}

Table table_from_json(const ordered_json& json) {
  const auto column = [](const ordered_json& item) {
    return Column{member<std::string>(item, "name"), member<std::string>(item, "unit")};
  };
  Table table{member<std::string>(json, "title"), members(json, "columns", column),
              members(json, "rows", row_from_json), member<std::string>(json, "id")};
  for (const auto& row : table.rows) {
    if (row.size() != table.columns.size()) {
      throw std::runtime_error("a row of table '" + table.title + "' has not one cell a column");
    }
  }
  return table;
}

ordered_json panel_to_json(const std::string& global_id) {
  return global_id.empty() ? ordered_json(nullptr) : ordered_json(global_id);
}

}  // namespace

ordered_json finding_to_json(const RecordedFinding& finding) {
  return {{"check", finding.check},
          {"title", finding.title},
          {"panel", panel_to_json(finding.panel)},
          {"value", value_to_json(finding.value)},
          {"unit", finding.unit},
          {"limit", value_to_json(finding.limit)},
          {"relation", to_string(finding.relation)},
          {"utilisation", finding.utilisation ? ordered_json(*finding.utilisation) : ordered_json(nullptr)},
          {"verdict", to_string(finding.verdict)},
          {"reason", finding.reason},
          {"basis", to_string(finding.basis)},
          {"clause", finding.clause},
          {"derivation", finding.derivation->hash},
          {"origins", origins_to_json(finding)}};
}

ordered_json derivation_to_json(const Derivation& derivation) {
  return {{"check", derivation.check},
          {"clause", derivation.clause},
          {"decimals", derivation.decimals},
          {"inputs", json_array(derivation.inputs, input_to_json)},
          {"steps", json_array(derivation.steps, step_to_json)},
          {"values", json_array(derivation.values, named_value_to_json)},
          {"notes", derivation.notes},
          {"tables", json_array(derivation.tables, table_to_json)},
          {"series", json_array(derivation.series, series_to_json)},
          {"bar_charts", json_array(derivation.bar_charts, bar_chart_to_json)},
          {"drawings", json_array(derivation.drawings, drawing_to_json)}};
}

RecordedFinding finding_from_json(const ordered_json& json, const DerivationOfHash& derivation_of) {
  RecordedFinding finding;
  finding.check = member<std::string>(json, "check");
  finding.title = member<std::string>(json, "title");
  const auto panel = member<ordered_json>(json, "panel");
  if (!panel.is_null()) finding.panel = member<std::string>(json, "panel");
  finding.value = value_member(json, "value");
  finding.unit = member<std::string>(json, "unit");
  finding.limit = value_member(json, "limit");
  finding.relation = word_member(json, "relation", kRelations, kWord);
  const auto utilisation = member<ordered_json>(json, "utilisation");
  if (!utilisation.is_null()) finding.utilisation = member<double>(json, "utilisation");
  finding.verdict = word_member(json, "verdict", kVerdicts, kWord);
  finding.reason = member<std::string>(json, "reason");
  finding.basis = word_member(json, "basis", kBases, kWord);
  finding.clause = member<std::string>(json, "clause");
  try {
    finding.derivation = derivation_of(member<std::string>(json, "derivation"));
    if (finding.derivation->check != finding.check || finding.derivation->clause != finding.clause) {
      throw std::runtime_error("its derivation is of another check or clause: '" + finding.derivation->check + "', '" +
                               finding.derivation->clause + "'");
    }
    finding.origins = origins_from_json(json, *finding.derivation);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("finding of '" + finding.check + "': " + error.what());
  }
  return finding;
}

Derivation derivation_from_json(const ordered_json& json, HexDigest hash) {
  Derivation derivation;
  derivation.hash = std::move(hash);
  derivation.check = member<std::string>(json, "check");
  derivation.clause = member<std::string>(json, "clause");
  derivation.decimals = member<int>(json, "decimals");
  derivation.inputs = members(json, "inputs", input_from_json);
  derivation.steps = members(json, "steps", step_from_json);
  derivation.values = members(json, "values", named_value_from_json);
  derivation.notes = member<std::vector<std::string>>(json, "notes");
  derivation.tables = members(json, "tables", table_from_json);
  derivation.series = members(json, "series", series_from_json);
  derivation.bar_charts = members(json, "bar_charts", bar_chart_from_json);
  derivation.drawings = members(json, "drawings", drawing_from_json);
  return derivation;
}

}  // namespace panel_dossier
