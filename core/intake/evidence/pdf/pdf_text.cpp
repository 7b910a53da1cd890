#include "core/intake/evidence/pdf/pdf_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <map>
#include <qpdf/Pipeline.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QUtil.hh>
#include <utility>
#include <vector>

namespace panel_dossier {

namespace {

constexpr std::size_t kMostPages = 400;
constexpr std::size_t kMostBytes = std::size_t{16} << 20U;
constexpr int kDeepestForm = 8;
constexpr std::size_t kMostForms = 2000;
/// A kerning beyond this, in thousandths of the type size, is a blank (ISO 32000-1:2008 9.4.3; common practice).
constexpr double kBlank = -200.0;

/// Keeps at most so many bytes; the rest is dropped, so that a small stream that unfolds to a huge one fills no memory.
class CappedBuffer final : public Pipeline {
 public:
  explicit CappedBuffer(std::size_t most) : Pipeline("capped buffer", nullptr), most_(most) {}

  void write(unsigned char const* data, std::size_t length) override {
    const std::size_t taken = std::min(length, most_ - bytes_.size());
    bytes_.append(reinterpret_cast<char const*>(data), taken);
    is_whole_ = is_whole_ && taken == length;
  }
  void finish() override {}

  const std::string& bytes() const { return bytes_; }
  bool is_whole() const { return is_whole_; }

 private:
  std::size_t most_;
  std::string bytes_;
  bool is_whole_ = true;
};

/// The bytes of a hexadecimal string of a CMap, without its brackets.
std::string from_hex(std::string_view digits) {
  std::string clean;
  for (const char c : digits) {
    if (std::isxdigit(static_cast<unsigned char>(c)) != 0) clean += c;
  }
  if (clean.size() % 2 != 0) clean += '0';
  return QUtil::hex_decode(clean);
}

std::uint32_t code_of(std::string_view bytes) {
  std::uint32_t code = 0;
  for (const char c : bytes) code = (code << 8U) | static_cast<unsigned char>(c);
  return code;
}

std::string from_utf16(const std::string& big_endian) {
  return QUtil::utf16_to_utf8("\xFE\xFF" + big_endian);
}

/// Codes up to `last` in order: the text of the first, in UTF-16 from the high byte on, whose last unit counts up.
struct CodeRange {
  std::uint32_t last = 0;
  std::string utf16;
};

/// The map of a font from the codes of its strings to text. A range is kept as one, for one may be of all codes.
struct FontMap {
  std::size_t code_bytes = 1;
  bool is_readable = true;                    ///< false: a composite font that has no map
  std::map<std::uint32_t, CodeRange> ranges;  ///< by their first code
  bool others_are_latin = true;               ///< codes without an entry are those of WinAnsiEncoding

