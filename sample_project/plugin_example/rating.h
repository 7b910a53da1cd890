// Rating of airborne sound insulation by one number: EN ISO 717-1:2020.
#pragma once

#include <filesystem>
#include <vector>

namespace sound {

/// One one-third-octave band of the reference curve and of the two sound level spectra, in dB.
struct Band {
  double frequency_hz = 0.0;
  double reference_db = 0.0;
  double spectrum_c_db = 0.0;
  double spectrum_ctr_db = 0.0;
};

/// The 16 bands from 100 Hz to 3150 Hz. Throws std::runtime_error naming file and row when the table lacks a value.
std::vector<Band> read_bands(const std::filesystem::path& table);

struct Rating {
  double r_w_db = 0.0;           ///< weighted sound reduction index R_w, whole dB (clause 4.4)
  double c_db = 0.0;             ///< spectrum adaptation term C, whole dB (clause 4.5)
  double c_tr_db = 0.0;          ///< spectrum adaptation term C_tr, whole dB
  double unfavourable_db = 0.0;  ///< sum of the unfavourable deviations from the shifted reference curve
};

/// Rates reduction indices R in dB, one for each band, of which the standard wants one decimal.
Rating rate(const std::vector<Band>& bands, const std::vector<double>& reduction_db);

}  // namespace sound
