// OpenSSL 3 calls engines deprecated; a provider for tokens is not in Debian 12.
#define OPENSSL_SUPPRESS_DEPRECATED

#include "core/seal/token/token_key.h"

#include <openssl/engine.h>
#include <openssl/err.h>

#include <stdexcept>

namespace panel_dossier {

namespace {

struct EngineFree {
  void operator()(ENGINE* engine) const { ENGINE_free(engine); }
};
using Engine = std::unique_ptr<ENGINE, EngineFree>;

/// Initialised; OpenSSL ends it with the process, as keys of it may live that long.
Engine token_engine(const std::filesystem::path& module, const std::string& pin) {
  ENGINE_load_dynamic();
  Engine engine(ENGINE_by_id("pkcs11"));
  if (!engine) throw std::runtime_error("OpenSSL has no engine for tokens; install libengine-pkcs11-openssl");
  if (!std::filesystem::exists(module)) {
    throw std::runtime_error("the PKCS#11 module '" + module.string() + "' is not there");
  }
  ENGINE_ctrl_cmd_string(engine.get(), "QUIET", nullptr, 0);
  ENGINE_ctrl_cmd_string(engine.get(), "MODULE_PATH", module.c_str(), 0);
  if (!pin.empty()) ENGINE_ctrl_cmd_string(engine.get(), "PIN", pin.c_str(), 0);
  if (ENGINE_init(engine.get()) != 1) {
    throw std::runtime_error("the PKCS#11 module '" + module.string() + "' cannot be loaded");
  }
  return engine;
}

std::string reason_of_engine() {
  const char* reason = ERR_reason_error_string(ERR_peek_error());
  return reason == nullptr ? "no such object, or a wrong PIN" : reason;
}

}  // namespace

TokenKey load_token_key(const std::string& uri, const std::filesystem::path& module, const std::string& pin) {
  const Engine engine = token_engine(module, pin);
  ERR_clear_error();
  // The form in which the engine takes and gives a certificate.
  struct {
    const char* uri;
    X509* certificate;
  } asked{uri.c_str(), nullptr};
  ENGINE_ctrl_cmd(engine.get(), "LOAD_CERT_CTRL", 0, &asked, nullptr, 1);
  TokenKey found{{}, Certificate(asked.certificate)};
  if (!found.certificate) throw std::runtime_error("the token holds no certificate '" + uri + "'");
  ERR_clear_error();
  found.key.reset(ENGINE_load_private_key(engine.get(), uri.c_str(), nullptr, nullptr));
  if (!found.key) {
    throw std::runtime_error("the key '" + uri + "' cannot be used (" + reason_of_engine() + ")");
  }
  if (X509_check_private_key(found.certificate.get(), found.key.get()) != 1) {
    throw std::runtime_error("the certificate '" + uri + "' does not belong to the key of the token");
  }
  return found;
}

}  // namespace panel_dossier
