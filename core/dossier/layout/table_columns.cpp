#include <algorithm>
#include <numeric>

#include "core/dossier/layout/table.h"

namespace panel_dossier {

namespace {

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

}  // namespace

std::vector<double> fit_columns(const std::vector<double>& natural, const std::vector<double>& minimum,
                                double available, bool fill) {
  const double natural_sum = sum(natural);
  const double minimum_sum = sum(minimum);
  std::vector<double> widths(natural);
  if (natural_sum <= available) {
    if (!fill || natural_sum <= 0.0) return widths;
    for (double& width : widths) width *= available / natural_sum;
    return widths;
  }
  if (minimum_sum >= available) {
    for (std::size_t i = 0; i < widths.size(); ++i) widths[i] = minimum[i] * available / minimum_sum;
    return widths;
  }
  // Narrow columns keep their natural width as long as possible: the widest are cut first, down to a common level.
  double low = 0.0;
  double high = *std::max_element(natural.begin(), natural.end());
  for (int step = 0; step < 50; ++step) {
    const double level = (low + high) / 2.0;
    for (std::size_t i = 0; i < widths.size(); ++i) widths[i] = std::max(minimum[i], std::min(natural[i], level));
    (sum(widths) > available ? high : low) = level;
  }
  for (std::size_t i = 0; i < widths.size(); ++i) widths[i] = std::max(minimum[i], std::min(natural[i], low));
  return widths;
}

bool looks_numeric(std::string_view text) {
  for (const std::string_view sign : {"≤ ", "≥ ", "= ", "\u2212", "-", "+"}) {
    if (text.substr(0, sign.size()) == sign) text.remove_prefix(sign.size());
  }
  return !text.empty() && text.front() >= '0' && text.front() <= '9';
}

}  // namespace panel_dossier
