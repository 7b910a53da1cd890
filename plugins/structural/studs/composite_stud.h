// A stud with the sheets of wood-based panel that are fixed to it, as a section of EN 1995-1-1 annex B.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "plugins/structural/basis/member_resistance.h"
#include "plugins/structural/studs/composite_section.h"
#include "plugins/structural/studs/stud_system.h"

namespace panel_dossier::structural {

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
