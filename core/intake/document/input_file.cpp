#include "core/intake/document/input_file.h"

#include <array>
#include <fstream>
#include <system_error>

#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kBlock = 1U << 16U;
constexpr std::string_view kSaveAsUtf8 = "export the file in UTF-8";

/// Length of the UTF-8 sequence at the front, or 0 when it is none (RFC 3629 section 4).
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const auto is_tail = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return i < text.size() && byte(i) >= low && byte(i) <= high;
  };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return is_tail(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = lead == 0xED ? 0x9F : 0xBF;
    return is_tail(1, low, high) && is_tail(2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xF4 ? 0x8F : 0xBF;
    return is_tail(1, low, high) && is_tail(2) && is_tail(3) ? 4 : 0;
  }
  return 0;
}

/// The encoding that the XML declaration names; empty when there is none.
std::string declared_encoding(std::string_view text) {
  if (text.substr(0, 5) != "<?xml") return {};
  const std::string_view declaration = text.substr(0, text.find("?>"));
  const std::size_t at = declaration.find("encoding");
  if (at == std::string_view::npos) return {};
  const std::size_t open = declaration.find_first_of("'\"", at);
  if (open == std::string_view::npos) return {};
  const std::size_t close = declaration.find(declaration[open], open + 1);
  return std::string(declaration.substr(open + 1, close == std::string_view::npos ? close : close - open - 1));
}

bool is_utf16(std::string_view text) {
  return text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF" ||
         (text.size() > 1 && (text[0] == '\0' || text[1] == '\0'));
}

}  // namespace

std::optional<std::string> load_file(const fs::path& file, Reporter& report) {
  std::error_code failed;
  const fs::file_status status = fs::status(file, failed);
  if (status.type() == fs::file_type::not_found) {
    report.file_error(0, 0, "there is no such file", "check the path");
    return std::nullopt;
  }
  if (fs::is_directory(status)) {
    report.file_error(0, 0, "this is a folder, not a file", "name the ifcXML file inside");
    return std::nullopt;
  }
  std::ifstream stream(file, std::ios::binary);
  std::string text;
  for (std::array<char, kBlock> block{}; stream;) {
    stream.read(block.data(), block.size());
    text.append(block.data(), static_cast<std::size_t>(stream.gcount()));
  }
  if (stream.bad() || !stream.eof()) {
    report.file_error(0, 0, "the file cannot be read", "check its permissions");
    return std::nullopt;
  }
  return text;
}

std::optional<std::string> load_at_most(const fs::path& file, std::size_t limit_bytes) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) return std::nullopt;
  std::string text(limit_bytes + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (stream.bad()) return std::nullopt;
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return text;
}

bool check_encoding(std::string_view text, Reporter& report) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (trimmed(text).empty()) {
    report.file_error(0, 0, "the file is empty", "export the project again");
    return false;
  }
  if (is_utf16(text)) {
    report.file_error(1, 1, "the file is not in UTF-8 (it looks like UTF-16)", std::string(kSaveAsUtf8));
    return false;
  }
  if (text.substr(0, 3) == kByteOrderMark) text.remove_prefix(kByteOrderMark.size());
  const std::string encoding = declared_encoding(text);
  const std::string token = enumeration_token(encoding);
  if (!encoding.empty() && token != "UTF_8" && token != "US_ASCII") {
    report.file_error(1, 1, "the file declares the encoding '" + encoding.substr(0, 40) + "'",
                      std::string(kSaveAsUtf8));
    return false;
  }
  const char* const begin = text.data();
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) {
      report.error_at_offset(static_cast<std::size_t>(text.data() - begin),
                             "the file is not valid UTF-8 from this byte on", std::string(kSaveAsUtf8));
      return false;
    }
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace panel_dossier
