// Mechanically jointed sections of up to three layers: EN 1995-1-1:2004+A1:2008 annex B, from memory.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace panel_dossier::structural {

/// A rectangle of a composite section; m, Pa, N/m. A layer that is not there has the width 0.
struct CompositeLayer {
  double width_m = 0.0;
  double depth_m = 0.0;  ///< in the direction of bending
  double modulus_pa = 0.0;
  double slip_modulus_n_per_m = 0.0;  ///< K of a fastener between this layer and the middle one; unused for that
  double spacing_m = 0.0;             ///< s of the fasteners, likewise; > 0 for a layer that is there

  double area_m2() const { return width_m * depth_m; }
  double second_moment_m4() const { return width_m * depth_m * depth_m * depth_m / 12.0; }
};

/// Layers 1 to 3 of figure B.1, the middle one is the web and always there.
using CompositeLayers = std::array<CompositeLayer, 3>;
inline constexpr std::size_t kWeb = 1;

/// What the section does in bending.
struct CompositeSection {
  CompositeLayers layers;
  std::array<double, 3> cooperation{};  ///< γi, (B.5); 1 for the web
  std::array<double, 3>
      distance_m{};            ///< ai: centre of the layer from the neutral axis, not below 0 for flanges, (B.6)
  double stiffness_nm2 = 0.0;  ///< (EI)ef, (B.1)

  double normal_stress_pa(std::size_t layer, double moment_nm) const;   ///< σi at the centre of the layer, (B.7)
  double bending_stress_pa(std::size_t layer, double moment_nm) const;  ///< σm,i from centre to edge, (B.8)
  double fastener_load_n(std::size_t layer, double shear_n) const;      ///< Fi on one fastener of a flange, (B.10)
};

/// `span_m` > 0: the span of a simple beam, 0.8 of that of a continuous one, twice the length of a cantilever, B.1.2.
CompositeSection composite_section(const CompositeLayers& layers, double span_m);

/// Kser in N/m of one nail without a predrilled hole or one screw in one shear plane, table 7.1. Mean density of both
/// members (√(ρm,1·ρm,2), 7.1(2)) in kg/m³, diameter in m.
double slip_modulus_n_per_m(bool screw, double mean_density_kg_per_m3, double diameter_m);

/// Ku of the ultimate limit state over Kser, (2.1).
inline constexpr double kUltimateSlip = 2.0 / 3.0;

/// Largest effective width of a flange beside the web, both sides together, table 9.1.
struct FlangeLimits {
  double shear_lag_m = 0.0;
  double buckling_m = 0.0;  ///< of the plate, when compressed
};
/// None for a product that the table does not name. Plywood: the smaller values, for whichever way its outer plies run.
std::optional<FlangeLimits> flange_limits(std::string_view product, double span_m, double thickness_m);

}  // namespace panel_dossier::structural
