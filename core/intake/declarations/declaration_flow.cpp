#include "core/intake/declarations/declaration_flow.h"

#include <array>
#include <cctype>
#include <string_view>
#include <utility>

#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/declarations/evidence_reader.h"
#include "core/intake/declarations/ilcd.h"
#include "core/intake/document/input_file.h"
#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

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

Element reference_property(const Element& root) {
  const Element reference =
      root.child("flowInformation").child("quantitativeReference").child("referenceToReferenceFlowProperty");
  const std::string id(trimmed(reference.text()));
  const Element properties = root.child("flowProperties");
  for (Element property = properties.first_child(); property && reference; property = property.next_sibling()) {
    if (property.name() == "flowProperty" && property.attribute("dataSetInternalID").value_or("") == id)
      return property;
  }
  return {};
}

}  // namespace

std::optional<Sourced<std::string>> read_flow_unit(std::string text, const std::string& location,
                                                   const std::string& document) {
  const LineTable lines(text);
  XmlDocument parsed;
  if (parse_ilcd(text, lines, parsed)) return std::nullopt;
  if (parsed.root().name() != "flowDataSet") return std::nullopt;
  const Element property = reference_property(parsed.root());
  const auto mean = declared_number(property.child("meanValue").text());
  if (!mean || *mean != 1.0) return std::nullopt;
  const Element name = in_english(property.child("referenceToFlowPropertyDataSet"), "shortDescription");
  const auto unit = unit_of(name.text());
  if (!unit) return std::nullopt;
  return Sourced<std::string>{*unit, declaration_origin(location, document, lines.at(name.offset()).line)};
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

}  // namespace panel_dossier
