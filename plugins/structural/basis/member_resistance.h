// A timber member in bending about its strong axis (y), compression and shear to EN 1995-1-1:2004+A1:2008: a rectangle,
// one weakened by holes or notches, or another outline.
#pragma once

#include <optional>

namespace panel_dossier::structural {

/// A section that is the same all along a member and no full rectangle, about its centre of area; it has an axis of
/// symmetry along b or h.
struct SectionOutline {
  double area_m2 = 0.0;
  double second_moment_m4 = 0.0;       ///< about y, for bending in the direction of h
  double section_modulus_m3 = 0.0;     ///< the smaller of both edges
  double weak_second_moment_m4 = 0.0;  ///< about z
  double weak_modulus_m3 = 0.0;        ///< likewise
  double shear_area_m2 = 0.0;          ///< Av: the least of 1.5·I·b/S over both directions, so that τ = 1.5·V/Av
};

/// b across, h in the direction of bending; both > 0, in m. At most one of hole, notch and outline weakens it; 0 where
/// it does not.
struct Section {
  double width_m = 0.0;
  double depth_m = 0.0;
  double depth_hole_m = 0.0;     ///< do of a hole through b, in the middle of h
  double width_hole_m = 0.0;     ///< do of a hole through h, in the middle of b
  double notched_depth_m = 0.0;  ///< hef that a notch between the ends leaves of h
  double notched_width_m = 0.0;  ///< bef that one leaves of b
  double end_depth_m = 0.0;      ///< he that a notch at a supported end leaves of h
  double end_notch_m = 0.0;      ///< x, length of that notch
  std::optional<SectionOutline> outline = {};

  bool whole() const;                    ///< a full rectangle over the whole length
  double area_m2() const;                ///< where it is least
  double section_modulus_m3() const;     ///< likewise, for bending in the direction of h
  double weak_modulus_m3() const;        ///< likewise, in the direction of b
  double shear_area_m2() const;          ///< likewise, for τ = 1.5·V/A; without a notched end
  double second_moment_m4() const;       ///< of the length without hole and notch, in the direction of h
  double weak_second_moment_m4() const;  ///< likewise, in the direction of b
  double radius_m() const;               ///< of gyration, likewise, in the direction of h
  double weak_radius_m() const;          ///< likewise, in the direction of b
};

/// Characteristic values in Pa with the factors that make design values of them.
struct Resistance {
  double bending_pa = 0.0;               ///< fm,k
  double compression_parallel_pa = 0.0;  ///< fc,0,k
  double tension_parallel_pa = 0.0;      ///< ft,0,k
  double shear_pa = 0.0;                 ///< fv,k
  double modulus_fifth_pa = 0.0;         ///< E0,05
  double modification_factor = 1.0;      ///< kmod
  double partial_factor = 1.0;           ///< γM
  double depth_factor = 1.0;             ///< kh, bending only
  double system_factor = 1.0;            ///< ksys, strengths but not stiffness
  double crack_factor = 1.0;             ///< kcr
  double straightness_factor = 0.2;      ///< βc
  double notch_factor = 5.0;             ///< kn of 6.5.2: 5.0 solid timber, 6.5 glued laminated timber

