#include "plugins/structural/lifting/lifting_statics.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace panel_dossier::structural {

namespace {

std::vector<double> by_any_pair(const std::vector<double>& x_m, double centre_x_m, double weight_n) {
  std::vector<double> greatest(x_m.size(), 0.0);
  bool balanced = false;
  for (std::size_t left = 0; left < x_m.size(); ++left) {
    for (std::size_t right = left + 1; right < x_m.size(); ++right) {
      if (centre_x_m < x_m[left] || centre_x_m > x_m[right]) continue;
      balanced = true;
      const double on_right = weight_n * (centre_x_m - x_m[left]) / (x_m[right] - x_m[left]);
      greatest[right] = std::max(greatest[right], on_right);
      greatest[left] = std::max(greatest[left], weight_n - on_right);
    }
  }
  return balanced ? greatest : std::vector<double>();
}

std::vector<double> by_straight_line(const std::vector<double>& x_m, double centre_x_m, double weight_n) {
  const auto count = static_cast<double>(x_m.size());
  const double mean = std::accumulate(x_m.begin(), x_m.end(), 0.0) / count;
  double spread = 0.0;
  for (const double x : x_m) spread += (x - mean) * (x - mean);
  std::vector<double> forces;
  forces.reserve(x_m.size());
  for (const double x : x_m) {
    forces.push_back(weight_n / count + weight_n * (centre_x_m - mean) * (x - mean) / spread);
  }
  const bool all_pull = std::all_of(forces.begin(), forces.end(), [](double force) { return force >= 0.0; });
  return all_pull ? forces : std::vector<double>();
}

}  // namespace

std::vector<double> lifting_reactions_n(const std::vector<double>& x_m, double centre_x_m, double weight_n,
                                        bool equalised) {
  return equalised ? by_straight_line(x_m, centre_x_m, weight_n) : by_any_pair(x_m, centre_x_m, weight_n);
}

double leg_force_n(double reaction_n, double angle_rad) {
  return reaction_n / std::cos(angle_rad);
}

double turning_moment_nm(double line_load_n_per_m, double held_m, double length_m) {
  const double beyond = length_m - held_m;
  const double difference = held_m * held_m - beyond * beyond;
  const double in_span = line_load_n_per_m * difference * difference / (8.0 * held_m * held_m);
  return std::max(in_span, line_load_n_per_m * beyond * beyond / 2.0);
}

}  // namespace panel_dossier::structural
