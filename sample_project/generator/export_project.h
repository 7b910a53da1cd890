// The whole document: project, site, buildings, storeys and everything in them.
#pragma once

#include "sample_project/generator/building.h"
#include "sample_project/generator/export_writer.h"

namespace sample_export {

/// Writes and finishes the document. Throws std::runtime_error when it cannot be written.
void write_export(ExportWriter& out, const Site& site);

}  // namespace sample_export
