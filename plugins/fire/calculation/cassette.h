// The bare cassette in a panel: framing with its cavity filling and the board on either face, with the joints between
// the sheets of a board layer and the fasteners that hold them. It is all that the calculations beside the evidence
// count.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

inline constexpr double kOpenJoint_mm = 2.0;  ///< unfilled gap above which (3.12) holds, EN 1995-1-2:2004 3.4.3.3

struct BoardJoints {
  bool known = false;      ///< sheets with boxes stand in the layer
  std::size_t joints = 0;  ///< 0: one sheet, or sheets that do not meet
  double widest_gap_mm = 0.0;
  std::string unbacked;  ///< where the first joint without framing along its whole length is; empty when none

  /// A gap for which (3.12) holds.
  bool open() const { return widest_gap_mm > kOpenJoint_mm; }
  /// `4 joints, all on framing`.
  std::string text() const;
};

/// Two sheets meet where their edges lie within kSheetsMeet_m of each other. A joint is backed where framing that
/// touches the layer, membranes between, reaches over both edges; stretches across openings are left out.
BoardJoints joints_of(const Panel& panel, const Layer& layer);

/// The fasteners whose box lies in a board's layer.
struct BoardFixings {
  std::optional<Sourced<double>> shortest_m;  ///< Panel_Fastener.Length; none when any of them states none
  std::optional<Sourced<double>> spacing_m;   ///< the widest Panel_Fastener.Spacing; none when any states none
};

BoardFixings fixings_of(const Panel& panel, const Layer& layer);

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
