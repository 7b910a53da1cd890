#include "core/intake/graph/entity_lists.h"

#include <unordered_set>

namespace panel_dossier {

namespace {

using NameSet = std::unordered_set<std::string_view>;

const NameSet& listed() {
  static const NameSet names{
      "IfcProject",
      "IfcSite",
      "IfcBuilding",
      "IfcBuildingStorey",
      "IfcElementAssembly",
      "IfcWall",
      "IfcWallStandardCase",
      "IfcWallElementedCase",
      "IfcMaterial",
      "IfcMaterialProperties",
      "IfcExtendedMaterialProperties",
      "IfcGeneralMaterialProperties",
      "IfcThermalMaterialProperties",
      "IfcHygroscopicMaterialProperties",
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
  };
  return names;
}

const NameSet& read_on_the_way() {
  static const NameSet names{
      "IfcArbitraryClosedProfileDef",
      "IfcAxis2Placement2D",
      "IfcAxis2Placement3D",
      "IfcBeam",
      "IfcBoundingBox",
      "IfcBuildingElementPart",
      "IfcBuildingElementPartType",
      "IfcBuildingElementProxy",
      "IfcCartesianPoint",
      "IfcCartesianPointList2D",
      "IfcCartesianTransformationOperator3D",
      "IfcColumn",
      "IfcConversionBasedUnit",
      "IfcConversionBasedUnitWithOffset",
      "IfcCovering",
      "IfcCoveringType",
      "IfcDerivedUnit",
      "IfcDerivedUnitElement",
      "IfcDimensionalExponents",
      "IfcDirection",
      "IfcDiscreteAccessory",
      "IfcDocumentInformation",
      "IfcDoor",
      "IfcDoorType",
      "IfcElementAssemblyType",
      "IfcElementQuantity",
      "IfcExtrudedAreaSolid",
      "IfcFastener",
      "IfcGeometricRepresentationContext",
      "IfcGeometricRepresentationSubContext",
      "IfcIndexedPolyCurve",
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
      "IfcOpeningElement",
      "IfcOpeningStandardCase",
      "IfcPlate",
      "IfcPlateStandardCase",
      "IfcPlateType",
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
      "IfcRectangleProfileDef",
      "IfcRepresentationMap",
      "IfcSIUnit",
      "IfcShapeRepresentation",
      "IfcSpace",
      "IfcUnitAssignment",
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

}  // namespace panel_dossier
