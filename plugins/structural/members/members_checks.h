// The checks of rails, of lintels and trimmers, and of what stands on the sole rail.
#pragma once

#include <optional>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kBearingCheck;
extern const CheckDeclaration kRailBendingCheck;
extern const CheckDeclaration kLintelBendingCheck;

/// σc,90,d against kc,90·fc,90,d in N/mm² of the rail, EN 1995-1-1 6.1.5, for the governing member.
Finding bearing(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                const StudDesign& design);

/// The largest share of bending or shear resistance or of the deflection limit, at most 1; `information` for a panel
/// without openings.
Finding lintel_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const StudDesign& design);

/// Spacing in m: the widest Panel_Fastener.Spacing of brackets, anchors and bolts among the parts, else setting
/// structural.fixing_spacing_m.
std::optional<Sourced<double>> fixing_spacing(const Panel& panel, const Settings& settings);

/// What to name when there is none.
inline constexpr const char* kNoFixingSpacing =
    "spacing of the fixings to the frame (Panel_Fastener.Spacing of brackets or anchors, or setting "
    "structural.fixing_spacing_m)";

/// The largest share of bending or shear resistance of the rails, at most 1.
Finding rail_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                     const StudDesign& design);

}  // namespace panel_dossier::structural
