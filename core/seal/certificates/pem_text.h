// Private to the seal stage.
#pragma once

#include <string>
#include <vector>

namespace panel_dossier {

/// What a text in PEM form holds, each as DER.
struct PemContents {
  std::vector<std::string> certificates;
  std::vector<std::string> revocation_lists;

  bool empty() const { return certificates.empty() && revocation_lists.empty(); }
};

/// Empty for what is no PEM.
PemContents read_pem(const std::string& bytes);

}  // namespace panel_dossier
