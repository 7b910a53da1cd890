#include "plugins/fire/evidence/tested_layers.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/fire/facade/reaction_class.h"
#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kBuildUp = " (Panel_FireEvidence.BuildUp)";

/// Takes ` (40 kg/m3)` from the end; false where there are brackets with something else in them.
bool take_density(std::string_view& text, std::optional<double>& density_kg_per_m3) {
  if (!text.ends_with(')')) return true;
  const std::size_t open = text.rfind('(');
  if (open == std::string_view::npos) return false;
  std::string_view inner = trimmed(text.substr(open + 1, text.size() - open - 2));
  bool unit = false;
  for (const std::string_view suffix : {"kg/m3", "kg/m³"}) {
    if (unit || !inner.ends_with(suffix)) continue;
    inner.remove_suffix(suffix.size());
    unit = true;
  }
  density_kg_per_m3 = unit ? parse_decimal(inner) : std::nullopt;
  text = trimmed(text.substr(0, open));
  return density_kg_per_m3 && *density_kg_per_m3 > 0.0;
}

std::optional<TestedLayer> parse_layer(std::string_view text) {
  TestedLayer layer;
  if (!take_density(text, layer.density_kg_per_m3)) return std::nullopt;
  const std::size_t blank = text.rfind(' ');
  if (blank == std::string_view::npos) return std::nullopt;
  const auto thickness_mm = parse_decimal(text.substr(blank + 1));
  if (!thickness_mm || *thickness_mm <= 0.0) return std::nullopt;
  layer.material = trimmed(text.substr(0, blank));
  layer.thickness_mm = *thickness_mm;
  if (layer.material.empty()) return std::nullopt;
  return layer;
}

struct PanelLayer {
  std::size_t index = 0;               ///< into Panel::layers
  const Material* material = nullptr;  ///< null for air
  double thickness_mm = 0.0;
  std::optional<Sourced<double>> density_kg_per_m3;

  /// EN 13501-1: what is thin and light is no part that a wall's behaviour rests on.
  bool is_non_substantial() const {
    constexpr double kThin_mm = 1.0;
    constexpr double kLight_kg_per_m2 = 1.0;
    return material != nullptr && thickness_mm < kThin_mm && density_kg_per_m3 &&
           density_kg_per_m3->value * units::metres_from_millimetres(thickness_mm) < kLight_kg_per_m2;
  }
};

std::vector<PanelLayer> layers_of(const Panel& panel, const Project& project) {
  std::vector<PanelLayer> layers;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    PanelLayer layer;
    layer.index = i;
    layer.material = material_at(project, panel.layers[i].material);
    layer.thickness_mm = units::millimetres_from_metres(panel.layers[i].thickness_m.value);
    if (layer.material != nullptr) layer.density_kg_per_m3 = layer.material->density_kg_per_m3();
    layers.push_back(layer);
  }
  return layers;
}

/// A void as the test had it: neither deeper nor shallower than the export's rounding.
constexpr const char* kAir = "air";
constexpr double kSameVoid_mm = 1.0;

bool is_covered(const TestedLayer& tested, const PanelLayer& layer) {
  if (tested.material == kAir && layer.material == nullptr) {
    return std::abs(layer.thickness_mm - tested.thickness_mm) <= kSameVoid_mm + kRounding_mm;
  }
  return layer.material != nullptr && layer.material->name == tested.material &&
         layer.thickness_mm >= tested.thickness_mm - kRounding_mm;
}

/// For each tested layer the place in `layers` of the panel's that covers it, the nearest one after the one before,
/// beginning no earlier than `from`; none where there is no such layer.
std::vector<std::optional<std::size_t>> places_of(const std::vector<TestedLayer>& tested,
                                                  const std::vector<PanelLayer>& layers, std::size_t from) {
  std::vector<std::optional<std::size_t>> places;
  std::size_t next = from;
  for (const TestedLayer& layer : tested) {
    std::size_t found = next;
    while (found < layers.size() && !is_covered(layer, layers[found])) ++found;
    if (found < layers.size()) next = found + 1;
    places.push_back(found < layers.size() ? std::optional(found) : std::nullopt);
  }
  return places;
}

