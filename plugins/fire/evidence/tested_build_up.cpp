#include "plugins/fire/evidence/tested_build_up.h"

#include <charconv>
#include <cmath>
#include <utility>

#include "core/api/support/units.h"

namespace panel_dossier::fire {

namespace {

constexpr double kRounding_mm = 1e-6;  ///< lengths of the export are whole nanometres at best

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<TestedLayer> parse_layer(std::string_view text) {
  const std::size_t blank = text.rfind(' ');
  if (blank == std::string_view::npos) return std::nullopt;
  const std::string_view number = text.substr(blank + 1);
  TestedLayer layer{std::string(trimmed(text.substr(0, blank)))};
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), layer.thickness_mm);
  const bool whole = error == std::errc() && end == number.data() + number.size();
  if (!whole || !std::isfinite(layer.thickness_mm) || layer.thickness_mm <= 0.0) return std::nullopt;
  return layer;
}

struct PanelLayer {
  std::size_t index = 0;  ///< into Panel::layers
  std::string material;
  double thickness_mm = 0.0;
};

std::vector<PanelLayer> layers_of(const Panel& panel, const Project& project) {
  std::vector<PanelLayer> layers;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    if (const Material* material = material_at(project, panel.layers[i].material)) {
      layers.push_back({i, material->name, units::millimetres_from_metres(panel.layers[i].thickness_m.value)});
    }
  }
  return layers;
}

}  // namespace

std::optional<std::vector<TestedLayer>> parse_build_up(std::string_view text) {
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

BuildUpComparison compare_build_up(FindingBuilder& builder, const Panel& panel, const Project& project) {
  const auto stated = panel.properties.text("Panel_FireEvidence", "BuildUp");
  BuildUpComparison result;
  if (!stated) {
    result.open_points.emplace_back("the build-up tested is not given (Panel_FireEvidence.BuildUp)");
    return result;
  }
  const auto tested = parse_build_up(stated->value);
  if (!tested) {
    result.open_points.emplace_back(
        "the build-up tested cannot be read (Panel_FireEvidence.BuildUp: material and thickness in mm, separated by "
        "semicolons)");
    return result;
  }
  builder.text("build-up tested", stated, {});
  Table table{"Layers tested, from inside to outside",
              {{"tested", ""}, {"thickness tested", "mm"}, {"panel", "mm"}, {"covered", ""}},
              {}};
  const auto layers = layers_of(panel, project);
  std::size_t next = 0;
  for (const TestedLayer& layer : *tested) {
    std::size_t found = next;
    while (found < layers.size() && (layers[found].material != layer.material ||
                                     layers[found].thickness_mm < layer.thickness_mm - kRounding_mm)) {
      ++found;
    }
    const bool covered = found < layers.size();
    table.rows.push_back({layer.material, layer.thickness_mm, covered ? Value{layers[found].thickness_mm} : Value{},
                          std::string(covered ? "yes" : "no")});
    if (covered) {
      result.covered.push_back(layers[found].index);
      next = found + 1;
    } else {
      result.open_points.push_back("the panel has no layer '" + layer.material +
                                   "' of the thickness tested, in its place (Panel_FireEvidence.BuildUp)");
    }
  }
  builder.table(std::move(table));
  return result;
}

}  // namespace panel_dossier::fire
