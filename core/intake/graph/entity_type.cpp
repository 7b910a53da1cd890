#include "core/intake/graph/entity_type.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

// Attributes whose declared type is concrete, so that the XML form needs no xsi:type.
constexpr std::array kDeclaredTypes{
    std::pair{"Axis"sv, "IfcDirection"sv},
    std::pair{"Axis1"sv, "IfcDirection"sv},
    std::pair{"Axis2"sv, "IfcDirection"sv},
    std::pair{"Axis3"sv, "IfcDirection"sv},
    std::pair{"ConversionFactor"sv, "IfcMeasureWithUnit"sv},
    std::pair{"Corner"sv, "IfcCartesianPoint"sv},
    std::pair{"ExtrudedDirection"sv, "IfcDirection"sv},
    std::pair{"ForLayerSet"sv, "IfcMaterialLayerSet"sv},
    std::pair{"ForProfileSet"sv, "IfcMaterialProfileSet"sv},
    std::pair{"LocalOrigin"sv, "IfcCartesianPoint"sv},
    std::pair{"Location"sv, "IfcCartesianPoint"sv},
    std::pair{"MappedRepresentation"sv, "IfcShapeRepresentation"sv},
    std::pair{"MappingSource"sv, "IfcRepresentationMap"sv},
    std::pair{"Material"sv, "IfcMaterial"sv},
    std::pair{"ObjectPlacement"sv, "IfcLocalPlacement"sv},
    std::pair{"PlacementRelTo"sv, "IfcLocalPlacement"sv},
    std::pair{"RefDirection"sv, "IfcDirection"sv},
    std::pair{"RelatedOpeningElement"sv, "IfcOpeningElement"sv},
    std::pair{"RelatingOpeningElement"sv, "IfcOpeningElement"sv},
    std::pair{"Representation"sv, "IfcProductDefinitionShape"sv},
    std::pair{"TrueNorth"sv, "IfcDirection"sv},
    std::pair{"UnitsInContext"sv, "IfcUnitAssignment"sv},
};

std::string_view without_prefix(std::string_view name) {
  const std::size_t colon = name.rfind(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

std::string_view without_wrapper(std::string_view name) {
  constexpr std::string_view kSuffix = "-wrapper";
  if (name.size() > kSuffix.size() && name.substr(name.size() - kSuffix.size()) == kSuffix) {
    name.remove_suffix(kSuffix.size());
  }
  return name;
}

}  // namespace

std::string_view ifc_type(const Element& element) {
  if (!element) return {};
  const std::string_view name = element.name();
  if (const auto type = element.attribute("type"); type && without_prefix(trimmed(*type)).substr(0, 3) == "Ifc") {
    return without_prefix(trimmed(*type));
  }
  if (name.substr(0, 3) == "Ifc") return without_wrapper(name);
  // An attribute element that only holds another one is no entity itself.
  if (const Element inner = element.first_child(); inner && inner.name().substr(0, 3) == "Ifc") return {};
  const auto declared = std::find_if(kDeclaredTypes.begin(), kDeclaredTypes.end(),
                                     [name](const auto& entry) { return entry.first == name; });
  return declared == kDeclaredTypes.end() ? std::string_view() : declared->second;
}

std::string own_global_id(const Element& element) {
  if (const auto id = element.attribute("GlobalId")) return std::string(trimmed(*id));
  Element child = element.child("GlobalId");
  // The flat form may put the defined type inside: <GlobalId><IfcGloballyUniqueId>…
  if (child && child.first_child()) child = child.first_child();
  return child ? std::string(trimmed(child.text())) : std::string();
}

std::string_view reference_target(const Element& element) {
  auto target = element.attribute("ref");
  if (!target) target = element.attribute("href");
  if (!target) return {};
  std::string_view id = trimmed(*target);
  if (!id.empty() && id.front() == '#') id.remove_prefix(1);
  return id;
}

bool is_reference(const Element& element) {
  return element.attribute("ref").has_value() || element.attribute("href").has_value();
}

std::string enumeration_token(std::string_view text) {
  std::string token;
  for (const char c : text) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      token += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    } else if (!token.empty() && token.back() != '_') {
      token += '_';
    }
  }
  if (!token.empty() && token.back() == '_') token.pop_back();
  return token;
}

}  // namespace panel_dossier
