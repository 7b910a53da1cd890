// An environmental product declaration as its own file states it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/model/origin.h"

namespace panel_dossier::carbon {

/// One declared figure, per `Declaration::amount` of the declared unit.
struct DeclaredValue {
  std::string indicator;  ///< abbreviation of EN 15804:2012+A2:2019, for example `GWP-fossil`
  std::string module;     ///< `A1-A3`, `A4`, `C3`, `D`, …
  std::string scenario;   ///< name of the scenario; empty when there is one only
  std::string unit;       ///< as written, for example `kg CO2 eq.`
  Sourced<double> value;
};

/// What one file declares of one product. Each origin names the file as its table and the line as its row. Absent facts
/// are none; nothing is converted but numbers.
struct Declaration {
  std::optional<Sourced<std::string>> product;
  std::optional<Sourced<double>> amount;     ///< of the unit, for example 1 or 1000
  std::optional<Sourced<std::string>> unit;  ///< as written: `kg`, `m3`, `m2`, `piece`, …
  std::optional<Sourced<double>> density_kg_per_m3;
  std::optional<Sourced<double>> thickness_m;             ///< behind a declared unit of m2
  std::optional<Sourced<std::string>> valid_until;        ///< YYYY-MM-DD, or YYYY where the file gives the year only
  std::optional<Sourced<std::string>> geography;          ///< code of the country or region
  std::optional<Sourced<std::string>> kind;               ///< as written: `specific dataset`, `generic`, …
  std::optional<Sourced<std::string>> data_quality;       ///< as written
  std::optional<Sourced<double>> reference_service_life;  ///< in years
  std::vector<DeclaredValue> values;                      ///< in the order of the file
};

}  // namespace panel_dossier::carbon
