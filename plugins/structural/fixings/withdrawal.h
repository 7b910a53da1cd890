// Axially loaded screws in timber: EN 1995-1-1:2004+A1:2008 8.7.2, from memory.
#pragma once

#include <optional>

namespace panel_dossier::structural {

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
