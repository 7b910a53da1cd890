// The bare cassette in a panel's build-up: framing with its cavity filling and the board on either face.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/project.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

struct CassetteBoard {
  std::size_t layer = 0;  ///< index into Panel::layers
  std::string key;        ///< row of boards.csv
  double thickness_mm = 0.0;
  double density_kg_per_m3 = 0.0;
};

struct CavityFilling {
  std::size_t layer = 0;
  std::string key;            ///< row of cavity_insulation.csv
  bool type_assumed = false;  ///< the export says mineral wool only; taken as the weaker kind
  double thickness_mm = 0.0;
  double density_kg_per_m3 = 0.0;
};

struct Cassette {
  std::optional<CassetteBoard> inside;
  std::optional<CassetteBoard> outside;
  std::optional<CavityFilling> filling;
  std::vector<std::string> not_counted;  ///< names of layers beyond the cassette
  std::vector<std::string> missing;      ///< not empty: no calculation from this build-up
};

/// The framing layer is the one that most studs and posts lie in. Layers outside the two boards are not counted, which
/// is on the safe side for the time that fire needs through the panel.
Cassette read_cassette(const Panel& panel, const Project& project, const Tables& tables);

}  // namespace panel_dossier::fire
