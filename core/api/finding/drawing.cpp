#include "core/api/finding/drawing.h"

#include <utility>

namespace panel_dossier {

Bar stacked_bar(std::string name, const std::vector<double>& values) {
  Bar bar{std::move(name), {}};
  double right = 0.0;
  double left = 0.0;
  for (std::size_t part = 0; part < values.size(); ++part) {
    double& end = values[part] < 0.0 ? left : right;
    bar.pieces.push_back({part, end, end + values[part]});
    end += values[part];
  }
  return bar;
}

}  // namespace panel_dossier