  std::optional<std::string> text_of(std::uint32_t code) const {
    auto after = ranges.upper_bound(code);
    if (after == ranges.begin()) return std::nullopt;
    const auto& [first, range] = *--after;
    if (code > range.last) return std::nullopt;
    std::string utf16 = range.utf16;
    if (utf16.size() < 2) return std::string();
    const std::uint32_t unit = code_of(std::string_view(utf16).substr(utf16.size() - 2)) + (code - first);
    utf16[utf16.size() - 2] = static_cast<char>((unit >> 8U) & 0xFFU);
    utf16.back() = static_cast<char>(unit & 0xFFU);
    return from_utf16(utf16);
  }
};

/// The strings in angle brackets of one section of a CMap; an array gives its elements with `[` and `]` between.
std::vector<std::string> section_tokens(std::string_view section) {
  std::vector<std::string> tokens;
  for (std::size_t i = 0; i < section.size(); ++i) {
    if (section[i] == '[' || section[i] == ']') {
      tokens.emplace_back(1, section[i]);
    } else if (section[i] == '<') {
      const std::size_t end = section.find('>', i);
      if (end == std::string_view::npos) break;
      tokens.push_back("<" + from_hex(section.substr(i + 1, end - i - 1)));
      i = end;
    }
  }
  return tokens;
}

std::vector<std::vector<std::string>> sections(std::string_view map, const std::string& name) {
  std::vector<std::vector<std::string>> found;
  const std::string begin = "begin" + name;
  for (std::size_t at = map.find(begin); at != std::string_view::npos; at = map.find(begin, at + 1)) {
    const std::size_t from = at + begin.size();
    const std::size_t end = map.find("end" + name, from);
    found.push_back(section_tokens(map.substr(from, end == std::string_view::npos ? end : end - from)));
  }
  return found;
}

std::string without_bracket(const std::string& token) {
  return token.substr(1);
}

/// One `<from> <to> <text>` or `<from> <to> [<text> …]`; returns the index behind it.
std::size_t add_range(FontMap& font, const std::vector<std::string>& tokens, std::size_t at) {
  const std::uint32_t from = code_of(without_bracket(tokens[at]));
  std::size_t next = at + 2;
  if (tokens[next] != "[") {
    font.ranges[from] = {code_of(without_bracket(tokens[at + 1])), without_bracket(tokens[next])};
    return next + 1;
  }
  std::uint32_t code = from;
  for (++next; next < tokens.size() && tokens[next] != "]"; ++next, ++code) {
    font.ranges[code] = {code, without_bracket(tokens[next])};
  }
  return next + 1;
}

void read_to_unicode(FontMap& font, std::string_view map) {
  for (const auto& tokens : sections(map, "codespacerange")) {
    for (const std::string& token : tokens) {
      if (token.size() > 1) font.code_bytes = std::max(font.code_bytes, token.size() - 1);
    }
  }
  for (const auto& tokens : sections(map, "bfchar")) {
    for (std::size_t i = 0; i + 1 < tokens.size(); i += 2) {
      const std::uint32_t code = code_of(without_bracket(tokens[i]));
      font.ranges[code] = {code, without_bracket(tokens[i + 1])};
    }
  }
  for (const auto& tokens : sections(map, "bfrange")) {
    for (std::size_t i = 0; i + 2 < tokens.size();) i = add_range(font, tokens, i);
  }
}

/// Of the names of ISO 32000-1:2008 annex D those that numbers of documents hold; letters stand for themselves.
std::string text_of_glyph(const std::string& name) {
  static const std::map<std::string, std::string> kNamed{
      {"zero", "0"},   {"one", "1"},       {"two", "2"},       {"three", "3"},      {"four", "4"},   {"five", "5"},
      {"six", "6"},    {"seven", "7"},     {"eight", "8"},     {"nine", "9"},       {"hyphen", "-"}, {"minus", "-"},
      {"endash", "-"}, {"slash", "/"},     {"period", "."},    {"underscore", "_"}, {"space", " "},  {"colon", ":"},
      {"comma", ","},  {"parenleft", "("}, {"parenright", ")"}};
  if (name.size() == 1) return name;
  const auto found = kNamed.find(name);
  return found == kNamed.end() ? std::string("?") : found->second;
}

void read_differences(FontMap& font, QPDFObjectHandle differences) {
  std::uint32_t code = 0;
  for (auto& item : differences.getArrayAsVector()) {
    if (item.isInteger()) code = static_cast<std::uint32_t>(item.getUIntValueAsUInt());
    if (!item.isName()) continue;
    const std::string text = text_of_glyph(item.getName().substr(1));
    if (!font.text_of(code)) font.ranges[code] = {code, std::string(1, '\0') + text};
    ++code;
  }
}

FontMap font_map(QPDFObjectHandle font) {
  FontMap map;
  if (!font.isDictionary()) return map;
  const bool is_composite = font.getKey("/Subtype").isNameAndEquals("/Type0");
  QPDFObjectHandle to_unicode = font.getKey("/ToUnicode");
  if (to_unicode.isStream()) {
    CappedBuffer bytes(kMostBytes);
    to_unicode.pipeStreamData(&bytes, 0, qpdf_dl_generalized, true);
    read_to_unicode(map, bytes.bytes());
  }
  map.others_are_latin = !is_composite;
  map.is_readable = !is_composite || !map.ranges.empty();
  if (is_composite) map.code_bytes = std::max<std::size_t>(map.code_bytes, 2);
  if (is_composite) return map;
  map.code_bytes = 1;
  QPDFObjectHandle encoding = font.getKey("/Encoding");
  if (encoding.isDictionary() && encoding.getKey("/Differences").isArray()) {
    read_differences(map, encoding.getKey("/Differences"));
  }
  return map;
}

/// What one drawing is read into, and what is left of the limits.
struct Reading {
  PdfText result;
  std::size_t bytes_left = kMostBytes;
  std::size_t forms_left = kMostForms;
  std::map<QPDFObjGen, FontMap> fonts = {};  ///< those that are objects of their own, which many pages share
};

void read_drawing(Reading& reading, const std::string& drawing, const QPDFObjectHandle& resources, QPDF& pdf,
                  int depth);

/// Follows the operators of one content stream.
class TextReader final : public QPDFObjectHandle::ParserCallbacks {
 public:
  TextReader(Reading& reading, const QPDFObjectHandle& resources, QPDF& pdf, int depth)
      : reading_(reading), resources_(resources), pdf_(pdf), depth_(depth) {}

