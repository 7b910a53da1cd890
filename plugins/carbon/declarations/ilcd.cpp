#include "plugins/carbon/declarations/ilcd.h"

#include <algorithm>
#include <array>
#include <initializer_list>
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
  const std::string word = lower_case(trimmed(property));
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

namespace panel_dossier::carbon {

namespace {

/// `Global warming potential (GWP-total)` -> `GWP-total`; the whole text where nothing stands in brackets.
std::string abbreviation_in(const std::string& text) {
  const std::size_t close = text.rfind(')');
  const std::size_t open = close == std::string::npos ? close : text.rfind('(', close);
  if (open == std::string::npos) return std::string(trimmed(text));
  return std::string(trimmed(std::string_view(text).substr(open + 1, close - open - 1)));
}

class XmlReader {
 public:
  XmlReader(const std::string& location, const std::string& document, LineTable lines)
      : location_(location), document_(document), lines_(std::move(lines)) {}

  DeclarationResult read(const pugi::xml_node& root) {
    if (ilcd::name_of(root) != "processDataSet") {
      return {std::nullopt,
              {ilcd::line_of(root, lines_),
               "'" + std::string(ilcd::name_of(root)).substr(0, 60) + "' is no ILCD process data set",
               "export the declaration as ILCD+EPD, process data set"},
              {}};
    }
    read_information(child(root, {"processInformation"}));
    keep(declaration_.kind, child(root, {"modellingAndValidation", "LCIMethodAndAllocation", "other", "subType"}));
    keep(declaration_.data_quality,
         child(root,
               {"modellingAndValidation", "validation", "review", "dataQualityIndicators", "dataQualityIndicator"}),
         "value");
    read_exchanges(child(root, {"exchanges"}));
    for (const pugi::xml_node& result : child(root, {"LCIAResults"}).children()) {
      if (ilcd::name_of(result) == "LCIAResult") read_values(result, child(result, {"referenceToLCIAMethodDataSet"}));
    }
    if (fault_.message.empty() && declaration_.values.empty()) {
      fault_ = {ilcd::line_of(root, lines_), "the data set declares no indicator", "export it with its LCIA results"};
    }
    if (!fault_.message.empty()) return {std::nullopt, fault_, {}};
    return {std::move(declaration_), {}, flow_uri_};
  }

 private:
  const std::string& location_;
  const std::string& document_;
  LineTable lines_;
  Declaration declaration_;
  DeclarationFault fault_;
  std::string reference_flow_ = "0";
  std::string flow_uri_;

  static pugi::xml_node child(pugi::xml_node element, std::initializer_list<std::string_view> path) {
    for (const std::string_view name : path) element = ilcd::child_of(element, name);
    return element;
  }

  Origin origin(const pugi::xml_node& at) const {
    return declaration_origin(location_, document_, ilcd::line_of(at, lines_));
  }

  void keep(std::optional<Sourced<std::string>>& fact, const pugi::xml_node& at,
            std::string_view attribute = {}) const {
    if (!at) return;
    const std::string text = attribute.empty() ? ilcd::text_of(at) : std::string(ilcd::attribute_of(at, attribute));
    if (!trimmed(text).empty()) fact = Sourced<std::string>{std::string(trimmed(text)), origin(at)};
  }

  void read_information(const pugi::xml_node& information) {
    keep(declaration_.product, ilcd::child_in_english(child(information, {"dataSetInformation", "name"}), "baseName"));
    keep(declaration_.valid_until, child(information, {"time", "dataSetValidUntil"}));
    keep(declaration_.geography, child(information, {"geography", "locationOfOperationSupplyOrProduction"}),
         "location");
    read_scenarios(child(information, {"dataSetInformation", "other", "scenarios"}));
    const pugi::xml_node reference = child(information, {"quantitativeReference", "referenceToReferenceFlow"});
    if (reference) reference_flow_ = std::string(trimmed(ilcd::text_of(reference)));
  }

