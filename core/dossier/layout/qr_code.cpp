#include "core/dossier/layout/qr_code.h"

#include <qrencode.h>

#include <memory>
#include <stdexcept>

namespace panel_dossier {

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
  pdf.squares(page, squares, {0.0F, 0.0F, 0.0F});
}

std::string panel_code(const std::string& global_id, const std::string& hash) {
  return "panel-dossier:" + global_id + ":" + hash;
}

}  // namespace panel_dossier
