#include "core/seal/time/time_stamper.h"

#include <openssl/asn1.h>
#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/http.h>
#include <openssl/objects.h>
#include <openssl/rand.h>
#include <openssl/ts.h>

#include <array>
#include <cstdint>
#include <cstdlib>
#include <ctime>
#include <stdexcept>

#include "core/intake/document/sha256.h"
#include "core/seal/certificate.h"
#include "core/seal/pdf_date.h"
#include "core/seal/time/time_stamp.h"

namespace panel_dossier {

namespace {

using Memory = Handle<BIO, BIO_free_all>;
using Request = Handle<TS_REQ, TS_REQ_free>;
using Reply = Handle<TS_RESP, TS_RESP_free>;

void require_question(bool done) {
  if (!done) throw std::runtime_error("the question for a time stamp cannot be made");
}

/// With a fresh nonce, so that no earlier answer fits, and asking for the authority's certificate.
Request question(std::string_view octets) {
  auto request = owned<Request>(TS_REQ_new(), "ask for a time stamp");
  require_question(TS_REQ_set_version(request.get(), 1) == 1);
  using Imprint = Handle<TS_MSG_IMPRINT, TS_MSG_IMPRINT_free>;
  using Algorithm = Handle<X509_ALGOR, X509_ALGOR_free>;
  const auto imprint = owned<Imprint>(TS_MSG_IMPRINT_new(), "ask for a time stamp");
  const auto algorithm = owned<Algorithm>(X509_ALGOR_new(), "ask for a time stamp");
  require_question(X509_ALGOR_set0(algorithm.get(), OBJ_nid2obj(NID_sha256), V_ASN1_NULL, nullptr) == 1);
  Digest digest = sha256(octets);
  require_question(TS_MSG_IMPRINT_set_algo(imprint.get(), algorithm.get()) == 1 &&
                   TS_MSG_IMPRINT_set_msg(imprint.get(), digest.data(), static_cast<int>(digest.size())) == 1 &&
                   TS_REQ_set_msg_imprint(request.get(), imprint.get()) == 1);
  std::uint64_t random = 0;
  using Nonce = Handle<ASN1_INTEGER, ASN1_INTEGER_free>;
  const auto nonce = owned<Nonce>(ASN1_INTEGER_new(), "ask for a time stamp");
  require_question(RAND_bytes(reinterpret_cast<unsigned char*>(&random), sizeof random) == 1);
  require_question(ASN1_INTEGER_set_uint64(nonce.get(), random) == 1 &&
                   TS_REQ_set_nonce(request.get(), nonce.get()) == 1 && TS_REQ_set_cert_req(request.get(), 1) == 1);
  return request;
}

std::string reason_of_library() {
  const char* detail = nullptr;
  int flags = 0;
  const unsigned long error = ERR_peek_error_all(nullptr, nullptr, nullptr, &detail, &flags);
  const char* reason = ERR_reason_error_string(error);
  std::string text = reason == nullptr ? "no reason given" : reason;
  if (detail != nullptr && *detail != '\0' && (static_cast<unsigned>(flags) & ERR_TXT_STRING) != 0) {
    text += ", " + std::string(detail);
  }
  return text;
}

/// What a server says that gave no token (RFC 3161, 2.4.2).
std::string refusal_of(TS_STATUS_INFO* info, std::int64_t status) {
  constexpr std::array<const char*, 6> kStatus{"granted", "granted with changes", "rejected",
                                               "waiting", "revocation warning",   "revoked"};
  std::string text = status >= 0 && status < static_cast<std::int64_t>(kStatus.size())
                         ? kStatus.at(static_cast<std::size_t>(status))
                         : "status " + std::to_string(status);
  const STACK_OF(ASN1_UTF8STRING)* words = TS_STATUS_INFO_get0_text(info);
  for (int i = 0; i < sk_ASN1_UTF8STRING_num(words); ++i) {
    const ASN1_UTF8STRING* word = sk_ASN1_UTF8STRING_value(words, i);
    text += ", '" +
            std::string(reinterpret_cast<const char*>(ASN1_STRING_get0_data(word)),
                        static_cast<std::size_t>(ASN1_STRING_length(word))) +
            "'";
  }
  return text;
}

struct ServerAddress {
  std::string host;
  std::string port;
  std::string path;
};

ServerAddress parsed_url(const std::string& url) {
  char* host = nullptr;
  char* port = nullptr;
  char* path = nullptr;
  char* query = nullptr;
  int uses_tls = 0;
  ERR_clear_error();
  const bool parsed =
      OSSL_HTTP_parse_url(url.c_str(), &uses_tls, nullptr, &host, &port, nullptr, &path, &query, nullptr) == 1;
  ServerAddress address{host == nullptr ? "" : host, port == nullptr ? "" : port, path == nullptr ? "" : path};
  if (query != nullptr && *query != '\0') address.path += "?" + std::string(query);
  OPENSSL_free(host);
  OPENSSL_free(port);
  OPENSSL_free(path);
  OPENSSL_free(query);
  if (!parsed || uses_tls != 0 || url.rfind("http://", 0) != 0) {
    throw std::runtime_error("'" + url +
                             "' is no address of a time-stamp server of the form http://HOST[:PORT][/PATH]");
  }
  return address;
}

class HttpTimeStamper : public TimeStamper {
 public:
  HttpTimeStamper(std::string url, int timeout_s)
      : url_(std::move(url)), address_(parsed_url(url_)), timeout_s_(timeout_s) {}