  void handleObject(QPDFObjectHandle object) override {
    if (object.isInlineImage()) {
      reading_.result.shows_something = true;
    } else if (object.isOperator()) {
      run(object.getOperatorValue());
      operands_.clear();
    } else {
      operands_.push_back(std::move(object));
    }
  }
  void handleEOF() override {}

 private:
  Reading& reading_;
  QPDFObjectHandle resources_;
  QPDF& pdf_;
  int depth_;
  std::vector<QPDFObjectHandle> operands_;
  FontMap own_font_;
  const FontMap* font_ = nullptr;

  bool is_one_of(const std::string& name, std::initializer_list<const char*> names) const {
    return std::any_of(names.begin(), names.end(), [&](const char* one) { return name == one; });
  }

  void run(const std::string& name) {
    if (is_one_of(name, {"Td", "TD", "T*", "Tm", "BT", "ET", "'", "\""})) reading_.result.text += ' ';
    if (is_one_of(name, {"f", "F", "f*", "S", "s", "B", "B*", "b", "b*", "sh"})) reading_.result.shows_something = true;
    if (name == "Tf" && operands_.size() == 2 && operands_[0].isName()) set_font(operands_[0].getName());
    if (is_one_of(name, {"Tj", "'", "\""}) && !operands_.empty()) show(operands_.back());
    if (name == "TJ" && !operands_.empty() && operands_.back().isArray()) show_pieces(operands_.back());
    if (name == "Do" && !operands_.empty() && operands_.back().isName()) draw(operands_.back().getName());
  }

  QPDFObjectHandle resource(const char* category, const std::string& name) {
    QPDFObjectHandle all = resources_.isDictionary() ? resources_.getKey(category) : QPDFObjectHandle::newNull();
    return all.isDictionary() ? all.getKey(name) : QPDFObjectHandle::newNull();
  }

  void set_font(const std::string& name) {
    QPDFObjectHandle font = resource("/Font", name);
    std::map<QPDFObjGen, FontMap>& shared = reading_.fonts;
    if (!font.isIndirect()) {
      own_font_ = font_map(font);
      font_ = &own_font_;
      return;
    }
    auto known = shared.find(font.getObjGen());
    if (known == shared.end()) known = shared.emplace(font.getObjGen(), font_map(font)).first;
    font_ = &known->second;
  }

  void show(QPDFObjectHandle& object) {
    if (!object.isString()) return;
    static const FontMap kLatin;
    const FontMap& font = font_ == nullptr ? kLatin : *font_;
    const std::string codes = object.getStringValue();
    if (codes.empty()) return;
    reading_.result.shows_something = true;
    if (!font.is_readable) {
      reading_.result.is_whole = false;
      return;
    }
    for (std::size_t i = 0; i + font.code_bytes <= codes.size(); i += font.code_bytes) {
      const std::string code = codes.substr(i, font.code_bytes);
      if (const auto known = font.text_of(code_of(code))) {
        reading_.result.text += *known;
      } else if (font.others_are_latin) {
        reading_.result.text += QUtil::win_ansi_to_utf8(code);
      } else {
        reading_.result.is_whole = false;
      }
    }
  }

