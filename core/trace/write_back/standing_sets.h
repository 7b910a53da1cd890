// What stands in an export already where results are written into the standard's sets.
#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// A property or quantity set that hangs on a panel itself, not on its type.
struct StandingSet {
  std::string name;
  std::string global_id;
  bool is_shared = false;            ///< hangs on something else too
  std::set<std::string> properties;  ///< names, also of what the intake cannot read
};

struct StandingSets {
  std::map<std::string, std::vector<StandingSet>> of_panels;  ///< by GlobalId
  /// What one unit of the export is in SI, by IFC defined type of a value.
  std::map<std::string, double> si_of_one;
};

/// Reads the export a second time. What an earlier build wrote is left out. Throws std::runtime_error when the export
/// cannot be read or is of no project.
StandingSets read_standing_sets(std::string_view bytes, const std::filesystem::path& schema_dir,
                                const std::set<std::string>& panels, const std::set<std::string>& types);

}  // namespace panel_dossier
