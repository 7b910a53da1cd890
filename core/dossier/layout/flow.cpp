#include "core/dossier/layout/flow.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "core/dossier/layout/text_layout.h"

namespace panel_dossier {

namespace {

constexpr double kItemIndent = 11.0;
constexpr double kParagraphGap = 4.0;
constexpr double kCautionPadding = 5.0;
constexpr double kAscent = 0.93;  // of the type size, from the top of a line to its baseline

double baseline(double top, const TextStyle& style) {
  return top - (style.leading - style.size) / 2.0 - kAscent * style.size * 0.92;
}

// Blocks from `first` that fit into `height`, without parting a block from one it keeps with.
std::size_t fitting_end(const std::vector<Block>& blocks, std::size_t first, double height) {
  std::size_t safe = first;
  double used = 0.0;
  for (std::size_t i = first; i < blocks.size(); ++i) {
    used += blocks[i].height;
    if (used > height) return safe == first ? i : safe;
    if (!blocks[i].keep_with_next) safe = i + 1;
  }
  return blocks.size();
}

Tag heading_tag(const TextStyle& style) {
  if (style.size >= type::kPart.size) return Tag::heading1;
  return style.size >= type::kHeading.size ? Tag::heading2 : Tag::heading3;
}

double total_height(const std::vector<Block>& blocks, std::size_t first) {
  double sum = 0.0;
  for (std::size_t i = first; i < blocks.size(); ++i) sum += blocks[i].height;
  return sum;
}

bool fits_in_columns(const std::vector<Block>& blocks, std::size_t first, double height, int count) {
  for (int column = 0; column < count; ++column) first = fitting_end(blocks, first, height);
  return first == blocks.size();
}

// The lowest height at which the rest fits into `count` columns; `room` when it does not fit at all.
double evened_height(const std::vector<Block>& blocks, std::size_t first, double room, int count) {
  constexpr double kStep = 6.0;
  double height = total_height(blocks, first) / count;
  while (height < room && !fits_in_columns(blocks, first, height, count)) height += kStep;
  return std::min(height, room);
}

}  // namespace

Rect column_span(int index, int count, double gap) {
  const double width = (grid::kWidth - gap * (count - 1)) / count;
  const double left = grid::kLeft + index * (width + gap);
  return {left, grid::kBottom, left + width, grid::kTop};
}

std::vector<std::string> caution_lines(const PdfDocument& pdf, const std::string& caution) {
  if (caution.empty()) return {};
  const auto measure = [&pdf](std::string_view text) {
    return pdf.text_width(text, type::kNote.face, type::kNote.size);
  };
  constexpr std::size_t kMostLines = 12;
  auto lines = wrap(caution, grid::kWidth - 2.0 * kCautionPadding, measure);
  if (lines.size() <= kMostLines) return lines;
  lines.resize(kMostLines - 1);
  lines.emplace_back("… (part 7 prints this caution in full)");
  return lines;
}

double caution_height(std::size_t lines) {
  return lines == 0 ? 0.0 : static_cast<double>(lines) * type::kNote.leading + 3.0 * kCautionPadding;
}

void Flow::start_page(PageFurniture furniture) {
  bottom_ = grid::kBottom + caution_height(caution_lines(pdf_, furniture.caution).size());
  furniture_.push_back(std::move(furniture));
  pdf_.add_page();
  y_ = grid::kTop;
}

void Flow::next_page() {
  PageFurniture furniture = furniture_.back();
  furniture.caution.clear();
  start_page(std::move(furniture));
}

void Flow::need(double height) {
  if (room() < height && y_ < grid::kTop) next_page();
}

Rect Flow::take(double height) {
  need(height);
  if (height > room()) throw std::logic_error("a piece of " + std::to_string(height) + " points is higher than a page");
  const Rect area{grid::kLeft, y_ - height, grid::kRight, y_};
  y_ -= height;
  return area;
}

std::vector<std::string> Flow::lines(std::string_view text, const TextStyle& style, double width) const {
  return wrap(text, width, [&](std::string_view piece) { return pdf_.text_width(piece, style.face, style.size); });
}

void Flow::paragraph(std::string_view text, const TextStyle& style, double indent) {
  if (text.empty()) return;
  const Tagged tagged(pdf_, Tag::paragraph);
  set_lines(text, style, indent);
}

void Flow::set_lines(std::string_view text, const TextStyle& style, double indent) {
  const auto all = lines(text, style, grid::kWidth - indent);
  if (all.size() <= 3) need(static_cast<double>(all.size()) * style.leading);
  for (const std::string& line : all) {
    need(style.leading);
    pdf_.text(page(), {grid::kLeft + indent, baseline(y_, style)}, line, style);
    y_ -= style.leading;
  }
  y_ -= kParagraphGap;
}

void Flow::item(std::string_view text, const TextStyle& style) {
  const std::size_t count = lines(text, style, grid::kWidth - kItemIndent).size();
  need(static_cast<double>(std::min<std::size_t>(count, 3)) * style.leading);
  const Tagged list(pdf_, pdf_.continued_element(Tag::list));
  const Tagged tagged(pdf_, Tag::list_item);
  {
    const Tagged label(pdf_, Tag::list_label);
    pdf_.text(page(), {grid::kLeft + 1.0, baseline(y_, style)}, "–", style);
  }
  const Tagged body(pdf_, Tag::list_body);
  set_lines(text, style, kItemIndent);
  y_ += kParagraphGap / 2.0;
}

void Flow::heading(std::string_view text, const TextStyle& style, double follow) {
  const auto all = lines(text, style, grid::kWidth);
  const double height = static_cast<double>(all.size()) * style.leading;
  need(std::min(height + follow, page_room()));
  if (y_ < grid::kTop) y_ -= 0.5 * style.leading;
  const Tagged tagged(pdf_, heading_tag(style));
  for (const std::string& line : all) {
    need(style.leading);
    pdf_.text(page(), {grid::kLeft, baseline(y_, style)}, line, style);
    y_ -= style.leading;
  }
  y_ -= grid::kBaseline;
}

void Flow::anchor(const std::string& name) {
  pdf_.anchor(name, page(), y_ + type::kHeading.leading + grid::kBaseline);
}

void Flow::columns(const std::vector<Block>& blocks, int count) {
  std::size_t next = 0;
  while (next < blocks.size()) {
    if (room() < std::min(least_column_height(), total_height(blocks, next))) next_page();
    const double height = evened_height(blocks, next, room(), count);
    const double top = y_;
    double lowest = top;
    const std::size_t start = next;
    for (int column = 0; column < count; ++column) {
      const std::size_t end = fitting_end(blocks, next, height);
      double at = top;
      for (; next < end; ++next) {
        blocks[next].draw(page(), column_span(column, count).left, at);
        at -= blocks[next].height;
      }
      lowest = std::min(lowest, at);
    }
    if (next == start && y_ == grid::kTop) throw std::logic_error("a block is higher than a page");
    y_ = lowest;
    if (next < blocks.size()) next_page();
  }
}

}  // namespace panel_dossier
