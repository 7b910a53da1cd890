#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

constexpr TextStyle kHead{Face::regular, 7.0, 9.0, kMidGrey};
constexpr TextStyle kFoot{Face::regular, 6.5, 8.4, kMidGrey};
constexpr TextStyle kFootStrong{Face::bold, 6.5, 8.4, kInk};
constexpr std::size_t kShortRoot = 16;  // hexadecimal digits; the cover prints the whole root

class Furniture {
 public:
  explicit Furniture(Book& book) : book_(book), pdf_(book.pdf) {}

  void draw(std::size_t page, const PageFurniture& furniture) {
    draw_head(page, furniture);
    draw_caution(page, furniture.caution);
    draw_foot(page);
  }

 private:
  Book& book_;
  PdfDocument& pdf_;

  double width(std::string_view text, const TextStyle& style) const {
    return pdf_.text_width(text, style.face, style.size);
  }

  std::string fitted(std::string_view text, double room, const TextStyle& style) const {
    return shorten(text, room, [&](std::string_view piece) { return width(piece, style); });
  }

  void draw_head(std::size_t page, const PageFurniture& furniture) {
    constexpr double kBaselineHeight = grid::kTop + 21.0;
    const std::string part = fitted(furniture.part, grid::kWidth * 0.55, kHead);
    const double part_width = width(part, kHead);
    const std::string project = fitted(book_.results().project.name, grid::kWidth - part_width - 20.0, kHead);
    pdf_.text(page, {grid::kLeft, kBaselineHeight}, project, kHead);
    pdf_.text(page, {grid::kRight - part_width, kBaselineHeight}, part, kHead);
    pdf_.line(page, {grid::kLeft, kBaselineHeight - 5.0}, {grid::kRight, kBaselineHeight - 5.0}, {0.4, kRule, 0, 0});
  }

  void draw_caution(std::size_t page, const std::string& caution) {
    const auto lines = caution_lines(pdf_, caution);
    if (lines.empty()) return;
    const double height = caution_height(lines.size());
    const Rect box{grid::kLeft, grid::kBottom, grid::kRight, grid::kBottom + height - 5.0};
    pdf_.rectangle(page, box, kPale, std::nullopt);
    pdf_.line(page, {box.left, box.bottom}, {box.left, box.top}, {1.6, kAccent, 0, 0});
    double y = box.top - type::kNote.leading - 1.0;
    for (const std::string& line : lines) {
      pdf_.text(page, {box.left + 6.0, y}, line, {Face::italic, type::kNote.size, type::kNote.leading, kInk});
      y -= type::kNote.leading;
    }
  }

  std::string status() const {
    const BuildSummary& build = book_.results().build;
    std::string text;
    if (!build.signed_for_issue) text = "NOT SIGNED FOR ISSUE";
    if (build.incomplete) text += text.empty() ? "INCOMPLETE BUILD" : " · INCOMPLETE BUILD";
    return text;
  }

  void draw_foot(std::size_t page) {
    constexpr double kRuleHeight = grid::kBottom - 14.0;
    constexpr double kFirstLine = kRuleHeight - 9.5;
    const BuildSummary& build = book_.results().build;
    pdf_.line(page, {grid::kLeft, kRuleHeight}, {grid::kRight, kRuleHeight}, {0.4, kRule, 0, 0});
    const auto [label, last] = pdf_.page_label(page);
    const std::string number = "page " + label + " of " + last;
    pdf_.text(page, {grid::kRight - width(number, kFoot), kFirstLine}, number, kFoot);
    const std::string built =
        "built " + build.time_utc + "  ·  hash tree root " + build.hash_tree_root.substr(0, kShortRoot) + "…";
    pdf_.text(page, {grid::kLeft, kFirstLine}, built, kFoot);
    pdf_.text(page, {grid::kLeft, kFirstLine - kFoot.leading}, status(), kFootStrong);
  }
};

}  // namespace

void write_furniture(Book& book) {
  Furniture furniture(book);
  const auto& pages = book.flow.furniture();
  for (std::size_t page = 0; page < pages.size(); ++page) furniture.draw(page, pages[page]);
}

}  // namespace panel_dossier
