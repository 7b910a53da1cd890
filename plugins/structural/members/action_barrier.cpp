#include "plugins/structural/members/action_barrier.h"

#include <cmath>

namespace panel_dossier::structural {

namespace {

constexpr const char* kSet = "Panel_Structure";

class BarrierReader {
 public:
  explicit BarrierReader(BarrierAction& action) : action_(action) {}

  double positive(const char* name, const char* symbol, const char* unit, const std::optional<Sourced<double>>& value,
                  const std::string& what_is_missing) {
    if (!value) return refuse(what_is_missing);
    if (!std::isfinite(value->value) || value->value <= 0.0) {
      return refuse(std::string(name) + " must be greater than zero (" + describe(value->origin) + ")");
    }
    return keep(name, symbol, unit, *value);
  }

  double keep(const char* name, const char* symbol, const char* unit, const Sourced<double>& value) {
    action_.inputs.push_back({name, symbol, value.value, unit, value.origin});
    return value.value;
  }

  double refuse(const std::string& why) {
    action_.missing.push_back(why);
    return 0.0;
  }

 private:
  BarrierAction& action_;
};

void read_factors(BarrierReader& reader, BarrierAction& action, const std::string& key, const Tables& tables) {
  const auto psi0 = tables.combination_factors.number(key, "psi0");
  const auto psi2 = tables.combination_factors.number(key, "psi2");
  const auto duration = tables.combination_factors.text(key, "duration");
  if (!psi0 || !psi2 || !duration) {
    reader.refuse("no combination factor for category '" + key + "' in combination_factors.csv");
    return;
  }
  action.psi0 = reader.keep("combination factor of the barrier load", "ψ_0,B", "", *psi0);
  action.psi2 = reader.keep("quasi-permanent factor of the barrier load", "ψ_2,B", "", *psi2);
  action.duration = duration->value;
  action.inputs.push_back({"load-duration class of the barrier load", {}, duration->value, {}, duration->origin});
}

}  // namespace

std::optional<BarrierAction> read_barrier(const Panel& panel, const Settings& settings, const Tables& tables,
                                          const std::string& annex) {
  const auto given = panel.properties.number(kSet, "BarrierLineLoad");
  const auto category = panel.properties.text(kSet, "BarrierLoadCategory");
  if (!given && !category) return std::nullopt;
  BarrierAction action;
  BarrierReader reader(action);
  if (!category || category->value.empty()) {
    reader.refuse("Panel_Structure.BarrierLoadCategory of a panel with BarrierLineLoad (EN 1991-1-1 table 6.12)");
    return action;
  }
  action.inputs.push_back({"category of use behind the barrier", {}, category->value, {}, category->origin});
  const std::string key = annex + "/" + category->value;
  const auto load = given ? given : tables.barrier_loads.number(key, "line_load_n_per_m");
  action.load.n_per_m = reader.positive("characteristic horizontal load of persons on the barrier", "q_k", "N/m", load,
                                        "no barrier load for category '" + category->value + "' of national annex '" +
                                            annex + "': give Panel_Structure.BarrierLineLoad");
  auto height = panel.properties.number(kSet, "BarrierHeight");
  if (!height) height = settings.number("structural.barrier_height_m");
  action.load.height_m = reader.positive("height of the barrier load above the foot of the panel", "z_B", "m", height,
                                         "Panel_Structure.BarrierHeight or setting structural.barrier_height_m");
  if (action.load.height_m >= panel.height_m.value) {
    reader.refuse("Panel_Structure.BarrierHeight must be less than the height of the panel");
  }
  // Subcategories such as C5 differ in load only; ψ goes by the letter.
  read_factors(reader, action, annex + "/" + category->value.substr(0, 1), tables);
  return action;
}

}  // namespace panel_dossier::structural
