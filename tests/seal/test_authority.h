// A certificate authority of the tests' own, made with openssl: certificates of fixed dates, revocation lists.
#pragma once

#include <filesystem>
#include <string>

#include "tests/seal/seal_support.h"

namespace panel_dossier::testing {

inline constexpr const char* kCurveKey = "ec -pkeyopt ec_paramgen_curve:P-256";

class TestAuthority {
 public:
  /// With a root certificate of that name, valid from 2020 until 2050.
  explicit TestAuthority(const std::string& name = "Test authority") {
    dir_.write("index.txt", "");
    dir_.write("serial", "1000\n");
    dir_.write("crlnumber", "01\n");
    dir_.write("ca.cnf", R"([ca]
default_ca = authority
[authority]
dir = .
new_certs_dir = .
database = index.txt
serial = serial
crlnumber = crlnumber
certificate = root.pem
private_key = root.key
default_md = sha256
unique_subject = no
policy = any
x509_extensions = signer
default_crl_days = 30
[any]
commonName = supplied
[root]
basicConstraints = critical,CA:TRUE
keyUsage = critical,keyCertSign,cRLSign
subjectKeyIdentifier = hash
[signer]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature,nonRepudiation
[server]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature
extendedKeyUsage = serverAuth
[person]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature
extendedKeyUsage = emailProtection
[agreement]
basicConstraints = critical,CA:FALSE
keyUsage = critical,keyAgreement
[stamps]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature
extendedKeyUsage = critical,timeStamping
[stamps_and_more]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature
extendedKeyUsage = critical,timeStamping,emailProtection
[only_persons]
issuingDistributionPoint = critical,@persons
[persons]
onlyuser = TRUE
[responder]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature
extendedKeyUsage = OCSPSigning
)");
    request("root", name, kCurveKey);
    run("openssl ca -batch -notext -config ca.cnf -selfsign -extensions root -keyfile root.key -startdate "
        "20200101000000Z -enddate 20500101000000Z -in root.csr -out root.pem");
  }

  /// NAME.pem, NAME.key and NAME.p12 (password `secret`) of a certificate with the extensions of that section.
  std::filesystem::path issue(const std::string& name, const std::string& section = "signer",
                              const std::string& from = "20260101000000Z", const std::string& until = "20270101000000Z",
                              const std::string& new_key = kCurveKey, const std::string& more = "") const {
    request(name, name, new_key);
    run("openssl ca -batch -notext -config ca.cnf -extensions " + section + " -startdate " + from + " -enddate " +
        until + " " + more + " -in " + name + ".csr -out " + name + ".pem");
    run("openssl pkcs12 -export -out " + name + ".p12 -passout pass:secret -inkey " + name + ".key -in " + name +
        ".pem -certfile root.pem");
    return file(name + ".p12");
  }

  /// NAME.pem and NAME.key of a certificate for signing that nobody else vouches for.
  void self_signed(const std::string& name, const std::string& new_key = kCurveKey,
                   const std::string& more = "") const {
    request(name, name, new_key);
    run("openssl ca -batch -notext -config ca.cnf -selfsign -extensions signer -keyfile " + name +
        ".key -startdate 20260101000000Z -enddate 20270101000000Z " + more + " -in " + name + ".csr -out " + name +
        ".pem");
  }

  /// Writes in the authority's book that the certificate was revoked then (`261120000000Z`), for that reason.
  void revoke(const std::string& name, const std::string& when, const std::string& reason = "superseded") const {
    std::string index = bytes_of(file("index.txt"));
    const std::size_t subject = index.find("/CN=" + name + "\n");
    REQUIRE(subject != std::string::npos);
    const std::size_t line = index.rfind("V\t", subject);
    index[line] = 'R';
    const std::size_t end_of_expiry = index.find("\t\t", line);
    index.insert(end_of_expiry + 1, when + "," + reason);
    dir_.write("index.txt", index);
  }

  /// A revocation list as of 25 November 2026 in a file, PEM. `more` are further options of the command.
  std::filesystem::path revocation_list(const std::string& from = "20261125000000Z",
                                        const std::string& until = "20261225000000Z",
                                        const std::string& more = "") const {
    run("openssl ca -config ca.cnf -gencrl -crl_lastupdate " + from + " -crl_nextupdate " + until + " " + more +
        " -out list.crl");
    return file("list.crl");
  }

  std::filesystem::path root() const { return file("root.pem"); }
  std::filesystem::path file(const std::string& name) const { return dir_.path() / name; }

  void run(const std::string& command) const {
    const auto outcome = run_command("cd '" + dir_.path().string() + "' && " + command);
    INFO(command << "\n" << outcome.text);
    REQUIRE(outcome.status == 0);
  }

 private:
  TemporaryFolder dir_;

  void request(const std::string& file, const std::string& name, const std::string& new_key) const {
    run("openssl req -new -nodes -newkey " + new_key + " -subj '/CN=" + name + "' -keyout " + file + ".key -out " +
        file + ".csr");
  }
};

/// One for all tests of a program that neither revoke anything nor need another.
inline const TestAuthority& test_authority() {
  static const TestAuthority authority;
  return authority;
}

}  // namespace panel_dossier::testing