  void read_scenarios(const pugi::xml_node& scenarios) {
    for (const pugi::xml_node& scenario : scenarios.children()) {
      if (ilcd::name_of(scenario) != "scenario") continue;
      const std::string_view is_default = ilcd::attribute_of(scenario, "default");
      declaration_.scenarios.push_back({std::string(trimmed(ilcd::attribute_of(scenario, "name"))),
                                        std::string(trimmed(ilcd::attribute_of(scenario, "group"))),
                                        is_default == "true" || is_default == "1"});
    }
  }

  void read_exchanges(const pugi::xml_node& exchanges) {
    for (const pugi::xml_node& exchange : exchanges.children()) {
      if (ilcd::name_of(exchange) != "exchange") continue;
      if (ilcd::attribute_of(exchange, "dataSetInternalID") == reference_flow_) {
        read_reference_flow(exchange);
      } else {
        read_values(exchange, child(exchange, {"referenceToFlowDataSet"}));
      }
    }
  }

  /// The amount declared. Its unit belongs to the flow data set, another file; some tools repeat it here.
  void read_reference_flow(const pugi::xml_node& exchange) {
    flow_uri_ = std::string(ilcd::attribute_of(child(exchange, {"referenceToFlowDataSet"}), "uri"));
    pugi::xml_node at = child(exchange, {"resultingAmount"});
    if (!at) at = child(exchange, {"meanAmount"});
    const auto amount = number(at);
    if (!amount) return;
    if (*amount <= 0.0) {
      refuse(at, "the amount of the reference flow is not above 0", "correct the declared amount");
      return;
    }
    declaration_.amount = Sourced<double>{*amount, origin(at)};
    keep(declaration_.unit,
         ilcd::child_in_english(child(exchange, {"other", "referenceToUnitGroupDataSet"}), "shortDescription"));
  }

  void read_values(const pugi::xml_node& entry, const pugi::xml_node& reference) {
    const std::string indicator = abbreviation_in(ilcd::text_of(ilcd::child_in_english(reference, "shortDescription")));
    const pugi::xml_node other = child(entry, {"other"});
    const std::string unit =
        ilcd::text_of(ilcd::child_in_english(child(other, {"referenceToUnitGroupDataSet"}), "shortDescription"));
    for (const pugi::xml_node& amount : other.children()) {
      // An amount without text stands for a module that is not declared.
      if (ilcd::name_of(amount) != "amount" || trimmed(ilcd::text_of(amount)).empty()) continue;
      const auto value = number(amount);
      if (!value) return;
      declaration_.values.push_back({indicator,
                                     declared_module(ilcd::attribute_of(amount, "module")),
                                     std::string(ilcd::attribute_of(amount, "scenario")),
                                     std::string(trimmed(unit)),
                                     {*value, origin(amount)}});
    }
  }

  /// None with a fault noted, unless the element is absent.
  std::optional<double> number(const pugi::xml_node& at) {
    if (!at) return std::nullopt;
    const std::string text = ilcd::text_of(at);
    const auto value = parse_decimal(text);
    if (!value) refuse(at, "'" + text.substr(0, 60) + "' is not a number", "write it with a decimal point");
    return value;
  }

  void refuse(const pugi::xml_node& at, std::string message, std::string advice) {
    if (fault_.message.empty()) fault_ = {ilcd::line_of(at, lines_), std::move(message), std::move(advice)};
  }
};

}  // namespace

DeclarationResult read_declaration_xml(std::string text, const std::string& location, const std::string& document) {
  LineTable lines(text);
  pugi::xml_document parsed;
  if (auto fault = ilcd::parse(text, lines, parsed)) return {std::nullopt, std::move(*fault), {}};
  return XmlReader(location, document, std::move(lines)).read(parsed.document_element());
}

}  // namespace panel_dossier::carbon
