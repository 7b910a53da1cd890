// Thermal resistance of air layers, and how their openings count.
#pragma once

#include <optional>

#include "core/api/support/data_table.h"
#include "plugins/thermal/transmittance/heat_flow.h"

namespace panel_dossier::thermal {

/// Resistance in m²·K/W of an unventilated air layer between surfaces of high emissivity, interpolated linearly between
/// the rows of `table` (EN ISO 6946:2017, 6.9.2 and table 8). The origin is the row at or below the thickness.
/// None when the thickness lies outside the table (0 to 0.300 m).
std::optional<Sourced<double>> air_layer_resistance(const DataTable& table, double thickness_m, HeatFlow direction);

/// How far an air layer counts as well ventilated: 0 up to openings of 500 mm² per metre of length (unventilated), 1
/// from 1500 mm²/m, and in between (A_v − 500) / 1000 (EN ISO 6946:2017, 6.9.2 to 6.9.4; for horizontal layers per m²
/// of surface).
double ventilated_share(double openings_mm2_per_m);

}  // namespace panel_dossier::thermal
