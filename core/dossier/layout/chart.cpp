#include "core/dossier/layout/chart.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"

namespace panel_dossier {

namespace {

constexpr double kCurveLegendLine = 8.5;
constexpr double kCurveAxisBand = 24.0;
constexpr double kLeftBand = 34.0;
constexpr double kCurveRightBand = 8.0;
constexpr double kCurveLegendSample = 22.0;
constexpr double kLegendIndent = 28.0;

// Curves differ by dash and width first; the accent only helps.
Stroke curve_stroke(std::size_t index) {
  static constexpr std::array<Stroke, 6> kStrokes{{{1.1, kAccent, 0, 0},
                                                   {0.9, kInk, 4, 2},
                                                   {0.9, kInk, 1, 2},
                                                   {0.6, kInk, 0, 0},
                                                   {1.1, kAccent, 7, 3},
                                                   {0.7, kMidGrey, 2, 1}}};
  return kStrokes[index % kStrokes.size()];
}

// Title and legend broken into lines.
struct ChartText {
  std::vector<std::string> title;
  std::vector<std::vector<std::string>> legend;  // one entry a curve

  double title_height() const { return static_cast<double>(title.size()) * kChartTitle.leading; }
  double legend_height() const {
    std::size_t lines = 0;
    for (const auto& entry : legend) lines += entry.size();
    return static_cast<double>(lines) * kCurveLegendLine;
  }
};

ChartText chart_text(const PdfDocument& pdf, const Series& series, double width) {
  const auto in = [&pdf](const TextStyle& style) {
    return [&pdf, style](std::string_view text) { return pdf.text_width(text, style.face, style.size); };
  };
  ChartText text;
  text.title = wrap(series.title, width, in(kChartTitle));
  for (const Curve& curve : series.curves)
    text.legend.push_back(wrap(curve.name, width - kLeftBand - kCurveRightBand - kLegendIndent, in(kChartLabel)));
  return text;
}

struct Range {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();

  void include(double value) {
    if (!std::isfinite(value)) return;
    low = std::min(low, value);
    high = std::max(high, value);
  }
};

bool finite(Vec2 point) {
  return std::isfinite(point.x) && std::isfinite(point.y);
}

struct Axes {
  Rect plot;
  std::vector<double> x;
  std::vector<double> y;

