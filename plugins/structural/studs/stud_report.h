// Inputs and steps that several findings on studs share.
#pragma once

#include <cstddef>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

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

/// Width of wall carried and span, as steps.
void add_width_and_span(FindingBuilder& builder, const StudDesign& design, std::size_t member);

/// Characteristic and design actions of a case, as steps.
void add_actions(FindingBuilder& builder, const StudDesign& design, const StudCase& result);

/// Moment, bending stress and bending strength of a case in the stud alone, as steps.
void add_bending(FindingBuilder& builder, const StudDesign& design, const StudCase& result);

/// Assumptions that every finding on studs rests on.
void add_member_notes(FindingBuilder& builder, const StudDesign& design, std::size_t member);

}  // namespace panel_dossier::structural
