#include "plugins/thermal/transmittance/design_values.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/thermal/transmittance/plain_layers.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kSet = "Panel_Thermal";

Value cell(const std::optional<Sourced<double>>& value) {
  return value ? Value{value->value} : Value{std::monostate{}};
}

/// By how much a reference may exceed the conductivity of the export: tables give two digits (0.13, so 3.8 %), declared
/// values whole thousandths (0.022, so 2.3 %); in per cent.
constexpr double kGreatestExcess_percent = 5.0;
/// By how much the conductivity of the export may exceed the reference before both cannot be of one product: classes of
/// the table lie up to this far apart (0.10 and 0.13, 0.14 and 0.18; common practice), in per cent.
constexpr double kGreatestMargin_percent = 30.0;

/// A reference and the conductivity of the export that differ, for a reason.
std::string against(const Material& material, double exported, const std::string& what, double reference,
                    const Origin& origin) {
  const auto value = material.thermal_conductivity_w_per_mk();
  return "'" + material.name + "' has λ " + with_unit(exported, "W/(m·K)") + " (" +
         (value ? describe(value->origin) : std::string()) + ") and " + what + " is " + fixed_text(reference, 4) +
         " (" + describe(origin) + ")";
}

/// Compares the materials one by one and keeps the greatest excess.
class DesignValueComparison {
 public:
  DesignValueComparison(const Project& project, const Settings& settings, const Tables& tables, FindingBuilder& builder)
      : settings_(settings), tables_(tables), builder_(builder) {
    declared_count_ = static_cast<std::size_t>(std::count_if(project.materials.begin(), project.materials.end(),
                                                             [](const Material& m) { return declared(m); }));
  }

  /// `insulates`: it is the material of an insulation layer, on which U rests most.
  void compare(const Material& material, bool insulates) {
    const auto design_class = class_of(material);
    if (!design_class && !declared(material)) {
      if (insulates) {
        builder_.missing("insulation '" + material.name +
                         "' names neither its declared value (Panel_Thermal.DeclaredConductivity) nor its class "
                         "(Panel_Thermal.DesignValueClass or setting thermal.design_value_classes.NAME)");
      }
      return;
    }
    const auto exported = builder_.positive(
        "thermal conductivity of '" + material.name + "'", "λ", "W/(m·K)", material.thermal_conductivity_w_per_mk(),
        "material '" + material.name + "' has no Pset_MaterialThermal.ThermalConductivity");
    if (!exported) return;
    if (design_class) compare_with_table(material, *exported, *design_class);
    if (declared(material)) compare_with_declared(material, *exported);
  }

  Finding close() {
    if (compared_ == 0 && !builder_.incomplete()) {
      builder_.missing(
          "no material names its class (Panel_Thermal.DesignValueClass or setting thermal.design_value_classes.NAME) "
          "or its declared value (Panel_Thermal.DeclaredConductivity)");
    }
    builder_.step("comparisons", "n", compared_, "");
    if (!tabulated_.rows.empty()) builder_.table(std::move(tabulated_));
    if (!converted_.rows.empty()) builder_.table(std::move(converted_));
    builder_.note(
        "A value in the export that lies below the tabulated one makes U smaller and needs a declaration that covers "
        "the product; the converted declared value goes before the table. Declared values are those that 90 % of "
        "production keeps with 90 % confidence; the conversion keeps that fractile (EN ISO 10456:2007, 6). Up to 5 % "
        "is rounding of the figures.");
    if (!too_good_.empty() && !builder_.incomplete()) {
      return builder_.judge(greatest_excess_percent_, "%", Relation::at_most, kGreatestExcess_percent,
                            joined(too_good_, "; ") + ": work out U with the converted value");
    }
    for (const std::string& what : apart_) builder_.missing(what);
    for (const std::string& what : too_good_) builder_.missing(what);
    if (!unproved_.empty() && !builder_.incomplete()) {
      return builder_.needs_evidence(joined(unproved_, "; ") +
                                     ": name the declared value of the product (Panel_Thermal.DeclaredConductivity) or "
                                     "work out U with the table's");
    }
    for (const std::string& what : unproved_) builder_.missing(what);
    return builder_.judge(greatest_excess_percent_, "%", Relation::at_most, kGreatestExcess_percent, {});
  }

