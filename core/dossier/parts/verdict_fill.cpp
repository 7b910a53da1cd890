#include "core/dossier/parts/verdict_fill.h"

#include <numbers>
#include <string>

#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/layout/marks.h"

namespace panel_dossier {

namespace {

struct VerdictFill {
  Colour colour;
  double spacing = 0.0;  // of the hatch in points; 0: none
  double angle = 0.0;    // of its lines
  bool crossed = false;
};

constexpr double kSlope = std::numbers::pi / 4.0;

VerdictFill fill_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail: return {{0.95F, 0.62F, 0.56F}, 2.4, kSlope, true};
    case Verdict::evidence_needed: return {{0.99F, 0.86F, 0.55F}, 3.2, kSlope, false};
    case Verdict::not_assessed: return {{0.86F, 0.88F, 0.96F}, 4.5, 0.0, false};
    case Verdict::pass: return {{0.85F, 0.94F, 0.86F}, 0.0, 0.0, false};
    case Verdict::information: return {kWhite, 0.0, 0.0, false};
  }
  return {};
}

}  // namespace

bool is_open(Verdict verdict) {
  return verdict != Verdict::pass && verdict != Verdict::information;
}

void draw_filled(PdfDocument& pdf, std::size_t page, const Polygon& outline, Verdict verdict) {
  const VerdictFill fill = fill_of(verdict);
  pdf.polygon(page, outline, fill.colour, Stroke{0.3, kInk, 0, 0});
  if (fill.spacing <= 0.0) return;
  const Stroke hatch{0.35, kInk, 0, 0};
  pdf.segments(page, hatch_lines(outline, fill.angle, fill.spacing), hatch);
  if (fill.crossed) pdf.segments(page, hatch_lines(outline, -fill.angle, fill.spacing), hatch);
}

void write_verdict_legend(Flow& flow) {
  constexpr double kSample = 12.0;
  constexpr double kSign = 7.0;
  PdfDocument& pdf = flow.pdf();
  const Rect area = flow.take(14.0);
  const Tagged tagged(pdf, Tag::paragraph);
  double x = area.left;
  for (const Verdict verdict :
       {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed, Verdict::pass, Verdict::information}) {
    const std::string word = verdict == Verdict::information ? "no limit" : std::string(to_string(verdict));
    draw_filled(pdf, flow.page(),
                {{x, area.bottom + 3.0},
                 {x + kSample, area.bottom + 3.0},
                 {x + kSample, area.bottom + 11.0},
                 {x, area.bottom + 11.0}},
                verdict);
    x += kSample + 4.0;
    if (is_open(verdict)) {
      draw_verdict_mark(pdf, flow.page(), {x, area.bottom + 3.5}, kSign, verdict);
      x += kSign + 3.0;
    }
    pdf.text(flow.page(), {x, area.bottom + 4.0}, word, type::kTable);
    x += pdf.text_width(word, type::kTable.face, type::kTable.size) + 16.0;
  }
}

}  // namespace panel_dossier
