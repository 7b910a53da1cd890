// One X.509 certificate: reading, writing and what it says. Private to the seal stage.
#pragma once

#include <ctime>
#include <memory>
#include <string>
#include <string_view>

struct x509_st;

namespace panel_dossier {

struct CertificateFree {
  void operator()(x509_st* certificate) const;
};

using Certificate = std::unique_ptr<x509_st, CertificateFree>;

/// The subject of the demonstration key's certificate.
inline constexpr std::string_view kDemonstrationName = "Demonstration key - not for issue";

/// From DER. Throws std::runtime_error when it cannot be read.
Certificate read_certificate(const std::string& octets);

/// As DER.
std::string certificate_octets(x509_st* certificate);

/// Names as RFC 2253 text, in UTF-8.
std::string subject_text(x509_st* certificate);
std::string issuer_text(x509_st* certificate);

/// True for certificates whose subject is the demonstration key's.
bool is_demonstration(x509_st* certificate);

/// Why the certificate is not valid at the time, or empty when it is: `expired since …` or `not valid before …`.
std::string validity_fault(x509_st* certificate, std::time_t time);

}  // namespace panel_dossier
