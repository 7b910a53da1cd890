#include "plugins/quantities/takeoff/part_measures.h"

namespace panel_dossier::quantities {

double net_volume_m3(const CutPart& cut, const Part& part) {
  return part.volume_m3 ? part.volume_m3->value : metres(cut.thickness) * metres(cut.width) * metres(cut.length);
}

double net_measure(const CutPart& cut, const Part& part) {
  return is_framing(part.kind) ? metres(cut.length) : net_volume_m3(cut, part) / metres(cut.thickness);
}

}  // namespace panel_dossier::quantities
