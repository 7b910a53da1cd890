// The steps of a charring calculation, in the order in which a person redoes it; each names the side of the fire.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "plugins/fire/calculation/build_up.h"
#include "plugins/fire/calculation/stud_in_fire.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// The board's data as inputs, then tch and tf.
void add_board_steps(FindingBuilder& builder, const StudCharring& charring, const CassetteBoard& board,
                     const Panel& panel, const Tables& tables);

/// Rates and depths of the members; for one that has failed the word alone.
void add_member_steps(FindingBuilder& builder, const StudCharring& charring);

/// (3.16): a board stays until tf only if its fasteners reach 10 mm into unburnt timber then.
void add_fastener_steps(FindingBuilder& builder, const StudCharring& charring, const CassetteBoard& board);

}  // namespace panel_dossier::fire
