// The load in fire on each metre of a panel: EN 1995-1-2:2004 2.4.2.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Row of load_factors.csv for the national annex of the settings.
struct LoadFactors {
  Sourced<std::string> annex;
  Sourced<double> permanent;  ///< γG,sup
  Sourced<double> variable;   ///< γQ
  double wind = 0.0;          ///< ψ of wind in fire
};

struct LoadInFire {
  std::string missing;                   ///< not empty: why it is not calculated; the rest is then incomplete
  std::optional<Sourced<double>> ratio;  ///< ηfi, setting fire.load_ratio_in_fire
  std::optional<Sourced<double>> permanent_n_per_m;  ///< Gk
  std::optional<Sourced<double>> variable_n_per_m;   ///< Qk
  std::optional<LoadFactors> factors;
  std::optional<Sourced<double>> support_spacing_m;  ///< none: the panel is held at head and sole only
  double mass_kg = 0.0;
  double span_m = 0.0;  ///< of its studs, at most the panel's height
  double share = 0.0;   ///< of the panel's weight above the middle of its lowest span: it stands on its foot
  double self_weight_n_per_m = 0.0;  ///< of that share
  double design_n_per_m = 0.0;       ///< at normal temperature
  double in_fire_n_per_m = 0.0;
};

/// By the partial factors of the national annex. Not calculated when something is missing, the annex has no row in
/// load_factors.csv, the ratio fire.load_ratio_in_fire is not above 0 and at most 1, or a load is negative.
LoadInFire load_in_fire(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);
/// What it reads.
std::vector<CheckInput> load_in_fire_inputs();

/// Inputs, steps and a note on wind, or a step that says why there is no load. The finding gives the panel's width and
/// height as inputs `B` and `H`.
void add_load_steps(FindingBuilder& builder, const LoadInFire& load);

}  // namespace panel_dossier::fire
