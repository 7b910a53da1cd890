// What the checks of all studs of a panel have in common, read once with its origins.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/basis/combinations.h"
#include "plugins/structural/tables.h"
#include "plugins/structural/wind/wind_checks.h"

namespace panel_dossier::structural {

/// A horizontal load along the panel, out of its plane and towards the outside.
struct LineLoad {
  double n_per_m = 0.0;   ///< characteristic
  double height_m = 0.0;  ///< above the foot of the panel
};

struct BarrierAction {
  LineLoad load;
  double psi0 = 0.0;
  double psi2 = 0.0;
  std::string duration;  ///< load-duration class of its category of use
  std::vector<Input> inputs;
  std::vector<std::string> missing;  ///< not empty: the rest means nothing
};

/// Panel_Structure.BarrierLoadCategory of a panel that is stated to be no barrier.
inline constexpr const char* kNoBarrier = "NONE";

/// None when the panel names neither Panel_Structure.BarrierLineLoad nor a BarrierLoadCategory other than `NONE`. The
/// height is Panel_Structure.BarrierHeight, else setting `structural.barrier_height_m`.
std::optional<BarrierAction> read_barrier(const Panel& panel, const Settings& settings, const Tables& tables,
                                          const std::string& annex);

/// What is left of `height_m` above the last of supports at `spacing_m` from the foot up; both > 0. 0 where the head is
/// within 1 mm of a support or the spacing reaches over the whole height.
double height_above_last_support_m(double height_m, double spacing_m);

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
  double width_m = 0.0;                     ///< of the panel
  double height_m = 0.0;                    ///< likewise
  std::optional<LineLoad> balustrade;       ///< none: the panel does not act as a barrier
  std::optional<double> support_spacing_m;  ///< none: members span their own length
  double top_support_m = 0.0;               ///< above the foot; the panel's height where its head is held
  double projection_m = 0.0;                ///< a: height of the panel above its highest support
  /// Spans below the highest support, where `projection_m` comes from height and spacing, for the export does not give
  /// it; else 0.
  int whole_spans = 0;
  std::vector<Input> inputs;
  std::vector<std::string> missing;  ///< not empty: nothing can be verified
};

DesignBasis read_design_basis(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, const PartsPressure& wind);

/// What read_design_basis reads, with what a check reads besides, for its declaration.
std::vector<CheckInput> with_design_basis(const std::vector<CheckInput>& more);

/// Records inputs that were read before the finding was begun.
void add_inputs(FindingBuilder& builder, const std::vector<Input>& inputs);

}  // namespace panel_dossier::structural
