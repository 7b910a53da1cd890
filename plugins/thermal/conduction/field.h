// The temperatures of a solved model, and the lines of equal temperature of one in two dimensions.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "core/api/support/geometry.h"
#include "plugins/thermal/conduction/network.h"

namespace panel_dossier::thermal::conduction {

/// The surface that an environment touches, of solids whose surface counts.
struct Surface {
  double lowest_c = 0.0;
  Vec3 lowest_at;  ///< middle of the cell face, m
  double highest_c = 0.0;
  Vec3 highest_at;
  double area_m2 = 0.0;
};

/// Immutable; copies share the network.
class Field {
 public:
  /// `cell_temperatures_c` one an unknown, `air_temperatures_c` one an environment.
  Field(std::shared_ptr<const Network> network, Vector cell_temperatures_c, Vector air_temperatures_c);

  const Network& network() const { return *network_; }
  const Vector& cell_temperatures_c() const { return cell_temperatures_c_; }
  const Vector& air_temperatures_c() const { return air_temperatures_c_; }

  /// Temperature in a solid cell at a point of it, from the temperatures at its middle and in its six faces.
  double temperature_in_cell_c(const CellPosition& cell, const Vec3& point) const;
  /// Temperature at a point inside or on the surface of the solids, as the mean over the cells that meet there; none
  /// elsewhere.
  std::optional<double> temperature_c(const Vec3& point) const;

  /// Heat that flows from each environment into the solids, in W (per metre of depth in two dimensions).
  Vector heat_flows_w() const;
  /// One an environment; none where it touches no solid whose surface counts.
  std::vector<std::optional<Surface>> surfaces() const;

 private:
  std::shared_ptr<const Network> network_;
  Vector cell_temperatures_c_;
  Vector air_temperatures_c_;

  double face_temperature_c(const CellPosition& cell, std::size_t axis, bool upper) const;
  double middle_c(const CellPosition& cell) const {
    return cell_temperatures_c_[static_cast<std::size_t>(network_->unknown_of_cell[network_->grid.cell_index(cell)])];
  }
};

/// A line from end to end, in m; a closed line repeats its first point.
using Polyline = std::vector<Vec2>;

/// Traces temperatures in the x-y plane of a two-dimensional field by marching squares over its solid cells. Lines end
/// at the surfaces of the solids.
/// Immutable after construction.
class IsothermTracer {
 public:
  /// `field` must outlive the tracer.
  explicit IsothermTracer(const Field& field);

  /// The lines of `temperature_c`. Points are left out where the line stays within `tolerance_m` without them.
  std::vector<Polyline> trace(double temperature_c, double tolerance_m = 0.0005) const;

 private:
  const Field& field_;
  std::vector<double> corners_c_;  ///< at the crossings of grid lines, x running fastest; NaN where there is no solid
};

}  // namespace panel_dossier::thermal::conduction
