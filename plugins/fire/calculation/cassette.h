// The bare cassette in a panel: framing with its cavity filling and the board on either face. It is all that the
// calculations beside the evidence count.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "plugins/fire/calculation/board_joints.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

struct CassetteBoard {
  std::size_t layer = 0;  ///< index into Panel::layers
  std::string key;        ///< row of boards.csv
  double thickness_mm = 0.0;
  Sourced<double> characteristic_density_kg_per_m3;   ///< of a wood panel: Panel_Board, else the row of boards.csv
  std::optional<Sourced<double>> tested_failure_min;  ///< Panel_Fire.FailureTime of a type F board, in minutes
  BoardJoints joints;
  BoardFixings fixings;
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
  std::vector<std::string> missing;      ///< not empty: no calculation from this cassette

  /// The board that the fire attacks, and that on the other face. Precondition: `missing` is empty.
  const CassetteBoard& exposed(bool fire_inside) const { return fire_inside ? *inside : *outside; }
  const CassetteBoard& unexposed(bool fire_inside) const { return fire_inside ? *outside : *inside; }
};

/// Index into `panel.layers` of the one that most studs and posts lie in; none without studs or layers.
std::optional<std::size_t> framing_layer(const Panel& panel);

/// Layers outside the two boards are not counted, which is on the safe side for the time that fire needs through the
/// panel.
Cassette read_cassette(const Panel& panel, const Project& project, const Tables& tables);
/// What `read_cassette` reads.
std::vector<CheckInput> cassette_inputs();

/// The name of a step in words that stands in place of a calculation.
inline constexpr const char* kNotCalculated = "calculation beside the evidence: not made";

/// `inside` or `outside`.
const char* face(bool fire_inside);

/// Notes that the calculation is for the bare cassette, what is left out, and a kind of wool taken as the weaker.
void note_scope(FindingBuilder& builder, const Cassette& cassette);

}  // namespace panel_dossier::fire
