#include "core/intake/graph/vocabulary.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <unordered_set>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

// Attributes whose declared type is concrete, so that the XML form needs no xsi:type; in the order of their names.
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

/// Written out: a comparison of texts would be a call, and this is asked of nearly everything.
bool begins_as_type(std::string_view name) {
  return name.size() >= 3 && name[0] == 'I' && name[1] == 'f' && name[2] == 'c';
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
  return element ? ifc_type(element, element.attribute("type")) : std::string_view();
}

std::string_view ifc_type(const Element& element, std::optional<std::string_view> xsi_type) {
  if (xsi_type) {
    const std::string_view type = without_prefix(trimmed(*xsi_type));
    if (begins_as_type(type)) return type;
  }
  const std::string_view name = element.name();
  if (begins_as_type(name)) return without_wrapper(name);
  if (element.is_step()) return {};
  // An attribute element that only holds another one is no entity itself.
  if (const Element inner = element.first_child(); inner && begins_as_type(inner.name())) return {};
  const auto declared =
      std::lower_bound(kDeclaredTypes.begin(), kDeclaredTypes.end(), name,
                       [](const auto& entry, std::string_view sought) { return entry.first < sought; });
  return declared == kDeclaredTypes.end() || declared->first != name ? std::string_view() : declared->second;
}

std::string own_global_id(const Element& element) {
  if (const auto id = element.attribute("GlobalId")) return std::string(trimmed(*id));
  Element child = element.child("GlobalId");
  // The flat form may put the defined type inside: <GlobalId><IfcGloballyUniqueId>…
  if (child && child.first_child()) child = child.first_child();
  return child ? std::string(trimmed(child.text())) : std::string();
}

std::string_view without_hash(std::string_view target) {
  std::string_view id = trimmed(target);
  if (!id.empty() && id.front() == '#') id.remove_prefix(1);
  return id;
}

std::string_view reference_target(const Element& element) {
  const auto target = element.pointed_to();
  return target ? without_hash(*target) : std::string_view();
}

