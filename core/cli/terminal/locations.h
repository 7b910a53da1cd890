// Where the program finds what belongs to it: plugins, schemas, fonts.
#pragma once

#include <filesystem>

#include "core/dossier/dossier.h"

namespace panel_dossier {

/// `plugins/` beside the `bin/` folder of the executable in a build tree, else `lib/panel-dossier/plugins` once
/// installed.
std::filesystem::path default_plugin_dir();

/// `schemas/` of the source tree this was built from or, once installed, `share/panel-dossier/schemas`.
std::filesystem::path default_schema_dir();

/// Templates of the scaffold: `core/api/scaffold` of the source tree or, once installed,
/// `share/panel-dossier/scaffold`.
std::filesystem::path default_scaffold_dir();

/// Tables of guidance: `core/dossier/guidance` of the source tree or, once installed, `share/panel-dossier/guidance`.
std::filesystem::path default_guidance_dir();

/// The faces of the dossier in `folder`, or in its folders `lato` and `dejavu`. Throws std::runtime_error naming the
/// missing file and the Debian package.
DossierFonts fonts_in(const std::filesystem::path& folder);

inline constexpr const char* kDefaultFontDir = "/usr/share/fonts/truetype";

}  // namespace panel_dossier
