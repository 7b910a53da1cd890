// The finding on studs that work together with their sheets, and what other findings show of it.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// structural.composite_action: the largest utilisation of stud, sheet and fastener, at most 1.
Finding composite_action(const Panel& panel, const StudDesign& design);

/// (EI)ef with Kser in its initial and its final state, as steps.
void add_composite_stiffness(FindingBuilder& builder, const CompositeStud& stud);

/// Moment, stresses and strengths of a stud with sheets, as steps. Precondition: `result.composite` is there.
void add_composite_bending(FindingBuilder& builder, const StudCase& result);

}  // namespace panel_dossier::structural
