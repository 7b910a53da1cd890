#include "rating.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "core/api/support/data_table.h"

namespace sound {

namespace {

/// The curve is shifted in steps of 1 dB as far up as this sum allows (clause 4.4).
constexpr double kMostUnfavourable_db = 32.0;
/// Sums of values of one decimal: what is left of adding them in binary.
constexpr double kRounding_db = 1.0e-9;
/// Place of 500 Hz, where the shifted curve is read.
constexpr std::size_t kBandOf500Hz = 7;

double unfavourable(const std::vector<Band>& bands, const std::vector<double>& reduction_db, double shift_db) {
  double sum_db = 0.0;
  for (std::size_t i = 0; i < bands.size(); ++i) {
    sum_db += std::max(0.0, bands[i].reference_db + shift_db - reduction_db[i]);
  }
  return sum_db;
}

/// X_A of clause 4.5: level difference of a whole spectrum, A-weighted, in whole dB.
double adapted(const std::vector<Band>& bands, const std::vector<double>& reduction_db, double Band::*spectrum) {
  double sum = 0.0;
  for (std::size_t i = 0; i < bands.size(); ++i) sum += std::pow(10.0, (bands[i].*spectrum - reduction_db[i]) / 10.0);
  return std::round(-10.0 * std::log10(sum));
}

}  // namespace

std::vector<Band> read_bands(const std::filesystem::path& table) {
  const panel_dossier::DataTable data(table);
  std::vector<Band> bands;
  for (const std::string& key : data.keys()) {
    const auto value = [&](const char* column) {
      const auto cell = data.number(key, column);
      if (!cell) throw std::runtime_error(table.string() + ": row '" + key + "' has no number under '" + column + "'");
      return cell->value;
    };
    bands.push_back({std::stod(key), value("reference_db"), value("spectrum_c_db"), value("spectrum_ctr_db")});
  }
  if (bands.size() <= kBandOf500Hz) throw std::runtime_error(table.string() + " has too few bands");
  return bands;
}

Rating rate(const std::vector<Band>& bands, const std::vector<double>& reduction_db) {
  // From so far down that no band can lie below it.
  double shift_db = std::floor(*std::min_element(reduction_db.begin(), reduction_db.end())) - 100.0;
  while (unfavourable(bands, reduction_db, shift_db + 1.0) <= kMostUnfavourable_db + kRounding_db) shift_db += 1.0;
  Rating rating;
  rating.r_w_db = bands[kBandOf500Hz].reference_db + shift_db;
  rating.unfavourable_db = unfavourable(bands, reduction_db, shift_db);
  rating.c_db = adapted(bands, reduction_db, &Band::spectrum_c_db) - rating.r_w_db;
  rating.c_tr_db = adapted(bands, reduction_db, &Band::spectrum_ctr_db) - rating.r_w_db;
  return rating;
}

}  // namespace sound
