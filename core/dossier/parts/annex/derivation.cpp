#include "core/dossier/parts/annex/derivation.h"

#include <algorithm>
#include <utility>

#include "core/api/support/words.h"
#include "core/dossier/layout/chart.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/annex/references.h"

namespace panel_dossier {

namespace {

constexpr int kColumns = 2;
constexpr double kIndent = 5.0;
constexpr std::size_t kMostRowsInColumn = 14;
constexpr std::size_t kMostBarsInColumn = 14;
constexpr double kMostAspectInColumn = 2.0;  // width over height; a wider drawing is too small in a column
constexpr double kHighestFigure = grid::kTop - grid::kBottom - 150.0;
constexpr TextStyle kDerivationTitle{Face::bold, 8.5, 10.6, kInk};
constexpr TextStyle kDerivationLabel{Face::regular, 8.0, 9.6, kMidGrey};
constexpr TextStyle kDerivationLine{Face::regular, 8.0, 9.6, kInk};
constexpr TextStyle kRemark{Face::italic, 8.0, 9.6, kMidGrey};
constexpr std::size_t kMarksServed = 24;

class DerivationWriter {
 public:
  explicit DerivationWriter(Book& book) : book_(book) {}

  void add(const AnnexEntry& entry) {
    const Finding finding = whole_finding(*entry.finding);
    const std::size_t first = blocks_.size();
    number_ = std::to_string(entry.number);
    add_head(entry);
    if (!finding.reason.empty()) add_text(finding.reason, kDerivationLine, 0.0);
    add_inputs(finding);
    if (!finding.inputs.empty() && !finding.steps.empty()) add_divider();
    for (const Step& step : finding.steps) add_step(step);
    for (const std::string& note : finding.notes) add_text(note, kRemark, 0.0);
    for (const Table& table : finding.tables) add_table(table);
    for (const Series& series : finding.series) add_series(series);
    for (const BarChart& chart : finding.bar_charts) add_bar_chart(chart);
    for (const Drawing& drawing : finding.drawings) add_drawing(drawing);
    keep_ends_together(first);
    blocks_.push_back({5.0, false, [](std::size_t, double, double) {}});
  }

  void write() {
    Flow& flow = book_.flow;
    flow.columns(blocks_, kColumns);
    for (auto& [title, table] : wide_tables_) {
      flow.heading(title, type::kSubheading, 50.0);
      set_table(flow, std::move(table));
    }
    if (!wide_figures_.empty()) flow.columns(wide_figures_, 1);
    write_sources();
  }

 private:
  Book& book_;
  std::string number_;
  std::vector<Block> blocks_;
  std::vector<std::pair<std::string, TableSpec>> wide_tables_;
  std::vector<Block> wide_figures_;
  InputList inputs_;
  double width_ = column_span(0, kColumns).width();

  double measure(std::string_view text, const TextStyle& style) const {
    return book_.pdf.text_width(text, style.face, style.size);
  }

  std::vector<std::string> lines(std::string_view text, const TextStyle& style, double width) const {
    return wrap(text, width, [&](std::string_view piece) { return measure(piece, style); });
  }

  /// A figure may slip to the page behind its derivation, so that it says whose it is.
  std::string numbered(const std::string& title) const { return number_ + ": " + title; }

  static std::string named(const std::string& symbol, const std::string& name) {
    return symbol.empty() ? name : symbol + "  " + name;
  }

  void add_text(std::string_view text, const TextStyle& style, double indent, bool keep = false,
                const std::string& link = {}) {
    PdfDocument& pdf = book_.pdf;
    const double right = width_;
    const BlockElement element(style.face == Face::bold ? Tag::heading3 : Tag::paragraph);
    for (std::string& line : lines(text, style, width_ - indent)) {
      blocks_.push_back({style.leading, keep,
                         [&pdf, style, indent, right, link, element, line = std::move(line)](std::size_t page,
                                                                                             double left, double top) {
                           const Tagged tagged(pdf, element.in(pdf));
                           pdf.text(page, {left + indent, top - style.size}, line, style);
                           if (!link.empty()) pdf.link(page, {left, top - style.leading, left + right, top}, link);
                         }});
    }
  }

