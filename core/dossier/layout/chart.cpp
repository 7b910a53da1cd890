#include "core/dossier/layout/chart.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "core/api/support/words.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"

namespace panel_dossier {

namespace {

constexpr double kCurveLegendLine = 10.0;
constexpr double kCurveAxisBand = 29.0;
constexpr double kLeftBand = 42.0;
constexpr double kCurveRightBand = 12.0;
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
    pdf.text(page, {plot.left - 4.0 - width, y - 2.8}, text, kChartLabel);
  }
  pdf.segments(page, rules, {0.25, kRule, 0, 0});
  std::vector<Segment> ticks{{{plot.left, plot.bottom}, {plot.right, plot.bottom}},
                             {{plot.left, plot.bottom}, {plot.left, plot.top}}};
  for (const double value : axes.x) {
    const double x = axes.on_page({value, axes.y.front()}).x;
    ticks.emplace_back(Vec2{x, plot.bottom}, Vec2{x, plot.bottom - 2.5});
    const std::string text = format_significant(value);
    const double width = pdf.text_width(text, kChartLabel.face, kChartLabel.size);
    pdf.text(page, {x - width / 2.0, plot.bottom - 11.0}, text, kChartLabel);
  }
  pdf.segments(page, ticks, {0.5, kInk, 0, 0});
  const auto measure = [&pdf](std::string_view text) {
    return pdf.text_width(text, kChartLabel.face, kChartLabel.size);
  };
  const std::string x_title = shorten(axis_title(series.x_label, series.x_unit), plot.width(), measure);
  pdf.text(page, {plot.right - measure(x_title), plot.bottom - 22.0}, x_title, kChartLabel);
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
  std::vector<std::string> names;
  for (const Curve& curve : series.curves) names.push_back(curve.name);
  const Tagged tagged(
      pdf, Tag::figure,
      "Chart: " + series.title + ". " + series.y_label + " over " + series.x_label + ": " + joined(names));
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

namespace {

constexpr double kBarStep = 12.0;
constexpr double kBarShare = 0.68;  // of the step; the rest is the gap
constexpr double kBarAxisBand = 29.0;
constexpr double kBarRightBand = 14.0;
constexpr double kMostNameShare = 0.32;  // of the width
constexpr double kBarLegendLine = 11.0;
constexpr double kBarLegendSample = 16.0;
constexpr double kLegendGap = 14.0;

struct Fill {
  std::optional<Colour> colour;
  Hatch hatch = Hatch::none;
};

// In the order of the legend. Each differs by its marks; the accent only helps.
Fill fill_of(std::size_t part) {
  static constexpr std::array<Fill, 9> kFills{{{kAccent, Hatch::none},
                                               {std::nullopt, Hatch::timber},
                                               {kRule, Hatch::none},
                                               {std::nullopt, Hatch::board},
                                               {std::nullopt, Hatch::none},
                                               {std::nullopt, Hatch::air},
                                               {kMidGrey, Hatch::none},
                                               {std::nullopt, Hatch::metal},
                                               {std::nullopt, Hatch::masonry}}};
  return kFills[part % kFills.size()];
}

void fill_piece(PdfDocument& pdf, std::size_t page, const Rect& rect, std::size_t part) {
  const Fill fill = fill_of(part);
  if (fill.colour) pdf.rectangle(page, rect, fill.colour, std::nullopt);
  if (fill.hatch != Hatch::none) {
    const Polygon outline{
        {rect.left, rect.bottom}, {rect.right, rect.bottom}, {rect.right, rect.top}, {rect.left, rect.top}};
    pdf.segments(page, hatch_marks(outline, fill.hatch).segments, {0.35, kInk, 0, 0});
  }
  pdf.rectangle(page, rect, std::nullopt, Stroke{0.4, kInk, 0, 0});
}

class BarChartPage {
 public:
  BarChartPage(const PdfDocument& pdf, const BarChart& chart, double width) : pdf_(pdf), chart_(chart), width_(width) {
    title_ = wrap(chart.title, width,
                  [&pdf](std::string_view text) { return pdf.text_width(text, kChartTitle.face, kChartTitle.size); });
    for (const Bar& bar : chart.bars) name_width_ = std::max(name_width_, measure(bar.name));
    name_width_ = std::min(name_width_, kMostNameShare * width) + 6.0;
    arrange_legend();
  }

  double height() const {
    return title_height() + static_cast<double>(chart_.bars.size()) * kBarStep + kBarAxisBand + legend_height() + 6.0;
  }

  void draw(PdfDocument& pdf, std::size_t page, const Rect& area) const {
    double title_y = area.top - kChartTitle.size;
    for (const std::string& line : title_) {
      pdf.text(page, {area.left, title_y}, line, kChartTitle);
      title_y -= kChartTitle.leading;
    }
    const Rect plot{area.left + name_width_, area.bottom + legend_height() + kBarAxisBand, area.right - kBarRightBand,
                    area.top - title_height() - 4.0};
    const std::vector<double> ticks = axis();
    const auto on_page = [&](double value) {
      return plot.left + (value - ticks.front()) / (ticks.back() - ticks.front()) * plot.width();
    };
    draw_axis(pdf, page, plot, ticks, on_page);
    const double step = plot.height() / static_cast<double>(std::max<std::size_t>(1, chart_.bars.size()));
    double middle = plot.top - step / 2.0;
    for (const Bar& bar : chart_.bars) {
      draw_bar(pdf, page, bar, {area.left, middle}, step * kBarShare, on_page);
      middle -= step;
    }
    draw_legend(pdf, page, {area.left, area.bottom + legend_height() - kBarLegendLine});
  }

