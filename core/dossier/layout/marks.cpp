#include "core/dossier/layout/marks.h"

#include <qrencode.h>

#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>

namespace panel_dossier {

namespace {

constexpr Stroke kMarkStroke{0.9, kAccent, 0, 0};

Polygon ring(Vec2 centre, double radius) {
  constexpr int kCorners = 16;
  Polygon points;
  for (int i = 0; i < kCorners; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / kCorners;
    points.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  return points;
}

}  // namespace

void draw_verdict_mark(PdfDocument& pdf, std::size_t page, Vec2 at, double size, Verdict verdict) {
  const auto point = [&](double x, double y) { return Vec2{at.x + x * size, at.y + y * size}; };
  switch (verdict) {
    case Verdict::pass: pdf.polyline(page, {point(0.08, 0.5), point(0.38, 0.15), point(0.92, 0.9)}, kMarkStroke); break;
    case Verdict::fail:
      pdf.polygon(page, {point(0, 0), point(1, 0), point(1, 1), point(0, 1)}, kInk, std::nullopt);
      pdf.segments(page, {{point(0.22, 0.22), point(0.78, 0.78)}, {point(0.22, 0.78), point(0.78, 0.22)}},
                   {0.9, kWhite, 0, 0});
      break;
    case Verdict::evidence_needed:
      pdf.polygon(page, {point(0.05, 0.08), point(0.95, 0.08), point(0.5, 0.92)}, std::nullopt, kMarkStroke);
      break;
    case Verdict::not_assessed: pdf.polygon(page, ring(point(0.5, 0.5), 0.4 * size), std::nullopt, kMarkStroke); break;
    case Verdict::information: pdf.polyline(page, {point(0.1, 0.5), point(0.9, 0.5)}, kMarkStroke); break;
  }
}

int urgency(Verdict verdict) {
  switch (verdict) {
    case Verdict::information: return 0;
    case Verdict::pass: return 1;
    case Verdict::not_assessed: return 2;
    case Verdict::evidence_needed: return 3;
    case Verdict::fail: return 4;
  }
  return 0;
}

namespace {

constexpr int kQuietZone = 4;  // modules, ISO/IEC 18004:2015 clause 5.3.8, from memory

}  // namespace

void draw_qr_code(PdfDocument& pdf, std::size_t page, Vec2 at, double size, const std::string& content) {
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(QRcode_encodeString8bit(content.c_str(), 0, QR_ECLEVEL_M),
                                                        QRcode_free);
  if (!code) throw std::runtime_error("'" + content + "' cannot be drawn as a QR code; shorten the GlobalId");
  const double module = size / (code->width + 2 * kQuietZone);
  std::vector<Rect> squares;
  for (int row = 0; row < code->width; ++row) {
    const double bottom = at.y + size - (kQuietZone + row + 1) * module;
    for (int column = 0; column < code->width;) {
      const auto dark = [&](int i) { return i < code->width && (code->data[row * code->width + i] & 1U) != 0; };
      int end = column;
      while (dark(end)) ++end;
      if (end > column) {
        const double left = at.x + (kQuietZone + column) * module;
        squares.push_back({left, bottom, left + (end - column) * module, bottom + module});
      }
      column = end + 1;
    }
  }
  const Tagged tagged(pdf, Tag::figure, "QR code: " + content);
  pdf.squares(page, squares, {0.0F, 0.0F, 0.0F});
}

}  // namespace panel_dossier
