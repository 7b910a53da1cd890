// What a steady-state conduction calculation is about: boxes of material, the air around them, cut planes elsewhere.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/support/geometry.h"

namespace panel_dossier::thermal::conduction {

/// Coordinates nearer to each other than this are the same plane.
inline constexpr double kSamePlane_m = 1e-7;

struct SolidBox {
  Box3 box;
  double conductivity_w_per_mk = 0.0;  ///< λ, above 0
  std::string name;                    ///< of the material; for drawings and messages
  Hatch hatch = Hatch::none;
  /// False leaves its faces out of the lowest and highest surface temperatures: a window frame beside a wall.
  bool surface_counts = true;
};

/// Air of one temperature (EN ISO 10211:2017, 3.1: internal or external environment).
struct Environment {
  std::string name;
  double temperature_c = 0.0;
};

/// Room that an environment fills. Solids inside it are cut away, and every face of a solid that it touches gets the
/// surface resistance. It may reach beyond the solids: that is how an outer face is exposed.
struct EnvironmentBox {
  std::size_t environment = 0;  ///< index into Model::environments
  Box3 box;
  double surface_resistance_m2k_per_w = 0.0;  ///< R_s, 0 or more; 0 holds the surface at the air's temperature
};

/// A rectilinear model. Later solids override earlier ones, environment boxes override all solids. Faces that touch
/// neither a solid nor an environment are adiabatic: cut planes and planes of symmetry.
struct Model {
  bool two_dimensional = true;  ///< in x and y; every box then spans z from 0 to 1 m
  std::vector<SolidBox> solids;
  std::vector<Environment> environments;
  std::vector<EnvironmentBox> environment_boxes;
};

/// A box of a two-dimensional model, in m, 1 m deep.
Box3 box_2d(double x_min_m, double y_min_m, double x_max_m, double y_max_m);

/// Throws std::invalid_argument, naming what is wrong, when there is no solid or no environment box, a box has no
/// size, λ is not above 0, R_s is below 0, a number is not finite, an index leads nowhere, boxes of different
/// environments or surface resistances overlap, or a box of a two-dimensional model does not span z from 0 to 1 m.
void check(const Model& model);

/// Everything that the result depends on, as text: equal texts give equal results. Names and hatches are left out.
std::string identity(const Model& model);

}  // namespace panel_dossier::thermal::conduction
