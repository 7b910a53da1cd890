#include "plugins/structural/basis/combinations.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace panel_dossier::structural {

namespace {

/// The variable actions of a member that are there, in a fixed order.
struct Variable {
  enum class Kind { wind, imposed, barrier };
  Kind kind = Kind::wind;
  std::string symbol;
  double value = 0.0;  ///< characteristic
  double psi0 = 0.0;
  double psi2 = 0.0;
  std::string duration;
};

/// Wind always stands in the list, so that a member without wind still shows that it was looked at.
std::vector<Variable> variables_of(const Actions& actions, const CombinationFactors& factors) {
  using Kind = Variable::Kind;
  std::vector<Variable> result{
      {Kind::wind, "W", actions.wind_n_per_m, factors.wind_psi0, factors.wind_psi2, factors.wind_duration}};
  if (actions.variable_n > 0.0) {
    result.push_back({Kind::imposed, "Q", actions.variable_n, factors.variable_psi0, factors.variable_psi2,
                      factors.variable_duration});
  }
  if (actions.barrier_n > 0.0) {
    result.push_back(
        {Kind::barrier, "B", actions.barrier_n, factors.barrier_psi0, factors.barrier_psi2, factors.barrier_duration});
  }
  return result;
}

std::string name_of(Variable::Kind kind) {
  switch (kind) {
    case Variable::Kind::wind: return "wind";
    case Variable::Kind::imposed: return "imposed";
    case Variable::Kind::barrier: return "barrier load";
  }
  return {};
}

std::string shorter(const std::string& a, const std::string& b) {
  constexpr std::array<std::string_view, 5> kLongestFirst{"permanent", "long", "medium", "short", "instantaneous"};
  const auto rank = [&](const std::string& name) {
    return std::find(kLongestFirst.begin(), kLongestFirst.end(), name);
  };
  return rank(a) < rank(b) ? b : a;
}

std::string& symbol_of(FactorSymbols& symbols, Variable::Kind kind) {
  switch (kind) {
    case Variable::Kind::wind: return symbols.wind;
    case Variable::Kind::imposed: return symbols.variable;
    case Variable::Kind::barrier: return symbols.barrier;
  }
  return symbols.wind;
}

template <typename AnyCombination>
void add_action(AnyCombination& combination, const Variable& variable, double factor) {
  switch (variable.kind) {
    case Variable::Kind::wind: combination.line_load_n_per_m += factor * variable.value; break;
    case Variable::Kind::imposed: combination.axial_n += factor * variable.value; break;
    case Variable::Kind::barrier: combination.barrier_n += factor * variable.value; break;
  }
}

/// Permanent action with its factor, to which variable actions are added.
class Ultimate {
 public:
  Ultimate(std::string name, const CombinationFactors& factors, const std::string& permanent_symbol, double permanent_n)
      : combination_{std::move(name),
                     factored(permanent_symbol, "G"),
                     "permanent",
                     permanent_n,
                     0.0,
                     0.0,
                     0.0,
                     {permanent_symbol, {}, {}, {}}},
        factors_(factors) {}

  Ultimate& leading(const Variable& variable) { return add(variable, 1.0, "γ_Q"); }
  Ultimate& accompanying(const Variable& variable) {
    return add(variable, variable.psi0, "γ_Q · ψ_0," + variable.symbol);
  }
  Combination done() const { return combination_; }

 private:
  Combination combination_;
  const CombinationFactors& factors_;

  Ultimate& add(const Variable& variable, double psi, const std::string& factor) {
    add_action(combination_, variable, factors_.variable * psi);
    if (variable.kind == Variable::Kind::wind) combination_.wind_factor = factors_.variable * psi;
    combination_.expression += " + " + factored(factor, variable.symbol);
    symbol_of(combination_.symbols, variable.kind) = factor;
    // An action that is multiplied away does not shorten the load's duration.
    if (psi > 0.0) combination_.duration = shorter(combination_.duration, variable.duration);
    return *this;
  }
};

/// One combination in which `leading` leads (none: all accompany, as (6.10a) has it); without wind when `with_wind` is
/// false, for a load without wind lasts longer and so has the smaller kmod.
struct Shape {
  std::string name;
  std::optional<std::size_t> leading;
  bool with_wind = true;
};

std::vector<Shape> shapes_with_leading(const std::vector<Variable>& variables) {
  std::vector<Shape> shapes{{"leading wind", 0}};
  for (std::size_t i = 1; i < variables.size(); ++i) {
    const std::string name = name_of(variables[i].kind);
    shapes.push_back({name + " alone", i, false});
    shapes.push_back({"leading " + name, i});
  }
  return shapes;
}

Combination combine(const Shape& shape, const std::vector<Variable>& variables, Ultimate base) {
  if (shape.leading) base.leading(variables[*shape.leading]);
  for (std::size_t i = 0; i < variables.size(); ++i) {
    const bool is_wind = variables[i].kind == Variable::Kind::wind;
    if (i != shape.leading && (shape.with_wind || !is_wind)) base.accompanying(variables[i]);
  }
  return base.done();
}

}  // namespace

