// Combinations of actions for persistent design situations: EN 1990:2002 6.4.3.2 expression (6.10).
#pragma once

#include <string>
#include <vector>

namespace panel_dossier::structural {

/// Characteristic actions on one member: axial ones in N, wind across it in N/m of its length.
struct Actions {
  double permanent_n = 0.0;
  double variable_n = 0.0;
  double wind_n_per_m = 0.0;
};

struct CombinationFactors {
  double permanent_unfavourable = 0.0;  ///< γG,sup
  double permanent_favourable = 0.0;    ///< γG,inf
  double variable = 0.0;                ///< γQ
  double wind_psi0 = 0.0;
  double variable_psi0 = 0.0;
  std::string wind_duration;      ///< column of the kmod table
  std::string variable_duration;  ///< likewise; empty when there is no variable load on the head
};

/// Design actions of one combination. Its kmod is that of the shortest action in it, EN 1995-1-1 3.1.3(2).
struct Combination {
  std::string name;
  std::string expression;
  std::string duration;  ///< load-duration class
  double axial_n = 0.0;
  double line_load_n_per_m = 0.0;
};

/// In a fixed order; those with a variable load on the head only when there is one.
std::vector<Combination> combinations(const Actions& actions, const CombinationFactors& factors);

}  // namespace panel_dossier::structural
