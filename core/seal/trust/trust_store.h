// Whom the reader of a dossier trusts, and whether a certificate leads there. Private to the seal stage.
#pragma once

#include <ctime>
#include <string>
#include <vector>

#include "core/seal/verify.h"

namespace panel_dossier {

/// A path from a certificate to one that the reader named.
struct TrustPath {
  std::vector<std::string> certificates;  ///< DER, from the one asked for to the anchor; empty: there is none
  std::string fault;                      ///< why there is none
};

class TrustStore {
 public:
  /// Reads the files. Throws std::runtime_error naming a file that cannot be read or holds neither certificate nor
  /// revocation list, a folder that holds none, and a fingerprint or time of another form.
  explicit TrustStore(const TrustSources& sources);

  /// True where the reader named nobody.
  bool is_empty() const { return anchors_.empty() && fingerprints_.empty(); }
  /// Whether the reader named this very certificate (DER).
  bool names(const std::string& certificate) const;
  /// The path at the time, over `others`, which need not be trusted. A path holds keys and digests of at least 112 bits
  /// of security. A certificate that is named itself is a path of one.
  TrustPath path(const std::string& certificate, const std::vector<std::string>& others, std::time_t time) const;

  const std::vector<std::string>& revocation_lists() const { return revocation_lists_; }
  std::time_t now() const { return now_; }

 private:
  std::vector<std::string> anchors_;           ///< DER
  std::vector<std::string> revocation_lists_;  ///< DER
  std::vector<std::string> fingerprints_;      ///< lower-case hexadecimal
  std::time_t now_ = 0;

  bool read_file(const std::filesystem::path& file);
};

}  // namespace panel_dossier
