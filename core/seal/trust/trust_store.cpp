#include "core/seal/trust/trust_store.h"

#include <openssl/err.h>
#include <openssl/x509.h>
#include <openssl/x509_vfy.h>

#include <algorithm>
#include <stdexcept>

#include "core/intake/document/sha256.h"
#include "core/seal/certificate.h"
#include "core/seal/certificates/certificate_stack.h"
#include "core/seal/certificates/pem_text.h"
#include "core/seal/file_bytes.h"
#include "core/seal/pdf_date.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// `AB:CD…` as lower-case digits without colons.
std::string plain_fingerprint(const std::string& text) {
  std::string digits;
  for (const char character : text) {
    if (character == ':' || character == ' ') continue;
    digits += character >= 'A' && character <= 'F' ? static_cast<char>(character - 'A' + 'a') : character;
  }
  if (digits.size() != 64 || digits.find_first_not_of("0123456789abcdef") != std::string::npos) {
    throw std::runtime_error("the fingerprint '" + text + "' is not a SHA-256 of 64 hexadecimal digits");
  }
  return digits;
}

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

TrustStore::TrustStore(const TrustSources& sources)
    : now_(sources.time_utc.empty() ? std::time(nullptr) : seconds_from_iso(sources.time_utc)) {
  for (const std::string& fingerprint : sources.fingerprints) fingerprints_.push_back(plain_fingerprint(fingerprint));
  for (const fs::path& file : sources.files) {
    if (!fs::is_directory(file)) {
      if (!read_file(file)) {
        throw std::runtime_error("'" + file.string() + "' holds no certificate and no revocation list in PEM form");
      }
      continue;
    }
    bool found = false;
    for (const fs::path& in_folder : files_in(file)) found = read_file(in_folder) || found;
    if (!found) throw std::runtime_error("the folder '" + file.string() + "' holds no certificate in PEM form");
  }
}

/// Whether it holds a certificate or a revocation list.
bool TrustStore::read_file(const fs::path& file) {
  const PemContents contents = read_pem(read_bytes(file));
  anchors_.insert(anchors_.end(), contents.certificates.begin(), contents.certificates.end());
  revocation_lists_.insert(revocation_lists_.end(), contents.revocation_lists.begin(), contents.revocation_lists.end());
  return !contents.empty();
}

bool TrustStore::names(const std::string& certificate) const {
  const auto stands_in = [](const std::vector<std::string>& texts, const std::string& text) {
    return std::find(texts.begin(), texts.end(), text) != texts.end();
  };
  return stands_in(anchors_, certificate) || stands_in(fingerprints_, to_hex(sha256(certificate)));
}

TrustPath TrustStore::path(const std::string& octets, const std::vector<std::string>& others, std::time_t time) const {
  const Certificate certificate = read_certificate(octets);
  if (names(octets)) {
    const std::string fault = validity_fault(certificate.get(), time);
    return fault.empty() ? TrustPath{{octets}, {}} : TrustPath{{}, "the certificate is " + fault};
  }
  using Store = Handle<X509_STORE, X509_STORE_free>;
  using Context = Handle<X509_STORE_CTX, X509_STORE_CTX_free>;
  const auto store = owned<Store>(X509_STORE_new(), "look for a path of trust");
  for (const std::string& anchor : anchors_) X509_STORE_add_cert(store.get(), read_certificate(anchor).get());
  const auto context = owned<Context>(X509_STORE_CTX_new(), "look for a path of trust");
  const CertificateStack untrusted(others);
  X509_STORE_CTX_init(context.get(), store.get(), certificate.get(), untrusted.get());
  X509_VERIFY_PARAM* parameters = X509_STORE_CTX_get0_param(context.get());
  constexpr int kOf112Bits = 2;
  X509_VERIFY_PARAM_set_auth_level(parameters, kOf112Bits);
  X509_VERIFY_PARAM_set_time(parameters, time);
  // An issuer below a root may be named in place of the root.
  X509_VERIFY_PARAM_set_flags(parameters, X509_V_FLAG_PARTIAL_CHAIN);
  ERR_clear_error();
  if (X509_verify_cert(context.get()) != 1) {
    const int error = X509_STORE_CTX_get_error(context.get());
    X509* at = X509_STORE_CTX_get_current_cert(context.get());
    return {{},
            std::string(X509_verify_cert_error_string(error)) +
                (at == nullptr ? std::string() : " at '" + subject_text(at) + "'")};
  }
  TrustPath path;
  STACK_OF(X509)* chain = X509_STORE_CTX_get0_chain(context.get());
  for (int i = 0; i < sk_X509_num(chain); ++i) path.certificates.push_back(certificate_octets(sk_X509_value(chain, i)));
  return path;
}

}  // namespace panel_dossier