bool is_reference(const Element& element) {
  return element.pointed_to().has_value();
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

namespace {

using NameSet = std::unordered_set<std::string_view>;

const NameSet& listed() {
  static const NameSet names{
      "IfcProject",
      "IfcSite",
      "IfcBuilding",
      "IfcBuildingStorey",
      "IfcElementAssembly",
      "IfcOpeningElement",
      "IfcOpeningStandardCase",
      "IfcWall",
      "IfcWallStandardCase",
      "IfcWallElementedCase",
      "IfcMaterial",
      "IfcMaterialProperties",
      "IfcExtendedMaterialProperties",
      "IfcGeneralMaterialProperties",
      "IfcThermalMaterialProperties",
      "IfcHygroscopicMaterialProperties",
      "IfcDocumentInformation",
      "IfcDocumentReference",
      "IfcRelAggregates",
      "IfcRelNests",
      "IfcRelContainedInSpatialStructure",
      "IfcRelVoidsElement",
      "IfcRelFillsElement",
      "IfcRelCoversBldgElements",
      "IfcRelDefinesByProperties",
      "IfcRelDefinesByType",
      "IfcRelAssociatesMaterial",
      "IfcRelAssociatesDocument",
      "IfcExternalReferenceRelationship",
      "IfcBeam",
      "IfcBeamStandardCase",
      "IfcBuildingElementProxy",
      "IfcClassificationReference",
      "IfcColumn",
      "IfcColumnStandardCase",
      "IfcCurtainWall",
      "IfcEarthworksFill",
      "IfcFooting",
      "IfcGeographicElement",
      "IfcMaterialClassificationRelationship",
      "IfcPile",
      "IfcRamp",
      "IfcRampFlight",
      "IfcRelAssociatesClassification",
      "IfcRoof",
      "IfcSlab",
      "IfcSlabElementedCase",
      "IfcSlabStandardCase",
      "IfcStair",
      "IfcStairFlight",
  };
  return names;
}

const NameSet& read_on_the_way() {
  static const NameSet names{
      "IfcArbitraryClosedProfileDef",
      "IfcArbitraryProfileDefWithVoids",
      "IfcAxis2Placement2D",
      "IfcAxis2Placement3D",
      "IfcBeamType",
      "IfcBooleanClippingResult",
      "IfcBooleanResult",
      "IfcBoundingBox",
      "IfcBoxedHalfSpace",
      "IfcBuildingElementPart",
      "IfcBuildingElementPartType",
      "IfcBuildingElementProxyType",
      "IfcCartesianPoint",
      "IfcCartesianPointList2D",
      "IfcCartesianPointList3D",
      "IfcCartesianTransformationOperator3D",
      "IfcCartesianTransformationOperator3DnonUniform",
      "IfcCircle",
      "IfcCircleHollowProfileDef",
      "IfcCircleProfileDef",
      "IfcClassification",
      "IfcClosedShell",
      "IfcColumnType",
      "IfcCompositeCurve",
      "IfcCompositeCurveSegment",
      "IfcConnectedFaceSet",
      "IfcConversionBasedUnit",
      "IfcConversionBasedUnitWithOffset",
      "IfcCovering",
      "IfcCoveringType",
      "IfcCurtainWallType",
      "IfcDerivedUnit",
      "IfcDerivedUnitElement",
      "IfcDimensionalExponents",
      "IfcDirection",
      "IfcDiscreteAccessory",
      "IfcDoor",
      "IfcDoorType",
      "IfcElementAssemblyType",
      "IfcElementQuantity",
      "IfcExtrudedAreaSolid",
      "IfcFace",
      "IfcFaceBasedSurfaceModel",
      "IfcFaceBound",
      "IfcFaceOuterBound",
      "IfcFacetedBrep",
      "IfcFastener",
      "IfcFootingType",
      "IfcGeometricRepresentationContext",
      "IfcGeometricRepresentationSubContext",
      "IfcHalfSpaceSolid",
      "IfcIShapeProfileDef",
      "IfcIndexedPolyCurve",
      "IfcIndexedPolygonalFace",
      "IfcIndexedPolygonalFaceWithVoids",
      "IfcLine",
      "IfcLocalPlacement",
      "IfcMappedItem",
      "IfcMaterialConstituent",
      "IfcMaterialConstituentSet",
      "IfcMaterialLayer",
      "IfcMaterialLayerSet",
      "IfcMaterialLayerSetUsage",
      "IfcMaterialList",
      "IfcMaterialProfile",
      "IfcMaterialProfileSet",
      "IfcMaterialProfileSetUsage",
      "IfcMeasureWithUnit",
      "IfcMechanicalFastener",
      "IfcMechanicalFastenerType",
      "IfcMember",
      "IfcMemberStandardCase",
      "IfcMemberType",
      "IfcMonetaryUnit",
      "IfcOpenShell",
      "IfcPlane",
      "IfcPlate",
      "IfcPlateStandardCase",
      "IfcPlateType",
      "IfcPolyLoop",
      "IfcPolygonalBoundedHalfSpace",
      "IfcPolygonalFaceSet",
      "IfcPolyline",
      "IfcProductDefinitionShape",
      "IfcPropertyEnumeratedValue",
      "IfcPropertySet",
      "IfcPropertySingleValue",
      "IfcQuantityArea",
      "IfcQuantityCount",
      "IfcQuantityLength",
      "IfcQuantityTime",
      "IfcQuantityVolume",
      "IfcQuantityWeight",
      "IfcRectangleHollowProfileDef",
      "IfcRectangleProfileDef",
      "IfcRepresentationMap",
      "IfcRoofType",
      "IfcSIUnit",
      "IfcShapeRepresentation",
      "IfcShellBasedSurfaceModel",
      "IfcSlabType",
      "IfcSpace",
      "IfcStairType",
      "IfcTriangulatedFaceSet",
      "IfcTrimmedCurve",
      "IfcUnitAssignment",
      "IfcVector",
      "IfcWallType",
      "IfcWindow",
      "IfcWindowType",
  };
  return names;
}

}  // namespace

bool is_listed_type(std::string_view type) {
  return listed().count(type) != 0;
}

bool is_read_type(std::string_view type) {
  return is_listed_type(type) || read_on_the_way().count(type) != 0;
}

bool is_wall_type(std::string_view type) {
  return type == "IfcWall" || type == "IfcWallStandardCase" || type == "IfcWallElementedCase";
}

namespace {

// Hosts under which the standard's namespaces have been published over the years (from memory).
constexpr std::array kHosts{"iai-tech.org"sv, "iai-international.org"sv, "buildingsmart-tech.org"sv,
                            "buildingsmart.org"sv};

// Longer first: IFC4X3 begins with IFC4.
constexpr std::array kSegments{
    std::pair{"IFC2X3"sv, Generation::ifc2x3},
    std::pair{"IFC4X3"sv, Generation::ifc4x3},
    std::pair{"IFC4_3"sv, Generation::ifc4x3},
    std::pair{"IFC4"sv, Generation::ifc4},
};

Generation generation_of_segment(const std::string& token) {
  for (const auto& [name, generation] : kSegments) {
    if (token.compare(0, name.size(), name) != 0) continue;
    // IFC4X1 and IFC4X2 were withdrawn and are not read.
    if (token.size() == name.size() || token[name.size()] == '_') return generation;
  }
  return Generation::unknown;
}

}  // namespace

Generation generation_of_namespace(std::string_view uri) {
  bool is_published = false;
  for (const std::string_view host : kHosts) is_published = is_published || uri.find(host) != std::string_view::npos;
  while (is_published && !uri.empty()) {
    const std::size_t slash = uri.find('/');
    const Generation found = generation_of_segment(enumeration_token(uri.substr(0, slash)));
    if (found != Generation::unknown) return found;
    uri.remove_prefix(slash == std::string_view::npos ? uri.size() : slash + 1);
  }
  return Generation::unknown;
}

Generation generation_of(const Element& root) {
  // A wrapper of ISO 10303-28 has a namespace of its own, and so may the units of serialisation in it.
  Generation found = generation_of_namespace(root.namespace_uri());
  for (Element child = root.first_child(); child && found == Generation::unknown; child = child.next_sibling()) {
    found = generation_of_namespace(child.namespace_uri());
    Element inner = child.first_child();
    for (; inner && found == Generation::unknown; inner = inner.next_sibling()) {
      found = generation_of_namespace(inner.namespace_uri());
    }
  }
  return found;
}

std::string to_string(Generation generation) {
  switch (generation) {
    case Generation::ifc2x3: return "IFC2x3 TC1";
    case Generation::ifc4: return "IFC4 ADD2 TC1";
    case Generation::ifc4x3: return "IFC4X3 ADD2";
    case Generation::unknown: break;
  }
  return {};
}

}  // namespace panel_dossier
