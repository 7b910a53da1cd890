// The resource objects that stand before the project: materials, units, contexts, documents.
#pragma once

#include <vector>

#include "sample_project/generator/ifc_writer.h"

namespace sample_export {

/// Every IfcMaterial with its property sets.
void write_materials(IfcWriter& ifc);
/// One IfcMaterialProfileSet for each section of timber.
void write_sections(IfcWriter& ifc);
/// RepresentationContexts of the project.
void write_contexts(IfcWriter& ifc);
/// UnitsInContext of the project: mm, else SI.
void write_units(IfcWriter& ifc);
/// Units of single properties that the project's units do not suit: kilometres and years.
void write_property_units(IfcWriter& ifc);
/// IfcDocumentReference of each evidence document, associated with the project.
void write_documents(IfcWriter& ifc);

}  // namespace sample_export