 private:
  const Settings& settings_;
  const Tables& tables_;
  FindingBuilder& builder_;
  std::size_t declared_count_ = 0;
  std::size_t declared_read_ = 0;
  int compared_ = 0;
  double greatest_excess_percent_ = 0.0;
  std::vector<std::string> too_good_;  ///< better than their own declaration
  std::vector<std::string> unproved_;  ///< better than the table, without a declaration
  std::vector<std::string> apart_;     ///< far worse than the reference
  Table tabulated_{"Design values of the export beside EN ISO 10456 table 3",
                   {{"material", ""},
                    {"class", ""},
                    {"λ export", "W/(m·K)"},
                    {"λ table", "W/(m·K)"},
                    {"μ export", ""},
                    {"μ dry", ""},
                    {"μ wet", ""}},
                   {}};
  Table converted_{"Declared values converted to design conditions",
                   {{"material", ""},
                    {"λ_D", "W/(m·K)"},
                    {"F_T", ""},
                    {"F_m", ""},
                    {"F_a", ""},
                    {"λ converted", "W/(m·K)"},
                    {"λ export", "W/(m·K)"}},
                   {}};

  static bool declared(const Material& material) {
    return material.properties.find(kSet, "DeclaredConductivity") != nullptr;
  }

  /// Of the material that is being read, numbered where several are converted.
  std::string symbol(const char* of_one) const { return numbered_symbol(of_one, declared_read_ - 1, declared_count_); }

  std::optional<std::string> class_of(const Material& material) {
    const std::string name = "class of design values of '" + material.name + "'";
    if (const auto own = material.properties.text(kSet, "DesignValueClass")) return builder_.text(name, own, {});
    const auto set = settings_.text("thermal.design_value_classes." + material.name);
    if (!set) return std::nullopt;
    return builder_.text(name, set, {});
  }

  /// `unless_below` takes the text where the reference exceeds the conductivity of the export.
  void count(const Material& material, double exported, const std::string& what, double reference, const Origin& origin,
             std::vector<std::string>& unless_below) {
    ++compared_;
    const double excess_percent = 100.0 * (reference / exported - 1.0);
    greatest_excess_percent_ = std::max(greatest_excess_percent_, excess_percent);
    if (excess_percent > kGreatestExcess_percent) {
      unless_below.push_back(against(material, exported, what, reference, origin));
    }
    if (100.0 * (exported / reference - 1.0) > kGreatestMargin_percent) {
      apart_.push_back(against(material, exported, what, reference, origin) + ": they cannot be of one product");
    }
  }

  void compare_with_table(const Material& material, double exported, const std::string& row) {
    const auto& table = tables_.design_values;
    const auto cell_of_row = table.number(row, "conductivity_w_per_mk");
    const auto tabulated =
        builder_.positive("tabulated thermal conductivity of '" + row + "'", "λ", "W/(m·K)", cell_of_row,
                          "design_values.csv has no row '" + row + "', the class of '" + material.name + "'");
    if (!tabulated) return;
    tabulated_.rows.push_back({material.name, row, exported, *tabulated, cell(material.vapour_resistance_factor()),
                               cell(table.number(row, "mu_dry")), cell(table.number(row, "mu_wet"))});
    // A declaration of the product says more than the table of its class.
    if (declared(material)) return;
    count(material, exported, "the table's value of '" + row + "'", *tabulated, cell_of_row->origin, unproved_);
  }

  /// None when something is missing.
  std::optional<ConversionCoefficients> coefficients_of(const Material& material) {
    const auto row = builder_.text("class of conversion of '" + material.name + "'",
                                   material.properties.text(kSet, "ConversionClass"),
                                   "material '" + material.name + "' has no Panel_Thermal.ConversionClass");
    if (!row) return std::nullopt;
    const auto& table = tables_.design_value_conversions;
    const std::string absent = "design_value_conversions.csv has no row '" + *row + "'";
    const auto temperature = builder_.number("conversion coefficient for temperature", symbol("f_T"), "1/K",
                                             table.number(*row, "ft_per_k"), absent);
    if (!temperature) return std::nullopt;
    const auto moisture =
        builder_.number("conversion coefficient for moisture", symbol("f_ψ"), "", table.number(*row, "fpsi"), absent);
    const auto greatest = builder_.number("moisture by volume up to which it holds", symbol("ψ"), "m³/m³",
                                          table.number(*row, "psi_max"), absent);
    if (!moisture || !greatest) return std::nullopt;
    return ConversionCoefficients{*temperature, *moisture, *greatest};
  }

