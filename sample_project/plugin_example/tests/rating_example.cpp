// The rating against sources outside of the project.
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "core/api/testing/run_cases.h"
#include "rating.h"

namespace {

using panel_dossier::testing::RegisterTest;

std::vector<sound::Band> bands() {
  std::filesystem::path data = PANEL_DOSSIER_TESTED_PLUGIN;
  return sound::read_bands(data.replace_extension() / "reference_curve.csv");
}

void expect(std::vector<std::string>& faults, const std::string& what, double found, double expected,
            double tolerance) {
  if (std::fabs(found - expected) <= tolerance) return;
  faults.push_back(what + " is " + std::to_string(found) + " instead of " + std::to_string(expected));
}

/// EN ISO 717-1, annex C, example of a measurement in one-third-octave bands: R_w (C; C_tr) = 30 (-2; -3) dB, sum of
/// unfavourable deviations 31.8 dB (from memory). Whole dB are exact; the sum is of values of one decimal.
const RegisterTest kExample("example of EN ISO 717-1 annex C", [] {
  const std::vector<double> measured{20.4, 16.3, 17.7, 22.6, 22.4, 22.7, 24.8, 26.6,
                                     28.0, 30.5, 31.8, 32.5, 33.4, 33.0, 31.0, 25.5};
  const sound::Rating rating = sound::rate(bands(), measured);
  std::vector<std::string> faults;
  expect(faults, "R_w", rating.r_w_db, 30.0, 0.0);
  expect(faults, "C", rating.c_db, -2.0, 0.0);
  expect(faults, "C_tr", rating.c_tr_db, -3.0, 0.0);
  expect(faults, "sum of unfavourable deviations", rating.unfavourable_db, 31.8, 1.0e-9);
  return faults;
});

/// Identity: both spectra are normalised to an overall level of 0 dB; their values are whole dB, so the sum of energies
/// is 1 to within what sixteen roundings of at most 0.5 dB can give on average, less than 2 %.
const RegisterTest kSpectra("spectra are normalised to 0 dB", [] {
  double pink = 0.0;
  double traffic = 0.0;
  for (const sound::Band& band : bands()) {
    pink += std::pow(10.0, band.spectrum_c_db / 10.0);
    traffic += std::pow(10.0, band.spectrum_ctr_db / 10.0);
  }
  std::vector<std::string> faults;
  expect(faults, "energy of spectrum 1", pink, 1.0, 0.02);
  expect(faults, "energy of spectrum 2", traffic, 1.0, 0.02);
  return faults;
});

}  // namespace
