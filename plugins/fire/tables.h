// The data tables of the fire checks, and values between their points.
#pragma once

#include <filesystem>
#include <optional>
#include <utility>
#include <vector>

#include "core/api/support/data_table.h"

namespace panel_dossier::fire {

/// Read once when the plugin is made; immutable, so safe to share between threads.
struct Tables {
  /// Throws std::runtime_error naming file and line when a table is absent or broken.
  explicit Tables(const std::filesystem::path& data_dir);

  DataTable charring_rates;      ///< β0, βn
  DataTable boards;              ///< protection and insulation by boards
  DataTable cavity_insulation;   ///< tins,0 and kdens of mineral wool
  DataTable unexposed_position;  ///< kpos behind stone wool
  DataTable stud_section;        ///< ks of annex C
  DataTable timber_in_fire;      ///< strengths for the reduced cross-section
  DataTable load_factors;        ///< partial factors of actions, and wind in fire, by national annex
  DataTable uses;                ///< group of a building's use by jurisdiction
  DataTable external_walls;      ///< restrictions of external wall materials
  DataTable periods;             ///< fire resistance by jurisdiction, use, height and sprinklers
  DataTable wall_resistance;     ///< what of the period R, E and I each have to reach
  DataTable cavity_limits;       ///< largest undivided cavity
};

/// Argument and value, ascending by argument.
using Points = std::vector<std::pair<double, double>>;

/// Linear between the points, none below the first, the last value above the last.
std::optional<double> interpolated(const Points& points, double at);

}  // namespace panel_dossier::fire