  /// Declared and design conditions; moisture is converted only where the export states both contents.
  std::optional<std::pair<MaterialConditions, MaterialConditions>> conditions_of(const Material& material) {
    const auto declared = builder_.number("temperature of the declared value of '" + material.name + "'", symbol("T_1"),
                                          "°C", material.properties.number(kSet, "DeclaredTemperature"),
                                          "material '" + material.name + "' has no Panel_Thermal.DeclaredTemperature");
    const auto design = builder_.number("mean temperature in use", symbol("T_2"), "°C",
                                        settings_.number("thermal.design_mean_temperature_c"),
                                        "setting 'thermal.design_mean_temperature_c' is missing");
    if (!declared || !design) return std::nullopt;
    MaterialConditions from{*declared, 0.0};
    MaterialConditions to{*design, 0.0};
    const auto dry = material.properties.number(kSet, "DeclaredMoisture");
    const auto wet = material.properties.number(kSet, "DesignMoisture");
    if (!dry || !wet) {
      builder_.note("'" + material.name +
                    "': moisture is not converted; that takes Panel_Thermal.DeclaredMoisture and DesignMoisture.");
      return std::pair{from, to};
    }
    from.moisture_m3_per_m3 =
        builder_.number("moisture of the declared value", symbol("ψ_1"), "m³/m³", dry, {}).value_or(0.0);
    to.moisture_m3_per_m3 = builder_.number("moisture in use", symbol("ψ_2"), "m³/m³", wet, {}).value_or(0.0);
    return std::pair{from, to};
  }

  bool moisture_in_range(const Material& material, const ConversionCoefficients& coefficients,
                         const MaterialConditions& from, const MaterialConditions& to) {
    const auto fits = [&](double moisture) {
      return moisture >= 0.0 && moisture <= coefficients.greatest_moisture_m3_per_m3;
    };
    if (fits(from.moisture_m3_per_m3) && fits(to.moisture_m3_per_m3)) return true;
    builder_.missing("Panel_Thermal.DeclaredMoisture and DesignMoisture of '" + material.name +
                     "' must lie between 0 and the " + fixed_text(coefficients.greatest_moisture_m3_per_m3, 2) +
                     " m³/m³ up to which the coefficient holds");
    return false;
  }

  /// F_a; 1 where the export gives none, as the declared values of mineral wool and of other products without a blowing
  /// agent hold for their life.
  std::optional<double> ageing_factor_of(const Material& material) {
    const auto factor = material.properties.number(kSet, "AgeingFactor");
    if (!factor) {
      builder_.note(
          "'" + material.name +
          "': no ageing is converted (F_a = 1): declared values to a harmonised product standard include it.");
      return 1.0;
    }
    return builder_.positive("conversion factor for ageing of '" + material.name + "'", symbol("F_a"), "", factor, {});
  }

  /// In the symbols of the inputs; a factor that is not converted is left out.
  std::string conversion_formula(const Material& material) const {
    const auto has = [&](const char* name) { return material.properties.number(kSet, name).has_value(); };
    std::string formula = symbol("λ_2") + " = " + symbol("λ_D") + " · exp(" + symbol("f_T") + " · (" + symbol("T_2") +
                          " − " + symbol("T_1") + "))";
    if (has("DeclaredMoisture") && has("DesignMoisture")) {
      formula += " · exp(" + symbol("f_ψ") + " · (" + symbol("ψ_2") + " − " + symbol("ψ_1") + "))";
    }
    if (has("AgeingFactor")) formula += " · " + symbol("F_a");
    return formula;
  }

