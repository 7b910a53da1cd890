#include "plugins/structural/basis/beam_solver.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace panel_dossier::structural {

namespace {

constexpr int kStretches = 20;
constexpr double kSamePlace_m = 1e-6;

/// Nodes in ascending order, each place once, every gap between them cut into equal stretches.
std::vector<double> nodes_of(const Beam& beam, const std::vector<UniformLoad>& uniform,
                             const std::vector<PointLoad>& point) {
  std::vector<double> places{0.0, beam.length_m};
  places.insert(places.end(), beam.supports_m.begin(), beam.supports_m.end());
  for (const UniformLoad& load : uniform) places.insert(places.end(), {load.from_m, load.to_m});
  for (const PointLoad& load : point) places.push_back(load.at_m);
  std::sort(places.begin(), places.end());
  std::vector<double> nodes{0.0};
  for (const double place : places) {
    const double from = nodes.back();
    if (place - from < kSamePlace_m) continue;
    for (int i = 1; i <= kStretches; ++i) nodes.push_back(from + (place - from) * i / kStretches);
  }
  return nodes;
}

Eigen::Index node_at(const std::vector<double>& nodes, double place_m) {
  const auto found = std::lower_bound(nodes.begin(), nodes.end(), place_m - kSamePlace_m);
  return static_cast<Eigen::Index>(std::min<std::ptrdiff_t>(found - nodes.begin(), std::ssize(nodes) - 1));
}

/// Stiffness of an element that bends and shears; deflection and rotation at either end.
Eigen::Matrix4d element_stiffness(const Beam& beam, double l) {
  const double phi = 12.0 * beam.bending_stiffness_nm2 / (beam.shear_stiffness_n * l * l);
  Eigen::Matrix4d k;
  k << 12.0, 6.0 * l, -12.0, 6.0 * l,                               //
      6.0 * l, (4.0 + phi) * l * l, -6.0 * l, (2.0 - phi) * l * l,  //
      -12.0, -6.0 * l, 12.0, -6.0 * l,                              //
      6.0 * l, (2.0 - phi) * l * l, -6.0 * l, (4.0 + phi) * l * l;
  return k * (beam.bending_stiffness_nm2 / ((1.0 + phi) * l * l * l));
}

/// Work-equivalent loads of a uniform load on an element, the same with and without shear deformation.
Eigen::Vector4d element_load(double n_per_m, double l) {
  return {n_per_m * l / 2.0, n_per_m * l * l / 12.0, n_per_m * l / 2.0, -n_per_m * l * l / 12.0};
}

class Solution {
 public:
  Solution(const Beam& beam, const std::vector<UniformLoad>& uniform, const std::vector<PointLoad>& point)
      : beam_(beam), nodes_(nodes_of(beam, uniform, point)) {
    const auto size = static_cast<Eigen::Index>(2 * nodes_.size());
    stiffness_ = Eigen::MatrixXd::Zero(size, size);
    load_ = Eigen::VectorXd::Zero(size);
    element_load_n_per_m_.assign(nodes_.size() - 1, 0.0);
    for (std::size_t i = 0; i + 1 < nodes_.size(); ++i) add_element(i, uniform);
    for (const PointLoad& load : point) load_(2 * node_at(nodes_, load.at_m)) += load.n;
    solve();
  }

  BeamResult result() const {
    BeamResult result;
    for (std::size_t i = 0; i + 1 < nodes_.size(); ++i) add_points(i, result.points);
    const Eigen::VectorXd held = stiffness_ * displacement_ - load_;
    for (const double support_m : beam_.supports_m) {
      const Eigen::Index node = node_at(nodes_, support_m);
      result.reactions_n.push_back(-held(2 * node));
      result.support_moments_nm.push_back(moment_at(node));
    }
    return result;
  }

 private:
  const Beam& beam_;
  std::vector<double> nodes_;
  std::vector<double> element_load_n_per_m_;
  Eigen::MatrixXd stiffness_;
  Eigen::VectorXd load_;
  Eigen::VectorXd displacement_;

  double length_m(std::size_t element) const { return nodes_[element + 1] - nodes_[element]; }
  static Eigen::Index first(std::size_t element) { return static_cast<Eigen::Index>(2 * element); }

  void add_element(std::size_t i, const std::vector<UniformLoad>& uniform) {
    const double middle_m = (nodes_[i] + nodes_[i + 1]) / 2.0;
    for (const UniformLoad& load : uniform) {
      if (load.from_m < middle_m && middle_m < load.to_m) element_load_n_per_m_[i] += load.n_per_m;
    }
    stiffness_.block<4, 4>(first(i), first(i)) += element_stiffness(beam_, length_m(i));
    load_.segment<4>(first(i)) += element_load(element_load_n_per_m_[i], length_m(i));
  }

