#include "plugins/structural/combinations.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace panel_dossier::structural {

namespace {

std::string shorter(const std::string& a, const std::string& b) {
  constexpr std::array<std::string_view, 5> kLongestFirst{"permanent", "long", "medium", "short", "instantaneous"};
  const auto rank = [&](const std::string& name) {
    return std::find(kLongestFirst.begin(), kLongestFirst.end(), name);
  };
  return rank(a) < rank(b) ? b : a;
}

}  // namespace

std::vector<Combination> combinations(const Actions& actions, const CombinationFactors& factors) {
  const double permanent_n = factors.permanent_unfavourable * actions.permanent_n;
  const double variable_n = factors.variable * actions.variable_n;
  const double wind_n_per_m = factors.variable * actions.wind_n_per_m;
  std::vector<Combination> result{{"permanent", "γ_G,sup · G", "permanent", permanent_n, 0.0},
                                  {"wind, permanent favourable", "γ_G,inf · G + γ_Q · W", factors.wind_duration,
                                   factors.permanent_favourable * actions.permanent_n, wind_n_per_m},
                                  {"leading wind", "γ_G,sup · G + γ_Q · W + γ_Q · ψ_0,Q · Q", factors.wind_duration,
                                   permanent_n + factors.variable_psi0 * variable_n, wind_n_per_m}};
  if (actions.variable_n > 0.0) {
    const std::string both = shorter(factors.wind_duration, factors.variable_duration);
    result.back().duration = both;
    result.push_back(
        {"imposed alone", "γ_G,sup · G + γ_Q · Q", factors.variable_duration, permanent_n + variable_n, 0.0});
    result.push_back({"leading imposed", "γ_G,sup · G + γ_Q · Q + γ_Q · ψ_0,W · W", both, permanent_n + variable_n,
                      factors.wind_psi0 * wind_n_per_m});
  }
  return result;
}

}  // namespace panel_dossier::structural