  void show_pieces(QPDFObjectHandle& pieces) {
    for (auto& piece : pieces.getArrayAsVector()) {
      if (piece.isNumber() && piece.getNumericValue() < kBlank) reading_.result.text += ' ';
      show(piece);
    }
  }

  void draw(const std::string& name) {
    QPDFObjectHandle object = resource("/XObject", name);
    if (!object.isStream()) return;
    if (!object.getDict().getKey("/Subtype").isNameAndEquals("/Form")) {
      reading_.result.shows_something = true;
      return;
    }
    if (depth_ >= kDeepestForm || reading_.forms_left == 0) {
      reading_.result.is_whole = false;
      return;
    }
    --reading_.forms_left;
    CappedBuffer drawing(reading_.bytes_left);
    object.pipeStreamData(&drawing, 0, qpdf_dl_generalized, true);
    reading_.result.is_whole = reading_.result.is_whole && drawing.is_whole();
    QPDFObjectHandle own = object.getDict().getKey("/Resources");
    read_drawing(reading_, drawing.bytes(), own.isDictionary() ? own : resources_, pdf_, depth_ + 1);
  }
};

void read_drawing(Reading& reading, const std::string& drawing, const QPDFObjectHandle& resources, QPDF& pdf,
                  int depth) {
  reading.bytes_left -= std::min(reading.bytes_left, drawing.size());
  TextReader reader(reading, resources, pdf, depth);
  QPDFObjectHandle::parseContentStream(QPDFObjectHandle::newStream(&pdf, drawing), &reader);
  reading.result.text += ' ';
}

void read_page(Reading& reading, QPDFPageObjectHelper& page, QPDF& pdf) {
  CappedBuffer drawing(reading.bytes_left);
  page.getObjectHandle().pipePageContents(&drawing);
  reading.result.is_whole = reading.result.is_whole && drawing.is_whole();
  read_drawing(reading, drawing.bytes(), page.getAttribute("/Resources", false), pdf, 0);
}

/// Hyphens and blanks of every kind as the plain ones; what divides a word at the end of a line is none.
std::string with_plain_signs(std::string text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kSigns{{{"\xE2\x80\x90", "-"},
                                                                                 {"\xE2\x80\x91", "-"},
                                                                                 {"\xE2\x80\x92", "-"},
                                                                                 {"\xE2\x80\x93", "-"},
                                                                                 {"\xE2\x88\x92", "-"},
                                                                                 {"\xC2\xAD", "-"},
                                                                                 {"\xC2\xA0", " "}}};
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const auto* sign = std::find_if(kSigns.begin(), kSigns.end(), [&](const auto& entry) {
      return text.compare(i, entry.first.size(), entry.first) == 0;
    });
    if (sign == kSigns.end()) {
      plain += text[i++];
    } else {
      plain += sign->second;
      i += sign->first.size();
    }
  }
  return plain;
}

}  // namespace

std::optional<PdfText> read_pdf_text(std::string_view bytes) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("document", bytes.data(), bytes.size());
    Reading reading;
    std::vector<QPDFPageObjectHelper> pages = QPDFPageDocumentHelper(pdf).getAllPages();
    if (pages.empty()) return std::nullopt;
    reading.result.is_whole = pages.size() <= kMostPages;
    pages.resize(std::min(pages.size(), kMostPages), pages.front());
    for (QPDFPageObjectHelper& page : pages) {
      if (reading.bytes_left > 0) read_page(reading, page, pdf);
    }
    reading.result.is_whole = reading.result.is_whole && reading.bytes_left > 0;
    reading.result.text = with_plain_signs(std::move(reading.result.text));
    return std::move(reading.result);
  } catch (const std::exception&) {
    // Damaged beyond what qpdf mends, or locked by a password: nobody can read it here.
    return std::nullopt;
  }
}

}  // namespace panel_dossier
