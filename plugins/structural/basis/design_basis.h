// What the checks of all studs of a panel have in common, read once with its origins.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/basis/combinations.h"
#include "plugins/structural/basis/timber.h"
#include "plugins/structural/members/action_barrier.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

struct DesignBasis {
  std::string annex;
  std::string annex_note;  ///< not empty: the annex is not known to belong to the jurisdiction
  CombinationFactors factors;
  double crack_factor = 0.0;         ///< kcr
  double wind_pressure_pa = 0.0;     ///< characteristic
  double self_weight_share = 0.5;    ///< of the panel's weight, above the middle of the lowest span
  double self_weight_n_per_m = 0.0;  ///< that share of the weight over the panel's width
  double permanent_n_per_m = 0.0;    ///< on the head; 0 when the panel is not load-bearing
  double variable_n_per_m = 0.0;     ///< likewise
  bool load_bearing = false;
  std::optional<LineLoad> balustrade;       ///< none: the panel does not act as a barrier
  std::optional<double> support_spacing_m;  ///< none: members span their own length
  double top_support_m = 0.0;               ///< above the foot; the panel's height where its head is held
  double projection_m = 0.0;                ///< a: height of the panel above its highest support
  bool projection_derived = false;          ///< from height and spacing, for the export does not give it
  std::vector<Input> inputs;
  std::vector<std::string> missing;  ///< not empty: nothing can be verified
};

/// `wind` is the panel's finding structural.wind_pressure.
DesignBasis read_design_basis(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, const Finding& wind);

/// Values of one member's material.
struct MemberMaterial {
  TimberClass timber;
  std::string service_class;  ///< `1`, `2` or `3`
  Sourced<double> partial_factor;
  Sourced<double> deformation_factor;
  std::vector<Input> inputs;
};

/// None, with the reason added to `missing`, when class or service class is absent or unknown.
std::optional<MemberMaterial> member_material(const Material* material, const std::string& member_name,
                                              const Settings& settings, const Tables& tables, const std::string& annex,
                                              std::vector<std::string>& missing);

/// Records inputs that were read before the finding was begun.
void add_inputs(FindingBuilder& builder, const std::vector<Input>& inputs);

}  // namespace panel_dossier::structural
