// Inputs and steps that several findings on studs share, and a stud's system with its load, its moments, shear forces
// and deflected shape, to be drawn.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding_builder.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/studs/stud_system.h"

namespace panel_dossier::structural {

/// Elevation of the member, its supports with the spans between them, and the loads across it, at true proportions.
Drawing load_diagram(const StudSystem& system, double depth_m, double line_load_n_per_m,
                     const std::vector<PointLoad>& point);

/// Moment in kNm over the height in m.
Series moment_diagram(const BeamResult& loaded);

/// Shear force in kN over the height in m.
Series shear_diagram(const BeamResult& loaded);

/// Deflection from bending and shear in mm over the height in m under load on all of the member, with the limit.
Series deflected_shape(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point,
                       double bending_stiffness_nm2, double shear_stiffness_n, double limit_m);

inline constexpr double kNm2PerKnm2 = 1e3;

/// Closes a finding for which data of the studs are missing.
Finding not_assessed_studs(FindingBuilder& builder, const StudDesign& design);

/// Name of the member's first piece, and how many are stacked on it.
std::string member_name(const Panel& panel, const VerticalMember& member);

/// Name, section, length and material of a member, as inputs.
void add_member(FindingBuilder& builder, const Panel& panel, const StudDesign& design, std::size_t member);

/// A characteristic strength or modulus as an input in N/mm².
void add_strength(FindingBuilder& builder, const char* name, const char* symbol, const Sourced<double>& value_pa);

/// kmod and γM as inputs.
void add_factors(FindingBuilder& builder, const StudDesign& design, const StudCase& result);

/// Width of wall carried, span and overhang, as steps. The length of the member must be among the inputs as L and the
/// design basis too.
void add_width_and_span(FindingBuilder& builder, const StudDesign& design, std::size_t member);

/// Symbol of the member's part above the highest support: `a` where it is the panel's.
std::string overhang_symbol(const StudDesign& design, std::size_t member);

/// Of persons leaning over the width carried: `γ_Q · q_k · b_t`; empty where the panel is no barrier.
std::string barrier_term(const DesignBasis& basis, const std::string& factor);

/// What is left of the section, in symbols: `b · (h − d_o)`.
std::string area_symbols(const Section& section);

/// Section modulus in the direction of h, as a step W_y.
void add_section_modulus(FindingBuilder& builder, const Section& section);

/// Notes as missing what keeps the verifications of studs from passing, unless one fails anyway.
void add_doubts(FindingBuilder& builder, const StudDesign& design, double utilisation);

/// Formula of kh, EN 1995-1-1 3.2(3) and 3.3(3), for a depth of that symbol.
std::string depth_factor_formula(const std::string& symbol, TimberFamily family, const std::string& depth);

/// Formula of kcrit from λ_rel,m, EN 1995-1-1 (6.34).
std::string lateral_factor_formula(double relative_slenderness);

/// Characteristic and design actions of a case, as steps.
void add_actions(FindingBuilder& builder, const StudDesign& design, const StudCase& result);

/// Moment, bending stress and bending strength of a case in the stud alone, as steps.
void add_bending(FindingBuilder& builder, const StudDesign& design, const StudCase& result);

/// (EI)ef with Kser in its initial and its final state, as steps.
void add_composite_stiffness(FindingBuilder& builder, const CompositeStud& stud);

/// Moment, stresses and strengths of a stud with sheets, as steps. Precondition: `result.composite` is there.
void add_composite_bending(FindingBuilder& builder, const StudDesign& design, const StudCase& result);

/// Span over deflection: setting structural.deflection_limit_ratio, else the row of deflection_limits.csv that
/// structural.deflection_finish names; none, noted as missing, without either.
std::optional<double> deflection_ratio(FindingBuilder& builder, const Settings& settings, const Tables& tables);

/// Assumptions that every finding on studs rests on.
void add_member_notes(FindingBuilder& builder, const StudDesign& design, std::size_t member);

}  // namespace panel_dossier::structural
