// Order and batch in which panels are made and erected.
#pragma once

#include <optional>
#include <string>

#include "core/api/model/panel.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

/// Panel_Identity.ErectionOrder, from 1; none when absent or below 1.
std::optional<int> erection_order(const Panel& panel);

/// Panel_Identity.Batch; else the erection order counted off by setting `quantities.panels_per_batch` (`1`, `2`, …);
/// empty when neither tells.
std::string batch_of(const Panel& panel, const Settings& settings);

/// For sorting: batches that are numbers in their order, then the others.
bool batch_before(const std::string& a, const std::string& b);

}  // namespace panel_dossier::quantities