  // A derivation never leaves one or two of its lines alone at the foot or head of a column.
  void keep_ends_together(std::size_t first) {
    constexpr std::size_t kFirstLines = 7;
    constexpr std::size_t kLastLines = 3;
    for (std::size_t i = first; i < blocks_.size(); ++i) {
      const bool near_start = i - first < kFirstLines;
      const bool near_end = blocks_.size() - i <= kLastLines;
      if ((near_start || near_end) && blocks_[i].height < kDerivationTitle.leading + 1.0)
        blocks_[i].keep_with_next = true;
    }
    blocks_.back().keep_with_next = false;
  }

  void add_head(const AnnexEntry& entry) {
    const RecordedFinding& finding = *entry.finding;
    PdfDocument& pdf = book_.pdf;
    const double width = width_;
    const std::string anchor = derivation_anchor(entry.number);
    blocks_.push_back({3.0, true, [&pdf, width, anchor](std::size_t page, double left, double top) {
                         pdf.line(page, {left, top}, {left + width, top}, {0.6, kAccent, 0, 0});
                         pdf.anchor(anchor, page, top + 4.0);
                         pdf.named_destination(anchor, page, top + 4.0);
                       }});
    add_text(number_ + "  " + finding.title, kDerivationTitle, 0.0, true);
    std::string result = format_value(finding.value, finding.unit, finding.derivation->decimals);
    const std::string limit = format_limit(finding);
    if (!limit.empty()) result += (result.empty() ? "limit " : ", limit ") + limit;
    if (finding.utilisation) result += ", utilisation " + format_fixed(*finding.utilisation, 2);
    add_verdict_line(finding.verdict, result);
    add_text(std::string(to_string(finding.basis)) + (finding.clause.empty() ? "" : ", " + finding.clause),
             kDerivationLabel, 0.0, true);
    add_served(entry);
  }

  void add_served(const AnnexEntry& entry) {
    if (entry.panels.empty()) return;
    const auto& panels = book_.results().panels;
    std::vector<std::string> marks;
    for (const std::size_t panel : entry.panels) {
      if (marks.size() == kMarksServed) break;
      marks.push_back(panels[panel].mark);
    }
    std::string text = joined(marks);
    if (entry.panels.size() > marks.size())
      text += " and " + std::to_string(entry.panels.size() - marks.size()) + " more";
    add_text((entry.panels.size() == 1 ? "panel " : std::to_string(entry.panels.size()) + " panels: ") + text,
             kDerivationLabel, 0.0, true, panel_anchor(panels[entry.panels.front()].global_id));
  }

  void add_verdict_line(Verdict verdict, const std::string& result) {
    PdfDocument& pdf = book_.pdf;
    const std::string word(to_string(verdict));
    const TextStyle style{verdict == Verdict::fail ? Face::bold : Face::regular, 8.0, 9.8, kInk};
    const double indent = 9.0;
    const auto text = lines(word + (result.empty() ? "" : ":  " + result), style, width_ - indent);
    const BlockElement element(Tag::paragraph);
    for (std::size_t i = 0; i < text.size(); ++i) {
      blocks_.push_back(
          {style.leading, true,
           [&pdf, style, indent, verdict, element, i, line = text[i]](std::size_t page, double left, double top) {
             const Tagged tagged(pdf, element.in(pdf));
             if (i == 0) draw_verdict_mark(pdf, page, {left, top - style.size - 0.2}, 5.0, verdict);
             pdf.text(page, {left + indent, top - style.size}, line, style);
           }});
    }
  }

  // Parts the inputs from the steps.
  void add_divider() {
    PdfDocument& pdf = book_.pdf;
    blocks_.push_back({3.0, true, [&pdf](std::size_t page, double left, double top) {
                         pdf.line(page, {left + 5.0, top - 1.5}, {left + 35.0, top - 1.5}, {0.4, kMidGrey, 1, 1});
                       }});
  }

