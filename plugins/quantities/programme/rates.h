// Prices of materials from the settings.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

struct Rate {
  std::string material;  ///< name in the export
  std::string unit;      ///< `m3`, `m2`, `m`, `kg` or `piece`
  Sourced<double> rate;  ///< in `currency` for one unit, at least 0
  std::string currency;
  std::string source;
};

/// Whether the settings hold any `quantities.rates`.
bool rates_given(const Settings& settings);

/// Settings `quantities.rates.N`, N from 0 without gaps. What is absent or unusable, a material named twice, and
/// different currencies are noted in `finding` as missing.
std::vector<Rate> read_rates(FindingBuilder& finding, const Settings& settings);

}  // namespace panel_dossier::quantities
