// Text put into the files of a plugin at the places that are meant for it. Each throws std::runtime_error saying what
// the text lacks; the caller names the file.
#pragma once

#include <map>
#include <string>
#include <string_view>

namespace panel_dossier {

/// What a line begins with, behind its indentation, above which a check is entered; the rest of the line says how, with
/// `@check@` and `@Check@` for `face_area` and `FaceArea`.
inline constexpr std::string_view kScaffoldMarker = "// The scaffold enters a further check above this line: ";

/// Every placeholder replaced by what it stands for.
std::string filled(std::string text, const std::map<std::string, std::string>& placeholders);

/// `text` with `#include "header"` in the alphabetical order of its last block of such lines.
std::string with_include(const std::string& text, const std::string& header);

/// `text` with the check entered above each marker. Demands one where checks are declared and one where they are
/// called.
std::string with_check_entered(const std::string& text, const std::string& check);

/// The JSON Schema of an object with `property`, `"key": { … }`, behind its properties; everything else as it stands.
std::string with_setting(const std::string& schema, const std::string& property);

/// `text` with the page behind those between `<!-- checks -->` and `<!-- /checks -->`; as it is where it has no such
/// marks.
std::string with_page(const std::string& text, const std::string& page);

}  // namespace panel_dossier
