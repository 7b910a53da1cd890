// A stud with the sheets of wood-based panel that are fixed to it, as a mechanically jointed section of up to three
// layers: EN 1995-1-1:2004+A1:2008 annex B, from memory.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "plugins/structural/basis/member_resistance.h"
#include "plugins/structural/studs/stud_system.h"

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

/// The sheets on one face of one stud. Characteristic strengths and mean moduli, Pa.
struct CompositeFace {
  bool inside = true;
  std::string product;
  bool screws = false;   ///< else nails
  double width_m = 0.0;  ///< bef, with what lies on the stud, (9.12)
  double thickness_m = 0.0;
  FlangeLimits limits;
  std::size_t edge_rows = 0;            ///< rows of fasteners at edges of sheets on this stud; 0: one row between edges
  double spacing_m = 0.0;               ///< s of a row over the number of rows
  double mean_density_kg_per_m3 = 0.0;  ///< √(ρm,1·ρm,2)
  double slip_modulus_n_per_m = 0.0;    ///< Kser
  double modulus_pa = 0.0;
  double bending_pa = 0.0;
  double tension_pa = 0.0;
  double compression_pa = 0.0;
  double deformation_factor = 0.0;                     ///< kdef of the sheet
  double connection_deformation_factor = 0.0;          ///< 2·√(kdef,1·kdef,2), (2.13)
  std::map<std::string, double> modification_factors;  ///< kmod of the sheet by load-duration class
  double partial_factor = 0.0;
  double fastener_n = 0.0;  ///< Fv,Rk
  double connection_partial_factor = 0.0;

  std::size_t layer() const { return inside ? 0 : 2; }      ///< index into CompositeLayers
  std::string index() const { return inside ? "1" : "3"; }  ///< of the layer, as annex B counts
};

struct CompositeStud {
  std::vector<CompositeFace> faces;  ///< one or two, inside first
  Section web;
  double web_modulus_pa = 0.0;
  double web_deformation_factor = 0.0;
  double span_m = 0.0;  ///< of annex B

  /// Layers 1 and 3 are the inner and the outer sheet. `slip`: K over Kser. `creep`: share ψ of the load that creeps,
  /// moduli are those of (2.7) to (2.12); 0 gives the initial state, 1 the final one of the serviceability limit state.
  CompositeSection section(double slip, double creep) const;
  /// Creep of the deflection as a share of the initial one: (EI)ef,inst / (EI)ef,fin − 1, in place of kdef.
  double creep_factor() const;
};

/// Design strengths of one face under one load duration, Pa and N.
struct CompositeFaceStrength {
  double normal_pa = 0.0;  ///< the smaller of tension and compression, for wind both ways
  double bending_pa = 0.0;
  double fastener_n = 0.0;
};

/// A stud with its sheets under one combination. Initial and final state are both looked at, each part in its worse.
struct CompositeCheck {
  double creep = 0.0;  ///< ψ2 of the leading action across the stud
  CompositeSection initial;
  CompositeSection final;
  CompositeSection stud_state;  ///< the one of both in which the stud is worse
  double stud_normal_pa = 0.0;
  double stud_bending_pa = 0.0;
  double stud_utilisation = 0.0;  ///< σ2/ft,0,d + σm,2/fm,d
  std::size_t sheet_face = 0;     ///< face whose sheet is used most
  double sheet_normal_pa = 0.0;
  double sheet_bending_pa = 0.0;
  CompositeFaceStrength sheet_strength;
  double sheet_utilisation = 0.0;  ///< σi/f + σm,i/fm,d
  std::size_t fastener_face = 0;   ///< face whose fasteners are used most
  double fastener_load_n = 0.0;
  double fastener_resistance_n = 0.0;
  double fastener_utilisation = 0.0;

  double utilisation() const;
};

/// Of a face, with kmod of the timber for that duration. Throws std::out_of_range for a duration that is not in
/// table 3.1.
CompositeFaceStrength face_strength(const CompositeFace& face, double timber_modification, const std::string& duration);

/// `strengths` has one entry a face. `tension_design_pa`: ft,0,d of the stud.
CompositeCheck verify_composite(const CompositeStud& stud, const std::vector<CompositeFaceStrength>& strengths,
                                double bending_design_pa, double tension_design_pa, const Forces& forces, double creep);

/// ℓ of B.1.2; precondition: the system has a span. With several spans or a projecting head the smallest of
/// 0.8 times each span and twice the projection.
double composite_span_m(const StudSystem& system);

/// Composite action of all members of a panel.
struct CompositeDesign {
  bool asked = false;                                 ///< setting structural.composite_sheathing is `annex B`
  std::vector<std::optional<CompositeStud>> members;  ///< one a member when complete; none: the stud alone
  std::vector<std::string> alone;                     ///< one a member: why it is taken without sheets; else empty
  std::vector<Input> inputs;
  std::vector<std::string> notes;
  std::vector<std::string> missing;  ///< not empty: all members are taken without sheets

  const CompositeStud* of(std::size_t member) const {
    return member < members.size() && members[member] ? &*members[member] : nullptr;
  }
};

}  // namespace panel_dossier::structural