  // Name to the left, value to the right of its last line; a value too long for that goes below.
  void add_pair(const std::string& name, const std::string& value) {
    PdfDocument& pdf = book_.pdf;
    const TextStyle& style = kDerivationLine;
    constexpr double kGap = 8.0;
    const double value_width = measure(value, style);
    if (value_width > width_ * 0.55) {
      add_text(name, style, kIndent, true);
      add_text(value, style, 3.0 * kIndent);
      return;
    }
    auto text = lines(name, style, width_ - kIndent - value_width - kGap);
    const BlockElement element(Tag::paragraph);
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool last = i + 1 == text.size();
      const double value_left = width_ - value_width;
      blocks_.push_back({style.leading, !last,
                         [&pdf, last, value, value_left, element, line = std::move(text[i])](std::size_t page,
                                                                                             double left, double top) {
                           const Tagged tagged(pdf, element.in(pdf));
                           pdf.text(page, {left + kIndent, top - kDerivationLine.size}, line, kDerivationLine);
                           if (last)
                             pdf.text(page, {left + value_left, top - kDerivationLine.size}, value, kDerivationLine);
                         }});
    }
  }

  void add_step(const Step& step) {
    std::string name = named(step.symbol, step.name);
    if (!step.formula.empty()) name += ":  " + step.formula;
    add_pair(name, format_value(step.value, step.unit));
  }

  void add_table(const Table& table) {
    TableSpec spec = table_spec(table);
    const std::string title = table.title.empty() ? "Table" : table.title;
    const bool in_column =
        spec.rows.size() <= kMostRowsInColumn && single_lines(table) && natural_table_width(book_.pdf, spec) <= width_;
    if (!in_column) {
      wide_tables_.emplace_back("Table of derivation " + number_ + ":  " + title, std::move(spec));
      add_text("table '" + title + "' stands below", kRemark, 0.0);
      return;
    }
    add_text(title, kDerivationLabel, 0.0, true);
    for (Block& block : table_blocks(book_.pdf, std::move(spec), width_)) blocks_.push_back(std::move(block));
  }

  static bool single_lines(const Table& table) {
    for (const auto& row : table.rows) {
      for (const Value& value : row) {
        const auto* text = std::get_if<std::string>(&value);
        if (text != nullptr && text->find('\n') != std::string::npos) return false;
      }
    }
    return true;
  }

  void add_series(const Series& series) {
    PdfDocument& pdf = book_.pdf;
    Series chart = series;
    chart.title = numbered(series.title);
    const double height = std::min(chart_height(pdf, chart, width_), kHighestFigure);
    blocks_.push_back(
        {height + 4.0, false,
         [&pdf, series = std::move(chart), height, width = width_](std::size_t page, double left, double top) {
           draw_chart(pdf, page, series, {left, top - height, left + width, top - 2.0});
         }});
  }

  void add_bar_chart(const BarChart& chart) {
    const bool wide = chart.bars.size() > kMostBarsInColumn;
    if (wide) add_text("chart '" + chart.title + "' stands below", kRemark, 0.0);
    BarChart figure = chart;
    figure.title = numbered(chart.title);
    add_figure(wide, [this, &figure](double width) { return bar_chart_block(figure, width); });
  }

  Block bar_chart_block(const BarChart& chart, double width) {
    PdfDocument& pdf = book_.pdf;
    const double height = std::min(bar_chart_height(pdf, chart, width), kHighestFigure);
    return {height + 4.0, false, [&pdf, chart, height, width](std::size_t page, double left, double top) {
              draw_bar_chart(pdf, page, chart, {left, top - height, left + width, top - 2.0});
            }};
  }

  void add_drawing(const Drawing& drawing) {
    const auto covered = extent(drawing);
    if (!covered) return;
    const bool wide = covered->width() > kMostAspectInColumn * covered->height();
    if (wide) add_text("drawing '" + drawing.title + "' stands below", kRemark, 0.0);
    add_figure(wide, [this, &drawing, &covered](double width) { return drawing_block(drawing, *covered, width); });
  }

