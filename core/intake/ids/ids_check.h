// An export held against a file of requirements.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/ids/ids_file.h"

namespace panel_dossier {

/// One entity that does not meet one requirement of one specification.
struct IdsFailure {
  std::size_t specification = 0;  ///< index in the report
  std::uint32_t line = 0;         ///< of the export
  std::string entity;             ///< `IfcWall`
  std::string global_id;          ///< may be empty
  std::string name;               ///< may be empty
  std::string requirement;        ///< in words
  std::string found;              ///< in words: `has no such property`
};

struct IdsSpecificationResult {
  std::string name;
  std::string identifier;
  IdsOccurrence occurrence = IdsOccurrence::required;
  std::size_t applicable = 0;  ///< entities
  std::size_t failed = 0;      ///< of these
  bool holds = true;
  std::string remark;  ///< what is worth a word beside; may be empty
};

struct IdsReport {
  // What a person or a spreadsheet can go through; the rest is counted.
  static constexpr std::size_t kMostFailures = 100'000;

  std::string title;
  std::vector<IdsSpecificationResult> specifications;
  std::vector<IdsFailure> failures;
  std::size_t unlisted = 0;  ///< failures beyond the limit

  bool holds() const;
};

/// Reports as errors what no export can be held against, though the form allows it: classes, attributes and types that
/// the standard does not have in the versions that a specification names, a value asked of an object or a list, a value
/// that the type cannot hold. Throws std::runtime_error when the tables of the standard cannot be read.
void check_requirements(const IdsFile& file, const std::filesystem::path& schema_dir, Reporter& report);

/// Holds an export of any form that the intake reads against the file. Problems of the export are reported; with errors
/// the result is empty. Throws std::runtime_error when patterns take too long, or a table cannot be read.
IdsReport hold_against(const IdsFile& file, std::string_view export_bytes, const std::filesystem::path& schema_dir,
                       Reporter& report);

/// For people: each specification with its counts, below it the first entities that fail, by line.
std::string ids_report_text(const IdsReport& report);

/// For a spreadsheet: one row a failure.
std::string ids_report_csv(const IdsReport& report);

}  // namespace panel_dossier
