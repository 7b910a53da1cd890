#include "plugins/structural/basis/design_basis.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/take_off.h"
#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/basis/printed_unit.h"

namespace panel_dossier::structural {

namespace {

constexpr const char* kSet = "Panel_Structure";

class BarrierReader {
 public:
  explicit BarrierReader(BarrierAction& action) : action_(action) {}

  double positive(const char* name, const char* symbol, const PrintedUnit& unit,
                  const std::optional<Sourced<double>>& value, const std::string& what_is_missing) {
    if (!value) return refuse(what_is_missing);
    if (!std::isfinite(value->value) || value->value <= 0.0) {
      return refuse(std::string(name) + " must be greater than zero (" + describe(value->origin) + ")");
    }
    return keep(name, symbol, unit, *value);
  }

  double keep(const char* name, const char* symbol, const PrintedUnit& unit, const Sourced<double>& value) {
    action_.inputs.push_back({name, symbol, unit.of(value.value), unit.name, value.origin});
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
  action.psi0 = reader.keep("combination factor of the barrier load", "ψ_0,B", kNumber, *psi0);
  action.psi2 = reader.keep("quasi-permanent factor of the barrier load", "ψ_2,B", kNumber, *psi2);
  action.duration = duration->value;
  action.inputs.push_back({"load-duration class of the barrier load", {}, duration->value, {}, duration->origin});
}

/// Gathers values with their origins, and what is missing.
class BasisReader {
 public:
  explicit BasisReader(DesignBasis& basis) : basis_(basis) {}

  /// A finite value not below zero, else `what_is_missing` or the reason is noted and 0 returned.
  double number(const std::string& name, const char* symbol, const PrintedUnit& unit,
                const std::optional<Sourced<double>>& value, const std::string& what_is_missing) {
    if (!value) {
      basis_.missing.push_back(what_is_missing);
      return 0.0;
    }
    if (!std::isfinite(value->value) || value->value < 0.0) {
      basis_.missing.push_back(name + " must not be negative (" + describe(value->origin) + ")");
      return 0.0;
    }
    basis_.inputs.push_back({name, symbol, unit.of(value->value), unit.name, value->origin});
    return value->value;
  }

  std::string text(const char* name, const std::optional<Sourced<std::string>>& value,
                   const std::string& what_is_missing) {
    if (!value || value->value.empty()) {
      basis_.missing.push_back(what_is_missing);
      return {};
    }
    basis_.inputs.push_back({name, {}, value->value, {}, value->origin});
    return value->value;
  }

  void missing(std::string what) { basis_.missing.push_back(std::move(what)); }

