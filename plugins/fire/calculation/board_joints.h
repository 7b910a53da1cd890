// Joints between the sheets of one board layer, from their boxes: how wide they are and what lies behind them; and the
// fasteners that hold the sheets.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "core/api/model/panel.h"

namespace panel_dossier::fire {

inline constexpr double kOpenJoint_mm = 2.0;  ///< unfilled gap above which (3.12) holds, EN 1995-1-2:2004 3.4.3.3

struct BoardJoints {
  bool known = false;      ///< sheets with boxes stand in the layer
  std::size_t joints = 0;  ///< 0: one sheet, or sheets that do not meet
  double widest_gap_mm = 0.0;
  std::string unbacked;  ///< where the first joint without framing along its whole length is; empty when none

  /// A gap for which (3.12) holds.
  bool open() const { return widest_gap_mm > kOpenJoint_mm; }
  /// `4 joints, all on framing`.
  std::string text() const;
};

/// Two sheets meet where their edges lie within kSheetsMeet_m of each other. A joint is backed where framing that
/// touches the layer, membranes between, reaches over both edges; stretches across openings are left out.
BoardJoints joints_of(const Panel& panel, const Layer& layer);

/// The fasteners whose box lies in a board's layer.
struct BoardFixings {
  std::optional<Sourced<double>> shortest_m;  ///< Panel_Fastener.Length; none when any of them states none
  std::optional<Sourced<double>> spacing_m;   ///< the widest Panel_Fastener.Spacing; none when any states none
};

BoardFixings fixings_of(const Panel& panel, const Layer& layer);

}  // namespace panel_dossier::fire
