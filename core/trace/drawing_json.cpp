#include "core/trace/drawing_json.h"

#include <string_view>

#include "core/trace/json_reader.h"

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

}  // namespace

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

}  // namespace panel_dossier
