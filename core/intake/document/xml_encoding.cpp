#include "core/intake/document/xml_encoding.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/input_file.h"
#include "core/intake/document/text_conversion.h"

namespace panel_dossier {

namespace {

/// Where the name of the encoding stands in the XML declaration at the front; empty when it names none.
struct DeclaredEncoding {
  std::size_t from = 0;  ///< of the word `encoding`
  std::size_t to = 0;    ///< behind the closing quote
  std::string name;      ///< lower case
};

std::optional<DeclaredEncoding> declared_encoding_of(std::string_view text) {
  if (!text.starts_with("<?xml")) return std::nullopt;
  const std::string_view declaration = text.substr(0, text.find("?>"));
  const std::size_t word = declaration.find("encoding");
  const std::size_t open = word == std::string_view::npos ? word : declaration.find_first_of("'\"", word);
  const std::size_t close = open == std::string_view::npos ? open : declaration.find(declaration[open], open + 1);
  if (close == std::string_view::npos) return std::nullopt;
  return DeclaredEncoding{word, close + 1, lower_case(declaration.substr(open + 1, close - open - 1))};
}

void forget_encoding(std::string& text) {
  if (const auto declared = declared_encoding_of(text)) {
    std::fill(text.begin() + static_cast<std::ptrdiff_t>(declared->from),
              text.begin() + static_cast<std::ptrdiff_t>(declared->to), ' ');
  }
}

/// The name for iconv of the UTF-16 at hand; empty when it is none.
std::string utf16_name(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with(std::string_view("<\0", 2))) return "UTF-16LE";
  if (bytes.starts_with("\xFE\xFF") || bytes.starts_with(std::string_view("\0<", 2))) return "UTF-16BE";
  return {};
}

bool is_latin1_name(std::string_view name) {
  return name == "iso-8859-1" || name == "iso8859-1" || name == "iso_8859-1" || name == "latin1" || name == "latin-1";
}

std::optional<std::string> converted(std::string_view bytes, const std::string& from, Reporter& report) {
  ConvertedText found = converted_to_utf8(bytes, from);
  if (!found.is_whole) {
    const auto line = static_cast<std::uint32_t>(std::count(found.text.begin(), found.text.end(), '\n') + 1);
    report.file_error(line, 0, "the file is not valid " + from + " from this line on", "export the file in UTF-8");
    return std::nullopt;
  }
  forget_encoding(found.text);
  return std::move(found.text);
}

}  // namespace

std::optional<Utf8Xml> Utf8Xml::of(std::string_view bytes, Reporter& report) {
  constexpr std::string_view kUtf32Mark("\xFF\xFE\0\0", 4);
  Utf8Xml xml;
  xml.bytes_ = bytes;
  const std::string utf16 = bytes.starts_with(kUtf32Mark) ? std::string() : utf16_name(bytes);
  const auto declared = declared_encoding_of(bytes);
  if (!utf16.empty()) {
    const bool has_mark = bytes.front() != '<' && bytes.front() != '\0';
    xml.converted_ = converted(has_mark ? bytes.substr(2) : bytes, utf16, report);
    if (!xml.converted_) return std::nullopt;
  } else if (declared && is_latin1_name(declared->name)) {
    xml.converted_ = converted(bytes, "ISO-8859-1", report);
    if (!xml.converted_) return std::nullopt;
  }
  report.set_lines(LineTable(xml.text()));
  if (!check_encoding(xml.text(), report)) return std::nullopt;
  return xml;
}

}  // namespace panel_dossier
