// Results that are also written into properties of the standard, as a plugin's written_back.json says.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/intake/graph/standard_sets.h"

namespace panel_dossier {

/// One result of a panel and the property of the standard that says the same.
struct WrittenBack {
  std::string check;  ///< id
  std::string set;
  std::string property;
  std::string meaning;  ///< what exactly is written, for the property's description and the page
  /// Not of a panel whose openings hold windows or doors: its result counts them, the standard's property does not.
  bool without_fillings = false;
};

/// The list `written_back` of `file`. Throws std::runtime_error saying what is wrong: not JSON, a member that is
/// absent, not known or of another type, a check or a property that stands twice.
std::vector<WrittenBack> read_written_back(const std::filesystem::path& file);

/// Why the rows cannot stand beside the plugin's checks and the standard: a check that is not declared or makes no
/// findings of panels, a property that the standard does not have or that no single number or text can fill, a check
/// that gives another unit; else empty.
std::string written_back_breach(const std::vector<WrittenBack>& rows, const std::vector<CheckDeclaration>& checks,
                                const StandardSets& standard);

/// The part of schemas/outputs.md about them, under the names of their disciplines; empty when there are none.
std::string written_back_page(const std::vector<std::pair<std::string, WrittenBack>>& rows);

}  // namespace panel_dossier
