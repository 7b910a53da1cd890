// A small finite-element beam-column, apart from the program: plane Euler-Bernoulli elements with cubic shape functions
// and their geometric stiffness, simply supported at both ends. It checks closed forms from outside.
#pragma once

#include <cmath>
#include <cstddef>
#include <eigen3/Eigen/Dense>
#include <eigen3/Eigen/Eigenvalues>
#include <vector>

namespace panel_dossier::testing {

/// N, m. Degrees of freedom are deflection and rotation at each node.
class BeamColumn {
 public:
  BeamColumn(double length_m, double stiffness_nm2, int elements)
      : length_m_(length_m), stiffness_nm2_(stiffness_nm2), elements_(elements) {
    const double l = length_m / elements;
    Eigen::Matrix4d k;
    k << 12, 6 * l, -12, 6 * l, 6 * l, 4 * l * l, -6 * l, 2 * l * l, -12, -6 * l, 12, -6 * l, 6 * l, 2 * l * l, -6 * l,
        4 * l * l;
    Eigen::Matrix4d g;
    g << 36, 3 * l, -36, 3 * l, 3 * l, 4 * l * l, -3 * l, -l * l, -36, -3 * l, 36, -3 * l, 3 * l, -l * l, -3 * l,
        4 * l * l;
    elastic_ = assembled(k * (stiffness_nm2 / (l * l * l)));
    geometric_ = assembled(g / (30.0 * l));
  }

  /// Smallest axial load at which the straight member buckles.
  double buckling_load_n() const {
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(reduced(geometric_), reduced(elastic_));
    return 1.0 / solver.eigenvalues().maxCoeff();
  }

  /// Deflections and rotations under a uniform load w, with axial load N on the deflected member and on an initial
  /// half-sine bow of amplitude e.
  Eigen::VectorXd displacements(double line_load_n_per_m, double axial_n, double bow_m) const {
    const double l = length_m_ / elements_;
    Eigen::VectorXd force = Eigen::VectorXd::Zero(size());
    for (int i = 0; i < elements_; ++i) {
      Eigen::Vector4d nodal;
      nodal << l / 2, l * l / 12, l / 2, -l * l / 12;
      force.segment<4>(2 * i) += line_load_n_per_m * nodal;
    }
    force += axial_n * geometric_ * bow(bow_m);
    const Eigen::MatrixXd stiffness = elastic_ - axial_n * geometric_;
    const Eigen::VectorXd free = reduced(stiffness).ldlt().solve(reduced(force));
    return expanded(free);
  }

  /// Deflection at a node, counted from the lower support.
  double deflection_m(const Eigen::VectorXd& displacements, int node) const { return displacements(2 * node); }

  /// Half-sine bow with its slopes.
  Eigen::VectorXd bow(double amplitude_m) const {
    Eigen::VectorXd shape(size());
    for (int i = 0; i <= elements_; ++i) {
      const double angle = M_PI * i / elements_;
      shape(2 * i) = amplitude_m * std::sin(angle);
      shape(2 * i + 1) = amplitude_m * M_PI / length_m_ * std::cos(angle);
    }
    return shape;
  }

 private:
  double length_m_;
  double stiffness_nm2_;
  int elements_;
  Eigen::MatrixXd elastic_;
  Eigen::MatrixXd geometric_;

  Eigen::Index size() const { return 2 * (elements_ + 1); }
  Eigen::Index upper_support() const { return 2 * elements_; }

  Eigen::MatrixXd assembled(const Eigen::Matrix4d& element) const {
    Eigen::MatrixXd whole = Eigen::MatrixXd::Zero(size(), size());
    for (int i = 0; i < elements_; ++i) whole.block<4, 4>(2 * i, 2 * i) += element;
    return whole;
  }

  /// Without the deflections of both supports.
  std::vector<Eigen::Index> free_indices() const {
    std::vector<Eigen::Index> indices;
    for (Eigen::Index i = 1; i < size(); ++i) {
      if (i != upper_support()) indices.push_back(i);
    }
    return indices;
  }
  Eigen::MatrixXd reduced(const Eigen::MatrixXd& whole) const {
    const auto indices = free_indices();
    if (whole.cols() == 1) return whole(indices, 0);
    return whole(indices, indices);
  }
  Eigen::VectorXd expanded(const Eigen::VectorXd& free) const {
    Eigen::VectorXd whole = Eigen::VectorXd::Zero(size());
    const auto indices = free_indices();
    for (std::size_t i = 0; i < indices.size(); ++i) whole(indices[i]) = free(static_cast<Eigen::Index>(i));
    return whole;
  }
};

}  // namespace panel_dossier::testing
