// Private to the seal stage.
#pragma once

#include <openssl/x509.h>

#include <memory>
#include <string>
#include <vector>

#include "core/seal/certificate.h"

namespace panel_dossier {

/// Certificates (DER) as the stack that OpenSSL asks for; it owns them.
class CertificateStack {
 public:
  explicit CertificateStack(const std::vector<std::string>& certificates)
      : stack_(owned<Stack>(sk_X509_new_null(), "gather certificates")) {
    for (const auto& octets : certificates) sk_X509_push(stack_.get(), read_certificate(octets).release());
  }

  STACK_OF(X509) * get() const { return stack_.get(); }

 private:
  struct Free {
    void operator()(STACK_OF(X509) * stack) const { sk_X509_pop_free(stack, X509_free); }
  };
  using Stack = std::unique_ptr<STACK_OF(X509), Free>;

  Stack stack_;
};

}  // namespace panel_dossier
