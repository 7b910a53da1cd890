// What stands beside the main material of each layer: framing and other parts as they cover areas on the face, layer by
// layer, nothing counted twice; or an assumed share of framing.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/transmittance/plain_layers.h"

namespace panel_dossier::thermal {

/// A rectangle in the panel's x-z plane, in m.
struct Rectangle {
  double x_min = 0.0;
  double x_max = 0.0;
  double z_min = 0.0;
  double z_max = 0.0;
};

/// A part that replaces the main material of a layer over a rectangle.
struct Cover {
  std::size_t layer = 0;
  std::size_t slot = 0;  ///< which material of the layer, from 1; 0 is the main material
  Rectangle face;
};

/// All of the face that has the same materials in every layer.
struct SectionArea {
  std::vector<std::size_t> slots;  ///< one a layer
  double area_m2 = 0.0;
};

struct FaceMeasure {
  double net_area_m2 = 0.0;            ///< without openings
  std::vector<SectionArea> sections;   ///< largest first; they add up to the net area
  std::vector<double> cover_areas_m2;  ///< one a cover, net; where covers of one layer overlap, the first counts
};

/// Projects `covers` on the face 0..width × 0..height without `openings`. Coordinates are taken to 0.01 mm. Exact for
/// rectangles; work grows with the product of distinct x and z coordinates.
FaceMeasure measure_face(double width_m, double height_m, const std::vector<Rectangle>& openings,
                         const std::vector<Cover>& covers, std::size_t layer_count);

/// Room left round a window or door; timber behind it still belongs to the opening, m (common practice).
inline constexpr double kFittingGap_m = 0.025;

/// One of the materials that stand beside each other in a layer.
struct LayerSlot {
  std::string material;                                      ///< name for texts; materials may share one
  double resistance_m2k_per_w = 0.0;                         ///< through the layer's whole thickness
  double fraction = 0.0;                                     ///< share of the net area
  double fraction_at_openings = 0.0;                         ///< of that, timber around openings
  std::optional<std::size_t> material_index = std::nullopt;  ///< into Project::materials; none for air and assumptions
  bool is_air = false;                                       ///< an air layer at rest
  std::string area_terms = {};  ///< its areas on the face by their symbols among the inputs: `A_b1 + A_b2`
};

struct ThermalLayer {
  std::string name;
  std::size_t panel_layer = 0;  ///< index into Panel::layers; the same for all that it was split into
  std::string export_name;      ///< name of that layer; layers may share one
  double thickness_m = 0.0;
  std::vector<LayerSlot> slots;     ///< first the main material
  bool is_insulation = false;       ///< see is_insulating
  bool starts_export_layer = true;  ///< false for all but the first of those a layer was split into
  double ventilated_share = 0.0;    ///< of an air layer, see PlainLayer
};

struct BridgedLayers {
  std::vector<ThermalLayer> layers;   ///< from inside; a layer that parts fill to different depths is split
  std::vector<SectionArea> sections;  ///< largest first; `slots` index `ThermalLayer::slots`
  double net_area_m2 = 0.0;
};

/// Measures from the panel's parts. Every part of another material than its layer counts, except fasteners and
/// membranes, in the depth that it really fills. What cannot be measured is noted in `builder`.
BridgedLayers measure_bridging(const Panel& panel, const Project& project, const PlainLayers& plain,
                               ConductivityReader& conductivities, FindingBuilder& builder);

/// For a panel of unknown framing: the thickest insulation layer is bridged by the share that the settings
/// `thermal.assumed_framing_fraction` and `thermal.assumed_framing_conductivity_w_per_mk` name. Without them that is
/// noted as missing.
BridgedLayers assume_bridging(const Panel& panel, const Settings& settings, const PlainLayers& plain,
                              FindingBuilder& builder);

}  // namespace panel_dossier::thermal
