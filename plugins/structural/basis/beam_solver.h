// A straight beam on any number of supports under loads across it: direct stiffness method.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace panel_dossier::structural {

/// Lengths in m from the beam's start. Supports do not yield and leave the beam free to turn.
struct Beam {
  double length_m = 0.0;               ///< > 0
  std::vector<double> supports_m;      ///< ascending, within the length, more than 1 mm apart
  bool clamped_start = false;          ///< the start is held against turning too; it must then be a support
  double bending_stiffness_nm2 = 0.0;  ///< E·I > 0
  /// S = G·A/1.2 for a rectangle > 0; infinite: no deflection from shear (Euler and Bernoulli), else Timoshenko.
  double shear_stiffness_n = std::numeric_limits<double>::infinity();
};

/// Uniform over part of the length; from < to.
struct UniformLoad {
  double from_m = 0.0;
  double to_m = 0.0;
  double n_per_m = 0.0;
};

struct PointLoad {
  double at_m = 0.0;
  double n = 0.0;
};

/// Positive: load and deflection the same way, moment that stretches the side the load does not stand on (sagging).
struct BeamPoint {
  double x_m = 0.0;
  double shear_n = 0.0;  ///< just past the point, or just before it at the end of a stretch
  double moment_nm = 0.0;
  double deflection_m = 0.0;
};

struct BeamResult {
  std::vector<BeamPoint> points;           ///< ascending; where the shear jumps, one point on either side
  std::vector<double> reactions_n;         ///< one a support, against the load positive
  std::vector<double> support_moments_nm;  ///< one a support
};

/// Exact for these loads at every point given; 20 stretches between neighbouring supports, load ends and point loads,
/// and a point where the shear passes through zero. Precondition: two supports, or one at a clamped start.
BeamResult solve_beam(const Beam& beam, const std::vector<UniformLoad>& uniform, const std::vector<PointLoad>& point);

double largest_moment_nm(const BeamResult& result);  ///< absolute
double largest_shear_n(const BeamResult& result);    ///< absolute
/// Absolute, between two places.
double largest_deflection_m(const BeamResult& result, double from_m, double to_m);

}  // namespace panel_dossier::structural
