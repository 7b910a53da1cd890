#include "core/api/project.h"

#include <algorithm>

namespace panel_dossier {

const Evidence* find_evidence(const Project& project, std::string_view id) {
  const auto found = std::find_if(project.evidence.begin(), project.evidence.end(),
                                  [id](const Evidence& evidence) { return evidence.id == id; });
  return found == project.evidence.end() ? nullptr : &*found;
}

}  // namespace panel_dossier