std::string factored(const std::string& factor, const std::string& action) {
  if (factor.empty() || action.empty()) return {};
  return factor == "1" ? action : factor + " · " + action;
}

std::string sum_of(const std::vector<std::string>& terms) {
  std::string sum;
  for (const std::string& term : terms) {
    if (!term.empty()) sum += (sum.empty() ? "" : " + ") + term;
  }
  return sum.empty() ? "0" : sum;
}

std::vector<Combination> combinations(const Actions& actions, const CombinationFactors& factors) {
  const std::vector<Variable> variables = variables_of(actions, factors);
  const bool split = factors.rule == UltimateRule::expressions_6_10a_and_b;
  const double permanent_n = factors.permanent_unfavourable * actions.permanent_n;
  const double reduced_n = split ? factors.permanent_reduction * permanent_n : permanent_n;
  std::vector<Combination> result;
  result.push_back(Ultimate("permanent", factors, "γ_G,sup", permanent_n).done());
  result.push_back(
      Ultimate("wind, permanent favourable", factors, "γ_G,inf", factors.permanent_favourable * actions.permanent_n)
          .leading(variables.front())
          .done());
  const std::string symbol = split ? "ξ · γ_G,sup" : "γ_G,sup";
  for (const Shape& shape : shapes_with_leading(variables)) {
    const std::string name = split ? shape.name + " (6.10b)" : shape.name;
    result.push_back(combine(shape, variables, Ultimate(name, factors, symbol, reduced_n)));
  }
  if (!split) return result;
  const auto all_accompany = [&](const std::string& name, bool with_wind) {
    result.push_back(
        combine({name, std::nullopt, with_wind}, variables, Ultimate(name, factors, "γ_G,sup", permanent_n)));
  };
  all_accompany("all accompanying (6.10a)", true);
  if (variables.size() > 1) all_accompany("all but wind accompanying (6.10a)", false);
  return result;
}

std::vector<ServiceabilityCombination> serviceability_combinations(const Actions& actions,
                                                                   const CombinationFactors& factors) {
  const std::vector<Variable> variables = variables_of(actions, factors);
  std::vector<ServiceabilityCombination> result;
  for (std::size_t leading = 0; leading < variables.size(); ++leading) {
    ServiceabilityCombination combination{Serviceability::characteristic,
                                          "characteristic, leading " + name_of(variables[leading].kind),
                                          "G + " + variables[leading].symbol,
                                          actions.permanent_n,
                                          0.0,
                                          0.0,
                                          {"1", {}, {}, {}}};
    add_action(combination, variables[leading], 1.0);
    symbol_of(combination.symbols, variables[leading].kind) = "1";
    for (std::size_t i = 0; i < variables.size(); ++i) {
      if (i == leading) continue;
      add_action(combination, variables[i], variables[i].psi0);
      const std::string factor = "ψ_0," + variables[i].symbol;
      combination.expression += " + " + factored(factor, variables[i].symbol);
      symbol_of(combination.symbols, variables[i].kind) = factor;
    }
    result.push_back(std::move(combination));
  }
  ServiceabilityCombination creeping{
      Serviceability::quasi_permanent, "quasi-permanent", "G", actions.permanent_n, 0.0, 0.0, {"1", {}, {}, {}}};
  for (const Variable& variable : variables) {
    add_action(creeping, variable, variable.psi2);
    const std::string factor = "ψ_2," + variable.symbol;
    creeping.expression += " + " + factored(factor, variable.symbol);
    symbol_of(creeping.symbols, variable.kind) = factor;
  }
  result.push_back(std::move(creeping));
  return result;
}

}  // namespace panel_dossier::structural
