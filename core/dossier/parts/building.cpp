// The building: where its panels are, and the schedule of them.

#include <algorithm>
#include <cmath>
#include <map>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/key_plan.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

constexpr TextStyle kOverviewMark{Face::regular, 6.5, 7.5, kInk};
constexpr TextStyle kOverviewCaption{Face::regular, 8.0, 10.0, kMidGrey};
constexpr double kHighestView = 300.0;
constexpr double kLowestView = 90.0;

bool overlap(const Rect& a, const Rect& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

/// Places marks beside or in their outlines without covering each other; a mark that finds no place is counted.
class MarkPlacer {
 public:
  MarkPlacer(PdfDocument& pdf, std::size_t page, const Rect& area) : pdf_(pdf), page_(page), area_(area) {}

  std::size_t unplaced() const { return unplaced_; }

  /// Inside the outline where there is room, else beside it, on the side of `outward` (a page direction) first.
  void place(const std::string& mark, const Polygon& outline, Vec2 outward, const std::string& anchor) {
    const double width = pdf_.text_width(mark, kOverviewMark.face, kOverviewMark.size);
    const Vec2 centre = centroid(outline);
    if (fits_inside(outline, width) && put(mark, centre, width, anchor)) return;
    for (const double step : {7.0, 13.0, 19.0, 25.0}) {
      for (const double side : {1.0, -1.0}) {
        const double reach = step + std::fabs(outward.x) * width / 2.0;
        if (put(mark, {centre.x + side * outward.x * reach, centre.y + side * outward.y * reach}, width, anchor))
          return;
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

  static bool fits_inside(const Polygon& outline, double width) {
    Rect box{outline[0].x, outline[0].y, outline[0].x, outline[0].y};
    for (const Vec2& point : outline) {
      box = {std::min(box.left, point.x), std::min(box.bottom, point.y), std::max(box.right, point.x),
             std::max(box.top, point.y)};
    }
    return box.width() > width + 2.0 && box.height() > kOverviewMark.leading + 1.0;
  }

  bool put(const std::string& mark, Vec2 middle, double width, const std::string& anchor) {
    const Rect box{middle.x - width / 2.0 - 0.8, middle.y - 3.0, middle.x + width / 2.0 + 0.8, middle.y + 3.0};
    if (!is_free(box)) return false;
    taken_.push_back(box);
    pdf_.text(page_, {middle.x - width / 2.0, middle.y - 2.0}, mark, kOverviewMark);
    pdf_.link(page_, box, anchor);
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
  book.pdf.text(page, {letter.x - 2.2, letter.y - 2.2}, "N", kOverviewCaption);
}

void place_marks(Book& book, const KeyView& view, const DrawingFrame& frame, bool is_plan, MarkPlacer& placer) {
  for (std::size_t i = 0; i < view.panels.size(); ++i) {
    const Panel& panel = book.project().panels[view.panels[i]];
    Polygon outline;
    for (const Vec2& point : view.drawing.polygons[i].outline) outline.push_back(frame.on_page(point));
    const Vec3& out = panel.frame.y_axis;
    const Vec2 outward = is_plan ? Vec2{out.x, out.y} : Vec2{0.0, 1.0};
    placer.place(panel.mark, outline, outward, panel_anchor(panel.global_id));
  }
}

void write_view(Book& book, const KeyView& view, bool is_plan) {
  Flow& flow = book.flow;
  const auto covered = extent(view.drawing);
  if (!covered) return;
  constexpr double kMargin = 30.0;  // room for marks beside the outlines
  const double scale =
      choose_scale(covered->width(), covered->height(), {0, 0, grid::kWidth - 2.0 * kMargin, kHighestView});
  const double height = std::max(kLowestView, covered->height() * points_per_metre(scale) + 2.0 * kMargin);
  flow.heading(view.title, type::kSubheading, height + 12.0);
  const Rect area = flow.take(height);
  const DrawingFrame frame = centred_frame(*covered, area, scale);
  const Tagged tagged(book.pdf, Tag::figure,
                      view.title + ", scale " + scale_text(scale) + ", with the marks of its panels");
  paint_drawing(book.pdf, flow.page(), view.drawing, frame);
  if (is_plan) draw_north(book, area);
  MarkPlacer placer(book.pdf, flow.page(), area);
  place_marks(book, view, frame, is_plan, placer);
  std::string caption = "Scale " + scale_text(scale) + ", " + std::to_string(view.panels.size()) + " panels.";
  if (placer.unplaced() > 0)
    caption += " Marks without room here: " + std::to_string(placer.unplaced()) + "; the schedule lists every panel.";
  flow.paragraph(caption, kOverviewCaption);
  flow.skip(4.0);
}

void write_views(Book& book) {
  const Project& project = book.project();
  book.flow.heading("Key plans");
  for (std::size_t storey = 0; storey < project.storeys.size(); ++storey)
    write_view(book, storey_plan(project, storey), true);
  write_view(book, storey_plan(project, std::nullopt), true);
  const auto facades = facade_views(project);
  if (facades.empty()) {
    book.flow.paragraph(
        "No face of the building is drawn: the export does not tell which face of the panels is outside.");
    return;
  }
  book.flow.heading("Faces of the building");
  for (const KeyView& view : facades) write_view(book, view, false);
}

Cell number_of(const RecordedFinding* finding) {
  return finding != nullptr && std::holds_alternative<double>(finding->value) ? value_cell(*finding) : Cell("–");
}

Cell area_of(const BuildSummary& build, const PanelSummary& summary, const Panel& panel) {
  const RecordedFinding* finding = finding_of_role(build, summary.findings, role::kArea);
  if (finding != nullptr && std::holds_alternative<double>(finding->value)) return number_of(finding);
  return format_fixed(panel.net_area_m2(), 2) + " m²";
}

void write_schedule(Book& book) {
  book.flow.heading("Schedule of panels");
  TableSpec table;
  table.columns = {{"mark"},           {"type"},           {"storey"},     {"width mm", true}, {"height mm", true},
                   {"thick mm", true}, {"area net", true}, {"mass", true}, {"worst verdict"},  {"page", true}};
  const BuildSummary& build = book.results().build;
  for (std::size_t i = 0; i < book.results().panels.size(); ++i) {
    const PanelSummary& summary = book.results().panels[i];
    const Panel& panel = book.project().panels[i];
    Cell page;
    page.page_of = panel_anchor(summary.global_id);
    page.link = page.page_of;
    table.rows.push_back({link_cell(summary.mark, panel_anchor(summary.global_id)), summary.type, summary.storey,
                          format_millimetres(panel.width_m.value), format_millimetres(panel.height_m.value),
                          format_millimetres(panel.thickness_m.value), area_of(build, summary, panel),
                          number_of(finding_of_role(build, summary.findings, role::kMass)),
                          verdict_cell(worst_verdict(summary.findings)), page});
  }
  set_table(book.flow, std::move(table));
}

}  // namespace

void write_building(Book& book) {
  book.begin_part(DossierPart::building);
  Flow& flow = book.flow;
  const ResultsDocument& results = book.results();
  flow.paragraph(results.project.description);
  flow.paragraph(std::to_string(results.panels.size()) + " panels, " + std::to_string(book.project().storeys.size()) +
                 " storeys, " + std::to_string(book.project().materials.size()) + " materials, " +
                 std::to_string(book.project().evidence.size()) + " evidence documents.");
  if (results.panels.empty()) return;
  write_views(book);
  write_schedule(book);
}

}  // namespace panel_dossier
