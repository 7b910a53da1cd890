// X.509 certificates: reading, writing and what they say; and what owns and encodes the objects of OpenSSL. Private to
// the seal stage.
#pragma once

#include <ctime>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

struct x509_st;

namespace panel_dossier {

/// Calls the library's own function for freeing that type.
template <auto free_function>
struct Freed {
  template <typename T>
  void operator()(T* object) const {
    free_function(object);
  }
};

template <typename T, auto free_function>
using Handle = std::unique_ptr<T, Freed<free_function>>;

/// The object, owned. Throws std::runtime_error when it is null: `cannot DO_WHAT`.
template <typename Owner>
Owner owned(typename Owner::pointer object, const std::string& do_what) {
  if (object == nullptr) throw std::runtime_error("cannot " + do_what);
  return Owner(object);
}

/// DER of an object through its i2d function. Throws std::runtime_error when it cannot be encoded.
template <typename T, typename Encode>
std::string encoded(T* object, Encode encode) {
  const int size = encode(object, nullptr);
  if (size <= 0) throw std::runtime_error("cannot encode a part of a certificate or signature");
  std::string octets(static_cast<std::size_t>(size), '\0');
  auto* out = reinterpret_cast<unsigned char*>(octets.data());
  encode(object, &out);
  return octets;
}

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

/// As PEM.
std::string certificate_pem(x509_st* certificate);

/// Names as RFC 2253 text, in UTF-8.
std::string subject_text(x509_st* certificate);
std::string issuer_text(x509_st* certificate);

/// True for certificates whose subject is the demonstration key's.
bool is_demonstration(x509_st* certificate);

/// Why the certificate is not valid at the time, or empty when it is: `expired since …` or `not valid before …`.
std::string validity_fault(x509_st* certificate, std::time_t time);

}  // namespace panel_dossier
