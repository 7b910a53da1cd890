// The layers of a panel before it is known what bridges them, up to the outside or to a well-ventilated cavity.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/support/data_table.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

enum class HeatFlow { upwards, horizontal, downwards };

/// `upwards`, `horizontal`, `downwards`: also the columns of the air-layer table.
std::string_view to_string(HeatFlow direction);

/// Direction from inside to outside. `horizontal` holds up to 30° from the horizontal (EN ISO 6946:2017, 6.8).
HeatFlow heat_flow_through(const Panel& panel);

/// Resistance in m²·K/W of an unventilated air layer between surfaces of high emissivity, interpolated linearly between
/// the rows of `table` (EN ISO 6946:2017, 6.9.2 and table 8). The origin is the row at or below the thickness.
/// None when the thickness lies outside the table (0 to 0.300 m).
std::optional<Sourced<double>> air_layer_resistance(const DataTable& table, double thickness_m, HeatFlow direction);

/// How far an air layer counts as well ventilated: 0 up to openings of 500 mm² per metre of length (unventilated), 1
/// from 1500 mm²/m, and in between (A_v − 500) / 1000 (EN ISO 6946:2017, 6.9.2 to 6.9.4; for horizontal layers per m²
/// of surface).
double ventilated_share(double openings_mm2_per_m);

/// Conductivities of the project's materials, each recorded as an input of the finding once.
class ConductivityReader {
 public:
  /// Both must outlive the reader.
  ConductivityReader(const Project& project, FindingBuilder& builder) : project_(project), builder_(builder) {}

  /// λ in W/(m·K), above 0; none when missing, which the builder then knows.
  std::optional<double> conductivity_w_per_mk(std::size_t material);

 private:
  const Project& project_;
  FindingBuilder& builder_;
  std::map<std::size_t, std::optional<double>> known_;
};

/// A layer before it is known what bridges it.
struct PlainLayer {
  const Layer* layer = nullptr;  ///< lives as long as the panel
  bool is_air = false;
  bool is_insulation = false;                 ///< see is_insulating
  std::size_t index = 0;                      ///< of it in Panel::layers
  std::string material;                       ///< name for texts, or `air`
  std::optional<std::size_t> material_index;  ///< into Project::materials; none for air
  double thickness_m = 0.0;
  double resistance_m2k_per_w = 0.0;
  double ventilated_share = 0.0;  ///< of a slightly ventilated air layer: above 0, below 1; its R is that at rest
};

struct PlainLayers {
  std::vector<PlainLayer> layers;  ///< from inside
  bool ends_at_cavity = false;
};

/// A foil or film: a layer of category `membrane`, at most 5 mm thick (common practice). What is thicker is no
/// membrane, whatever its category says.
bool is_membrane(const Layer& layer);

/// An air layer has no material, or a layer or material category of `air`, or is stated to be ventilated.
bool is_air_layer(const Layer& layer, const Project& project);

/// Whether the layer is insulation, by what it is: neither air nor membrane, and of layer or material category
/// `insulation` or of a conductivity of at most 0.065 W/(m·K): declared values of insulation end at 0.060 (EN
/// 13162:2012, 4.2.1, from memory), and design values lie a little above.
bool is_insulating(const Layer& layer, const Project& project);

/// By category, or by a conductivity of at least 10 W/(m·K), which no other building material reaches (EN ISO
/// 10456:2007, table 3: stainless steel 17, stone up to 3.5; from memory).
bool is_metal(const Material& material);

/// Reads thicknesses and resistances. Layers from a well-ventilated air layer outwards are left out (EN ISO 6946:2017,
/// 6.9.4). How well an air layer is ventilated follows from its Panel_AirLayer.OpeningArea, else from IsVentilated
/// (TRUE is well ventilated, FALSE unventilated), else from the setting `thermal.air_layer_openings_mm2_per_m`, else it
/// is unventilated only where `thermal.air_layers_of_unknown_ventilation` is `unventilated`. What is missing is noted
/// in `builder`, and the result is then of no use.
PlainLayers read_plain_layers(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, HeatFlow heat_flow, ConductivityReader& conductivities,
                              FindingBuilder& builder);

}  // namespace panel_dossier::thermal
