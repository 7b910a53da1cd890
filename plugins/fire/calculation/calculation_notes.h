// What both calculations beside the evidence share.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "plugins/fire/calculation/build_up.h"

namespace panel_dossier::fire {

inline constexpr const char* kNotCalculated = "calculation beside the evidence: not made";

/// `inside` or `outside`.
const char* face(bool fire_inside);

/// Notes that the calculation is for the bare cassette, what is left out, and a kind of wool taken as the weaker.
void note_scope(FindingBuilder& builder, const Cassette& cassette);

}  // namespace panel_dossier::fire