std::size_t count_covered(const std::vector<std::optional<std::size_t>>& places) {
  return static_cast<std::size_t>(
      std::count_if(places.begin(), places.end(), [](const auto& place) { return place.has_value(); }));
}

/// From the first covered to the last; the smaller, the less stands between.
std::size_t extent_of(const std::vector<std::optional<std::size_t>>& places) {
  std::optional<std::size_t> first;
  std::size_t last = 0;
  for (const auto& place : places) {
    if (!place) continue;
    if (!first) first = place;
    last = *place;
  }
  return first ? last - *first : 0;
}

/// One material may stand in several layers: the places that cover most, and of these the closest.
std::vector<std::optional<std::size_t>> best_places(const std::vector<TestedLayer>& tested,
                                                    const std::vector<PanelLayer>& layers) {
  auto best = places_of(tested, layers, 0);
  for (std::size_t from = 1; from < layers.size(); ++from) {
    auto places = places_of(tested, layers, from);
    const std::size_t covered = count_covered(places);
    const std::size_t most = count_covered(best);
    if (covered > most || (covered == most && extent_of(places) < extent_of(best))) best = std::move(places);
  }
  return best;
}

Value cell(const std::optional<double>& number) {
  if (number) return *number;
  return {};
}

class LayerJudgement {
 public:
  LayerJudgement(FindingBuilder& builder, const Panel& panel, const Project& project)
      : builder_(builder), panel_(panel), project_(project), layers_(layers_of(panel, project)) {}

  LayerComparison compare(const std::vector<TestedLayer>& tested, std::optional<std::size_t> framing) {
    const auto places = best_places(tested, layers_);
    for (std::size_t i = 0; i < tested.size(); ++i) compare_layer(tested[i], places[i]);
    if (result_.covered.size() == tested.size()) compare_others(framing);
    builder_.table(std::move(table_));
    return std::move(result_);
  }

 private:
  FindingBuilder& builder_;
  const Panel& panel_;
  const Project& project_;
  std::vector<PanelLayer> layers_;
  LayerComparison result_;
  Table table_{"Layers tested, from inside to outside",
               {{"tested", ""},
                {"thickness tested", "mm"},
                {"panel", "mm"},
                {"density tested", "kg/m³"},
                {"of the panel", "kg/m³"},
                {"covered", ""}},
               {}};

  void compare_layer(const TestedLayer& tested, std::optional<std::size_t> place) {
    const PanelLayer* layer = place ? &layers_[*place] : nullptr;
    std::string fault;
    if (layer == nullptr) {
      fault = "the panel has no layer '" + tested.material + "' of the thickness tested, in its place" + kBuildUp;
    } else {
      result_.covered.push_back(layer->index);
      fault = density_fault(tested, *layer);
    }
    std::optional<double> thickness_mm;
    std::optional<double> density_kg_per_m3;
    if (layer != nullptr) thickness_mm = layer->thickness_mm;
    if (layer != nullptr && layer->density_kg_per_m3) density_kg_per_m3 = layer->density_kg_per_m3->value;
    table_.rows.push_back({tested.material, tested.thickness_mm, cell(thickness_mm), cell(tested.density_kg_per_m3),
                           cell(density_kg_per_m3), std::string(fault.empty() ? "yes" : "no")});
    if (!fault.empty()) result_.open_points.push_back(std::move(fault));
  }

  static std::string density_fault(const TestedLayer& tested, const PanelLayer& layer) {
    if (layer.material == nullptr) return {};
    if (!tested.density_kg_per_m3) return "the density tested of '" + tested.material + "' is not given" + kBuildUp;
    if (!layer.density_kg_per_m3) {
      return "the density of '" + tested.material + "' is not given (Pset_MaterialCommon.MassDensity)";
    }
    if (layer.density_kg_per_m3->value >= kDensityScatter * *tested.density_kg_per_m3) return {};
    return "'" + tested.material + "' has " + with_unit(layer.density_kg_per_m3->value, "kg/m³") +
           " (Pset_MaterialCommon.MassDensity), and the test had " + with_unit(*tested.density_kg_per_m3, "kg/m³") +
           kBuildUp;
  }