  void solve() {
    std::vector<bool> held(static_cast<std::size_t>(load_.size()), false);
    for (const double support_m : beam_.supports_m) {
      held[static_cast<std::size_t>(2 * node_at(nodes_, support_m))] = true;
    }
    if (beam_.clamped_start) held[1] = true;
    std::vector<Eigen::Index> free;
    for (Eigen::Index i = 0; i < load_.size(); ++i) {
      if (!held[static_cast<std::size_t>(i)]) free.push_back(i);
    }
    const Eigen::MatrixXd stiffness = stiffness_(free, free);
    const Eigen::VectorXd load = load_(free);
    displacement_ = Eigen::VectorXd::Zero(load_.size());
    const Eigen::VectorXd moved = stiffness.ldlt().solve(load);
    displacement_(free) = moved;
  }

  /// Forces of the nodes on an element.
  Eigen::Vector4d end_forces(std::size_t i) const {
    const Eigen::Vector4d u = displacement_.segment<4>(first(i));
    return element_stiffness(beam_, length_m(i)) * u - element_load(element_load_n_per_m_[i], length_m(i));
  }

  double moment_at(Eigen::Index node) const {
    const auto i = static_cast<std::size_t>(node);
    return i == 0 ? end_forces(0)(1) : -end_forces(i - 1)(3);
  }

  void add_points(std::size_t i, std::vector<BeamPoint>& points) const {
    const Eigen::Vector4d ends = end_forces(i);
    const double load = element_load_n_per_m_[i];
    // Upward forces on the left part and counter-clockwise moments turn into shear and sagging moment.
    const BeamPoint left{nodes_[i], -ends(0), ends(1), displacement_(first(i))};
    const BeamPoint right{nodes_[i + 1], ends(2), -ends(3), displacement_(first(i) + 2)};
    const double nothing_n = 1e-9 * load_.lpNorm<1>();  // rounding beside the forces at work
    if (points.empty() || std::abs(points.back().shear_n - left.shear_n) > nothing_n) points.push_back(left);
    const bool turns = left.shear_n * right.shear_n < 0.0;
    if (turns && std::min(std::abs(left.shear_n), std::abs(right.shear_n)) > nothing_n) {
      const double s = left.shear_n / load;
      const double turn_rad = displacement_(first(i) + 1);
      // v = v0 + θ0·s − ∬M/(E·I) + ∫V/S with M = M0 + V0·s − w·s²/2.
      const double bent_m = s * s * (left.moment_nm / 2.0 + left.shear_n * s / 6.0 - load * s * s / 24.0);
      const double sheared_m = s * (left.shear_n - load * s / 2.0);
      points.push_back({nodes_[i] + s, 0.0, left.moment_nm + left.shear_n * s / 2.0,
                        left.deflection_m + turn_rad * s - bent_m / beam_.bending_stiffness_nm2 +
                            sheared_m / beam_.shear_stiffness_n});
    }
    points.push_back(right);
  }
};

/// Height of the parabola through three points where it is highest between them; 0 when that is not there.
double crown_m(const BeamPoint& before, const BeamPoint& at, const BeamPoint& after) {
  const double slope_before = (at.deflection_m - before.deflection_m) / (at.x_m - before.x_m);
  const double slope_after = (after.deflection_m - at.deflection_m) / (after.x_m - at.x_m);
  if (slope_before * slope_after >= 0.0) return 0.0;
  const double curvature = 2.0 * (slope_after - slope_before) / (after.x_m - before.x_m);
  const double slope_at = slope_before + curvature * (at.x_m - before.x_m) / 2.0;
  return std::abs(at.deflection_m - slope_at * slope_at / (2.0 * curvature));
}

}  // namespace

BeamResult solve_beam(const Beam& beam, const std::vector<UniformLoad>& uniform, const std::vector<PointLoad>& point) {
  return Solution(beam, uniform, point).result();
}

double largest_moment_nm(const BeamResult& result) {
  double largest = 0.0;
  for (const BeamPoint& point : result.points) largest = std::max(largest, std::abs(point.moment_nm));
  return largest;
}

double largest_shear_n(const BeamResult& result) {
  double largest = 0.0;
  for (const BeamPoint& point : result.points) largest = std::max(largest, std::abs(point.shear_n));
  return largest;
}

double largest_deflection_m(const BeamResult& result, double from_m, double to_m) {
  std::vector<const BeamPoint*> points;
  for (const BeamPoint& point : result.points) {
    const bool within = point.x_m > from_m - kSamePlace_m && point.x_m < to_m + kSamePlace_m;
    if (within && (points.empty() || point.x_m > points.back()->x_m + kSamePlace_m)) points.push_back(&point);
  }
  double largest = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    largest = std::max(largest, std::abs(points[i]->deflection_m));
    if (i > 0 && i + 1 < points.size()) {
      largest = std::max(largest, crown_m(*points[i - 1], *points[i], *points[i + 1]));
    }
  }
  return largest;
}

}  // namespace panel_dossier::structural