  std::string token(std::string_view octets) const override {
    try {
      return checked_token(octets);
    } catch (const std::runtime_error& error) {
      throw std::runtime_error("no time stamp of the server '" + url_ + "': " + error.what());
    }
  }

 private:
  std::string url_;
  ServerAddress address_;
  int timeout_s_;

  std::string checked_token(std::string_view octets) const {
    const Request request = question(octets);
    const Reply reply = asked(request.get());
    require_answer(request.get(), reply.get());
    std::string token = encoded(TS_RESP_get_token(reply.get()), i2d_PKCS7);
    if (token.size() > kMostTokenBytes) throw std::runtime_error("its token is too large");
    const TimeStamp stamp = read_time_stamp(token, octets);
    constexpr std::time_t kClockDifference_s = 300;
    const std::time_t difference = seconds_from_iso(stamp.time_utc) - std::time(nullptr);
    if (std::abs(difference) > kClockDifference_s) {
      throw std::runtime_error("its time, " + stamp.time_utc + ", is not that of this machine's clock");
    }
    return token;
  }

  Reply asked(TS_REQ* request) const {
    constexpr std::size_t kMostReplyBytes = std::size_t{1} << 20U;
    const std::string octets = encoded(request, i2d_TS_REQ);
    const Memory body(BIO_new_mem_buf(octets.data(), static_cast<int>(octets.size())));
    ERR_clear_error();
    const Memory answer(OSSL_HTTP_transfer(nullptr, address_.host.c_str(), address_.port.c_str(), address_.path.c_str(),
                                           0, nullptr, nullptr, nullptr, nullptr, nullptr, nullptr, 0, nullptr,
                                           "application/timestamp-query", body.get(), "application/timestamp-reply", 1,
                                           kMostReplyBytes, timeout_s_, 0));
    if (!answer) throw std::runtime_error("it cannot be asked (" + reason_of_library() + ")");
    Reply reply(d2i_TS_RESP_bio(answer.get(), nullptr));
    if (!reply) throw std::runtime_error("its answer is no reply to a question for a time stamp");
    return reply;
  }

  /// That it granted a token, and over this imprint with this nonce; the token's signature is looked at afterwards.
  static void require_answer(TS_REQ* request, TS_RESP* reply) {
    TS_STATUS_INFO* info = TS_RESP_get_status_info(reply);
    std::int64_t status = -1;
    ASN1_INTEGER_get_int64(&status, TS_STATUS_INFO_get0_status(info));
    constexpr std::int64_t kGrantedWithChanges = 1;
    if (status < 0 || status > kGrantedWithChanges) {
      throw std::runtime_error("it gives none (" + refusal_of(info, status) + ")");
    }
    if (TS_RESP_get_token(reply) == nullptr) throw std::runtime_error("its answer holds no token");
    using Context = Handle<TS_VERIFY_CTX, TS_VERIFY_CTX_free>;
    const auto context = owned<Context>(TS_REQ_to_TS_VERIFY_CTX(request, nullptr), "look at a time stamp");
    TS_VERIFY_CTX_set_flags(context.get(), TS_VFY_VERSION | TS_VFY_IMPRINT | TS_VFY_NONCE);
    ERR_clear_error();
    if (TS_RESP_verify_response(context.get(), reply) != 1) {
      throw std::runtime_error("its answer is not to this question (" + reason_of_library() + ")");
    }
  }
};

}  // namespace

std::unique_ptr<TimeStamper> time_stamp_server(const std::string& url, int timeout_s) {
  return std::make_unique<HttpTimeStamper>(url, timeout_s);
}

}  // namespace panel_dossier
