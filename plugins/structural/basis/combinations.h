// Combinations of actions for persistent design situations: EN 1990:2002 6.4.3.2 and 6.5.3.
#pragma once

#include <string>
#include <vector>

namespace panel_dossier::structural {

/// Characteristic actions on one member: axial ones in N, wind across it in N/m of its length, and what persons lean
/// with against a panel that acts as a barrier, in N across the member at the barrier's height.
struct Actions {
  double permanent_n = 0.0;
  double variable_n = 0.0;
  double wind_n_per_m = 0.0;
  double barrier_n = 0.0;
};

/// Which expressions of EN 1990 6.4.3.2(3) give the ultimate combinations.
enum class UltimateRule {
  expression_6_10,
  expressions_6_10a_and_b,  ///< the less favourable of the two
};

struct CombinationFactors {
  double permanent_unfavourable = 0.0;  ///< γG,sup
  double permanent_favourable = 0.0;    ///< γG,inf
  double variable = 0.0;                ///< γQ
  double wind_psi0 = 0.0;
  double variable_psi0 = 0.0;
  std::string wind_duration;      ///< column of the kmod table
  std::string variable_duration;  ///< likewise; empty when there is no variable load on the head
  double wind_psi2 = 0.0;
  double variable_psi2 = 0.0;
  double barrier_psi0 = 0.0;
  double barrier_psi2 = 0.0;
  std::string barrier_duration;      ///< empty when the panel is no barrier
  double permanent_reduction = 1.0;  ///< ξ of (6.10b)
  UltimateRule rule = UltimateRule::expression_6_10;
};

/// The factors of the actions in one combination, in symbols: `γ_Q · ψ_0,W`; `1` where the action stands as it is.
/// Empty: the action is not in it.
struct FactorSymbols {
  std::string permanent;
  std::string variable;
  std::string wind;
  std::string barrier;
};

/// Design actions of one combination. Its kmod is that of the shortest action in it, EN 1995-1-1 3.1.3(2).
struct Combination {
  std::string name;
  std::string expression;
  std::string duration;  ///< load-duration class
  double axial_n = 0.0;
  double line_load_n_per_m = 0.0;
  double barrier_n = 0.0;
  double wind_factor = 0.0;  ///< γQ, or γQ·ψ0, of the wind in it; 0 without wind
  FactorSymbols symbols = {};
};

/// Ultimate limit state, in a fixed order; those with a load on the head or on a barrier only when there is one.
std::vector<Combination> combinations(const Actions& actions, const CombinationFactors& factors);

enum class Serviceability {
  characteristic,   ///< EN 1990 (6.14b): gives the instantaneous deflection, EN 1995-1-1 2.2.3(2)
  quasi_permanent,  ///< EN 1990 (6.16b): what creeps, EN 1995-1-1 2.2.3(3)
};

/// Actions of one combination of the serviceability limit state.
struct ServiceabilityCombination {
  Serviceability kind = Serviceability::characteristic;
  std::string name;
  std::string expression;
  double axial_n = 0.0;
  double line_load_n_per_m = 0.0;
  double barrier_n = 0.0;
  FactorSymbols symbols = {};
};

/// The characteristic ones, each variable action leading in turn, then the one quasi-permanent. Never empty.
std::vector<ServiceabilityCombination> serviceability_combinations(const Actions& actions,
                                                                   const CombinationFactors& factors);

/// The product of a factor in symbols with what it multiplies: `γ_Q · W`. Empty for an action that is not there.
std::string factored(const std::string& factor, const std::string& action);

/// The terms joined by plus signs, empty ones left out; `0` when all are.
std::string sum_of(const std::vector<std::string>& terms);

}  // namespace panel_dossier::structural
