// The resistance of nails and screws: in single shear through a panel into timber, and of screws pulled out of it,
// EN 1995-1-1:2004+A1:2008 8.2.2, 8.3.1 and 8.7.2, from memory.
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace panel_dossier::structural {

/// One shear plane; m, N, Pa. Member 1 is the panel on the head side, member 2 the timber with the point.
struct ShearPlane {
  double thickness_m = 0.0;          ///< t1, > 0
  double penetration_m = 0.0;        ///< t2, > 0
  double diameter_m = 0.0;           ///< d, > 0
  double panel_embedment_pa = 0.0;   ///< fh,1,k
  double timber_embedment_pa = 0.0;  ///< fh,2,k
  double yield_moment_nm = 0.0;      ///< My,Rk
  double withdrawal_n = 0.0;         ///< Fax,Rk; 0 when it is not known, 8.2.2(2)
  double rope_limit = 0.0;           ///< largest share of the Johansen part that the rope effect may add, 8.2.2(2)
};

/// One of the six modes of expression (8.6).
struct FailureMode {
  char name = 'a';
  double johansen_n = 0.0;  ///< without the rope effect
  double rope_n = 0.0;      ///< Fax,Rk/4 within its limit; 0 for modes a and b

  double total_n() const { return johansen_n + rope_n; }
};

/// Modes a to f of expression (8.6), characteristic.
std::array<FailureMode, 6> failure_modes(const ShearPlane& plane);
const FailureMode& governing_mode(const std::array<FailureMode, 6>& modes);

/// fh,k in Pa of a panel under nails or screws with a head of at least 2·d: plywood (8.20), hardboard excluded,
/// particleboard and OSB (8.22). None for another product, or plywood without density in kg/m³. Sizes in m.
std::optional<double> panel_embedment_pa(std::string_view product, double diameter_m, double thickness_m,
                                         std::optional<double> density_kg_per_m3);

/// fh,k in Pa of timber without predrilled holes, (8.15).
double timber_embedment_pa(double density_kg_per_m3, double diameter_m);

/// My,Rk in Nm of round nails, and of screws up to 6 mm by 8.7.1(5): 0.3·fu·d^2.6, (8.14).
double yield_moment_nm(double tensile_strength_pa, double diameter_m);

/// A group of screws at right angles to the grain, loaded along their axes; m, kg/m³, Pa.
struct ScrewGroup {
  double count = 1.0;              ///< n >= 1
  double diameter_m = 0.0;         ///< d, outer diameter of the thread, 6 mm to 12 mm
  double penetration_m = 0.0;      ///< l_ef of the thread, at least 6·d
  double density_kg_per_m3 = 0.0;  ///< ρ_k of the timber
};

struct Withdrawal {
  double strength_pa = 0.0;      ///< f_ax,k = 0.52·d^−0.5·l_ef^−0.1·ρ_k^0.8, (8.39)
  double diameter_factor = 0.0;  ///< k_d = min(d/8; 1), (8.40)
  double effective_count = 0.0;  ///< n_ef = n^0.9, (8.41)
  double resistance_n = 0.0;     ///< F_ax,Rk of the group, (8.38) with α = 90°
};

/// None outside the range of the expression.
std::optional<Withdrawal> withdrawal(const ScrewGroup& screws);

/// Pull of the head through the board, F_ax,Rk = n_ef·f_head,k·d_h² in N (8.40b without the correction of density):
/// f_head,k in Pa and d_h in m, both declared for the screw and the board.
double pull_through_n(double effective_count, double head_strength_pa, double head_diameter_m);

}  // namespace panel_dossier::structural
