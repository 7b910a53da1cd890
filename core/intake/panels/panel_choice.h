// Why elements of the export became panels, or did not.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace panel_dossier {

/// How many elements one reason made panels, or left out.
struct ChoiceCount {
  std::string reason;  ///< `rule 1 (include type_name 'EW-*')`, `decomposes into parts`, …
  bool is_panel = false;
  std::size_t elements = 0;
};

/// `chosen as panels: 1 of 60`, then a line a reason; none where nothing was there to choose from.
std::vector<std::string> choice_in_words(const std::vector<ChoiceCount>& choice);

}  // namespace panel_dossier
