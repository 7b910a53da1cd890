// The id of a check to be made, and the names that its code gets from it.
#pragma once

#include <map>
#include <string>

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

}  // namespace panel_dossier
