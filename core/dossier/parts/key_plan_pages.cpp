#include "core/dossier/parts/key_plan_pages.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/key_plan.h"
#include "core/dossier/parts/verdict_fill.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

constexpr TextStyle kMark = type::kFine;
constexpr TextStyle kCaption{Face::regular, 8.0, 10.0, kMidGrey};
constexpr double kSign = 7.0;  // of a verdict, beside a mark
constexpr double kHighestView = 300.0;
constexpr double kMargin = 22.0;  // room for marks beside the outlines

/// The mark of a panel, and where it leads to.
struct PlacedMark {
  std::string text;
  std::string anchor;
  Verdict verdict = Verdict::pass;
};

bool overlap(const Rect& a, const Rect& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

/// Places marks beside or in their outlines without covering each other; a mark that finds no place is counted.
class MarkPlacer {
 public:
  MarkPlacer(PdfDocument& pdf, std::size_t page, const Rect& area) : pdf_(pdf), page_(page), area_(area) {}

  std::size_t unplaced() const { return unplaced_; }

  /// Keeps marks off what is drawn there.
  void keep_free(const Polygon& outline) { taken_.push_back(box_around(outline)); }

  /// Inside the outline where there is room, else beside it, on the side of `outward` (a page direction) first. Before
  /// the mark of a panel that is open stands the sign of its verdict.
  void place(const PlacedMark& mark, const Polygon& outline, Vec2 outward) {
    const double width =
        pdf_.text_width(mark.text, kMark.face, kMark.size) + (is_open(mark.verdict) ? kSign + 2.0 : 0.0);
    const Vec2 centre = centroid(outline);
    const Rect box = box_around(outline);
    if (box.width() > width + 2.0 && box.height() > kMark.leading + 1.0) {
      const double edge = kMark.leading / 2.0 + 1.0;
      for (const double y : {centre.y, box.bottom + edge, box.top - edge}) {
        if (put(mark, {centre.x, y}, width)) return;
      }
    }
    for (const double step : {8.0, 16.0, 24.0}) {
      for (const double side : {1.0, -1.0}) {
        const double reach = step + std::fabs(outward.x) * width / 2.0;
        if (put(mark, {centre.x + side * outward.x * reach, centre.y + side * outward.y * reach}, width)) return;
      }
    }
    ++unplaced_;
  }

 private:
  PdfDocument& pdf_;
  std::size_t page_;
  Rect area_;
  std::vector<Rect> taken_;
  std::size_t unplaced_ = 0;

  static Rect box_around(const Polygon& outline) {
    Rect box{outline[0].x, outline[0].y, outline[0].x, outline[0].y};
    for (const Vec2& point : outline) {
      box = {std::min(box.left, point.x), std::min(box.bottom, point.y), std::max(box.right, point.x),
             std::max(box.top, point.y)};
    }
    return box;
  }

  bool put(const PlacedMark& mark, Vec2 middle, double width) {
    constexpr double kHalfHeight = 4.0;
    const Rect box{middle.x - width / 2.0 - 1.0, middle.y - kHalfHeight, middle.x + width / 2.0 + 1.0,
                   middle.y + kHalfHeight};
    if (!is_free(box)) return false;
    taken_.push_back(box);
    double left = middle.x - width / 2.0;
    // Over a hatch the letters need a ground.
    if (is_open(mark.verdict)) {
      pdf_.rectangle(page_, box, kWhite, std::nullopt);
      draw_verdict_mark(pdf_, page_, {left, middle.y - kSign / 2.0}, kSign, mark.verdict);
      left += kSign + 2.0;
    }
    pdf_.text(page_, {left, middle.y - 2.8}, mark.text, kMark);
    pdf_.link(page_, box, mark.anchor);
    return true;
  }

  bool is_free(const Rect& box) const {
    if (box.left < area_.left || box.right > area_.right || box.bottom < area_.bottom || box.top > area_.top)
      return false;
    for (const Rect& other : taken_) {
      if (overlap(box, other)) return false;
    }
    return true;
  }
};

// An arrow to true north in the upper right corner of a plan.
void draw_north(Book& book, const Rect& area) {
  constexpr double kLength = 22.0;
  const double angle = book.project().true_north_rad;
  const Vec2 up{-std::sin(angle), std::cos(angle)};
  const Vec2 side{up.y, -up.x};
  const Vec2 tail{area.right - 25.0, area.top - 34.0};
  const auto point = [&](double along, double across) {
    return Vec2{tail.x + up.x * along + side.x * across, tail.y + up.y * along + side.y * across};
  };
  const std::size_t page = book.flow.page();
  book.pdf.line(page, tail, point(kLength, 0.0), {0.5, kInk, 0, 0});
  book.pdf.polygon(page, {point(kLength, 0.0), point(kLength - 7.0, 2.4), point(kLength - 7.0, -2.4)}, kInk,
                   std::nullopt);
  const Vec2 letter = point(kLength + 5.0, 0.0);
  book.pdf.text(page, {letter.x - 2.2, letter.y - 2.2}, "N", kCaption);
}

/// Draws the panels of a view with openings and marks; returns how many marks found no place.
std::size_t draw_panels(Book& book, const KeyView& view, const DrawingFrame& frame, bool is_plan, const Rect& area) {
  const std::size_t page = book.flow.page();
  MarkPlacer placer(book.pdf, page, area);
  std::vector<Polygon> outlines;
  for (std::size_t i = 0; i < view.panels.size(); ++i) {
    Polygon& outline = outlines.emplace_back();
    for (const Vec2& point : view.drawing.polygons[i].outline) outline.push_back(frame.on_page(point));
    draw_filled(book.pdf, page, outline, worst_verdict(book.results().panels[view.panels[i]].findings));
    for (const OpeningSign& sign : view.openings[i]) {
      draw_opening(book.pdf, page, sign, frame);
      Polygon gap;
      for (const Vec2& point : sign.gap) gap.push_back(frame.on_page(point));
      placer.keep_free(gap);
    }
  }
  for (std::size_t i = 0; i < view.panels.size(); ++i) {
    const Panel& panel = book.project().panels[view.panels[i]];
    const Vec3& out = panel.frame.y_axis;
    placer.place(
        {panel.mark, panel_anchor(panel.global_id), worst_verdict(book.results().panels[view.panels[i]].findings)},
        outlines[i], is_plan ? Vec2{out.x, out.y} : Vec2{0.0, 1.0});
  }
  return placer.unplaced();
}

/// One view with its title above and its caption below, to the scale of all views beside it.
struct ViewCell {
  const KeyView* view = nullptr;
  Extent covered;
  double width = 0.0;
  double height = 0.0;  // of the drawing
  std::string caption;
};

std::string caption_of(const Book& book, const KeyView& view, double scale) {
  const std::size_t own = view.panels.size() - view.from_below;
  std::string text =
      "Scale " + scale_text(scale) + ", " + std::to_string(own) + (own == 1 ? " panel" : " panels") + ".";
  if (view.from_below == 0) return text;
  std::vector<std::string> marks;
  for (std::size_t i = own; i < view.panels.size(); ++i) marks.push_back(book.results().panels[view.panels[i]].mark);
  return text + " From a storey below reaches up: " + list_some(marks, 8) + ".";
}

void write_cell(Book& book, const ViewCell& cell, const Rect& area, double height, double scale, bool is_plan) {
  const std::size_t page = book.flow.page();
  {
    const Tagged tagged(book.pdf, Tag::heading3);
    book.pdf.text(page, {area.left, area.top - type::kSubheading.size}, cell.view->title, type::kSubheading);
  }
  const Rect drawn{area.left, area.top - type::kSubheading.leading - height, area.right,
                   area.top - type::kSubheading.leading};
  std::size_t unplaced = 0;
  {
    const Tagged tagged(book.pdf, Tag::figure,
                        cell.view->title + ", scale " + scale_text(scale) +
                            ", with the marks, openings and most urgent verdicts of its panels");
    const DrawingFrame frame = centred_frame(cell.covered, drawn, scale);
    unplaced = draw_panels(book, *cell.view, frame, is_plan, drawn);
    if (is_plan) draw_north(book, drawn);
  }
  std::string caption = cell.caption;
  if (unplaced > 0)
    caption += " Marks without room here: " + std::to_string(unplaced) + "; the schedule lists every panel.";
  const Tagged tagged(book.pdf, Tag::paragraph);
  double y = drawn.bottom;
  const auto measure = [&book](std::string_view text) {
    return book.pdf.text_width(text, kCaption.face, kCaption.size);
  };
  for (const std::string& line : wrap(caption, area.width(), measure)) {
    y -= kCaption.leading;
    book.pdf.text(page, {area.left, y + 2.0}, line, kCaption);
  }
}

/// Takes the first cell and those behind it that fit beside it.
std::vector<ViewCell> take_row(std::vector<ViewCell>& cells) {
  std::vector<ViewCell> row;
  std::vector<ViewCell> rest;
  double width = 0.0;
  for (ViewCell& cell : cells) {
    const bool fits = row.empty() || width + cell.width <= grid::kWidth;
    if (fits) width += cell.width;
    (fits ? row : rest).push_back(std::move(cell));
  }
  cells = std::move(rest);
  return row;
}

/// The views to one scale, as many in a row as fit.
void write_views(Book& book, const std::vector<KeyView>& views, const std::string& title, bool is_plan) {
  constexpr double kCaptionLines = 2.0;
  constexpr double kGap = 10.0;
  const double side = is_plan ? 44.0 : 26.0;  // marks of the side walls stand beside a plan
  double scale = 0.0;
  for (const KeyView& view : views) {
    if (const auto covered = extent(view.drawing)) {
      scale = std::max(
          scale, choose_scale(covered->width(), covered->height(), {0, 0, grid::kWidth - 2.0 * side, kHighestView}));
    }
  }
  if (scale == 0.0) return;
  std::vector<ViewCell> cells;
  for (const KeyView& view : views) {
    const auto covered = extent(view.drawing);
    if (!covered) continue;
    const double points = points_per_metre(scale);
    ViewCell cell{&view, *covered, covered->width() * points + 2.0 * side, covered->height() * points + 2.0 * kMargin,
                  caption_of(book, view, scale)};
    cell.width =
        std::min(grid::kWidth,
                 std::max(cell.width, book.pdf.text_width(view.title, type::kSubheading.face, type::kSubheading.size)));
    cells.push_back(std::move(cell));
  }
  const double furniture = type::kSubheading.leading + kCaptionLines * kCaption.leading + kGap;
  book.flow.heading(title, type::kHeading, cells.front().height + furniture + 14.0);
  write_verdict_legend(book.flow);
  book.flow.skip(6.0);
  while (!cells.empty()) {
    const std::vector<ViewCell> row = take_row(cells);
    double width = 0.0;
    double height = 0.0;
    for (const ViewCell& cell : row) {
      width += cell.width;
      height = std::max(height, cell.height);
    }
    const Rect area = book.flow.take(height + furniture);
    const double spare = (grid::kWidth - width) / static_cast<double>(row.size());
    double left = area.left;
    for (const ViewCell& cell : row) {
      const double right = left + cell.width + spare;
      write_cell(book, cell, {left, area.bottom, right, area.top}, height, scale, is_plan);
      left = right;
    }
  }
}

}  // namespace

void write_key_plans(Book& book) {
  const Project& project = book.project();
  std::vector<KeyView> plans;
  for (std::size_t storey = 0; storey < project.storeys.size(); ++storey) plans.push_back(storey_plan(project, storey));
  plans.push_back(storey_plan(project, std::nullopt));
  write_views(book, plans, "Key plans", true);
  const std::vector<KeyView> faces = facade_views(project);
  if (faces.empty()) {
    book.flow.heading("Faces of the building");
    book.flow.paragraph(
        "No face of the building is drawn: the export does not tell which face of the panels is outside.");
    return;
  }
  write_views(book, faces, "Faces of the building", false);
}

}  // namespace panel_dossier
