#include "core/api/support/words.h"

#include <cstddef>

namespace panel_dossier {

std::string joined(const std::vector<std::string>& texts, std::string_view separator) {
  std::string all;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (i > 0) all += separator;
    all += texts[i];
  }
  return all;
}

}  // namespace panel_dossier
