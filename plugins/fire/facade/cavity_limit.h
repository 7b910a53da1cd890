// The largest undivided length of a cavity, by the classes of the surfaces within it.
#pragma once

#include <optional>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// For the cavity at `cavity` of `panel.layers`, with the table row as origin; none where the jurisdiction has no rows
/// or a surface has no class.
std::optional<Sourced<double>> cavity_limit_m(const Panel& panel, std::size_t cavity, const Project& project,
                                              const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::fire
