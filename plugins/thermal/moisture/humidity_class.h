// Classes of the humidity of rooms.
#pragma once

#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/data_table.h"

namespace panel_dossier::thermal {

/// The value of a humidity class at the external temperature: linear between two temperatures, constant beyond them (EN
/// ISO 13788:2012, annex A).
struct HumidityClass {
  bool is_vapour_excess = false;  ///< value in Pa over the external air; else relative humidity as a share of 1
  double cold_c = 0.0;            ///< below `warm_c`
  double warm_c = 0.0;
  double value_when_cold = 0.0;
  double value_when_warm = 0.0;

  double at(double external_c) const;
};

/// The row `key` of humidity_classes.csv, each cell recorded as an input; none, with the reason noted in `builder`,
/// when it is absent or unusable.
std::optional<HumidityClass> read_humidity_class(const DataTable& classes, const std::string& key,
                                                 FindingBuilder& builder);

}  // namespace panel_dossier::thermal
