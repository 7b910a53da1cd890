#include "core/seal/text_map.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <stdexcept>
#include <string>
#include <vector>

namespace panel_dossier {

namespace {

std::string bf_range(unsigned row) {
  std::array<char, 40> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "<%02X00> <%02XFF> <%02X00>\n", row, row, row);
  return buffer.data();
}

/// A range may not run over a change of its first byte, and a block may not hold more than 100 ranges (ISO
/// 32000-2:2020, 9.10.3). Surrogates are no characters and left out.
std::string identity_map() {
  constexpr unsigned kRows = 0x100;
  constexpr unsigned kFirstSurrogateRow = 0xd8;
  constexpr unsigned kLastSurrogateRow = 0xdf;
  constexpr std::size_t kRangesPerBlock = 100;
  std::vector<std::string> ranges;
  for (unsigned row = 0; row < kRows; ++row) {
    if (row < kFirstSurrogateRow || row > kLastSurrogateRow) ranges.push_back(bf_range(row));
  }
  std::string map =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  for (std::size_t first = 0; first < ranges.size(); first += kRangesPerBlock) {
    const std::size_t count = std::min(kRangesPerBlock, ranges.size() - first);
    map += std::to_string(count) + " beginbfrange\n";
    for (std::size_t i = first; i < first + count; ++i) map += ranges[i];
    map += "endbfrange\n";
  }
  return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

std::string stream_text(QPDFObjectHandle stream) {
  const auto data = stream.getStreamData(qpdf_dl_generalized);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

bool states_identity_by_cid_range(const std::string& map) {
  return map.find("1 begincidrange\n<0000> <FFFF> 0\nendcidrange") != std::string::npos ||
         map.find("1 begincidrange\r\n<0000> <FFFF> 0\r\nendcidrange") != std::string::npos;
}

bool is_well_formed(const std::string& map) {
  return map.find("begincidrange") == std::string::npos &&
         (map.find("beginbfrange") != std::string::npos || map.find("beginbfchar") != std::string::npos);
}

bool numbers_by_code_unit(QPDFObjectHandle font) {
  QPDFObjectHandle descendants = font.getKey("/DescendantFonts");
  return font.getKey("/Encoding").isNameAndEquals("/Identity-H") && descendants.isArray() &&
         descendants.getArrayNItems() == 1 && descendants.getArrayItem(0).isDictionary() &&
         descendants.getArrayItem(0).getKey("/CIDToGIDMap").isStream();
}

}  // namespace

void mend_text_maps(QPDF& pdf) {
  QPDFObjectHandle identity;
  for (QPDFObjectHandle font : pdf.getAllObjects()) {
    if (!font.isDictionaryOfType("/Font", "/Type0")) continue;
    QPDFObjectHandle to_unicode = font.getKey("/ToUnicode");
    const std::string map = to_unicode.isStream() ? stream_text(to_unicode) : std::string();
    if (is_well_formed(map)) continue;
    if (!states_identity_by_cid_range(map) || !numbers_by_code_unit(font)) {
      throw std::runtime_error("font " + font.getKey("/BaseFont").unparse() +
                               " has no text map that can be mended; its text could not be extracted");
    }
    if (!identity.isInitialized()) identity = pdf.newStream(identity_map());
    font.replaceKey("/ToUnicode", identity);
    // The writer repeats the name of the encoding where ISO 32000-2:2020, 9.7.3 has the character collection's
    // ordering.
    font.getKey("/DescendantFonts")
        .getArrayItem(0)
        .replaceKey("/CIDSystemInfo",
                    QPDFObjectHandle::parse("<< /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>"));
  }
}

}  // namespace panel_dossier