  double bending_design_pa() const;      ///< fm,d = kh·ksys·kmod·fm,k/γM
  double compression_design_pa() const;  ///< fc,0,d = ksys·kmod·fc,0,k/γM
  double tension_design_pa() const;      ///< ft,0,d = ksys·kmod·ft,0,k/γM, kh left at 1
  double shear_design_pa() const;        ///< fv,d = ksys·kmod·fv,k/γM
};

struct Restraint {
  double buckling_length_y_m = 0.0;    ///< about the strong axis, through the wall
  double buckling_length_z_m = 0.0;    ///< about the weak axis, along the wall; unused when restrained
  bool restrained_along_wall = false;  ///< no buckling about the weak axis
  bool compression_edge_held = false;  ///< no lateral torsional buckling
};

struct Forces {
  double axial_n = 0.0;    ///< Nd, compression positive
  double moment_nm = 0.0;  ///< My,d
  double shear_n = 0.0;    ///< Vd
};

/// kv of (6.62) for a square notch (i = 0) at a support, on the side of the support: `notch_factor` is kn.
double notched_shear_factor(double depth_m, double left_depth_m, double notch_length_m, double notch_factor);

/// λrel = λ/π · √(fc,0,k/E0,05), expressions (6.21) and (6.22); λ > 0.
double relative_slenderness(double slenderness, double compression_parallel_pa, double modulus_fifth_pa);

/// kc of expressions (6.25) to (6.29); 1 up to λrel = 0.3.
double buckling_factor(double relative_slenderness, double straightness_factor);

inline constexpr double kNoLateralBuckling = 0.75;      ///< λrel,m up to which kcrit is 1, (6.34)
inline constexpr double kElasticLateralBuckling = 1.4;  ///< λrel,m beyond which kcrit is 1/λrel,m², (6.34)
inline constexpr double kNoBuckling = 0.3;              ///< λrel up to which kc is 1, 6.3.2(2)

/// kcrit of expression (6.34); relative slenderness in bending >= 0.
double lateral_buckling_factor(double relative_slenderness_in_bending);

struct BendingVerification {
  double stress_pa = 0.0;    ///< σm,y,d
  double strength_pa = 0.0;  ///< fm,y,d
  double utilisation = 0.0;  ///< (6.11) with no bending about z
};

/// EN 1995-1-1 6.1.6.
BendingVerification verify_bending(const Section& section, const Resistance& resistance, const Forces& forces);

struct ShearVerification {
  double stress_pa = 0.0;    ///< τd on the effective width kcr·b
  double strength_pa = 0.0;  ///< fv,d, or kv·fv,d at a notched end
  double utilisation = 0.0;  ///< (6.13), or (6.60) at a notched end
  double notched_end = 0.0;  ///< kv where a notched end governs; else 0
};

/// EN 1995-1-1 6.1.7, and 6.5.2 where an end is notched.
ShearVerification verify_shear(const Section& section, const Resistance& resistance, const Forces& forces);

struct StabilityVerification {
  double compression_stress_pa = 0.0;    ///< σc,0,d
  double compression_strength_pa = 0.0;  ///< fc,0,d
  double slenderness_y = 0.0;
  double slenderness_z = 0.0;               ///< 0 when restrained
  double relative_slenderness_y = 0.0;      ///< λrel,y
  double relative_slenderness_z = 0.0;      ///< 0 when restrained
  double buckling_factor_y = 1.0;           ///< kc,y
  double buckling_factor_z = 1.0;           ///< kc,z; 1 when restrained
  double effective_length_m = 0.0;          ///< lef of table 6.1; 0 when the compression edge is held
  double critical_bending_stress_pa = 0.0;  ///< σm,crit (6.32); 0 when the compression edge is held
  double relative_slenderness_m = 0.0;      ///< λrel,m (6.30)
  double lateral_factor = 1.0;              ///< kcrit
  double section_sum = 0.0;                 ///< (6.19): (σc/fc)² + σm/fm
  double strong_axis_sum = 0.0;             ///< (6.23)
  double weak_axis_sum = 0.0;               ///< (6.24); 0 when restrained along the wall
  double lateral_sum = 0.0;                 ///< (6.35); 0 when the compression edge is held
  double utilisation = 0.0;                 ///< the largest of the sums
};

/// EN 1995-1-1 6.2.4, 6.3.2 and 6.3.3 for a simply supported member under uniform load. Of an outline other than a
/// rectangle km is 1, and lateral torsional buckling means nothing unless the compression edge is held.
StabilityVerification verify_stability(const Section& section, const Resistance& resistance, const Restraint& restraint,
                                       const Forces& forces);

}  // namespace panel_dossier::structural
