#include "core/seal/time/time_stamp.h"

#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/objects.h>
#include <openssl/pkcs7.h>
#include <openssl/ts.h>
#include <openssl/x509.h>
#include <openssl/x509_vfy.h>

#include <ctime>
#include <stdexcept>

#include "core/seal/certificate.h"
#include "core/seal/pdf_date.h"

namespace panel_dossier {

namespace {

using Token = Handle<PKCS7, PKCS7_free>;
using Info = Handle<TS_TST_INFO, TS_TST_INFO_free>;

std::string last_reason() {
  const char* reason = ERR_reason_error_string(ERR_peek_last_error());
  return reason == nullptr ? "unknown reason" : reason;
}

bool is_strong(int digest) {
  return digest == NID_sha256 || digest == NID_sha384 || digest == NID_sha512;
}

Token parse_token(std::string_view octets) {
  const auto* in = reinterpret_cast<const unsigned char*>(octets.data());
  const auto* end = in + octets.size();
  Token token(d2i_PKCS7(nullptr, &in, static_cast<long>(octets.size())));
  if (!token || in != end || PKCS7_type_is_signed(token.get()) != 1) {
    throw std::runtime_error("the time stamp is no signed token");
  }
  return token;
}

void require_imprint(PKCS7* token, TS_TST_INFO* info, std::string_view octets) {
  const ASN1_OBJECT* algorithm = nullptr;
  X509_ALGOR_get0(&algorithm, nullptr, nullptr, TS_MSG_IMPRINT_get_algo(TS_TST_INFO_get_msg_imprint(info)));
  if (!is_strong(OBJ_obj2nid(algorithm))) throw std::runtime_error("the time stamp is over a weak digest");
  using Context = Handle<TS_VERIFY_CTX, TS_VERIFY_CTX_free>;
  const auto context = owned<Context>(TS_VERIFY_CTX_new(), "look at a time stamp");
  TS_VERIFY_CTX_set_flags(context.get(), TS_VFY_VERSION | TS_VFY_DATA);
  // Freed with the context.
  TS_VERIFY_CTX_set_data(context.get(), BIO_new_mem_buf(octets.data(), static_cast<int>(octets.size())));
  ERR_clear_error();
  if (TS_RESP_verify_token(context.get(), token) != 1) {
    throw std::runtime_error("the time stamp is not over this signature (" + last_reason() + ")");
  }
}

/// The token's only signer.
X509* signer_of(PKCS7* token) {
  STACK_OF(PKCS7_SIGNER_INFO)* signers = PKCS7_get_signer_info(token);
  if (signers == nullptr || sk_PKCS7_SIGNER_INFO_num(signers) != 1) {
    throw std::runtime_error("the time stamp does not have exactly one signer");
  }
  X509_ALGOR* digest = nullptr;
  PKCS7_SIGNER_INFO_get0_algs(sk_PKCS7_SIGNER_INFO_value(signers, 0), nullptr, &digest, nullptr);
  const ASN1_OBJECT* algorithm = nullptr;
  X509_ALGOR_get0(&algorithm, nullptr, nullptr, digest);
  if (!is_strong(OBJ_obj2nid(algorithm))) throw std::runtime_error("the time stamp is signed with a weak digest");
  STACK_OF(X509)* found = PKCS7_get0_signers(token, nullptr, 0);
  X509* signer = sk_X509_num(found) == 1 ? sk_X509_value(found, 0) : nullptr;
  sk_X509_free(found);
  if (signer == nullptr) throw std::runtime_error("the time stamp does not carry the certificate of its authority");
  return signer;
}

/// With the authority's certificate itself as anchor, so that everything but trust in it is looked at: the signature,
/// the certificate it names, its use for time stamps alone, its validity at the time.
void require_signature(PKCS7* token, X509* signer, std::time_t time) {
  using Store = Handle<X509_STORE, X509_STORE_free>;
  const auto store = owned<Store>(X509_STORE_new(), "look at a time stamp");
  X509_STORE_add_cert(store.get(), signer);
  X509_STORE_set_flags(store.get(), X509_V_FLAG_PARTIAL_CHAIN);
  X509_VERIFY_PARAM_set_time(X509_STORE_get0_param(store.get()), time);
  ERR_clear_error();
  if (TS_RESP_verify_signature(token, nullptr, store.get(), nullptr) != 1) {
    const char* detail = nullptr;
    int flags = 0;
    ERR_peek_last_error_all(nullptr, nullptr, nullptr, &detail, &flags);
    const bool has_text = detail != nullptr && (static_cast<unsigned>(flags) & ERR_TXT_STRING) != 0;
    throw std::runtime_error("the time stamp's signature does not hold (" + last_reason() +
                             (has_text ? ": " + std::string(detail) : std::string()) + ")");
  }
}

std::time_t seconds_of_stamp(const ASN1_GENERALIZEDTIME* time) {
  std::tm parts{};
  if (time == nullptr || ASN1_TIME_to_tm(time, &parts) != 1) throw std::runtime_error("the time stamp has no time");
  return timegm(&parts);
}

}  // namespace

TimeStamp read_time_stamp(std::string_view octets, std::string_view stamped) {
  const Token token = parse_token(octets);
  const Info info(PKCS7_to_TS_TST_INFO(token.get()));
  if (!info) throw std::runtime_error("the time stamp holds no time");
  require_imprint(token.get(), info.get(), stamped);
  X509* signer = signer_of(token.get());
  const std::time_t time = seconds_of_stamp(TS_TST_INFO_get_time(info.get()));
  require_signature(token.get(), signer, time);
  TimeStamp stamp{iso_from_seconds(time), subject_text(signer), {certificate_octets(signer)}};
  STACK_OF(X509)* others = token->d.sign->cert;
  for (int i = 0; i < sk_X509_num(others); ++i) {
    if (X509_cmp(sk_X509_value(others, i), signer) != 0) {
      stamp.certificates.push_back(certificate_octets(sk_X509_value(others, i)));
    }
  }
  return stamp;
}

}  // namespace panel_dossier