 private:
  struct LegendEntry {
    std::size_t part = 0;
    double x = 0.0;
    std::size_t line = 0;
  };

  const PdfDocument& pdf_;
  const BarChart& chart_;
  double width_;
  double name_width_ = 0.0;
  std::vector<std::string> title_;
  std::vector<LegendEntry> legend_;

  double measure(std::string_view text) const { return pdf_.text_width(text, kChartLabel.face, kChartLabel.size); }
  double title_height() const { return static_cast<double>(title_.size()) * kChartTitle.leading; }
  double legend_height() const {
    return legend_.empty() ? 0.0 : static_cast<double>(legend_.back().line + 1) * kBarLegendLine;
  }

  bool is_drawn(std::size_t part) const {
    return std::any_of(chart_.bars.begin(), chart_.bars.end(), [part](const Bar& bar) {
      return std::any_of(bar.pieces.begin(), bar.pieces.end(),
                         [part](const BarPiece& piece) { return piece.part == part; });
    });
  }

  /// Only of parts that are drawn.
  void arrange_legend() {
    LegendEntry next;
    for (std::size_t part = 0; part < chart_.parts.size(); ++part) {
      if (!is_drawn(part)) continue;
      const double entry_width = kBarLegendSample + 4.0 + measure(chart_.parts[part]) + kLegendGap;
      if (next.x > 0.0 && next.x + entry_width > width_) next = {part, 0.0, next.line + 1};
      next.part = part;
      legend_.push_back(next);
      next.x += entry_width;
    }
  }

  std::vector<double> axis() const {
    double low = 0.0;
    double high = 0.0;
    for (const Bar& bar : chart_.bars) {
      for (const BarPiece& piece : bar.pieces) {
        low = std::min({low, piece.from, piece.to});
        high = std::max({high, piece.from, piece.to});
      }
    }
    return axis_ticks(low, high, 6);
  }

  template <typename OnPage>
  void draw_axis(PdfDocument& pdf, std::size_t page, const Rect& plot, const std::vector<double>& ticks,
                 const OnPage& on_page) const {
    std::vector<Segment> rules;
    for (const double value : ticks) {
      rules.emplace_back(Vec2{on_page(value), plot.bottom - 2.5}, Vec2{on_page(value), plot.top});
      const std::string text = format_significant(value);
      pdf.text(page, {on_page(value) - measure(text) / 2.0, plot.bottom - 11.0}, text, kChartLabel);
    }
    pdf.segments(page, rules, {0.25, kRule, 0, 0});
    if (ticks.front() <= 0.0) pdf.line(page, {on_page(0.0), plot.bottom}, {on_page(0.0), plot.top}, {0.5, kInk, 0, 0});
    const std::string title =
        chart_.axis_unit.empty() ? chart_.axis_label : chart_.axis_label + " in " + format_unit(chart_.axis_unit);
    const std::string shown = shorten(title, plot.width(), [this](std::string_view text) { return measure(text); });
    pdf.text(page, {plot.right - measure(shown), plot.bottom - 22.0}, shown, kChartLabel);
  }

  template <typename OnPage>
  void draw_bar(PdfDocument& pdf, std::size_t page, const Bar& bar, Vec2 at, double thickness,
                const OnPage& on_page) const {
    const std::string name =
        shorten(bar.name, name_width_ - 4.0, [this](std::string_view text) { return measure(text); });
    pdf.text(page, {at.x, at.y - 2.8}, name, kChartLabel);
    for (const BarPiece& piece : bar.pieces) {
      if (piece.from == piece.to || piece.part >= chart_.parts.size()) continue;
      const double left = on_page(std::min(piece.from, piece.to));
      const double right = on_page(std::max(piece.from, piece.to));
      fill_piece(pdf, page, {left, at.y - thickness / 2.0, right, at.y + thickness / 2.0}, piece.part);
    }
  }

  void draw_legend(PdfDocument& pdf, std::size_t page, Vec2 at) const {
    for (const LegendEntry& entry : legend_) {
      const double left = at.x + entry.x;
      const double bottom = at.y - static_cast<double>(entry.line) * kBarLegendLine;
      fill_piece(pdf, page, {left, bottom, left + kBarLegendSample, bottom + 6.0}, entry.part);
      pdf.text(page, {left + kBarLegendSample + 4.0, bottom + 1.0}, chart_.parts[entry.part], kChartLabel);
    }
  }
};

}  // namespace

double bar_chart_height(const PdfDocument& pdf, const BarChart& chart, double width) {
  return BarChartPage(pdf, chart, width).height();
}

void draw_bar_chart(PdfDocument& pdf, std::size_t page, const BarChart& chart, const Rect& area) {
  std::vector<std::string> names;
  for (const Bar& bar : chart.bars) names.push_back(bar.name);
  const Tagged tagged(pdf, Tag::figure, "Bar chart: " + chart.title + ". " + chart.axis_label + ": " + joined(names));
  BarChartPage(pdf, chart, area.width()).draw(pdf, page, area);
}

}  // namespace panel_dossier