  void compare_with_declared(const Material& material, double exported) {
    ++declared_read_;
    const auto declared =
        builder_.positive("declared thermal conductivity of '" + material.name + "'", symbol("λ_D"), "W/(m·K)",
                          material.properties.number(kSet, "DeclaredConductivity"),
                          "Panel_Thermal.DeclaredConductivity of '" + material.name + "' is not a number");
    const auto coefficients = coefficients_of(material);
    const auto conditions = conditions_of(material);
    const auto ageing = ageing_factor_of(material);
    if (!declared || !coefficients || !conditions || !ageing) return;
    const auto& [from, to] = *conditions;
    if (!moisture_in_range(material, *coefficients, from, to)) return;
    const double converted = converted_conductivity(*declared, *coefficients, from, to, *ageing);
    builder_.step("converted thermal conductivity of '" + material.name + "'", symbol("λ_2"), converted, "W/(m·K)",
                  conversion_formula(material));
    converted_.rows.push_back({material.name, *declared, temperature_factor(*coefficients, from, to),
                               moisture_factor(*coefficients, from, to), *ageing, converted, exported});
    count(material, exported, "its declared value converted to the conditions in use", converted,
          material.properties.number(kSet, "DeclaredConductivity")->origin, too_good_);
  }
};

std::set<std::size_t> insulation_materials(const Project& project) {
  std::set<std::size_t> found;
  for (const Panel& panel : project.panels) {
    for (const Layer& layer : panel.layers) {
      if (is_insulating(layer, project)) found.insert(*layer.material);
    }
  }
  return found;
}

}  // namespace

double temperature_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                          const MaterialConditions& to) {
  return std::exp(coefficients.temperature_per_k * (to.temperature_c - from.temperature_c));
}

double moisture_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                       const MaterialConditions& to) {
  return std::exp(coefficients.moisture * (to.moisture_m3_per_m3 - from.moisture_m3_per_m3));
}

double converted_conductivity(double conductivity_w_per_mk, const ConversionCoefficients& coefficients,
                              const MaterialConditions& from, const MaterialConditions& to, double ageing_factor) {
  return conductivity_w_per_mk * temperature_factor(coefficients, from, to) * moisture_factor(coefficients, from, to) *
         ageing_factor;
}

const CheckDeclaration kDesignValuesCheck{
    .id = "thermal.design_values",
    .title = "Thermal conductivities beside tabulated and converted design values",
    .sentence =
        "The converted declared conductivity of each material, or where none is declared that of the table, exceeds "
        "the "
        "one of the export by at most 5 %; the value is the greatest excess, 0 where there is none.",
    .clause = "EN ISO 10456:2007, 7 and table 3",
    .units = {"%"},
    .kind = CheckKind::limit,
    .scope = CheckScope::project,
    .inputs = {property("Pset_MaterialThermal.ThermalConductivity"),
               optional_property("Pset_MaterialHygroscopic.UpperVaporResistanceFactor"),
               optional_property("Panel_Thermal.DesignValueClass"),
               optional_property("Panel_Thermal.DeclaredConductivity"),
               optional_property("Panel_Thermal.DeclaredTemperature"),
               optional_property("Panel_Thermal.DeclaredMoisture"), optional_property("Panel_Thermal.DesignMoisture"),
               optional_property("Panel_Thermal.ConversionClass"), optional_property("Panel_Thermal.AgeingFactor"),
               optional_setting("thermal.design_value_classes.*"),
               optional_setting("thermal.design_mean_temperature_c"), data_table("design_values.csv"),
               data_table("design_value_conversions.csv")},
    .limits = {"Materials other than insulation, without a class and without a declared value, are not compared.",
               "Moisture by mass (f_u) is not converted.",
               "U is worked out with the conductivity of the export, whatever this check finds."}};

Finding check_design_values(const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kDesignValuesCheck, "");
  builder.decimals(1);
  DesignValueComparison comparison(project, settings, tables, builder);
  const std::set<std::size_t> insulation = insulation_materials(project);
  for (std::size_t i = 0; i < project.materials.size(); ++i) {
    comparison.compare(project.materials[i], insulation.count(i) > 0);
  }
  return comparison.close();
}

}  // namespace panel_dossier::thermal
