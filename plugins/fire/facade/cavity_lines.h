// Where the cavity outside a panel has to be closed by cavity barriers, and how long it may run undivided.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/stretch.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Index into `panel.layers` of the air layer outside the framing; none when there is none.
std::optional<std::size_t> outer_cavity(const Panel& panel);

/// The largest undivided length in m of the cavity at `cavity` of `panel.layers`, by the classes of the surfaces within
/// it, with the table row as origin; none where the jurisdiction has no rows or a surface has no class.
std::optional<Sourced<double>> cavity_limit_m(const Panel& panel, std::size_t cavity, const Project& project,
                                              const Settings& settings, const Tables& tables);

/// One straight cavity barrier in the panel's x-z plane, in m.
struct BarrierLine {
  std::string where;
  bool horizontal = true;
  double at_m = 0.0;  ///< z of a horizontal line, x of an upright one
  Stretch stretch;

  double length_m() const { return stretch.length_m(); }
};

/// Lines that the panel itself decides: round its openings, at its foot, at each floor that it passes and, where no
/// storey lies above it, at its head. Floors are left out when setting fire.compartment_floors is no. The panel is
/// taken to stand on the floor of its storey; one without storey is closed at foot and head.
std::vector<BarrierLine> barrier_lines(const Panel& panel, const Project& project, const Settings& settings);

/// The upright edges, left and right, at which the cavity is closed unless it runs on into the next panel.
std::vector<BarrierLine> side_edges(const Panel& panel);

/// Length in m of `line` along which cavity barriers of the export (parts of ObjectType CAVITY_BARRIER) lie.
double provided_m(const Panel& panel, const BarrierLine& line);
/// True when the export holds any for this panel.
bool has_barriers(const Panel& panel);

}  // namespace panel_dossier::fire