  Vec2 on_page(Vec2 point) const {
    return {plot.left + (point.x - x.front()) / (x.back() - x.front()) * plot.width(),
            plot.bottom + (point.y - y.front()) / (y.back() - y.front()) * plot.height()};
  }
};

std::string axis_title(const std::string& label, const std::string& unit) {
  return unit.empty() ? label : label + " in " + format_unit(unit);
}

void draw_axes(PdfDocument& pdf, std::size_t page, const Axes& axes, const Series& series) {
  const Rect& plot = axes.plot;
  std::vector<Segment> rules;
  for (const double value : axes.y) {
    const double y = axes.on_page({axes.x.front(), value}).y;
    rules.emplace_back(Vec2{plot.left, y}, Vec2{plot.right, y});
    const std::string text = format_significant(value);
    const double width = pdf.text_width(text, kChartLabel.face, kChartLabel.size);
    pdf.text(page, {plot.left - 4.0 - width, y - 2.1}, text, kChartLabel);
  }
  pdf.segments(page, rules, {0.25, kRule, 0, 0});
  std::vector<Segment> ticks{{{plot.left, plot.bottom}, {plot.right, plot.bottom}},
                             {{plot.left, plot.bottom}, {plot.left, plot.top}}};
  for (const double value : axes.x) {
    const double x = axes.on_page({value, axes.y.front()}).x;
    ticks.emplace_back(Vec2{x, plot.bottom}, Vec2{x, plot.bottom - 2.5});
    const std::string text = format_significant(value);
    const double width = pdf.text_width(text, kChartLabel.face, kChartLabel.size);
    pdf.text(page, {x - width / 2.0, plot.bottom - 9.0}, text, kChartLabel);
  }
  pdf.segments(page, ticks, {0.5, kInk, 0, 0});
  const auto measure = [&pdf](std::string_view text) {
    return pdf.text_width(text, kChartLabel.face, kChartLabel.size);
  };
  const std::string x_title = shorten(axis_title(series.x_label, series.x_unit), plot.width(), measure);
  pdf.text(page, {plot.right - measure(x_title), plot.bottom - 18.5}, x_title, kChartLabel);
  const std::string y_title = shorten(axis_title(series.y_label, series.y_unit), plot.width(), measure);
  pdf.text(page, {plot.left - 4.0, plot.top + 4.5}, y_title, kChartLabel);
}

void draw_curve(PdfDocument& pdf, std::size_t page, const Axes& axes, const Curve& curve, const Stroke& stroke) {
  std::vector<Vec2> run;
  for (const Vec2& point : curve.points) {
    if (finite(point)) {
      run.push_back(axes.on_page(point));
      continue;
    }
    pdf.polyline(page, run, stroke);
    run.clear();
  }
  pdf.polyline(page, run, stroke);
}

}  // namespace

std::vector<double> axis_ticks(double low, double high, int wanted) {
  if (!std::isfinite(low) || !std::isfinite(high)) return {0.0, 1.0};
  if (low > high) std::swap(low, high);
  if (high - low <= 1e-12 * std::max(std::fabs(low), std::fabs(high)) || high == low) {
    const double half = low == 0.0 ? 1.0 : std::fabs(low) / 2.0;
    low -= half;
    high += half;
  }
  const double rough = (high - low) / std::max(1, wanted);
  const double decade = std::pow(10.0, std::floor(std::log10(rough)));
  double step = 10.0 * decade;
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * decade >= rough * (1.0 - 1e-9)) {
      step = factor * decade;
      break;
    }
  }
  constexpr double kOnTick = 1e-9;  // of a step: a bound this near to a tick counts as lying on it
  const double first = std::floor(low / step + kOnTick);
  const double last = std::ceil(high / step - kOnTick);
  const auto count = static_cast<std::size_t>(last - first) + 1;
  std::vector<double> ticks;
  ticks.reserve(count);
  for (std::size_t i = 0; i < count; ++i) ticks.push_back((first + static_cast<double>(i)) * step);
  return ticks;
}

double chart_height(const PdfDocument& pdf, const Series& series, double width) {
  const ChartText text = chart_text(pdf, series, width);
  return std::min(0.55 * width, 150.0) + text.title_height() + 2.0 * kCurveAxisBand + text.legend_height();
}

void draw_chart(PdfDocument& pdf, std::size_t page, const Series& series, const Rect& area) {
  const ChartText text = chart_text(pdf, series, area.width());
  double title_y = area.top - kChartTitle.size;
  for (const std::string& line : text.title) {
    pdf.text(page, {area.left, title_y}, line, kChartTitle);
    title_y -= kChartTitle.leading;
  }
  Range x;
  Range y;
  for (const Curve& curve : series.curves) {
    for (const Vec2& point : curve.points) {
      if (!finite(point)) continue;
      x.include(point.x);
      y.include(point.y);
    }
  }
  Axes axes;
  axes.x = axis_ticks(x.low, x.high, 6);
  axes.y = axis_ticks(y.low, y.high, 5);
  axes.plot = {area.left + kLeftBand, area.bottom + kCurveAxisBand + text.legend_height(), area.right - kCurveRightBand,
               area.top - text.title_height() - kChartLabel.leading - 6.0};
  draw_axes(pdf, page, axes, series);
  double legend_y = area.bottom + text.legend_height() - kCurveLegendLine + 2.0;
  for (std::size_t i = 0; i < series.curves.size(); ++i) {
    const Stroke stroke = curve_stroke(i);
    draw_curve(pdf, page, axes, series.curves[i], stroke);
    pdf.line(page, {axes.plot.left, legend_y + 2.0}, {axes.plot.left + kCurveLegendSample, legend_y + 2.0}, stroke);
    for (const std::string& line : text.legend[i]) {
      pdf.text(page, {axes.plot.left + kLegendIndent, legend_y}, line, kChartLabel);
      legend_y -= kCurveLegendLine;
    }
  }
}

}  // namespace panel_dossier
