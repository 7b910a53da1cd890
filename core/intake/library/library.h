// The libraries of a project: read once, then put where the export leaves something open.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/evidence/evidence_register.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/library/library_files.h"
#include "core/intake/library/library_rows.h"

namespace panel_dossier {

/// Belongs to one reading of the inputs. What schemas/library.md says of it is what this does.
class ProjectLibrary {
 public:
  struct Place {
    std::filesystem::path settings_dir;
    std::string settings_name;  ///< in messages
    std::string today;          ///< YYYY-MM-DD: no source is of a later day
  };

  /// Reads the files of the setting `library` and their rows; reports everything wrong in them. `rows` must outlive it.
  ProjectLibrary(const Settings& settings, const Place& place, const std::vector<PropertyRow>& rows,
                 const MaterialKinds& kinds, Diagnostics& diagnostics);

  /// The registers of documents, an earlier library's before a later one's, for the reading of the export.
  std::vector<EvidenceRegister*> documents();

  /// Adds properties, documents and parties to the project, and counts the rows that serve nothing in it.
  void add_to(Project& project, Confirmations& confirmations, const std::string& export_file, Diagnostics& diagnostics);

  /// Every file that a table was read from.
  const std::vector<SettingsFile>& files() const { return files_.files; }

 private:
  const std::vector<PropertyRow>& rows_;
  LibraryFiles files_;
  std::vector<LibraryProduct> products_;
  std::deque<EvidenceRegister> registers_;
  std::vector<std::string> register_files_;
  std::vector<Party> parties_;

  void count_unused(Diagnostics& diagnostics) const;
};

}  // namespace panel_dossier
