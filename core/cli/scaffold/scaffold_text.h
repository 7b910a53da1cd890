// The id of a check to be made, the names that its code gets from it, and the text put into the files of a plugin at
// the places that are meant for it.
#pragma once

#include <map>
#include <string>
#include <string_view>

namespace panel_dossier {

struct ScaffoldNames {
  std::string plugin;  ///< `workshop`
  std::string check;   ///< `face_area`

  std::string id() const { return plugin + "." + check; }
};

/// What keeps `DISCIPLINE.NAME` from being the id of a new check, and what to give instead; empty when nothing does.
std::string id_fault(const std::string& id);

/// Of an id without fault.
ScaffoldNames names_of(const std::string& id);

/// `face_area` as `FaceArea`.
std::string words_in_capitals(const std::string& name);

/// What stands in the templates as `@PLUGIN@` and so on. `include` is the folder of the sources as they are included,
/// with a final slash, or empty.
std::map<std::string, std::string> placeholders(const ScaffoldNames& names, const std::string& include);

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
