// Dynamic thermal characteristics of one panel for a period of a day: heat through layers under temperatures that swing
// as a sine, by heat transfer matrices.
#pragma once

#include <array>
#include <complex>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

/// A layer with heat capacity, or, with `density_kg_per_m3` 0, a plain resistance (air layers, surfaces).
struct PeriodicLayer {
  double resistance_m2k_per_w = 0.0;  ///< at least 0; above 0 where the layer has capacity
  double thickness_m = 0.0;
  double density_kg_per_m3 = 0.0;
  double specific_heat_j_per_kgk = 0.0;
};

/// Takes the complex amplitudes of temperature and heat flow density on the inside of a layer to those on its outside
/// (EN ISO 13786:2017, 7.2). Its determinant is 1.
struct HeatTransferMatrix {
  std::complex<double> z11{1.0, 0.0};
  std::complex<double> z12{0.0, 0.0};
  std::complex<double> z21{0.0, 0.0};
  std::complex<double> z22{1.0, 0.0};
};

HeatTransferMatrix layer_matrix(const PeriodicLayer& layer, double period_s);

/// Z of `layers`, from inside, each multiplied from the left.
HeatTransferMatrix component_matrix(const std::vector<PeriodicLayer>& layers, double period_s);

/// From environment to environment: `layers` holds the surfaces too.
struct DynamicCharacteristics {
  std::complex<double> periodic_transmittance;  ///< Y_ie in W/(m²·K) = −1 / Z12
  double steady_transmittance = 0.0;            ///< U_0 in W/(m²·K)
  double decrement_factor = 0.0;                ///< f = |Y_ie| / U_0
  double time_shift_s = 0.0;             ///< of Y_ie, from −period to 0: the flow outside comes that much later
  double internal_areal_capacity = 0.0;  ///< κ_1 in J/(m²·K)
  double external_areal_capacity = 0.0;  ///< κ_2 in J/(m²·K)
};

/// `layers` have a resistance together, `period_s` is above 0.
DynamicCharacteristics dynamic_characteristics(const std::vector<PeriodicLayer>& layers, double period_s);

extern const CheckDeclaration kDynamicTransmittanceCheck;
extern const CheckDeclaration kDecrementCheck;
extern const CheckDeclaration kArealHeatCapacityCheck;

/// `thermal.dynamic_transmittance`, `thermal.decrement` and `thermal.areal_heat_capacity` (EN ISO 13786:2017, 7), as
/// information. All are those of the largest section; thermal bridges are left out of dynamic characteristics.
std::vector<Finding> check_dynamic_characteristics(const Panel& panel, const Project& project,
                                                   const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
