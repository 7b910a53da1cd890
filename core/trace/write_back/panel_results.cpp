#include "core/trace/write_back/panel_results.h"

#include <cstddef>
#include <cstdint>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/sha256.h"
#include "core/intake/graph/property_reader.h"

namespace panel_dossier {

namespace {

void add_finding(const RecordedFinding& finding, std::vector<ResultProperty>& properties) {
  properties.push_back({finding.check + ".verdict", finding.title, std::string(to_string(finding.verdict))});
  std::string description = finding.title;
  if (!finding.unit.empty()) description += ", in " + finding.unit;
  if (!finding.clause.empty()) description += "; " + finding.clause;
  if (const double* number = std::get_if<double>(&finding.value)) {
    properties.push_back({finding.check, std::move(description), *number});
  } else if (const std::string* text = std::get_if<std::string>(&finding.value)) {
    properties.push_back({finding.check, std::move(description), *text});
  }
}

}  // namespace

std::string_view type_of(const ResultProperty& property) {
  constexpr std::size_t kLongestLabel = 255;  // of an IfcLabel; bytes are at least as many as characters
  if (!property.type.empty()) return property.type;
  const std::string* text = std::get_if<std::string>(&property.value);
  if (text == nullptr) return "IfcReal";
  return text->size() <= kLongestLabel ? "IfcLabel" : "IfcText";
}

bool holds_quantities(const StandardResults& set) {
  return !set.properties.empty() && find_quantity(set.properties.front().type) != nullptr;
}

std::vector<PanelResults> panel_results(const ResultsDocument& document) {
  std::vector<PanelResults> all;
  all.reserve(document.panels.size());
  for (const PanelSummary& panel : document.panels) {
    PanelResults results{panel.global_id, {}, {}};
    results.properties = {{"DossierHash", "root of the hash tree of the dossier", document.build.hash_tree_root},
                          {"PanelHash", "leaf of this panel in that tree", panel.hash},
                          {"BuildTime", "of the dossier, in UTC", document.build.time_utc},
                          {"ProgramVersion", "of panel-dossier", document.build.program_version}};
    for (const RecordedFinding& finding : panel.findings) add_finding(finding, results.properties);
    all.push_back(std::move(results));
  }
  return all;
}

char32_t take_character(std::string_view& text) {
  constexpr char32_t kReplacement = 0xFFFD;
  const auto lead = static_cast<unsigned char>(text.front());
  const std::size_t length = lead < 0x80U   ? 1
                             : lead < 0xC2U ? 0
                             : lead < 0xE0U ? 2
                             : lead < 0xF0U ? 3
                             : lead < 0xF5U ? 4
                                            : 0;
  if (length == 0 || text.size() < length) {
    text.remove_prefix(1);
    return kReplacement;
  }
  char32_t code = length == 1 ? lead : lead & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) code = (code << 6U) | (static_cast<unsigned char>(text[i]) & 0x3FU);
  text.remove_prefix(length);
  return code;
}

std::string derived_global_id(std::string_view panel_global_id, std::string_view purpose) {
  constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";
  constexpr std::size_t kBits = 128;
  constexpr std::size_t kBitsOfCharacter = 6;
  const Digest digest = sha256(std::string(panel_global_id) + "/" + std::string(purpose));
  std::string id;
  // 128 bits in 22 characters: the first holds the two that are left over.
  std::uint32_t bits = 0;
  std::size_t count = 4;
  for (std::size_t i = 0; i < kBits / 8; ++i) {
    bits = (bits << 8U) | digest[i];
    count += 8;
    while (count >= kBitsOfCharacter) {
      count -= kBitsOfCharacter;
      id += kAlphabet[(bits >> count) & 0x3FU];
    }
    bits &= (1U << count) - 1U;
  }
  return id;
}

std::string real_text(double value) {
  std::string text = shortest_text(value);
  const std::size_t exponent = text.find('e');
  std::string digits = text.substr(0, exponent);
  if (digits.find('.') == std::string::npos) digits += ".";
  return exponent == std::string::npos ? digits : digits + "E" + text.substr(exponent + 1);
}

}  // namespace panel_dossier
