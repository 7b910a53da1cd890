#include "core/api/model/project.h"

#include <algorithm>

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Project::Project() = default;
Project::Project(const Project&) = default;
Project::Project(Project&&) noexcept = default;
Project& Project::operator=(const Project&) = default;
Project& Project::operator=(Project&&) noexcept = default;
Project::~Project() = default;

const Evidence* find_evidence(const Project& project, std::string_view id) {
  const auto found = std::find_if(project.evidence.begin(), project.evidence.end(),
                                  [id](const Evidence& evidence) { return evidence.id == id; });
  return found == project.evidence.end() ? nullptr : &*found;
}

}  // namespace panel_dossier
