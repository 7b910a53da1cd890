#include "plugins/fire/calculation/board_in_fire.h"

#include <algorithm>

#include "core/api/support/units.h"
#include "plugins/fire/calculation/charring.h"

namespace panel_dossier::fire {

namespace {

constexpr double kEarlyFallOff_min = 4.0;  ///< annexes C and D: tf = hp/β0 − 4 of wood panels (from memory)

double gypsum_fall_off_min(const CassetteBoard& board, double start_min, double slow_mm_per_min) {
  if (!board.tested_failure_min || !board.fixings.shortest_m) return start_min;
  const double fastener_mm = units::millimetres_from_metres(board.fixings.shortest_m->value);
  const double held_min = pull_out_min(start_min, fastener_mm, board.thickness_mm, slow_mm_per_min);
  return std::max(start_min, std::min(board.tested_failure_min->value, held_min));
}

}  // namespace

double charring_start_min(const CassetteBoard& board, const Tables& tables) {
  const auto rate = tables.boards.number(board.key, "charring_mm_per_min");
  if (!rate) return gypsum_charring_start_min(board.thickness_mm, board.open_joints());
  return wood_panel_charring_start_min(board.thickness_mm, rate->value, board.characteristic_density_kg_per_m3.value);
}

std::vector<BoardTimes> board_times(const CassetteBoard& board, const Tables& tables, double slow_mm_per_min) {
  const double start_min = charring_start_min(board, tables);
  if (!tables.boards.number(board.key, "charring_mm_per_min")) {
    return {{start_min, gypsum_fall_off_min(board, start_min, slow_mm_per_min), false}};
  }
  const double early_min = std::max(0.0, start_min - kEarlyFallOff_min);
  return {{start_min, start_min, false}, {early_min, early_min, true}};
}

}  // namespace panel_dossier::fire
