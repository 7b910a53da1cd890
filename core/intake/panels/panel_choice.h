// Why elements of the export became panels, or did not.
#pragma once

#include <cstddef>
#include <string>

namespace panel_dossier {

/// How many elements one reason made panels, or left out.
struct ChoiceCount {
  std::string reason;  ///< `rule 1 (include type_name 'EW-*')`, `decomposes into parts`, …
  bool is_panel = false;
  std::size_t elements = 0;
};

}  // namespace panel_dossier
