// Linear thermal transmittance and temperature factor of a junction detail, and the solved detail as a drawing.
#pragma once

#include <cstddef>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/thermal/conduction/solve.h"
#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::thermal::conduction {

/// R_si for the risk of mould on opaque surfaces, m²·K/W (EN ISO 13788:2012, 4.4.1, from memory).
inline constexpr double kSurfaceMouldResistance_m2k_per_w = 0.25;

/// Largest change of f_Rsi when the cells are halved: half of what the standard allows.
inline constexpr double kDetailFactorChange = kTemperatureFactorChange / 2.0;

struct DetailResult {
  double l_2d_w_per_mk = 0.0;          ///< thermal coupling coefficient
  double psi_internal_w_per_mk = 0.0;  ///< Ψ_i = L_2D − Σ U · l_i (EN ISO 10211:2017, by internal dimensions)
  double psi_external_w_per_mk = 0.0;  ///< Ψ_e, likewise by external dimensions
  double psi_own_w_per_mk = 0.0;       ///< likewise by the panel's own width and height
  double temperature_factor = 0.0;     ///< f_Rsi, for R_si = 0.25 m²·K/W everywhere inside, less its last change
  Vec3 coldest_at;                     ///< where, in the model's frame, m
  std::shared_ptr<const Solution> heat_flow;       ///< with the surface resistances of the build-up
  std::shared_ptr<const SolutionFigures> surface;  ///< with R_si = 0.25 m²·K/W
};

/// The solution of one model, made by whoever asks for it first.
struct SolvedModel {
  std::once_flag once;
  std::shared_ptr<const Solution> solution;        ///< none where the figures alone were asked for
  std::shared_ptr<const SolutionFigures> figures;  ///< none where the solution was asked for
};

/// Models by all that defines them, from one run of the plugin to the next: a solution depends on nothing else.
/// Thread-safe.
class SolvedModels {
 public:
  /// The oldest gives way to one beyond so many. Half of them are kept with their fields, of some ten thousand cells.
  static constexpr std::size_t kMostModels = 200;

  std::shared_ptr<SolvedModel> model(const std::string& key);

 private:
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<SolvedModel>> models_;
  std::deque<std::string> order_;  ///< oldest first
};

/// Solves each model once, however many details share it and whichever thread asks first. Thread-safe; keeps every
/// solution as long as it lives.
class DetailSolver {
 public:
  DetailSolver() : DetailSolver(std::make_shared<SolvedModels>()) {}
  /// Takes what is solved already from `earlier`, and leaves there what it solves.
  explicit DetailSolver(std::shared_ptr<SolvedModels> earlier) : earlier_(std::move(earlier)) {}

  /// `detail` has nothing missing. Throws what `solve` throws, and std::runtime_error when the accuracy that the
  /// standard asks for is not reached.
  DetailResult solve(const Detail& detail);
  /// One model as it is; `options` belong to the model: equal models must come with equal ones.
  std::shared_ptr<const Solution> solve_once(const Model& model, const SolveOptions& options = {});
  /// The same for who draws no isotherms: a model of three dimensions has a million cells, which are not kept.
  std::shared_ptr<const SolutionFigures> figures_once(const Model& model, const SolveOptions& options = {});

  std::size_t models_solved() const;

 private:
  std::shared_ptr<SolvedModels> earlier_;
  mutable std::mutex mutex_;  ///< over the map, not over the solving
  std::map<std::string, std::shared_ptr<SolvedModel>> entries_;

  SolvedModel& entry(const std::string& key);
};

/// The model with R_si = 0.25 m²·K/W at every internal surface.
Model for_surface_mould(Model model);

/// How far a drawing shows the detail on either side of its origin, which lies at the junction, m. The panels run on to
/// their cut planes beyond that.
inline constexpr double kShownBefore_m = 0.6;
inline constexpr double kShownAfter_m = 0.8;

/// The materials of the detail round its junction with isotherms of its heat flow at whole multiples of `step_k`, every
/// third one lettered in °C, the air named, and a cross at the coldest internal surface where the drawing shows it.
/// `inside_c` above `outside_c`, `step_k` above 0; throws std::invalid_argument otherwise.
Drawing detail_drawing(const Detail& detail, const DetailResult& result, double inside_c, double outside_c,
                       double step_k = 2.0);

}  // namespace panel_dossier::thermal::conduction
