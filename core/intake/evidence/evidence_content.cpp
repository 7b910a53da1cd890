#include "core/intake/evidence/evidence_content.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <optional>
#include <utility>

#include "core/api/support/project_file.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/intake/evidence/pdf/pdf_text.h"

namespace panel_dossier {

namespace {

/// Far above any report; a larger file is taken for pages that nobody can read here.
constexpr std::size_t kLargestDocument_bytes = std::size_t{256} << 20U;

/// The words by which a document says what it is, in lower case, as reports and certificates are headed.
constexpr std::array<std::pair<std::string_view, EvidenceKind>, 26> kHeadings{{
    {"fire resistance test report", EvidenceKind::fire_test_report},
    {"fire test report", EvidenceKind::fire_test_report},
    {"test report on fire resistance", EvidenceKind::fire_test_report},
    {"fire resistance test", EvidenceKind::fire_test_report},
    {"classification report", EvidenceKind::classification_report},
    {"klassifizierungsbericht", EvidenceKind::classification_report},
    {"declaration of performance", EvidenceKind::product_declaration},
    {"leistungserklärung", EvidenceKind::product_declaration},
    {"environmental product declaration", EvidenceKind::environmental_declaration},
    {"umwelt-produktdeklaration", EvidenceKind::environmental_declaration},
    {"umweltproduktdeklaration", EvidenceKind::environmental_declaration},
    {"processdataset", EvidenceKind::environmental_declaration},
    {"product declaration", EvidenceKind::product_declaration},
    {"chain of custody", EvidenceKind::chain_of_custody_certificate},
    {"chain-of-custody", EvidenceKind::chain_of_custody_certificate},
    {"air permeability test", EvidenceKind::air_test_report},
    {"airtightness test", EvidenceKind::air_test_report},
    {"air tightness test", EvidenceKind::air_test_report},
    {"lifting certificate", EvidenceKind::lifting_certificate},
    {"lifting loop certificate", EvidenceKind::lifting_certificate},
    {"lifting equipment certificate", EvidenceKind::lifting_certificate},
    {"factory production control", EvidenceKind::factory_production_control},
    {"fire strategy", EvidenceKind::fire_strategy},
    {"fire safety strategy", EvidenceKind::fire_strategy},
    {"brandschutzkonzept", EvidenceKind::fire_strategy},
    {"brandschutznachweis", EvidenceKind::fire_strategy},
}};

bool is_space(char c) {
  return std::isspace(static_cast<unsigned char>(c)) != 0;
}
bool is_alphanumeric(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0;
}

/// In lower case (of the Latin letters without marks), with one blank for any white space.
std::string plain(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  for (const char c : text) {
    if (!is_space(c)) {
      result += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    } else if (!result.empty() && result.back() != ' ') {
      result += ' ';
    }
  }
  if (!result.empty() && result.back() == ' ') result.pop_back();
  return result;
}

/// As a word of its own: `FT-10` is not in `FT-101`.
bool names(std::string_view text, std::string_view number) {
  if (number.empty()) return false;
  for (std::size_t at = text.find(number); at != std::string_view::npos; at = text.find(number, at + 1)) {
    const std::size_t end = at + number.size();
    const bool begins = at == 0 || !is_alphanumeric(text[at - 1]);
    const bool ends = end == text.size() || !is_alphanumeric(text[end]);
    if (begins && ends) return true;
  }
  return false;
}

/// The index behind `number` where it stands at `at` of `text`, with blanks inside or not; none where it does not.
std::optional<std::size_t> end_of_loose(std::string_view text, std::size_t at, std::string_view number) {
  for (const char c : number) {
    if (c == ' ') continue;
    while (at < text.size() && text[at] == ' ') ++at;
    if (at == text.size() || text[at] != c) return std::nullopt;
    ++at;
  }
  return at;
}

/// As `names`, in a text that was set in pieces.
bool names_loosely(std::string_view text, std::string_view number) {
  if (number.empty()) return false;
  for (std::size_t at = text.find(number.front()); at != std::string_view::npos;
       at = text.find(number.front(), at + 1)) {
    if (at > 0 && is_alphanumeric(text[at - 1])) continue;
    const auto end = end_of_loose(text, at, number);
    if (end && (*end == text.size() || !is_alphanumeric(text[*end]))) return true;
  }
  return false;
}

/// `product declaration` inside `environmental product declaration` names nothing of its own.
bool is_inside_longer(std::string_view text, std::size_t at, std::string_view heading) {
  return std::any_of(kHeadings.begin(), kHeadings.end(), [&](const auto& entry) {
    const std::size_t inner = entry.first.find(heading);
    return entry.first.size() > heading.size() && inner != std::string_view::npos && inner <= at &&
           text.substr(at - inner, entry.first.size()) == entry.first;
  });
}

std::optional<std::size_t> first_naming(std::string_view text, std::string_view heading) {
  for (std::size_t at = text.find(heading); at != std::string_view::npos; at = text.find(heading, at + 1)) {
    if (!is_inside_longer(text, at, heading)) return at;
  }
  return std::nullopt;
}

std::vector<EvidenceKind> kinds_named(std::string_view text) {
  std::vector<std::pair<std::size_t, EvidenceKind>> found;
  for (const auto& [heading, kind] : kHeadings) {
    if (const auto at = first_naming(text, heading)) found.emplace_back(*at, kind);
  }
  std::sort(found.begin(), found.end());
  std::vector<EvidenceKind> kinds;
  for (const auto& [at, kind] : found) {
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
  }
  return kinds;
}

bool is_pdf(std::string_view bytes) {
  // A file that was cut off in copying lacks the pointer to its last table (ISO 32000-1:2008, 7.5.5).
  return bytes.starts_with("%PDF-") && bytes.rfind("startxref") != std::string_view::npos;
}

bool is_picture_or_office(std::string_view bytes) {
  using namespace std::string_view_literals;
  constexpr std::array kSignatures{"\xFF\xD8\xFF"sv, "\x89PNG\r\n\x1A\n"sv, "II*\0"sv, "MM\0*"sv, "PK\x03\x04"sv};
  // A signature alone is no page.
  constexpr std::size_t kLeast_bytes = 64;
  return bytes.size() >= kLeast_bytes && std::any_of(kSignatures.begin(), kSignatures.end(),
                                                     [&](std::string_view sign) { return bytes.starts_with(sign); });
}

EvidenceContent content_of_pdf(std::string_view bytes, std::string_view number) {
  const auto pdf = is_pdf(bytes) ? read_pdf_text(bytes) : std::nullopt;
  if (!pdf || !pdf->shows_something) return {EvidenceStatus::unreadable};
  const std::string text = plain(pdf->text);
  const bool is_named = names_loosely(text, plain(number));
  const bool has_words = std::any_of(text.begin(), text.end(), is_alphanumeric);
  if (!is_named && (!has_words || !pdf->is_whole)) return {EvidenceStatus::present, kinds_named(text), false};
  return {is_named ? EvidenceStatus::present : EvidenceStatus::unnamed, kinds_named(text)};
}

}  // namespace

EvidenceContent evidence_content(std::string_view bytes, std::string_view extension, std::string_view number) {
  if (trimmed(bytes).empty()) return {EvidenceStatus::empty};
  if (bytes.starts_with("%PDF") || plain(extension) == ".pdf") return content_of_pdf(bytes, number);
  if (is_picture_or_office(bytes)) return {EvidenceStatus::present, {}, false};
  if (encoding_fault(bytes) || bytes.find('\0') != std::string_view::npos) return {EvidenceStatus::unreadable};
  const std::string text = plain(bytes);
  return {names(text, plain(number)) ? EvidenceStatus::present : EvidenceStatus::unnamed, kinds_named(text)};
}

EvidenceContent read_evidence_content(const std::filesystem::path& file, std::string_view number) {
  std::error_code failed;
  const auto size = std::filesystem::file_size(file, failed);
  if (failed || size > kLargestDocument_bytes) return {};
  const auto bytes = load_at_most(file, static_cast<std::size_t>(size));
  return bytes ? evidence_content(*bytes, file.extension().string(), number) : EvidenceContent{};
}

}  // namespace panel_dossier
