// The checks of the bracing action of a panel and of the fixings of its sheathing.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/racking/racking_design.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kRackingCheck;
extern const CheckDeclaration kSheathingFixingsCheck;

/// What the design of racking reads, with what a check reads besides, for its declaration.
std::vector<CheckInput> with_sheathing(const std::vector<CheckInput>& more);

/// Ending of the symbols of a face's inputs: empty for the stronger face, `,o` for the other.
std::string ending_of(const RackingDesign& racking, std::size_t face);

/// The inputs of all faces.
void add_face_inputs(FindingBuilder& builder, const RackingDesign& racking);

/// Fv,Ed against Fv,Rd in kN; `information` for a panel that is no part of the bracing.
Finding racking(const Panel& panel, const StudDesign& design, const RackingDesign& racking);

/// Force on one fastener against its resistance in N, with the six failure modes and the
/// spacings and edge distances; `information` for a panel without racking load, `evidence needed` where only common
/// practice keeps a distance.
Finding sheathing_fixings(const Panel& panel, const StudDesign& design, const RackingDesign& racking);

}  // namespace panel_dossier::structural
