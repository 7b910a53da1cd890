// Small exports and requirements for the tests of IDS.
#pragma once

#include <string>
#include <vector>

#include "core/intake/ids/ids_check.h"
#include "tests/intake/test_support.h"

namespace panel_dossier::ids_test {

inline const std::filesystem::path kSchemas = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

/// A file of one specification, for entities of IFCWALL unless the applicability says otherwise.
inline std::string ids_of(const std::string& requirements, const std::string& applicability = {},
                          const std::string& occurrence = "minOccurs=\"1\" maxOccurs=\"unbounded\"") {
  const std::string walls = "<entity><name><simpleValue>IFCWALL</simpleValue></name></entity>";
  return "<ids xmlns=\"http://standards.buildingsmart.org/IDS\" xmlns:xs=\"http://www.w3.org/2001/XMLSchema\">"
         "<info><title>Test</title></info><specifications>\n"
         "<specification name=\"S\" ifcVersion=\"IFC2X3 IFC4 IFC4X3_ADD2\"><applicability " +
         occurrence + ">" + (applicability.empty() ? walls : applicability) + "</applicability>\n" +
         (requirements.empty() ? std::string() : "<requirements>" + requirements + "</requirements>") +
         "</specification></specifications></ids>";
}

/// An export in IFC4 with these entities beside its project; lengths are in mm.
inline std::string export_of(const std::string& entities) {
  return "<ifcXML xmlns=\"http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2\" "
         "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\">\n"
         "<IfcProject GlobalId=\"0000000000000000000001\" Name=\"P\"><UnitsInContext><Units>"
         "<IfcSIUnit UnitType=\"lengthunit\" Prefix=\"milli\" "
         "Name=\"metre\"/></Units></UnitsInContext></IfcProject>\n" +
         entities + "</ifcXML>";
}

/// A wall with these attributes and what stands inside of it.
inline std::string wall(const std::string& attributes, const std::string& inside = {}) {
  return "<IfcWall id=\"w\" GlobalId=\"0000000000000000000002\" " + attributes + ">" + inside + "</IfcWall>\n";
}

/// A set of one property with a value of this type, as it stands inside an object.
inline std::string property(const std::string& set, const std::string& name, const std::string& type,
                            const std::string& value) {
  const std::string id = set.substr(0, 4) + name.substr(0, 4);
  return "<IsDefinedBy><IfcRelDefinesByProperties GlobalId=\"00000000000000" + id.substr(0, 8) +
         "\"><RelatingPropertyDefinition><IfcPropertySet GlobalId=\"10000000000000" + id.substr(0, 8) + "\" Name=\"" +
         set + "\"><HasProperties><IfcPropertySingleValue Name=\"" + name + "\"><NominalValue><" + type + "-wrapper>" +
         value + "</" + type +
         "-wrapper></NominalValue></IfcPropertySingleValue></HasProperties></IfcPropertySet>"
         "</RelatingPropertyDefinition></IfcRelDefinesByProperties></IsDefinedBy>";
}

inline std::string simple(const std::string& element, const std::string& text) {
  return "<" + element + "><simpleValue>" + text + "</simpleValue></" + element + ">";
}

inline std::string restriction(const std::string& element, const std::string& base, const std::string& constraints) {
  return "<" + element + "><xs:restriction base=\"" + base + "\">" + constraints + "</xs:restriction></" + element +
         ">";
}

/// A requirement of a property of Pset_WallCommon.
inline std::string wants_property(const std::string& name, const std::string& type, const std::string& value = {},
                                  const std::string& cardinality = "required") {
  const std::string data_type = type.empty() ? "" : " dataType=\"" + type + "\"";
  return "<property cardinality=\"" + cardinality + "\"" + data_type + ">" + simple("propertySet", "Pset_WallCommon") +
         simple("baseName", name) + value + "</property>";
}

/// What the file of requirements is refused for; empty when it is sound.
inline std::string faults_of(const std::string& ids) {
  Reporter report("r.ids");
  const auto file = read_ids(ids, kSchemas, report);
  if (file) check_requirements(*file, kSchemas, report);
  return intake_test::all_of(report.take());
}

/// Holds the export against the requirements; throws std::logic_error when either is refused.
inline IdsReport held(const std::string& ids, const std::string& export_text) {
  Reporter report("r.ids");
  const auto file = read_ids(ids, kSchemas, report);
  if (file) check_requirements(*file, kSchemas, report);
  if (!file || report.has_errors()) throw std::logic_error(intake_test::all_of(report.take()));
  Reporter of_export("e.ifcxml");
  IdsReport result = hold_against(*file, export_text, kSchemas, of_export);
  if (of_export.has_errors()) throw std::logic_error(intake_test::all_of(of_export.take()));
  return result;
}

/// What the one specification finds: `holds`, or the first failure in words.
inline std::string outcome(const std::string& ids, const std::string& entities) {
  const IdsReport report = held(ids, export_of(entities));
  if (report.holds()) return "holds";
  return report.failures.empty() ? report.specifications.front().remark : report.failures.front().found;
}

}  // namespace panel_dossier::ids_test