  /// Layers that the test did not have: none between those tested, and outside of them only what the report covers.
  void compare_others(std::optional<std::size_t> framing) {
    const bool reaches_framing =
        !framing || (*framing >= result_.covered.front() && *framing <= result_.covered.back());
    if (!reaches_framing) {
      result_.open_points.push_back("the layers tested do not hold the framing, '" + name_of(*framing) + "'" +
                                    kBuildUp);
    }
    std::vector<std::size_t> added;
    for (const PanelLayer& layer : layers_) {
      const bool tested =
          std::find(result_.covered.begin(), result_.covered.end(), layer.index) != result_.covered.end();
      if (tested || layer.is_non_substantial()) continue;
      const bool between = layer.index > result_.covered.front() && layer.index < result_.covered.back();
      if (!between) {
        added.push_back(layer.index);
      } else if (layer.material != nullptr || layer.index != framing) {
        result_.open_points.push_back(name_of(layer.index) + " stands between the layers tested" + kBuildUp);
      }
    }
    if (!added.empty()) compare_added(added);
  }

  void compare_added(const std::vector<std::size_t>& added) {
    const auto stated = panel_.properties.text("Panel_FireEvidence", "AddedLayers");
    if (!stated) {
      std::vector<std::string> names;
      names.reserve(added.size());
      for (const std::size_t index : added) names.push_back(name_of(index));
      result_.open_points.push_back(
          "whether the report covers layers beyond those tested is not given "
          "(Panel_FireEvidence.AddedLayers): " +
          joined(names));
      return;
    }
    builder_.text("least class of added layers that the report covers", stated, {});
    const auto least = parse_reaction_class(stated->value);
    if (!least && stated->value != "none") {
      result_.open_points.push_back("'" + stated->value +
                                    "' is neither a class of EN 13501-1 nor none (Panel_FireEvidence.AddedLayers)");
      return;
    }
    for (const std::size_t index : added) {
      const auto material = panel_.layers[index].material;
      const auto own = material ? class_of(project_, *material, panel_.layers[index].name).parsed : std::nullopt;
      const bool covered = least && (!material || (own && own->meets(*least)));
      if (!covered) {
        result_.open_points.push_back(name_of(index) + " was not tested, and the report covers added layers of '" +
                                      stated->value + "' (Panel_FireEvidence.AddedLayers)");
      }
    }
  }

  /// `'Cladding' (8 mm, A2-s1,d0)`.
  std::string name_of(std::size_t index) const {
    const Layer& layer = panel_.layers[index];
    std::string text =
        "'" + layer.name + "' (" + fixed_text(units::millimetres_from_metres(layer.thickness_m.value), 0) + " mm, ";
    if (!layer.material) return text + "air)";
    const LayerClass found = class_of(project_, *layer.material, layer.name);
    return text + (found.parsed ? found.parsed->text() : std::string("no class")) + ")";
  }
};

}  // namespace

std::optional<std::vector<TestedLayer>> parse_tested_layers(std::string_view text) {
  std::vector<TestedLayer> layers;
  while (!text.empty()) {
    const std::size_t end = text.find(';');
    auto layer = parse_layer(trimmed(text.substr(0, end)));
    if (!layer) return std::nullopt;
    layers.push_back(std::move(*layer));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  if (layers.empty()) return std::nullopt;
  return layers;
}

LayerComparison compare_layers(FindingBuilder& builder, const Panel& panel, const Project& project,
                               std::optional<std::size_t> framing) {
  const auto stated = panel.properties.text("Panel_FireEvidence", "BuildUp");
  LayerComparison result;
  if (!stated) {
    result.open_points.emplace_back("the build-up tested is not given (Panel_FireEvidence.BuildUp)");
    return result;
  }
  const auto tested = parse_tested_layers(stated->value);
  if (!tested) {
    result.open_points.emplace_back(
        "the build-up tested cannot be read (Panel_FireEvidence.BuildUp: material, thickness in mm and density in "
        "brackets, separated by semicolons)");
    return result;
  }
  builder.text("build-up tested", stated, {});
  return LayerJudgement(builder, panel, project).compare(*tested, framing);
}

std::vector<CheckInput> tested_layers_inputs() {
  return {property("Panel_FireEvidence.BuildUp"), optional_property("Panel_FireEvidence.AddedLayers"),
          property("Pset_MaterialCommon.MassDensity"), optional_property("Panel_Fire.ReactionToFire")};
}

}  // namespace panel_dossier::fire
