// Each facet of a requirement: what meets it and what does not.
#include <catch2/catch.hpp>

#include "tests/intake/ids/ids_test_support.h"

namespace panel_dossier {
namespace {

using namespace ids_test;

constexpr const char* kPlain = "Name=\"W-1\" Tag=\"AB-12\" PredefinedType=\"partitioning\"";

struct FacetCase {
  const char* name;
  std::string requirement;
  std::string entities;
  std::string outcome;  ///< `holds` or what is found
};

void run(const std::vector<FacetCase>& cases) {
  for (const FacetCase& c : cases) {
    INFO(c.name);
    CHECK(outcome(ids_of(c.requirement), c.entities) == c.outcome);
  }
}

TEST_CASE("a requirement of a class and its predefined type", "[ids]") {
  const auto wants = [](const std::string& type) {
    return "<entity>" + simple("name", "IFCWALL") + simple("predefinedType", type) + "</entity>";
  };
  const std::string of_type =
      "<IfcWallType id=\"t\" GlobalId=\"0000000000000000000003\" PredefinedType=\"userdefined\" "
      "ElementType=\"CASSETTE\"/>";
  const std::string typed =
      "<IsTypedBy><IfcRelDefinesByType GlobalId=\"0000000000000000000004\"><RelatingType xsi:type=\"IfcWallType\" "
      "xsi:nil=\"true\" ref=\"t\"/></IfcRelDefinesByType></IsTypedBy>";
  run({
      {"the enumerator in either case of the export", wants("PARTITIONING"), wall(kPlain), "holds"},
      {"another", wants("SHEAR"), wall(kPlain), "is of type PARTITIONING"},
      {"case of the requirement counts", wants("Partitioning"), wall(kPlain), "is of type PARTITIONING"},
      {"none", wants("SHEAR"), wall("Name=\"W\""), "has no predefined type"},
      {"the user's own word", wants("CASSETTE"), wall("PredefinedType=\"userdefined\" ObjectType=\"CASSETTE\""),
       "holds"},
      {"userdefined itself", wants("USERDEFINED"), wall("PredefinedType=\"userdefined\" ObjectType=\"X\""), "holds"},
      {"the type object's before the occurrence's", wants("CASSETTE"), of_type + wall(kPlain, typed), "holds"},
      {"the type object hides the occurrence's", wants("PARTITIONING"), of_type + wall(kPlain, typed),
       "is of type CASSETTE or USERDEFINED"},
  });
}

TEST_CASE("a requirement of an attribute", "[ids]") {
  const auto wants = [](const std::string& name, const std::string& value = {},
                        const std::string& cardinality = "required") {
    return "<attribute cardinality=\"" + cardinality + "\">" + name + value + "</attribute>";
  };
  const std::string tag = simple("name", "Tag");
  run({
      {"there", wants(tag), wall(kPlain), "holds"},
      {"absent", wants(tag), wall("Name=\"W\""), "has no such attribute"},
      {"empty", wants(tag), wall("Tag=\"\""), "Tag is empty"},
      {"of that value", wants(tag, simple("value", "AB-12")), wall(kPlain), "holds"},
      {"case counts", wants(tag, simple("value", "ab-12")), wall(kPlain), "Tag is 'AB-12'"},
      {"by pattern", wants(tag, restriction("value", "xs:string", "<xs:pattern value=\"[A-Z]{2}-[0-9]+\"/>")),
       wall(kPlain), "holds"},
      {"the pattern is of the whole", wants(tag, restriction("value", "xs:string", "<xs:pattern value=\"[A-Z]{2}\"/>")),
       wall(kPlain), "Tag is 'AB-12'"},
      {"several patterns: any",
       wants(tag, restriction("value", "xs:string", "<xs:pattern value=\"X\"/><xs:pattern value=\"A.*\"/>")),
       wall(kPlain), "holds"},
      {"of that length", wants(tag, restriction("value", "xs:string", "<xs:length value=\"5\"/>")), wall(kPlain),
       "holds"},
      {"characters, not bytes",
       wants(simple("name", "Name"), restriction("value", "xs:string", "<xs:maxLength value=\"2\"/>")),
       wall("Name=\"ÄÖ\""), "holds"},
      {"an enumerator", wants(simple("name", "PredefinedType"), simple("value", "PARTITIONING")), wall(kPlain),
       "holds"},
      {"names by pattern: each that is there",
       wants(restriction("name", "xs:string", "<xs:pattern value=\"(Tag|Name)\"/>"), simple("value", "AB-12")),
       wall(kPlain), "Name is 'W-1'"},
      {"optional and absent", wants(tag, simple("value", "X"), "optional"), wall("Name=\"W\""), "holds"},
      {"optional and another", wants(tag, simple("value", "X"), "optional"), wall(kPlain), "Tag is 'AB-12'"},
      {"optional and empty", wants(tag, simple("value", "X"), "optional"), wall("Tag=\"\""), "Tag is empty"},
      {"prohibited and absent", wants(tag, {}, "prohibited"), wall("Name=\"W\""), "holds"},
      {"prohibited and there", wants(tag, {}, "prohibited"), wall(kPlain), "has it"},
      {"the GlobalId", wants(simple("name", "GlobalId"), simple("value", "0000000000000000000002")), wall(kPlain),
       "holds"},
  });
}

TEST_CASE("a requirement of a property", "[ids]") {
  const std::string external = property("Pset_WallCommon", "IsExternal", "IfcBoolean", "true");
  const std::string label = property("Pset_WallCommon", "FireRating", "IfcLabel", "EI 60");
  const auto within = [](const std::string& constraints) { return restriction("value", "xs:double", constraints); };
  const std::string length = property("Pset_WallCommon", "Depth", "IfcLengthMeasure", "42");
  run({
      {"there", wants_property("IsExternal", ""), wall(kPlain, external), "holds"},
      {"of the type", wants_property("IsExternal", "IFCBOOLEAN"), wall(kPlain, external), "holds"},
      {"of another type", wants_property("IsExternal", "IFCLABEL"), wall(kPlain, external),
       "Pset_WallCommon.IsExternal is IFCBOOLEAN"},
      {"no such set", wants_property("IsExternal", ""), wall(kPlain), "has no such property set"},
      {"no such property", wants_property("LoadBearing", ""), wall(kPlain, external),
       "property set 'Pset_WallCommon' has no such property"},
      {"true", wants_property("IsExternal", "IFCBOOLEAN", simple("value", "true")), wall(kPlain, external), "holds"},
      {"1 is true", wants_property("IsExternal", "IFCBOOLEAN", simple("value", "1")), wall(kPlain, external), "holds"},
      {"not false", wants_property("IsExternal", "IFCBOOLEAN", simple("value", "false")), wall(kPlain, external),
       "Pset_WallCommon.IsExternal is 'true'"},
      {"one of several",
       wants_property(
           "FireRating", "IFCLABEL",
           restriction("value", "xs:string", "<xs:enumeration value=\"EI 30\"/><xs:enumeration value=\"EI 60\"/>")),
       wall(kPlain, label), "holds"},
      {"a length in SI units", wants_property("Depth", "IFCLENGTHMEASURE", simple("value", "0.042")),
       wall(kPlain, length), "holds"},
      {"within the tolerance", wants_property("Depth", "IFCLENGTHMEASURE", simple("value", "0.04200104")),
       wall(kPlain, length), "holds"},
      {"beyond it", wants_property("Depth", "IFCLENGTHMEASURE", simple("value", "0.0420011")), wall(kPlain, length),
       "Pset_WallCommon.Depth is 0.042"},
      {"the bound itself", wants_property("Depth", "IFCLENGTHMEASURE", within("<xs:minInclusive value=\"0.042\"/>")),
       wall(kPlain, length), "holds"},
      {"an exclusive bound", wants_property("Depth", "IFCLENGTHMEASURE", within("<xs:minExclusive value=\"0.042\"/>")),
       wall(kPlain, length), "Pset_WallCommon.Depth is 0.042"},
      {"all bounds together",
       wants_property("Depth", "IFCLENGTHMEASURE",
                      within("<xs:minExclusive value=\"0.01\"/><xs:maxInclusive value=\"0.04\"/>")),
       wall(kPlain, length), "Pset_WallCommon.Depth is 0.042"},
      {"optional and absent", wants_property("FireRating", "IFCLABEL", {}, "optional"), wall(kPlain, external),
       "holds"},
      {"optional and of another type", wants_property("FireRating", "IFCTEXT", {}, "optional"), wall(kPlain, label),
       "Pset_WallCommon.FireRating is IFCLABEL"},
      {"prohibited", wants_property("FireRating", "", {}, "prohibited"), wall(kPlain, label), "has it"},
      {"an empty text is no value", wants_property("FireRating", "IFCLABEL"),
       wall(kPlain, property("Pset_WallCommon", "FireRating", "IfcLabel", "")),
       "Pset_WallCommon.FireRating has no value"},
      {"a number as a text is a text", wants_property("FireRating", "IFCLABEL", simple("value", "42.0")),
       wall(kPlain, property("Pset_WallCommon", "FireRating", "IfcLabel", "42")), "Pset_WallCommon.FireRating is '42'"},
      {"a whole number is written as one", wants_property("Count", "IFCINTEGER", simple("value", "42")),
       wall(kPlain, property("Pset_WallCommon", "Count", "IfcInteger", "42")), "holds"},
  });
}

TEST_CASE("sets by pattern must each hold the property, and each property the value", "[ids]") {
  const std::string requirement = "<property dataType=\"IFCLABEL\">" +
                                  restriction("propertySet", "xs:string", "<xs:pattern value=\"My_.*\"/>") +
                                  simple("baseName", "Maker") + simple("value", "A") + "</property>";
  const std::string one = property("My_1", "Maker", "IfcLabel", "A");
  run({
      {"one set", requirement, wall(kPlain, one), "holds"},
      {"another without it", requirement, wall(kPlain, one + property("My_2", "Other", "IfcLabel", "A")),
       "property set 'My_2' has no such property"},
      {"another with another value", requirement, wall(kPlain, one + property("My_3", "Maker", "IfcLabel", "B")),
       "My_3.Maker is 'B'"},
  });
}

/// A property of several values in the place of the single one.
std::string several(const std::string& form) {
  std::string set = property("Pset_WallCommon", "Status", "IfcLabel", "X");
  const std::size_t begin = set.find("<IfcPropertySingleValue");
  const std::string close = "</IfcPropertySingleValue>";
  return set.replace(begin, set.find(close) + close.size() - begin, form);
}

TEST_CASE("one value of several is enough, what lies between bounds is none", "[ids]") {
  const std::string listed = several(
      "<IfcPropertyListValue Name=\"Status\"><ListValues><IfcLabel-wrapper>A</IfcLabel-wrapper>"
      "<IfcLabel-wrapper>B</IfcLabel-wrapper></ListValues></IfcPropertyListValue>");
  const std::string enumerated = several(
      "<IfcPropertyEnumeratedValue Name=\"Status\"><EnumerationValues><IfcLabel-wrapper>NEW</IfcLabel-wrapper>"
      "</EnumerationValues></IfcPropertyEnumeratedValue>");
  const std::string bounded = several(
      "<IfcPropertyBoundedValue Name=\"Status\"><UpperBoundValue><IfcReal-wrapper>5</IfcReal-wrapper></UpperBoundValue>"
      "<LowerBoundValue><IfcReal-wrapper>1</IfcReal-wrapper></LowerBoundValue></IfcPropertyBoundedValue>");
  const std::string table = several(
      "<IfcPropertyTableValue Name=\"Status\"><DefiningValues><IfcLabel-wrapper>A</IfcLabel-wrapper></DefiningValues>"
      "<DefinedValues><IfcReal-wrapper>7</IfcReal-wrapper></DefinedValues></IfcPropertyTableValue>");
  const std::string complex = several(
      "<IfcComplexProperty Name=\"Status\" UsageName=\"U\"><HasProperties><IfcPropertySingleValue Name=\"Status\">"
      "<NominalValue><IfcLabel-wrapper>A</IfcLabel-wrapper></NominalValue></IfcPropertySingleValue></HasProperties>"
      "</IfcComplexProperty>");
  run({
      {"the second of a list", wants_property("Status", "IFCLABEL", simple("value", "B")), wall(kPlain, listed),
       "holds"},
      {"none of a list", wants_property("Status", "IFCLABEL", simple("value", "C")), wall(kPlain, listed),
       "Pset_WallCommon.Status is 'A', 'B'"},
      {"an enumeration", wants_property("Status", "IFCLABEL", simple("value", "NEW")), wall(kPlain, enumerated),
       "holds"},
      {"an upper bound", wants_property("Status", "IFCREAL", simple("value", "5")), wall(kPlain, bounded), "holds"},
      {"between bounds", wants_property("Status", "IFCREAL", simple("value", "3")), wall(kPlain, bounded),
       "Pset_WallCommon.Status is 1, 5"},
      {"either column of a table", wants_property("Status", "IFCREAL", simple("value", "7")), wall(kPlain, table),
       "holds"},
      {"a complex property never", wants_property("Status", ""), wall(kPlain, complex),
       "Pset_WallCommon.Status has no value"},
  });
}

TEST_CASE("a requirement of a classification", "[ids]") {
  const auto classified = [](const std::string& reference) {
    return "<HasAssociations><IfcRelAssociatesClassification "
           "GlobalId=\"0000000000000000000005\"><RelatingClassification>" +
           reference + "</RelatingClassification></IfcRelAssociatesClassification></HasAssociations>";
  };
  const std::string below = classified(
      "<IfcClassificationReference Identification=\"EF.25.10\" Name=\"Walls\"><ReferencedSource>"
      "<IfcClassificationReference Identification=\"EF.25\"><ReferencedSource><IfcClassification Name=\"Elements\"/>"
      "</ReferencedSource></IfcClassificationReference></ReferencedSource></IfcClassificationReference>");
  const auto wants = [](const std::string& value, const std::string& cardinality = "required") {
    return "<classification cardinality=\"" + cardinality + "\">" + (value.empty() ? "" : simple("value", value)) +
           simple("system", "Elements") + "</classification>";
  };
  run({
      {"of the system", wants(""), wall(kPlain, below), "holds"},
      {"of that value", wants("EF.25.10"), wall(kPlain, below), "holds"},
      {"of one above", wants("EF.25"), wall(kPlain, below), "holds"},
      {"of another", wants("EF.30"), wall(kPlain, below), "is classified as 'EF.25.10' in 'Elements'"},
      {"of none", wants(""), wall(kPlain), "has no classification"},
      {"optional and none", wants("EF.30", "optional"), wall(kPlain), "holds"},
      {"optional and another", wants("EF.30", "optional"), wall(kPlain, below),
       "is classified as 'EF.25.10' in 'Elements'"},
      {"prohibited", wants("EF.25", "prohibited"), wall(kPlain, below), "has it"},
  });
}

TEST_CASE("a requirement of a material", "[ids]") {
  const auto made_of = [](const std::string& definition) {
    return "<HasAssociations><IfcRelAssociatesMaterial GlobalId=\"0000000000000000000006\"><RelatingMaterial>" +
           definition + "</RelatingMaterial></IfcRelAssociatesMaterial></HasAssociations>";
  };
  const std::string layers = made_of(
      "<IfcMaterialLayerSet LayerSetName=\"Set\"><MaterialLayers><IfcMaterialLayer LayerThickness=\"100\" "
      "Name=\"Core\" "
      "Category=\"loadbearing\"><Material xsi:type=\"IfcMaterial\" Name=\"Pine\" Category=\"wood\"/></IfcMaterialLayer>"
      "</MaterialLayers></IfcMaterialLayerSet>");
  const auto wants = [](const std::string& value) {
    return "<material>" + (value.empty() ? "" : simple("value", value)) + "</material>";
  };
  run({
      {"any", wants(""), wall(kPlain, layers), "holds"},
      {"none", wants(""), wall(kPlain), "has no material"},
      {"its name", wants("Pine"), wall(kPlain, layers), "holds"},
      {"its category", wants("wood"), wall(kPlain, layers), "holds"},
      {"the layer's name", wants("Core"), wall(kPlain, layers), "holds"},
      {"the set's name is none", wants("Set"), wall(kPlain, layers),
       "is made of 'Core', 'loadbearing', 'Pine', 'wood'"},
  });
}

TEST_CASE("a requirement of a whole", "[ids]") {
  const auto wants = [](const std::string& relation, const std::string& whole,
                        const std::string& cardinality = "required") {
    const std::string by = relation.empty() ? "" : " relation=\"" + relation + "\"";
    return "<partOf cardinality=\"" + cardinality + "\"" + by + "><entity>" + simple("name", whole) +
           "</entity></partOf>";
  };
  const std::string building =
      "<IfcBuilding id=\"b\" GlobalId=\"0000000000000000000010\"><IsDecomposedBy><IfcRelAggregates "
      "GlobalId=\"0000000000000000000011\"><RelatedObjects><IfcBuildingStorey GlobalId=\"0000000000000000000012\">"
      "<ContainsElements><IfcRelContainedInSpatialStructure GlobalId=\"0000000000000000000013\"><RelatedElements>" +
      wall(kPlain) +
      "</RelatedElements></IfcRelContainedInSpatialStructure></ContainsElements></IfcBuildingStorey></RelatedObjects>"
      "</IfcRelAggregates></IsDecomposedBy></IfcBuilding>";
  const std::string contained = "IFCRELCONTAINEDINSPATIALSTRUCTURE";
  run({
      {"directly", wants(contained, "IFCBUILDINGSTOREY"), building, "holds"},
      {"over all relations", wants("", "IFCBUILDING"), building, "holds"},
      {"up the same relation only", wants(contained, "IFCBUILDING"), building, "is part of IFCBUILDINGSTOREY only"},
      {"by another relation", wants("IFCRELAGGREGATES", "IFCBUILDINGSTOREY"), building, "is part of nothing"},
      {"of nothing", wants("", "IFCBUILDING"), wall(kPlain), "is part of nothing"},
      {"prohibited", wants("", "IFCBUILDING", "prohibited"), building, "has it"},
  });
  const std::string grouped =
      wall(kPlain,
           "<HasAssignments><IfcRelAssignsToGroup GlobalId=\"0000000000000000000014\"><RelatingGroup "
           "xsi:type=\"IfcGroup\" xsi:nil=\"true\" ref=\"g\"/></IfcRelAssignsToGroup></HasAssignments>") +
      "<IfcGroup id=\"g\" GlobalId=\"0000000000000000000015\" Name=\"G\"/>";
  CHECK(outcome(ids_of(wants("IFCRELASSIGNSTOGROUP", "IFCGROUP")), grouped) == "holds");
  const std::string opened =
      wall(kPlain,
           "<HasOpenings><IfcRelVoidsElement GlobalId=\"0000000000000000000016\"><RelatedOpeningElement "
           "xsi:type=\"IfcOpeningElement\" GlobalId=\"0000000000000000000017\"><HasFillings><IfcRelFillsElement "
           "GlobalId=\"0000000000000000000018\"><RelatedBuildingElement xsi:type=\"IfcWindow\" id=\"v\" "
           "GlobalId=\"0000000000000000000019\"/></IfcRelFillsElement></HasFillings></RelatedOpeningElement>"
           "</IfcRelVoidsElement></HasOpenings>");
  const std::string windows = "<entity>" + simple("name", "IFCWINDOW") + "</entity>";
  CHECK(outcome(ids_of(wants("IFCRELVOIDSELEMENT IFCRELFILLSELEMENT", "IFCWALL"), windows), opened) == "holds");
}

TEST_CASE("how many entities there must be", "[ids]") {
  const std::string tag = "<attribute>" + simple("name", "Tag") + "</attribute>";
  const std::string doors = "<entity>" + simple("name", "IFCDOOR") + "</entity>";
  const std::string walls = "<entity>" + simple("name", "IFCWALL") + "</entity>";
  CHECK(outcome(ids_of(tag, doors), wall(kPlain)) == "the export has no such entity");
  CHECK(outcome(ids_of(tag, doors, "minOccurs=\"0\" maxOccurs=\"unbounded\""), wall(kPlain)) == "holds");
  CHECK(outcome(ids_of("", walls, "minOccurs=\"0\" maxOccurs=\"0\""), wall(kPlain)) == "is there");
  CHECK(outcome(ids_of("", doors, "minOccurs=\"0\" maxOccurs=\"0\""), wall(kPlain)) == "holds");
}

TEST_CASE("all conditions of an applicability hold together, and a report names each entity", "[ids]") {
  const std::string applicability = "<entity>" + simple("name", "IFCWALL") + "</entity><attribute>" +
                                    simple("name", "Tag") + simple("value", "AB-12") + "</attribute>";
  const std::string other = "<IfcWall GlobalId=\"0000000000000000000003\" Name=\"W-2\" Tag=\"X\"/>\n";
  const IdsReport report =
      held(ids_of(wants_property("IsExternal", ""), applicability), export_of(wall(kPlain) + other));
  REQUIRE(report.specifications.size() == 1);
  CHECK(report.specifications[0].applicable == 1);
  CHECK(ids_report_text(report) ==
        "Test\nfails: S: 1 entity, 1 of them wrong\n"
        "  line 3: IfcWall 0000000000000000000002 'W-1': has no such property set; wanted: property "
        "Pset_WallCommon.IsExternal\n0 of 1 specifications hold\n");
  CHECK(ids_report_csv(report) ==
        "specification,identifier,line,entity,global_id,name,requirement,found\n"
        "S,,3,IfcWall,0000000000000000000002,W-1,property Pset_WallCommon.IsExternal,has no such property set\n");
}

TEST_CASE("the same holds of a model in the flat form", "[ids]") {
  const std::string external = wants_property("IsExternal", "IFCBOOLEAN", simple("value", "true"));
  for (const char* name :
       {"hall-ifc2x3.ifcxml", "hall-ifc4-nested.ifcxml", "hall-ifc4-flat-metres.ifcxml", "hall-ifc4x3-nested.ifcxml"}) {
    INFO(name);
    const std::string any_wall = "<entity>" + restriction("name", "xs:string", "<xs:pattern value=\"IFCWALL.*\"/>") +
                                 "</entity><property>" + simple("propertySet", "Pset_WallCommon") +
                                 simple("baseName", "IsExternal") + "</property>";
    CHECK(held(ids_of(external, any_wall), intake_test::file_text(name)).holds());
  }
}

TEST_CASE("the same holds of a model in STEP form", "[ids]") {
  const std::string text =
      "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\n"
      "FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n"
      "#1=IFCPROJECT('0000000000000000000001',$,'P',$,$,$,$,$,#2);\n#2=IFCUNITASSIGNMENT((#3));\n"
      "#3=IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.);\n"
      "#4=IFCWALL('0000000000000000000002',$,'W-1',$,$,$,$,'AB-12',.PARTITIONING.);\n"
      "#5=IFCPROPERTYSINGLEVALUE('IsExternal',$,IFCBOOLEAN(.T.),$);\n"
      "#6=IFCPROPERTYSINGLEVALUE('Depth',$,IFCLENGTHMEASURE(42.),$);\n"
      "#7=IFCPROPERTYENUMERATEDVALUE('Status',$,(IFCLABEL('NEW'),IFCLABEL('EXISTING')),$);\n"
      "#8=IFCPROPERTYSET('0000000000000000000003',$,'Pset_WallCommon',$,(#5,#6,#7));\n"
      "#9=IFCRELDEFINESBYPROPERTIES('0000000000000000000004',$,$,$,(#4),#8);\n"
      "#10=IFCCLASSIFICATION($,$,$,'Elements',$,$,$);\n#11=IFCCLASSIFICATIONREFERENCE($,'EF.25',$,#10,$,$);\n"
      "#12=IFCRELASSOCIATESCLASSIFICATION('0000000000000000000005',$,$,$,(#4),#11);\n"
      "#13=IFCMATERIAL('Pine',$,'wood');\n#14=IFCRELASSOCIATESMATERIAL('0000000000000000000006',$,$,$,(#4),#13);\n"
      "#15=IFCBUILDINGSTOREY('0000000000000000000007',$,'S',$,$,$,$,$,$,$);\n"
      "#16=IFCRELCONTAINEDINSPATIALSTRUCTURE('0000000000000000000008',$,$,$,(#4),#15);\n"
      "ENDSEC;\nEND-ISO-10303-21;\n";
  const std::string all =
      "<entity>" + simple("name", "IFCWALL") + simple("predefinedType", "PARTITIONING") + "</entity><partOf><entity>" +
      simple("name", "IFCBUILDINGSTOREY") + "</entity></partOf><classification>" + simple("value", "EF.25") +
      simple("system", "Elements") + "</classification><attribute>" + simple("name", "Tag") + simple("value", "AB-12") +
      "</attribute><attribute>" + simple("name", "PredefinedType") + simple("value", "PARTITIONING") + "</attribute>" +
      wants_property("IsExternal", "IFCBOOLEAN", simple("value", "true")) +
      wants_property("Depth", "IFCLENGTHMEASURE", simple("value", "0.042")) +
      wants_property("Status", "IFCLABEL", simple("value", "EXISTING")) + "<material>" + simple("value", "wood") +
      "</material>";
  const IdsReport report = held(ids_of(all), text);
  INFO(ids_report_text(report));
  CHECK(report.holds());
  const IdsReport other = held(ids_of(wants_property("Depth", "IFCLENGTHMEASURE", simple("value", "42"))), text);
  REQUIRE(other.failures.size() == 1);
  CHECK(other.failures[0].line == 11);
  CHECK(other.failures[0].global_id == "0000000000000000000002");
  CHECK(other.failures[0].found == "Pset_WallCommon.Depth is 0.042");
}

}  // namespace
}  // namespace panel_dossier
