#include "plugins/structural/barrier_notes.h"

#include "core/api/fixed_text.h"

namespace panel_dossier::structural {

void note_barrier(Finding& finding, const StudDesign& design) {
  if (!design.missing.empty() || !design.basis.balustrade) return;
  const LineLoad& load = *design.basis.balustrade;
  constexpr double kNPerKn = 1e3;
  finding.notes.push_back("Not in this check: the load of persons leaning on the panel, " +
                          fixed_text(load.n_per_m / kNPerKn, 2) + " kN/m at " + fixed_text(load.height_m, 2) +
                          " m above its foot. It is in the checks of studs; the structural engineer must carry it on "
                          "through rails and fixings.");
}

}  // namespace panel_dossier::structural
