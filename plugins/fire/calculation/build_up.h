// The bare cassette in a panel's build-up: framing with its cavity filling and the board on either face.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "plugins/fire/calculation/board_joints.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

inline constexpr double kThinnestBoard_m = 0.003;  ///< anything thinner is a membrane

struct CassetteBoard {
  std::size_t layer = 0;  ///< index into Panel::layers
  std::string key;        ///< row of boards.csv
  double thickness_mm = 0.0;
  Sourced<double> characteristic_density_kg_per_m3;   ///< of a wood panel: Panel_Board, else the row of boards.csv
  std::optional<Sourced<double>> tested_failure_min;  ///< Panel_Fire.FailureTime of a type F board, in minutes
  BoardJoints joints;
  BoardFixings fixings;

  /// The export's sheets leave gaps for which (3.12) holds.
  bool open_joints() const { return joints.widest_gap_mm > 2.0; }
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
  bool void_cavity = false;              ///< nothing but air between the studs; `filling` is then none
  std::vector<std::string> not_counted;  ///< names of layers beyond the cassette
  std::vector<std::string> missing;      ///< not empty: no calculation from this build-up
};

/// Index into `panel.layers` of the one that most studs and posts lie in; none without studs or layers.
std::optional<std::size_t> framing_layer(const Panel& panel);

/// Layers outside the two boards are not counted, which
/// is on the safe side for the time that fire needs through the panel.
Cassette read_cassette(const Panel& panel, const Project& project, const Tables& tables);

}  // namespace panel_dossier::fire
