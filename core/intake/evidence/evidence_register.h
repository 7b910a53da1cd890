// Registers of documents, evidence/evidence.csv beside the export and those of libraries: what each document is, where
// the export itself does not say.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/tables/input_table.h"

namespace panel_dossier {

/// The place of the register, relative to the folder of the export.
inline constexpr const char* kEvidenceRegister = "evidence/evidence.csv";

class EvidenceRegister {
 public:
  /// Reads the register of the project, if there is one. A register that cannot be read as a table, a column of no
  /// meaning and an id that stands twice are errors.
  EvidenceRegister(const std::filesystem::path& project_dir, Reporter& report);
  /// The same of a library's table `evidence`, whose column `location` names files of `folder`; `report` is of its
  /// file.
  EvidenceRegister(const InputTable& table, std::filesystem::path folder, Reporter& report);

  bool has(std::string_view id) const { return rows_by_id_.find(id) != rows_by_id_.end(); }

  /// Adds what the register says of the document. Where both say something and disagree, and where the register says
  /// what cannot be, the document gets a fault. A file of a library is taken where the export names none.
  void complete(Evidence& document);

  /// The document of a row, with the row as its origin; none of a name that has no row.
  std::optional<Evidence> document(std::string_view id);

  /// Warns of each row that belongs to no document of the export.
  void warn_of_unused(Reporter& report) const;
  /// Rows that were asked for, and all of them.
  std::size_t used() const;
  std::size_t size() const { return rows_by_id_.size(); }

 private:
  struct Row {
    std::string line;                           ///< `evidence/evidence.csv line 3`
    std::map<std::string, std::string> fields;  ///< by column; without the empty ones
    Origin origin;
    bool used = false;
  };
  std::map<std::string, Row, std::less<>> rows_by_id_;
  std::filesystem::path folder_;  ///< of a library; empty for the project's own register

  void read_table(const InputTable& table, Reporter& report);
};

/// Puts `said` into `field` of the document, or a fault where the field holds something else already. `what` is the
/// field in words, `source` where it is said.
void state(Evidence& document, std::string Evidence::*field, const std::string& said, const std::string& what,
           const std::string& source);
/// The same for a day; a fault where it is none.
void state_day(Evidence& document, std::string Evidence::*field, const std::string& said, const std::string& what,
               const std::string& source);
/// The same for the kind, in the words of `parse_evidence_kind`.
void state_kind(Evidence& document, const std::string& said, const std::string& source);

}  // namespace panel_dossier
