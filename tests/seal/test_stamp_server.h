// A time-stamp server of the tests' own on this machine, with a certificate of a test authority.
#pragma once

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <string>

#include "tests/seal/test_authority.h"

namespace panel_dossier::testing {

inline constexpr const char* kLongAgo = "20200101000000Z";
inline constexpr const char* kFarAway = "20500101000000Z";

class TestStampServer {
 public:
  TestStampServer() {
    authority.issue("stamps", "stamps", kLongAgo, kFarAway);
    const std::string common =
        "serial = stamp.serial\ncerts = root.pem\nsigner_digest = sha256\ndefault_policy = 1.2.3.4\n"
        "other_policies = 1.2.3.5\nordering = no\ntsa_name = no\ness_cert_id_chain = no\ness_cert_id_alg = sha256\n";
    write("stamp.serial", "01\n");
    write("tsa.cnf", "[tsa]\ndefault_tsa = honest\n[honest]\nsigner_cert = stamps.pem\nsigner_key = stamps.key\n" +
                         std::string("digests = sha256\n") + common +
                         "[rejecting]\nsigner_cert = stamps.pem\nsigner_key = stamps.key\ndigests = sha512\n" + common);
    start();
  }
  ~TestStampServer() {
    ::kill(process_, SIGTERM);
    ::waitpid(process_, nullptr, 0);
  }
  TestStampServer(const TestStampServer&) = delete;
  TestStampServer& operator=(const TestStampServer&) = delete;

  /// Where it answers in the way of that name.
  std::string url(const std::string& way) const { return "http://127.0.0.1:" + port_ + "/" + way; }

  TestAuthority authority{"Authority of stamps"};

 private:
  pid_t process_ = -1;
  std::string port_;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(authority.file(name), std::ios::binary) << text;
  }

  void start() {
    std::array<int, 2> pipe{};
    REQUIRE(::pipe(pipe.data()) == 0);
    process_ = ::fork();
    if (process_ == 0) {
      ::dup2(pipe[1], STDOUT_FILENO);
      ::close(pipe[0]);
      if (::chdir(authority.file("").c_str()) == 0) {
        ::execlp("/usr/bin/python3", "python3", PANEL_DOSSIER_SOURCE_DIR "/tests/seal/time_stamp_server.py", nullptr);
      }
      ::_exit(127);
    }
    ::close(pipe[1]);
    for (char digit = 0; ::read(pipe[0], &digit, 1) == 1 && digit != '\n';) port_ += digit;
    ::close(pipe[0]);
    REQUIRE_FALSE(port_.empty());
  }
};

/// One for all tests of a program.
inline const TestStampServer& test_stamp_server() {
  static const TestStampServer server;
  return server;
}

}  // namespace panel_dossier::testing
