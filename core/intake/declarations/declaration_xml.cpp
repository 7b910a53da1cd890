// The ILCD process data set with the EPD extensions, as declaration programmes exchange it. Element names: ILCD format
// 1.1 and ILCD+EPD 1.2, from memory.
#include <utility>
#include <vector>

#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/declarations/ilcd.h"
#include "core/intake/document/line_table.h"
#include "core/intake/graph/element.h"
#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

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

  DeclarationResult read(const Element& root) {
    if (root.name() != "processDataSet") {
      return {std::nullopt,
              {line(root), "'" + std::string(root.name()).substr(0, 60) + "' is no ILCD process data set",
               "export the declaration as ILCD+EPD, process data set"},
              {}};
    }
    read_information(root.child("processInformation"));
    const Element method = root.child("modellingAndValidation").child("LCIMethodAndAllocation");
    keep(declaration_.kind, method.child("other").child("subType"));
    const Element validation = root.child("modellingAndValidation").child("validation").child("review");
    keep(declaration_.data_quality, validation.child("dataQualityIndicators").child("dataQualityIndicator"), "value");
    read_exchanges(root.child("exchanges"));
    const Element results = root.child("LCIAResults");
    for (Element result = results.first_child(); result; result = result.next_sibling()) {
      if (result.name() == "LCIAResult") read_values(result, result.child("referenceToLCIAMethodDataSet"));
    }
    if (fault_.message.empty() && declaration_.values.empty()) {
      fault_ = {line(root), "the data set declares no indicator", "export it with its LCIA results"};
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

  std::uint32_t line(const Element& at) const { return lines_.at(at.offset()).line; }
  Origin origin(const Element& at) const { return declaration_origin(location_, document_, line(at)); }

  void keep(std::optional<Sourced<std::string>>& fact, const Element& at, std::string_view attribute = {}) const {
    if (!at) return;
    const std::string text = attribute.empty() ? at.text() : std::string(at.attribute(attribute).value_or(""));
    if (!trimmed(text).empty()) fact = Sourced<std::string>{std::string(trimmed(text)), origin(at)};
  }

  void read_information(const Element& information) {
    keep(declaration_.product, in_english(information.child("dataSetInformation").child("name"), "baseName"));
    keep(declaration_.valid_until, information.child("time").child("dataSetValidUntil"));
    keep(declaration_.geography, information.child("geography").child("locationOfOperationSupplyOrProduction"),
         "location");
    const Element reference = information.child("quantitativeReference").child("referenceToReferenceFlow");
    if (reference) reference_flow_ = std::string(trimmed(reference.text()));
  }

  void read_exchanges(const Element& exchanges) {
    for (Element exchange = exchanges.first_child(); exchange; exchange = exchange.next_sibling()) {
      if (exchange.name() != "exchange") continue;
      if (exchange.attribute("dataSetInternalID").value_or("") == reference_flow_) {
        read_reference_flow(exchange);
      } else {
        read_values(exchange, exchange.child("referenceToFlowDataSet"));
      }
    }
  }

  /// The amount declared. Its unit belongs to the flow data set, another file; some tools repeat it here.
  void read_reference_flow(const Element& exchange) {
    flow_uri_ = std::string(exchange.child("referenceToFlowDataSet").attribute("uri").value_or(""));
    Element at = exchange.child("resultingAmount");
    if (!at) at = exchange.child("meanAmount");
    const auto amount = number(at);
    if (!amount) return;
    if (*amount <= 0.0) {
      refuse(at, "the amount of the reference flow is not above 0", "correct the declared amount");
      return;
    }
    declaration_.amount = Sourced<double>{*amount, origin(at)};
    keep(declaration_.unit,
         in_english(exchange.child("other").child("referenceToUnitGroupDataSet"), "shortDescription"));
  }

  void read_values(const Element& entry, const Element& reference) {
    const std::string indicator = abbreviation_in(in_english(reference, "shortDescription").text());
    const Element other = entry.child("other");
    const std::string unit = in_english(other.child("referenceToUnitGroupDataSet"), "shortDescription").text();
    for (Element amount = other.first_child(); amount; amount = amount.next_sibling()) {
      // An amount without text stands for a module that is not declared.
      if (amount.name() != "amount" || trimmed(amount.text()).empty()) continue;
      const auto value = number(amount);
      if (!value) return;
      declaration_.values.push_back({indicator,
                                     declared_module(amount.attribute("module").value_or("")),
                                     std::string(amount.attribute("scenario").value_or("")),
                                     std::string(trimmed(unit)),
                                     {*value, origin(amount)}});
    }
  }

  /// None with a fault noted, unless the element is absent.
  std::optional<double> number(const Element& at) {
    if (!at) return std::nullopt;
    const auto value = declared_number(at.text());
    if (!value) refuse(at, "'" + at.text().substr(0, 60) + "' is not a number", "write it with a decimal point");
    return value;
  }

  void refuse(const Element& at, std::string message, std::string advice) {
    if (fault_.message.empty()) fault_ = {line(at), std::move(message), std::move(advice)};
  }
};

}  // namespace

DeclarationResult read_declaration_xml(std::string text, const std::string& location, const std::string& document) {
  LineTable lines(text);
  XmlDocument parsed;
  if (auto fault = parse_ilcd(text, lines, parsed)) return {std::nullopt, std::move(*fault), {}};
  return XmlReader(location, document, std::move(lines)).read(parsed.root());
}

}  // namespace panel_dossier
