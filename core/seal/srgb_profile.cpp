#include "core/seal/srgb_profile.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

namespace {

constexpr std::size_t kHeaderSize = 128;

void put_32(std::string& bytes, std::uint32_t value) {
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(static_cast<unsigned char>(value >> shift));
}

/// s15Fixed16Number.
void put_fixed(std::string& bytes, double value) {
  put_32(bytes, static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(value * 65536.0))));
}

void pad(std::string& bytes) {
  while (bytes.size() % 4 != 0) bytes += '\0';
}

std::string numbers(std::string_view type, const std::vector<double>& values) {
  std::string bytes(type);
  put_32(bytes, 0);
  for (const double value : values) put_fixed(bytes, value);
  return bytes;
}

/// multiLocalizedUnicodeType with one text in English.
std::string words(std::string_view text) {
  std::string bytes("mluc");
  put_32(bytes, 0);
  put_32(bytes, 1);
  put_32(bytes, 12);
  bytes += "enUS";
  put_32(bytes, static_cast<std::uint32_t>(2 * text.size()));
  put_32(bytes, 28);
  for (const char character : text) {
    bytes += '\0';
    bytes += character;
  }
  pad(bytes);
  return bytes;
}

/// parametricCurveType 3: ((c + 0.055) / 1.055)^2.4 above 0.04045, c / 12.92 below.
std::string transfer_curve() {
  std::string bytes("para");
  put_32(bytes, 0);
  put_32(bytes, 3U << 16U);
  for (const double value : {2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045}) put_fixed(bytes, value);
  return bytes;
}

}  // namespace

std::string srgb_profile() {
  // Primaries of ITU-R BT.709 and white D65, adapted to D50 by the linear Bradford transform: from memory, held by the
  // test to add up to D50.
  const std::string curve = transfer_curve();
  const std::vector<std::pair<std::string_view, std::string>> tags{
      {"desc", words("sRGB IEC61966-2.1")},
      {"cprt", words("No copyright, use freely")},
      {"wtpt", numbers("XYZ ", {0.9642, 1.0, 0.8249})},
      {"chad", numbers("sf32", {1.0478112, 0.0228866, -0.0501270, 0.0295424, 0.9904844, -0.0170491, -0.0092345,
                                0.0150436, 0.7521316})},
      {"rXYZ", numbers("XYZ ", {0.4360747, 0.2225045, 0.0139322})},
      {"gXYZ", numbers("XYZ ", {0.3850649, 0.7168786, 0.0971045})},
      {"bXYZ", numbers("XYZ ", {0.1430804, 0.0606169, 0.7141733})},
      {"rTRC", curve},
      {"gTRC", curve},
      {"bTRC", curve}};
  std::string table;
  std::string data;
  put_32(table, static_cast<std::uint32_t>(tags.size()));
  const std::size_t data_start = kHeaderSize + 4 + 12 * tags.size();
  for (const auto& [name, bytes] : tags) {
    table += name;
    put_32(table, static_cast<std::uint32_t>(data_start + data.size()));
    put_32(table, static_cast<std::uint32_t>(bytes.size()));
    data += bytes;
  }
  std::string header;
  put_32(header, static_cast<std::uint32_t>(data_start + data.size()));
  put_32(header, 0);
  put_32(header, 0x04200000);
  header += "mntrRGB XYZ ";
  for (const std::uint32_t date : {0x07ea0001U, 0x00010000U, 0x00000000U}) put_32(header, date);  // 2026-01-01
  header += "acsp";
  header.resize(68, '\0');
  for (const double value : {0.9642, 1.0, 0.8249}) put_fixed(header, value);
  header.resize(kHeaderSize, '\0');
  return header + table + data;
}

}  // namespace panel_dossier
