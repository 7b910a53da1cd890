// What the file behind a document makes of it.
#pragma once

#include <filesystem>

#include "core/api/model/project.h"

namespace panel_dossier {

/// Settles what is left of a document once export and registers have said what it is: its number, whether its days
/// follow one another, and its status, kind and faults by the file itself, which is looked up in the document's own
/// folder or else in `project_dir`, and never outside of it.
void look_into_document(Evidence& document, const std::filesystem::path& project_dir);

}  // namespace panel_dossier
