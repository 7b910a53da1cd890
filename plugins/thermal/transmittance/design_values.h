// The design values of the export beside tabulated ones and those converted from declared values.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// Temperature and moisture content by volume at which a conductivity holds.
struct MaterialConditions {
  double temperature_c = 0.0;
  double moisture_m3_per_m3 = 0.0;
};

/// f_T in 1/K and f_ψ of a material, f_ψ for moisture by volume (f_u is that for moisture by mass).
struct ConversionCoefficients {
  double temperature_per_k = 0.0;
  double moisture = 0.0;
  double greatest_moisture_m3_per_m3 = 0.0;  ///< ψ up to which f_ψ holds
};

/// F_T = exp(f_T · (T_2 − T_1)) (EN ISO 10456:2007, 7.2).
double temperature_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                          const MaterialConditions& to);

/// F_m = exp(f_ψ · (ψ_2 − ψ_1)) (EN ISO 10456:2007, 7.3).
double moisture_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                       const MaterialConditions& to);

/// λ_2 = λ_1 · F_T · F_m · F_a in W/(m·K) (EN ISO 10456:2007, 7.1). `ageing_factor` F_a is 1 where the declared value
/// already holds for an aged product (7.4).
double converted_conductivity(double conductivity_w_per_mk, const ConversionCoefficients& coefficients,
                              const MaterialConditions& from, const MaterialConditions& to, double ageing_factor);

extern const CheckDeclaration kDesignValuesCheck;

/// `thermal.design_values` of the project: by how many per cent the tabulated (EN ISO 10456:2007, table 3) or converted
/// conductivity exceeds the one in the export, at most. A material is compared when Panel_Thermal.DesignValueClass, or
/// the setting `thermal.design_value_classes.NAME`, names its row, and converted when it has
/// Panel_Thermal.DeclaredConductivity and ConversionClass; then the converted value counts. More than 5 % over the
/// converted value fails, over the table's alone needs evidence; a value of the export more than 30 % above its
/// reference is not assessed. So are insulation without any reference, a project in which nothing is compared, and
/// anything named that is missing.
Finding check_design_values(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
