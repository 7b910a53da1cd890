// The carbon account of one panel: each material's share of each module.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/panel.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/carbon/amounts.h"

namespace panel_dossier::carbon {

/// Modules of EN 15978:2011 in kg CO2e, each rounded to the milligram once so that every total agrees. Only those that
/// could be worked out are there.
struct MaterialAccount {
  std::optional<double> product_fossil_luluc;  ///< A1–A3, GWP-fossil + GWP-luluc
  std::optional<double> product_biogenic;      ///< A1–A3, GWP-biogenic, negative for carbon taken up
  std::optional<double> transport;             ///< A4
  std::optional<double> deconstruction;        ///< C1
  std::optional<double> end_of_life;           ///< C2–C4, GWP-total as declared
};

/// What the checks of one panel share. `materials` has one entry for each of `amounts.materials`.
struct PanelAccount {
  const Panel& panel;
  const Project& project;
  const Settings& settings;
  PanelAmounts amounts;
  std::vector<MaterialAccount> materials;

  const Material& material(std::size_t row) const { return project.materials[amounts.materials[row].material]; }
};

/// Biogenic carbon that C3 and C4 give back: what A1–A3 took up (EN 15804:2012+A2:2019, 6.3.5.5: −1/+1), in kg CO2e.
inline double returned_biogenic(double product_biogenic) {
  return product_biogenic < 0.0 ? -product_biogenic : 0.0;
}

}  // namespace panel_dossier::carbon
