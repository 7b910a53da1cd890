#include "plugins/carbon/declarations/ilcd.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "core/api/support/project_file.h"
#include "core/api/support/words.h"

namespace panel_dossier::carbon::ilcd {

namespace fs = std::filesystem;

namespace {

/// Names of flow properties in ILCD data sets and the unit that stands first in their unit group: ILCD reference flow
/// properties, from memory.
constexpr std::array<std::pair<std::string_view, const char*>, 8> kUnits{{{"mass", "kg"},
                                                                          {"volume", "m3"},
                                                                          {"area", "m2"},
                                                                          {"length", "m"},
                                                                          {"number of pieces", "piece"},
                                                                          {"number of items", "piece"},
                                                                          {"piece", "piece"},
                                                                          {"pieces", "piece"}}};

std::optional<std::string> unit_of(std::string_view property) {
  std::string word(trimmed(property));
  for (char& c : word) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  for (const auto& [name, unit] : kUnits) {
    if (word == name) return unit;
  }
  return std::nullopt;
}

std::string_view local_part(std::string_view qualified) {
  const std::size_t colon = qualified.rfind(':');
  return colon == std::string_view::npos ? qualified : qualified.substr(colon + 1);
}

pugi::xml_node reference_property(const pugi::xml_node& root) {
  const pugi::xml_node reference = child_of(child_of(child_of(root, "flowInformation"), "quantitativeReference"),
                                            "referenceToReferenceFlowProperty");
  if (!reference) return {};
  const std::string text = text_of(reference);
  for (const pugi::xml_node& property : child_of(root, "flowProperties").children()) {
    if (name_of(property) == "flowProperty" && attribute_of(property, "dataSetInternalID") == trimmed(text)) {
      return property;
    }
  }
  return {};
}

}  // namespace

std::string_view name_of(const pugi::xml_node& element) {
  return local_part(element.name());
}

pugi::xml_node child_of(const pugi::xml_node& element, std::string_view name) {
  return element.find_child([&](const pugi::xml_node& child) { return name_of(child) == name; });
}

std::string_view attribute_of(const pugi::xml_node& element, std::string_view name) {
  constexpr std::string_view kNamespace = "xmlns:";
  return element
      .find_attribute([&](const pugi::xml_attribute& attribute) {
        const std::string_view qualified = attribute.name();
        return local_part(qualified) == name && !qualified.starts_with(kNamespace);
      })
      .value();
}

std::string text_of(const pugi::xml_node& element) {
  std::string text;
  for (const pugi::xml_node& child : element.children()) {
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) text += child.value();
  }
  return text;
}

pugi::xml_node child_in_english(const pugi::xml_node& element, std::string_view name) {
  pugi::xml_node first;
  for (const pugi::xml_node& child : element.children()) {
    if (name_of(child) != name) continue;
    const std::string_view language = attribute_of(child, "lang");
    if (language.empty() || language == "en") return child;
    if (!first) first = child;
  }
  return first;
}

std::optional<DeclarationFault> parse(std::string& text, const LineTable& lines, pugi::xml_document& parsed) {
  const std::size_t doctype = text.find("<!DOCTYPE");
  if (doctype != std::string::npos) {
    return DeclarationFault{lines.at(doctype).line, "the file has a document type declaration (DOCTYPE)",
                            "remove it: entities and external files are never read"};
  }
  const pugi::xml_parse_result result =
      parsed.load_buffer_inplace(text.data(), text.size(), pugi::parse_default, pugi::encoding_utf8);
  if (!result) {
    const auto offset = static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0));
    return DeclarationFault{lines.at(offset).line, "the file is not well-formed XML",
                            "export it again: it may be truncated or damaged"};
  }
  return std::nullopt;
}

std::uint32_t line_of(const pugi::xml_node& element, const LineTable& lines) {
  return lines.at(static_cast<std::size_t>(std::max<std::ptrdiff_t>(element.offset_debug(), 0))).line;
}

std::optional<Sourced<std::string>> read_flow_unit(std::string text, const std::string& location,
                                                   const std::string& document) {
  const LineTable lines(text);
  pugi::xml_document parsed;
  if (parse(text, lines, parsed)) return std::nullopt;
  const pugi::xml_node root = parsed.document_element();
  if (name_of(root) != "flowDataSet") return std::nullopt;
  const pugi::xml_node property = reference_property(root);
  const auto mean = parse_decimal(text_of(child_of(property, "meanValue")));
  if (!mean || *mean != 1.0) return std::nullopt;
  const pugi::xml_node name =
      child_in_english(child_of(property, "referenceToFlowPropertyDataSet"), "shortDescription");
  const auto unit = unit_of(text_of(name));
  if (!unit) return std::nullopt;
  return Sourced<std::string>{*unit, declaration_origin(location, document, line_of(name, lines))};
}

std::optional<Sourced<std::string>> read_flow_unit_beside(const fs::path& project_dir, const std::string& location,
                                                          const std::string& uri, const std::string& document) {
  if (!uri.ends_with(".xml") || fs::path(uri).is_absolute()) return std::nullopt;
  const std::string beside = (fs::path(location).parent_path() / uri).lexically_normal().generic_string();
  if (find_evidence_file(project_dir, beside) != EvidenceStatus::present) return std::nullopt;
  auto text = load_at_most(project_dir / beside, kLargestDeclaration_bytes);
  if (!text || text->size() > kLargestDeclaration_bytes) return std::nullopt;
  return read_flow_unit(std::move(*text), beside, document);
}

}  // namespace panel_dossier::carbon::ilcd
