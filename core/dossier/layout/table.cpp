#include "core/dossier/layout/table.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <numeric>
#include <utility>

#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"

namespace panel_dossier {

namespace {

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

}  // namespace

std::vector<double> fit_columns(const std::vector<double>& natural, const std::vector<double>& minimum,
                                double available, bool fill) {
  const double natural_sum = sum(natural);
  const double minimum_sum = sum(minimum);
  std::vector<double> widths(natural);
  if (natural_sum <= available) {
    if (!fill || natural_sum <= 0.0) return widths;
    for (double& width : widths) width *= available / natural_sum;
    return widths;
  }
  if (minimum_sum >= available) {
    for (std::size_t i = 0; i < widths.size(); ++i) widths[i] = minimum[i] * available / minimum_sum;
    return widths;
  }
  // Narrow columns keep their natural width as long as possible; of the others one with four times the text gets twice
  // the room, so that neither is many lines higher than the rest of its row.
  const auto set_widths = [&](double level) {
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(minimum[i], std::min(natural[i], level * std::sqrt(natural[i])));
  };
  double low = 0.0;
  double high = std::sqrt(*std::max_element(natural.begin(), natural.end()));
  for (int step = 0; step < 50; ++step) {
    const double level = (low + high) / 2.0;
    set_widths(level);
    (sum(widths) > available ? high : low) = level;
  }
  set_widths(low);
  return widths;
}

bool looks_numeric(std::string_view text) {
  for (const std::string_view sign : {"≤ ", "≥ ", "= ", "\u2212", "-", "+"}) {
    if (text.substr(0, sign.size()) == sign) text.remove_prefix(sign.size());
  }
  return !text.empty() && text.front() >= '0' && text.front() <= '9';
}

namespace {

constexpr double kPadding = 3.0;   // at either side of a cell
constexpr double kGapBelow = 6.0;  // between a table and what follows
constexpr double kMarkWidth = 8.5;
constexpr double kMarkSize = 5.0;
constexpr double kCountGap = 3.0;
constexpr double kBarLength = 28.0;        // of a whole share
constexpr double kWidestWordShare = 0.22;  // of the table that a word may claim for its column
constexpr double kNarrowShare = 0.12;      // of the table, for a column that is never broken for the others' sake
constexpr double kShortestSplit = 3.0;     // lines of a row that may stand alone on a page

// Bytes before the decimal point of a number, or all of it when it has none.
std::size_t integer_part(std::string_view text) {
  const auto digit = text.find_first_of("0123456789");
  if (digit == std::string_view::npos) return text.size();
  const auto end = text.find_first_not_of("0123456789", digit);
  return end == std::string_view::npos ? text.size() : end;
}

// What nine in ten cells of a column need, so that one long text does not make room for itself at the others' cost.
double usual_width(std::vector<double> cells) {
  constexpr double kShare = 0.9;
  const auto last = static_cast<std::ptrdiff_t>(std::ceil(kShare * static_cast<double>(cells.size()))) - 1;
  std::nth_element(cells.begin(), cells.begin() + last, cells.end());
  return cells[static_cast<std::size_t>(last)];
}

// The usual widths, and what they leave of the space shared out by what columns would like beyond them.
std::vector<double> between(const std::vector<double>& usual, const std::vector<double>& natural, double available) {
  std::vector<double> widths(usual);
  const double spare = available - sum(usual);
  const double wished = sum(natural) - sum(usual);
  if (spare <= 0.0 || wished <= 0.0) return widths;
  for (std::size_t i = 0; i < widths.size(); ++i) widths[i] += (natural[i] - usual[i]) * std::min(1.0, spare / wished);
  return widths;
}

double cell_baseline(double top, const TextStyle& style) {
  return top - (style.leading - style.size) / 2.0 - 0.85 * style.size;
}

}  // namespace

Cell verdict_cell(Verdict verdict) {
  Cell cell(std::string(to_string(verdict)));
  cell.mark = verdict;
  cell.bold = verdict == Verdict::fail;
  return cell;
}

Cell link_cell(std::string text, std::string anchor) {
  Cell cell(std::move(text));
  cell.link = std::move(anchor);
  return cell;
}

TableLayout::TableLayout(PdfDocument& pdf, TableSpec spec, double width, bool fill)
    : pdf_(pdf), spec_(std::move(spec)) {
  measure_numbers();
  std::vector<double> natural;
  std::vector<double> usual;
  std::vector<double> minimum;
  for (std::size_t column = 0; column < spec_.columns.size(); ++column) {
    const auto in_bold = [this](std::string_view text) { return measure(text, true); };
    const std::string& head = spec_.columns[column].head;
    double widest = alignments_[column].whole;
    double narrowest = std::max(widest, widest_word(head, in_bold));
    widest = std::max(widest, std::min(measure(head, true), std::max(40.0, narrowest)));
    std::vector<double> cells{widest};
    for (const auto& row : spec_.rows) {
      if (column >= row.size()) continue;
      const Cell& cell = row[column];
      const double mark = cell.mark ? kMarkWidth : 0.0;
      cells.push_back(measure(cell));
      widest = std::max(widest, cells.back());
      narrowest = std::max(narrowest, cell.bar || cell.mark ? measure(cell) : counts_width(cell));
      const auto in_face = [&](std::string_view text) { return measure(text, cell.bold); };
      narrowest = std::max(narrowest, mark + widest_word(cell.text, in_face));
    }
    natural.push_back(widest + 2.0 * kPadding);
    // One endless word must not squeeze the other columns: it is broken instead.
    const double cap = kWidestWordShare * width;
    minimum.push_back(std::min({narrowest, widest, cap}) + 2.0 * kPadding);
    // A narrow column gains nothing by being broken.
    const bool is_narrow = widest <= kNarrowShare * width;
    usual.push_back(is_narrow ? natural.back()
                              : std::max(minimum.back(), usual_width(std::move(cells)) + 2.0 * kPadding));
  }
  // Heads stand on one line where all of them can.
  std::vector<double> with_heads(natural);
  for (std::size_t column = 0; column < with_heads.size(); ++column)
    with_heads[column] = std::max(with_heads[column], measure(spec_.columns[column].head, true) + 2.0 * kPadding);
  if (sum(with_heads) <= width) natural = std::move(with_heads);
  widths_ = fit_columns(sum(natural) > width ? between(usual, natural, width) : natural, minimum, width, fill);
  std::size_t lines = 1;
  for (std::size_t column = 0; column < spec_.columns.size(); ++column)
    lines = std::max(lines, head_lines(column).size());
  head_height_ = static_cast<double>(lines) * spec_.style.leading + spec_.row_gap + 2.0;
}

double TableLayout::width() const {
  return std::accumulate(widths_.begin(), widths_.end(), 0.0);
}

double TableLayout::measure(std::string_view text, bool bold) const {
  return pdf_.text_width(text, bold ? Face::bold : spec_.style.face, spec_.style.size);
}

double TableLayout::counts_width(const Cell& cell) const {
  double width = 0.0;
  for (const VerdictCount& count : cell.counts)
    width += kMarkWidth + measure(std::to_string(count.count), false) + kCountGap;
  return width;
}

double TableLayout::measure(const Cell& cell) const {
  if (!cell.page_of.empty()) return measure("A0000", false);
  if (cell.bar) return kBarLength + kCountGap + measure("0.00", false);
  return std::max(counts_width(cell), (cell.mark ? kMarkWidth : 0.0) + measure(cell.text, cell.bold));
}

void TableLayout::draw_counts(const Cell& cell, std::size_t page, Vec2 at) const {
  for (const VerdictCount& count : cell.counts) {
    const std::string number = std::to_string(count.count);
    const Tagged tagged(pdf_, Tag::span, number + " " + std::string(to_string(count.verdict)));
    draw_verdict_mark(pdf_, page, {at.x, at.y - 0.1}, kMarkSize, count.verdict);
    pdf_.text(page, {at.x + kMarkWidth - 1.5, at.y}, number, spec_.style);
    at.x += kMarkWidth + measure(number, false) + kCountGap;
  }
}

void TableLayout::draw_bar(double share, std::size_t page, Vec2 at) const {
  constexpr double kHeight = 3.6;
  const double bottom = at.y + 0.6;
  pdf_.rectangle(page, {at.x, bottom, at.x + kBarLength, bottom + kHeight}, std::nullopt, Stroke{0.4, kMidGrey, 0, 0});
  const double length = kBarLength * std::clamp(share, 0.0, 1.0);
  pdf_.rectangle(page, {at.x, bottom, at.x + length, bottom + kHeight}, share > 1.0 ? kInk : kAccent, std::nullopt);
  pdf_.text(page, {at.x + kBarLength + kCountGap, at.y}, format_fixed(share, 2), spec_.style);
}

void TableLayout::measure_numbers() {
  alignments_.assign(spec_.columns.size(), {});
  for (std::size_t column = 0; column < spec_.columns.size(); ++column) {
    if (!spec_.columns[column].numeric) continue;
    Alignment& alignment = alignments_[column];
    double behind = 0.0;
    for (const auto& row : spec_.rows) {
      if (column >= row.size() || !looks_numeric(row[column].text)) continue;
      const std::string& text = row[column].text;
      const double before = measure(text.substr(0, integer_part(text)), row[column].bold);
      alignment.before = std::max(alignment.before, before);
      behind = std::max(behind, measure(text, row[column].bold) - before);
    }
    alignment.whole = alignment.before + behind;
  }
}

std::vector<std::string> TableLayout::cell_lines(const Cell& cell, std::size_t column) const {
  const double mark = cell.mark ? kMarkWidth : 0.0;
  constexpr double kRounding = 0.01;  // a column cut to its content must not break it for a rounding error
  return wrap(cell.text, widths_[column] - 2.0 * kPadding - mark + kRounding,
              [&](std::string_view text) { return measure(text, cell.bold); });
}

std::vector<std::string> TableLayout::head_lines(std::size_t column) const {
  return wrap(spec_.columns[column].head, widths_[column] - 2.0 * kPadding + 0.01,
              [&](std::string_view text) { return measure(text, true); });
}

std::size_t TableLayout::row_lines(std::size_t row) const {
  std::size_t lines = 1;
  const auto& cells = spec_.rows[row];
  for (std::size_t column = 0; column < std::min(cells.size(), widths_.size()); ++column)
    lines = std::max(lines, cell_lines(cells[column], column).size());
  return lines;
}

double TableLayout::row_height(std::size_t row) const {
  return static_cast<double>(row_lines(row)) * spec_.style.leading + spec_.row_gap;
}

void TableLayout::draw_head(std::size_t page, double left, double top, bool again) const {
  const double right = left + width();
  pdf_.rectangle(page, {left, top - head_height_, right, top}, kPale, std::nullopt);
  pdf_.line(page, {left, top}, {right, top}, {0.9, kAccent, 0, 0});
  pdf_.line(page, {left, top - head_height_}, {right, top - head_height_}, {0.5, kAccent, 0, 0});
  TextStyle style = spec_.style;
  style.face = Face::bold;
  const ElementId row = again ? 0 : pdf_.add_element(Tag::row);
  const Tagged tagged_row(pdf_, row);
  double at = left;
  for (std::size_t column = 0; column < spec_.columns.size(); ++column) {
    const Tagged tagged(pdf_, again ? row : pdf_.add_element(Tag::head_cell));
    double y = top - spec_.row_gap / 2.0 - 1.0;
    for (const std::string& line : head_lines(column)) {
      const double slack = widths_[column] - 2.0 * kPadding - measure(line, true);
      const double x = at + kPadding + (spec_.columns[column].numeric ? slack : 0.0);
      pdf_.text(page, {x, cell_baseline(y, style)}, line, style);
      y -= style.leading;
    }
    at += widths_[column];
  }
}

double TableLayout::number_left(std::string_view text, std::size_t column, double column_left) const {
  const Alignment& alignment = alignments_[column];
  if (!looks_numeric(text)) return column_left + widths_[column] - kPadding - measure(text, false);
  const double point = column_left + widths_[column] - kPadding - (alignment.whole - alignment.before);
  return point - measure(text.substr(0, integer_part(text)), false);
}

void TableLayout::draw_row(std::size_t row, std::size_t page, double left, double top) const {
  draw_row_lines(row, 0, row_lines(row), page, left, top);
}

void TableLayout::draw_row_lines(std::size_t row, std::size_t first, std::size_t last, std::size_t page, double left,
                                 double top) const {
  const auto& cells = spec_.rows[row];
  const double height = static_cast<double>(last - first) * spec_.style.leading + spec_.row_gap;
  double at = left;
  const ElementId element = pdf_.add_element(Tag::row);
  for (std::size_t column = 0; column < widths_.size(); ++column) {
    const Tagged tagged_row(pdf_, element);
    const Tagged tagged(pdf_, Tag::cell);
    if (column >= cells.size()) continue;
    const Cell& cell = cells[column];
    const Tagged tagged_text(pdf_, cell.link.empty() ? pdf_.opened_element() : pdf_.add_element(Tag::link));
    TextStyle style = spec_.style;
    if (cell.bold) style.face = Face::bold;
    if (!cell.link.empty()) style.colour = kAccent;
    const double text_left = at + kPadding + (cell.mark ? kMarkWidth : 0.0);
    const auto lines = cell_lines(cell, column);
    const bool aligned = spec_.columns[column].numeric && lines.size() == 1;
    double y = top - spec_.row_gap / 2.0;
    if (first == 0) draw_counts(cell, page, {at + kPadding, cell_baseline(y, style)});
    if (first == 0 && cell.bar) draw_bar(*cell.bar, page, {at + kPadding, cell_baseline(y, style)});
    if (first == 0 && !cell.page_of.empty())
      pdf_.page_reference(page, {at + widths_[column] - kPadding, cell_baseline(y, style)}, cell.page_of, style);
    if (cell.mark && first == 0)
      draw_verdict_mark(pdf_, page, {at + kPadding, cell_baseline(y, style) - 0.1}, kMarkSize, *cell.mark);
    for (std::size_t i = first; i < std::min(last, lines.size()); ++i) {
      const double x = aligned ? number_left(lines[i], column, at) : text_left;
      pdf_.text(page, {x, cell_baseline(y, style)}, lines[i], style);
      y -= style.leading;
    }
    if (!cell.link.empty()) pdf_.link(page, {at, top - height, at + widths_[column], top}, cell.link);
    at += widths_[column];
  }
  pdf_.line(page, {left, top - height}, {left + width(), top - height}, {0.3, kRule, 0, 0});
}

double natural_table_width(PdfDocument& pdf, TableSpec spec) {
  constexpr double kUnbounded = 1e6;
  return TableLayout(pdf, std::move(spec), kUnbounded, false).width();
}

namespace {

void set_high_row(Flow& flow, const TableLayout& layout, std::size_t row, double leading, double row_gap) {
  const std::size_t all = layout.row_lines(row);
  for (std::size_t first = 0; first < all;) {
    if (flow.room() < kShortestSplit * leading + row_gap) {
      flow.next_page();
      layout.draw_head(flow.page(), grid::kLeft, flow.y(), true);
      flow.skip(layout.head_height());
    }
    const auto fitting = static_cast<std::size_t>((flow.room() - row_gap) / leading);
    const std::size_t last = std::min(all, first + std::max<std::size_t>(1, fitting));
    layout.draw_row_lines(row, first, last, flow.page(), grid::kLeft, flow.y());
    flow.skip(static_cast<double>(last - first) * leading + row_gap);
    first = last;
  }
}

/// The height of the highest of that many columns when the rows from `first` on stand in them as evenly as their order
/// lets them: the least height in which all of them fit, or the room where they do not.
double highest_of_even_columns(const TableLayout& layout, std::size_t first, std::size_t rows, std::size_t columns,
                               double room) {
  constexpr double kRounding = 0.01;
  const auto columns_at = [&](double limit) {
    std::size_t needed = 1;
    double used = 0.0;
    for (std::size_t row = first; row < rows; ++row) {
      const double height = layout.row_height(row);
      if (used > 0.0 && used + height > limit) {
        ++needed;
        used = 0.0;
      }
      used += height;
    }
    return needed;
  };
  double total = 0.0;
  double highest_row = 0.0;
  for (std::size_t row = first; row < rows; ++row) {
    total += layout.row_height(row);
    highest_row = std::max(highest_row, layout.row_height(row));
  }
  double low = std::max(highest_row, total / static_cast<double>(columns));
  if (low >= room) return room;  // they fill the page: of thousands of rows only the last page has anything to even out
  double high = total;
  while (high - low > kRounding) {
    const double middle = (low + high) / 2.0;
    (columns_at(middle) > columns ? low : high) = middle;
  }
  return high + kRounding;
}

}  // namespace

void set_table(Flow& flow, TableSpec spec) {
  if (spec.columns.empty() || spec.rows.empty()) return;
  const std::size_t rows = spec.rows.size();
  const double leading = spec.style.leading;
  const double row_gap = spec.row_gap;
  const TableLayout layout(flow.pdf(), std::move(spec), grid::kWidth, true);
  const Tagged tagged(flow.pdf(), Tag::table);
  bool again = false;
  const auto start = [&] {
    layout.draw_head(flow.page(), grid::kLeft, flow.y(), std::exchange(again, true));
    flow.skip(layout.head_height());
  };
  const double highest = flow.page_room() - layout.head_height();
  flow.need(layout.head_height() + std::min(layout.row_height(0), highest / 2.0));
  start();
  for (std::size_t row = 0; row < rows; ++row) {
    const double height = layout.row_height(row);
    if (height > highest) {
      set_high_row(flow, layout, row, leading, row_gap);
      continue;
    }
    // The last row does not stand alone on a page: the one before it goes along.
    const double with_last = row > 0 && row + 2 == rows ? height + layout.row_height(row + 1) : height;
    if (flow.room() < (with_last <= highest ? with_last : height)) {
      flow.next_page();
      start();
    }
    layout.draw_row(row, flow.page(), grid::kLeft, flow.y());
    flow.skip(height);
  }
  flow.skip(kGapBelow);
}

void set_table_in_columns(Flow& flow, TableSpec spec, int count) {
  if (spec.columns.empty() || spec.rows.empty()) return;
  constexpr double kGap = grid::kColumnGap - 2.0 * kPadding;  // text stands as far apart as in other columns
  const std::size_t rows = spec.rows.size();
  const TableLayout layout(flow.pdf(), std::move(spec), column_span(0, count, kGap).width(), true);
  const Tagged tagged(flow.pdf(), Tag::table);
  const auto columns = static_cast<std::size_t>(count);
  bool again = false;
  for (std::size_t next = 0; next < rows;) {
    flow.need(layout.head_height() + 2.0 * layout.row_height(next));
    const double top = flow.y();
    const double room = flow.room() - layout.head_height();
    const double share = highest_of_even_columns(layout, next, rows, columns, room);
    double deepest = 0.0;
    for (int column = 0; column < count && next < rows; ++column) {
      const double left = column_span(column, count, kGap).left;
      layout.draw_head(flow.page(), left, top, std::exchange(again, true));
      double used = 0.0;
      for (; next < rows; ++next) {
        const double height = layout.row_height(next);
        if (used > 0.0 && used + height > std::min(room, share)) break;
        layout.draw_row(next, flow.page(), left, top - layout.head_height() - used);
        used += height;
      }
      deepest = std::max(deepest, layout.head_height() + used);
    }
    flow.skip(deepest);
    if (next < rows) flow.next_page();
  }
  flow.skip(kGapBelow);
}

double table_height(PdfDocument& pdf, TableSpec spec) {
  if (spec.columns.empty() || spec.rows.empty()) return 0.0;
  const std::size_t rows = spec.rows.size();
  const TableLayout layout(pdf, std::move(spec), grid::kWidth, true);
  double height = layout.head_height() + kGapBelow;
  for (std::size_t row = 0; row < rows; ++row) height += layout.row_height(row);
  return height;
}

std::vector<Block> table_blocks(PdfDocument& pdf, TableSpec spec, double width) {
  if (spec.columns.empty() || spec.rows.empty()) return {};
  const std::size_t rows = spec.rows.size();
  const auto layout = std::make_shared<const TableLayout>(pdf, std::move(spec), width, false);
  const BlockElement table(Tag::table);
  std::vector<Block> blocks;
  blocks.push_back({layout->head_height(), true, [&pdf, layout, table](std::size_t page, double left, double top) {
                      const Tagged tagged(pdf, table.in(pdf));
                      layout->draw_head(page, left, top);
                    }});
  for (std::size_t row = 0; row < rows; ++row) {
    blocks.push_back(
        {layout->row_height(row), false, [&pdf, layout, table, row](std::size_t page, double left, double top) {
           const Tagged tagged(pdf, table.in(pdf));
           layout->draw_row(row, page, left, top);
         }});
  }
  return blocks;
}

}  // namespace panel_dossier