 private:
  DesignBasis& basis_;
};

/// Why the annex may not be the one of the jurisdiction; empty when it is, or when no jurisdiction is set.
std::string annex_note(const std::string& annex, const Settings& settings, const Tables& tables) {
  const auto jurisdiction = settings.text("project.jurisdiction");
  if (!jurisdiction) return {};
  const std::string place = "'" + jurisdiction->value + "' (setting project.jurisdiction)";
  const std::string setting = "'" + annex + "' (setting structural.national_annex)";
  const auto belonging = tables.jurisdictions.text(jurisdiction->value, "annex");
  if (belonging && belonging->value == annex) return {};
  if (belonging) {
    return "The factors are those of " + setting + ", but the annex of " + place + " is '" + belonging->value +
           "'. The structural engineer must agree to the choice.";
  }
  return "The tables do not say which national annex belongs to " + place + "; the factors are those of " + setting +
         ". The structural engineer must agree to the choice.";
}

void read_annex(BasisReader& reader, DesignBasis& basis, const Settings& settings, const Tables& tables) {
  basis.annex = reader.text("national annex", settings.text("structural.national_annex"),
                            "setting structural.national_annex (recommended or UK)");
  if (basis.annex.empty()) return;
  const DataTable& table = tables.national_annex;
  const std::string unknown = "no parameters for national annex '" + basis.annex + "'";
  if (!table.has(basis.annex)) return reader.missing(unknown);
  const auto read = [&](const char* name, const char* symbol, const char* column) {
    return reader.number(name, symbol, kNumber, table.number(basis.annex, column), unknown);
  };
  basis.factors.permanent_unfavourable =
      read("partial factor, permanent unfavourable", "γ_G,sup", "gamma_g_unfavourable");
  basis.factors.permanent_favourable = read("partial factor, permanent favourable", "γ_G,inf", "gamma_g_favourable");
  basis.factors.variable = read("partial factor, variable", "γ_Q", "gamma_q");
  basis.annex_note = annex_note(basis.annex, settings, tables);
  basis.crack_factor = read("crack factor for shear", "k_cr", "k_cr");
  const std::string wind = basis.annex + "/W";
  basis.factors.wind_psi0 = reader.number("combination factor of wind", "ψ_0,W", kNumber,
                                          tables.combination_factors.number(wind, "psi0"), unknown);
  basis.factors.wind_psi2 = reader.number("quasi-permanent factor of wind", "ψ_2,W", kNumber,
                                          tables.combination_factors.number(wind, "psi2"), unknown);
  basis.factors.wind_duration =
      reader.text("load-duration class of wind", tables.combination_factors.text(wind, "duration"), unknown);
}

/// Without the setting (6.10), which is never less safe than the pair.
void read_rule(BasisReader& reader, DesignBasis& basis, const Settings& settings, const Tables& tables) {
  const auto rule = settings.text("structural.combination");
  if (!rule || rule->value == "6.10") return;
  if (rule->value != "6.10a and b") {
    return reader.missing("setting structural.combination is '" + rule->value + "': 6.10 or 6.10a and b");
  }
  reader.text("expressions of the ultimate combinations", rule, {});
  basis.factors.rule = UltimateRule::expressions_6_10a_and_b;
  basis.factors.permanent_reduction =
      reader.number("reduction factor of unfavourable permanent actions in (6.10b)", "ξ", kNumber,
                    tables.national_annex.number(basis.annex, "xi"), "ξ of the national annex");
}

void read_balustrade(BasisReader& reader, DesignBasis& basis, const Panel& panel, const Settings& settings,
                     const Tables& tables) {
  const auto barrier = read_barrier(panel, settings, tables, basis.annex);
  if (!barrier) return;
  for (const std::string& what : barrier->missing) reader.missing(what);
  if (!barrier->missing.empty()) return;
  basis.inputs.insert(basis.inputs.end(), barrier->inputs.begin(), barrier->inputs.end());
  basis.balustrade = barrier->load;
  basis.factors.barrier_psi0 = barrier->psi0;
  basis.factors.barrier_psi2 = barrier->psi2;
  basis.factors.barrier_duration = barrier->duration;
}

void read_wind(BasisReader& reader, DesignBasis& basis, const PartsPressure& wind) {
  if (!wind.characteristic_pa) return reader.missing(wind.why_none);
  basis.wind_pressure_pa = reader.number("wind pressure of " + kWindPressureCheck.id + ", w_1 where it is by zones",
                                         "w_k", kKilonewtonPerM2, wind.characteristic_pa, {});
}

void read_self_weight(BasisReader& reader, DesignBasis& basis, const Panel& panel, const Project& project) {
  if (!std::isfinite(panel.width_m.value) || panel.width_m.value <= 0.0) {
    return reader.missing("width of the panel must be greater than zero (" + describe(panel.width_m.origin) + ")");
  }
  if (!std::isfinite(panel.height_m.value) || panel.height_m.value <= 0.0) {
    return reader.missing("height of the panel must be greater than zero (" + describe(panel.height_m.origin) + ")");
  }
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) reader.missing("mass of the panel: " + what);
  const auto mass_kg = measured.mass_kg();
  if (!mass_kg) return;
  reader.number("mass of the panel from its parts", "m", kKilogram, Sourced<double>{*mass_kg, panel.origin}, {});
  basis.width_m = reader.number("width of the panel", "B", kMetre, panel.width_m, {});
  basis.height_m = reader.number("height of the panel", "H", kMetre, panel.height_m, {});
  // The panel stands on its foot, so the middle of the lowest span carries all that lies above it.
  const double lowest_span_m = std::min(basis.support_spacing_m.value_or(panel.height_m.value), panel.height_m.value);
  basis.self_weight_share = 1.0 - lowest_span_m / (2.0 * panel.height_m.value);
  basis.self_weight_n_per_m =
      basis.self_weight_share * *mass_kg * units::kStandardGravity_m_per_s2 / panel.width_m.value;
}

void read_category(BasisReader& reader, DesignBasis& basis, const Panel& panel, const Tables& tables) {
  const auto category =
      reader.text("category of the variable load", panel.properties.text("Panel_Structure", "VariableLoadCategory"),
                  "Panel_Structure.VariableLoadCategory (EN 1990 table A1.1)");
  if (category.empty() || basis.annex.empty()) return;
  const std::string key = basis.annex + "/" + category;
  const std::string unknown = "no combination factor for category '" + category + "' in combination_factors.csv";
  if (!tables.combination_factors.has(key)) return reader.missing(unknown);
  basis.factors.variable_psi0 = reader.number("combination factor of the variable load", "ψ_0,Q", kNumber,
                                              tables.combination_factors.number(key, "psi0"), unknown);
  basis.factors.variable_psi2 = reader.number("quasi-permanent factor of the variable load", "ψ_2,Q", kNumber,
                                              tables.combination_factors.number(key, "psi2"), unknown);
  basis.factors.variable_duration = reader.text("load-duration class of the variable load",
                                                tables.combination_factors.text(key, "duration"), unknown);
}

/// `Panel_Structure.RackingLoad of 2800 N (IfcWallType, line 9)`.
std::string stated(const char* name, const Sourced<double>& value, const char* unit) {
  return "Panel_Structure." + std::string(name) + " of " + with_unit(value.value, unit) + " (" +
         describe(value.origin) + ")";
}

/// The loads of the building that the panel states above zero.
std::vector<std::string> stated_loads(const Panel& panel) {
  struct Load {
    const char* name;
    const char* unit;
  };
  std::vector<std::string> loads;
  for (const Load& load :
       {Load{"PermanentLineLoad", "N/m"}, Load{"VariableLineLoad", "N/m"}, Load{"RackingLoad", "N"}}) {
    const auto value = panel.properties.number(kSet, load.name);
    if (value && value->value != 0.0) loads.push_back(stated(load.name, *value, load.unit));
  }
  return loads;
}

/// Why LoadBearing cannot hold beside what else is stated of the panel; empty when it can.
std::string load_bearing_contradiction(const Panel& panel) {
  const auto load_bearing = panel.load_bearing();
  const std::string loads = joined(stated_loads(panel), " and ");
  if (!load_bearing) {
    return loads.empty() ? "Pset_WallCommon.LoadBearing"
                         : "Pset_WallCommon.LoadBearing, which is absent beside " + loads;
  }
  const std::string says = std::string("Pset_WallCommon.LoadBearing is ") + (load_bearing->value ? "true" : "false") +
                           " (" + describe(load_bearing->origin) + ")";
  if (!load_bearing->value && !loads.empty()) return says + " and contradicts " + loads + ": correct one of them";
  const auto arrangement = panel.properties.text("Panel_Identity", "Arrangement");
  if (!arrangement || arrangement->value != (load_bearing->value ? "INFILL" : "LOADBEARING")) return {};
  return says + " and contradicts Panel_Identity.Arrangement " + arrangement->value + " (" +
         describe(arrangement->origin) + "): correct one of them";
}

void read_line_loads(BasisReader& reader, DesignBasis& basis, const Panel& panel, const Tables& tables) {
  if (std::string why = load_bearing_contradiction(panel); !why.empty()) return reader.missing(std::move(why));
  const auto load_bearing = panel.load_bearing();
  basis.load_bearing = load_bearing->value;
  reader.text("load-bearing", Sourced<std::string>{load_bearing->value ? "yes" : "no", load_bearing->origin}, {});
  if (!basis.load_bearing) return;
  basis.permanent_n_per_m = reader.number("characteristic permanent load on the head", "G_k", kKilonewtonPerMetre,
                                          panel.properties.number("Panel_Structure", "PermanentLineLoad"),
                                          "Panel_Structure.PermanentLineLoad of a load-bearing panel");
  const bool zero = panel.properties.number("Panel_Structure", "PermanentLineLoad") && basis.permanent_n_per_m == 0.0;
  if (zero) reader.missing("Panel_Structure.PermanentLineLoad of a load-bearing panel must be greater than zero");
  basis.variable_n_per_m = reader.number("characteristic variable load on the head", "Q_k", kKilonewtonPerMetre,
                                         panel.properties.number("Panel_Structure", "VariableLineLoad"),
                                         "Panel_Structure.VariableLineLoad of a load-bearing panel");
  if (basis.variable_n_per_m > 0.0) read_category(reader, basis, panel, tables);
}

void read_support_spacing(BasisReader& reader, DesignBasis& basis, const Panel& panel, const Settings& settings) {
  auto spacing = panel.properties.number("Panel_Structure", "SupportSpacing");
  if (!spacing) spacing = settings.number("structural.support_spacing_m");
  if (!spacing) return;
  if (!std::isfinite(spacing->value) || spacing->value <= 0.0) {
    return reader.missing("spacing of supports must be greater than zero (" + describe(spacing->origin) + ")");
  }
  basis.support_spacing_m = reader.number("spacing of the supports up the panel", "l_s", kMetre, spacing, {});
}

/// After read_self_weight, which refuses a panel without a height.
void read_projection(BasisReader& reader, DesignBasis& basis, const Panel& panel) {
  if (!basis.missing.empty()) return;
  const double height_m = panel.height_m.value;
  const auto given = panel.properties.number("Panel_Structure", "TopProjection");
  if (given && given->value >= height_m) {
    return reader.missing("Panel_Structure.TopProjection must be less than the height of the panel");
  }
  if (given) {
    basis.projection_m = reader.number("height of the panel above its highest support", "a", kMetre, given, {});
  } else if (basis.support_spacing_m) {
    basis.projection_m = height_above_last_support_m(height_m, *basis.support_spacing_m);
    if (basis.projection_m > 0.0) {
      basis.whole_spans = static_cast<int>(std::lround((height_m - basis.projection_m) / *basis.support_spacing_m));
    }
  }
  basis.top_support_m = height_m - basis.projection_m;
}

}  // namespace

std::optional<BarrierAction> read_barrier(const Panel& panel, const Settings& settings, const Tables& tables,
                                          const std::string& annex) {
  const auto given = panel.properties.number(kSet, "BarrierLineLoad");
  const auto category = panel.properties.text(kSet, "BarrierLoadCategory");
  if (!given && (!category || category->value == kNoBarrier)) return std::nullopt;
  BarrierAction action;
  BarrierReader reader(action);
  if (category && category->value == kNoBarrier) {
    reader.refuse("Panel_Structure.BarrierLoadCategory NONE (" + describe(category->origin) + ") contradicts " +
                  stated("BarrierLineLoad", *given, "N/m") + ": correct one of them");
    return action;
  }
  if (!category || category->value.empty()) {
    reader.refuse("Panel_Structure.BarrierLoadCategory of a panel with BarrierLineLoad (EN 1991-1-1 table 6.12)");
    return action;
  }
  action.inputs.push_back({"category of use behind the barrier", {}, category->value, {}, category->origin});
  const std::string key = annex + "/" + category->value;
  const auto of_category = tables.barrier_loads.number(key, "line_load_n_per_m");
  if (given && of_category && given->value < of_category->value) {
    reader.refuse(stated("BarrierLineLoad", *given, "N/m") + " is less than the " + shortest_text(of_category->value) +
                  " N/m of category " + category->value + " (" + describe(of_category->origin) +
                  "): correct one of them");
    return action;
  }
  const auto load = given ? given : of_category;
  action.load.n_per_m =
      reader.positive("characteristic horizontal load of persons on the barrier", "q_k", kKilonewtonPerMetre, load,
                      "no barrier load for category '" + category->value + "' of national annex '" + annex +
                          "': give Panel_Structure.BarrierLineLoad");
  auto height = panel.properties.number(kSet, "BarrierHeight");
  if (!height) height = settings.number("structural.barrier_height_m");
  action.load.height_m =
      reader.positive("height of the barrier load above the foot of the panel", "z_B", kMetre, height,
                      "Panel_Structure.BarrierHeight or setting structural.barrier_height_m");
  if (action.load.height_m >= panel.height_m.value) {
    reader.refuse("Panel_Structure.BarrierHeight must be less than the height of the panel");
  }
  // Subcategories such as C5 differ in load only; ψ goes by the letter.
  read_factors(reader, action, annex + "/" + category->value.substr(0, 1), tables);
  return action;
}

namespace {

/// Both, with what `more` says of an input in place of what stands in `inputs`.
std::vector<CheckInput> merged(std::vector<CheckInput> inputs, const std::vector<CheckInput>& more) {
  for (const CheckInput& one : more) {
    std::erase_if(inputs, [&](const CheckInput& held) { return held.source == one.source && held.name == one.name; });
  }
  inputs.insert(inputs.end(), more.begin(), more.end());
  return inputs;
}

}  // namespace

double height_above_last_support_m(double height_m, double spacing_m) {
  if (spacing_m >= height_m - tolerance::kModelling_m) return 0.0;
  const double above_m = height_m - std::floor((height_m + tolerance::kModelling_m) / spacing_m) * spacing_m;
  return above_m > tolerance::kModelling_m ? above_m : 0.0;
}

DesignBasis read_design_basis(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, const PartsPressure& wind) {
  DesignBasis basis;
  BasisReader reader(basis);
  read_annex(reader, basis, settings, tables);
  read_rule(reader, basis, settings, tables);
  read_wind(reader, basis, wind);
  read_support_spacing(reader, basis, panel, settings);
  read_self_weight(reader, basis, panel, project);
  read_line_loads(reader, basis, panel, tables);
  read_balustrade(reader, basis, panel, settings, tables);
  read_projection(reader, basis, panel);
  return basis;
}

std::vector<CheckInput> with_design_basis(const std::vector<CheckInput>& more) {
  const std::vector<CheckInput> inputs =
      merged(wind_inputs(), {
                                property("Pset_WallCommon.LoadBearing"),
                                optional_property("Panel_Identity.Arrangement"),
                                optional_property("Panel_Structure.RackingLoad"),
                                optional_property("Panel_Member.Holes"),
                                optional_property("Panel_Fire.ProtectionRole"),
                                optional_property("Panel_Structure.SupportSpacing"),
                                optional_property("Panel_Structure.TopProjection"),
                                property("Panel_Structure.PermanentLineLoad"),
                                property("Panel_Structure.VariableLineLoad"),
                                property("Panel_Structure.VariableLoadCategory"),
                                optional_property("Panel_Structure.BarrierLoadCategory"),
                                optional_property("Panel_Structure.BarrierLineLoad"),
                                optional_property("Panel_Structure.BarrierHeight"),
                                // One of the two gives the strength class.
                                optional_property("Pset_MaterialWood.StrengthGrade"),
                                optional_property("Panel_Timber.StrengthClass"),
                                optional_property("Panel_Timber.ServiceClass"),
                                optional_property("Pset_MaterialCommon.MassDensity"),
                                optional_property("Panel_Filling.FactoryFitted"),
                                optional_property("Panel_Filling.Mass"),
                                setting("structural.national_annex"),
                                optional_setting("structural.service_class"),
                                optional_setting("structural.support_spacing_m"),
                                optional_setting("structural.barrier_height_m"),
                                optional_setting("structural.combination"),
                                optional_setting("project.jurisdiction"),
                                data_table("national_annex.csv"),
                                data_table("jurisdictions.csv"),
                                data_table("combination_factors.csv"),
                                data_table("barrier_loads.csv"),
                                data_table("strength_classes.csv"),
                                data_table("modification_factors.csv"),
                                data_table("deformation_factors.csv"),
                            });
  return merged(inputs, more);
}

void add_inputs(FindingBuilder& builder, const std::vector<Input>& inputs) {
  for (const Input& input : inputs) {
    if (const double* number = std::get_if<double>(&input.value)) {
      builder.number(input.name, input.symbol, input.unit, Sourced<double>{*number, input.origin}, {});
    } else if (const std::string* text = std::get_if<std::string>(&input.value)) {
      builder.text(input.name, Sourced<std::string>{*text, input.origin}, {});
    }
  }
}

}  // namespace panel_dossier::structural