  Block drawing_block(const Drawing& drawing, const Extent& covered, double width) {
    PdfDocument& pdf = book_.pdf;
    constexpr double kHighest = 240.0;
    constexpr double kMargin = 24.0;
    const double scale = choose_scale(covered.width(), covered.height(), {0, 0, width - kMargin, kHighest - kMargin});
    const double height = covered.height() * points_per_metre(scale) + kMargin + 2.0;
    auto title = lines(numbered(drawing.title) + ", scale " + scale_text(scale), kDerivationLabel, width);
    const double title_height = static_cast<double>(title.size()) * kDerivationLabel.leading;
    return {title_height + height, false,
            [&pdf, drawing, height, width, title = std::move(title)](std::size_t page, double left, double top) {
              {
                const Tagged tagged(pdf, Tag::paragraph);
                for (const std::string& line : title) {
                  pdf.text(page, {left, top - kDerivationLabel.size}, line, kDerivationLabel);
                  top -= kDerivationLabel.leading;
                }
              }
              fit_drawing(pdf, page, drawing, {left, top - height, left + width, top});
            }};
  }

  // In the column, or over the full width below the columns.
  template <typename MakeBlock>
  void add_figure(bool wide, const MakeBlock& make_block) {
    if (wide) {
      wide_figures_.push_back(make_block(grid::kWidth));
    } else {
      blocks_.push_back(make_block(width_));
    }
  }

  // An input already printed on the sheet is named by its number alone.
  void add_inputs(const Finding& finding) {
    std::vector<std::size_t> repeated;
    for (const Input& input : finding.inputs) {
      const auto [number, is_new] = inputs_.number(input);
      if (is_new) {
        add_pair(named(input.symbol, input.name),
                 format_value(input.value, input.unit) + "  [" + std::to_string(number) + "]");
      } else {
        repeated.push_back(number);
      }
    }
    if (!repeated.empty()) add_text("and as before " + number_ranges(std::move(repeated)), kDerivationLine, kIndent);
  }

  void write_sources() {
    const auto sources = inputs_.sources();
    if (sources.empty()) return;
    book_.flow.heading("Sources of the inputs", type::kSubheading, book_.flow.least_column_height());
    blocks_.clear();
    for (const auto& [text, numbers] : sources) add_source(number_ranges(numbers), text);
    book_.flow.columns(blocks_, kColumns);
  }

  void add_source(const std::string& numbers, const std::string& text) {
    PdfDocument& pdf = book_.pdf;
    const double hang = std::max(20.0, measure(numbers + " ", kDerivationLine));
    const bool beside = hang < width_ / 3.0;
    if (!beside) add_text(numbers, kDerivationLine, 0.0, true);
    const double indent = beside ? hang : 20.0;
    const auto words = lines(text, kDerivationLine, width_ - indent);
    const BlockElement element(Tag::paragraph);
    for (std::size_t i = 0; i < words.size(); ++i) {
      const std::string lead = i == 0 && beside ? numbers : std::string();
      blocks_.push_back({kDerivationLine.leading, i + 1 < words.size(),
                         [&pdf, lead, indent, element, line = words[i]](std::size_t page, double left, double top) {
                           const Tagged tagged(pdf, element.in(pdf));
                           pdf.text(page, {left, top - kDerivationLine.size}, lead, kDerivationLine);
                           pdf.text(page, {left + indent, top - kDerivationLine.size}, line, kDerivationLine);
                         }});
    }
  }
};

}  // namespace

TableSpec table_spec(const Table& table) {
  TableSpec spec;
  spec.style = type::kFine;
  for (std::size_t column = 0; column < table.columns.size(); ++column) {
    const Column& head = table.columns[column];
    bool numeric = !table.rows.empty();
    for (const auto& row : table.rows) {
      if (column < row.size() && std::holds_alternative<std::string>(row[column])) numeric = false;
    }
    spec.columns.push_back({head.unit.empty() ? head.name : head.name + " " + format_unit(head.unit), numeric});
  }
  for (const auto& row : table.rows) {
    std::vector<Cell> cells;
    cells.reserve(row.size());
    for (const Value& value : row) cells.emplace_back(format_value(value, ""));
    spec.rows.push_back(std::move(cells));
  }
  return spec;
}

void write_derivations(Book& book, const std::vector<const AnnexEntry*>& entries) {
  if (entries.empty()) return;
  DerivationWriter writer(book);
  for (const AnnexEntry* entry : entries) writer.add(*entry);
  writer.write();
}

}  // namespace panel_dossier
