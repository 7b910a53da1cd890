#include "plugins/carbon/account/layers_in_the_way.h"

#include <algorithm>
#include <optional>

namespace panel_dossier::carbon {

namespace {

/// The layer with the most studs and posts in it, by their middle.
std::optional<std::size_t> framed_layer(const Panel& panel) {
  std::optional<std::size_t> best;
  std::ptrdiff_t most = 0;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const std::vector<std::size_t> parts = parts_in_layer(panel, panel.layers[i]);
    const auto count = std::count_if(parts.begin(), parts.end(), [&](std::size_t part) {
      return panel.parts[part].kind == PartKind::stud || panel.parts[part].kind == PartKind::post;
    });
    if (count <= most) continue;
    most = count;
    best = i;
  }
  return best;
}

double times_of(const Layer& layer, const std::map<std::size_t, double>& replacements) {
  const auto found = layer.material ? replacements.find(*layer.material) : replacements.end();
  return found == replacements.end() ? 0.0 : found->second;
}

}  // namespace

std::vector<std::string> layers_in_the_way(const Panel& panel, const Project& project,
                                           const std::map<std::size_t, double>& replacements) {
  std::vector<std::string> notes;
  const auto framed = framed_layer(panel);
  if (!framed) return notes;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const double times = times_of(panel.layers[i], replacements);
    if (times <= 0.0 || i == *framed) continue;
    const std::size_t from = i < *framed ? 0 : i + 1;
    const std::size_t to = i < *framed ? i : panel.layers.size();
    std::string in_the_way;
    for (std::size_t other = from; other < to; ++other) {
      const Layer& layer = panel.layers[other];
      if (!layer.material || times_of(layer, replacements) >= times) continue;
      in_the_way += (in_the_way.empty() ? "'" : ", '") + project.materials[*layer.material].name + "'";
    }
    if (in_the_way.empty()) continue;
    notes.push_back("Before '" + project.materials[*panel.layers[i].material].name +
                    "' is replaced these must come off, which is not counted: " + in_the_way + ".");
  }
  return notes;
}

}  // namespace panel_dossier::carbon
