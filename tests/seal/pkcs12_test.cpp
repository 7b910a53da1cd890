// Keys from PKCS#12 files as openssl makes them.
#include <openssl/asn1.h>
#include <openssl/x509.h>

#include <catch2/catch.hpp>
#include <ctime>

#include "core/seal/certificate.h"
#include "core/seal/signer.h"
#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kNow = "2026-11-25T02:00:00Z";

void run(const TemporaryFolder& dir, const std::string& command) {
  const auto outcome = run_command("cd '" + dir.path().string() + "' && " + command);
  INFO(command << "\n" << outcome.text);
  REQUIRE(outcome.status == 0);
}

/// key.pem and cert.pem of a self-signed certificate with an upper bound far beyond kNow. The lower bound is the
/// clock's, so tests load it at `valid_time`.
void make_certificate(const TemporaryFolder& dir, const std::string& key_options,
                      const std::string& usage = "digitalSignature,nonRepudiation") {
  run(dir, "openssl req -x509 -nodes -sha256 -days 20000 -subj '/CN=Test signatory – ≤' -utf8 " + key_options +
               " -addext 'keyUsage=critical," + usage + "' -keyout key.pem -out cert.pem");
}

constexpr const char* kValidTime = "2060-01-01T00:00:00Z";
constexpr const char* kRsa = "-newkey rsa:2048";
constexpr const char* kElliptic = "-newkey ec -pkeyopt ec_paramgen_curve:P-256";

std::filesystem::path make_container(const TemporaryFolder& dir, const std::string& options = {}) {
  run(dir, "openssl pkcs12 -export -out key.p12 -passout pass:secret -inkey key.pem -in cert.pem " + options);
  return dir.path() / "key.p12";
}

}  // namespace

TEST_CASE("A dossier signed with the practice's key is for issue and holds") {
  for (const char* key : {kRsa, kElliptic}) {
    const TemporaryFolder dir;
    make_certificate(dir, key);
    const auto signer = load_signer(make_container(dir), "secret", kValidTime);
    CHECK(signer->for_issue());
    CHECK(signer->subject() == "CN=Test signatory – ≤");
    ResultsDocument document = exported_document(true);
    const auto file = dir.path() / "dossier.pdf";
    finish_dossier(write_pages(dir, "text"), document, attachments_of(document), signer->signature_bytes(), file);
    sign_dossier(file, *signer, kValidTime);
    const auto verification = verify_dossier(file, kSchemaDir);
    INFO(steps_text(verification));
    CHECK(verification.holds());
    CHECK(verification.for_issue);
    CHECK_THAT(run_command("pdfsig -nocert '" + file.string() + "'").text, Catch::Contains("Signature is Valid."));
  }
}

TEST_CASE("Issuing certificates travel with the signature and are named in it") {
  const TemporaryFolder dir;
  run(dir, "openssl req -x509 -nodes -newkey rsa:2048 -days 20000 -subj '/CN=Test issuer' -keyout ca.key -out ca.pem");
  run(dir, "openssl req -new -nodes -newkey rsa:2048 -subj '/CN=Test signatory' -keyout key.pem -out request.pem");
  run(dir, "openssl x509 -req -in request.pem -CA ca.pem -CAkey ca.key -CAcreateserial -days 20000 -out cert.pem");
  const auto signer = load_signer(make_container(dir, "-certfile ca.pem"), "secret", kValidTime);
  const ResultsDocument document = exported_document(true);
  const auto file = dir.path() / "dossier.pdf";
  finish_dossier(write_pages(dir, "text"), document, attachments_of(document), signer->signature_bytes(), file);
  sign_dossier(file, *signer, kValidTime);
  const auto verification = verify_dossier(file, kSchemaDir);
  INFO(steps_text(verification));
  CHECK(verification.holds());
  CHECK_THAT(steps_text(verification),
             Catch::Contains("number of certificates: 2") && Catch::Contains("issued by 'CN=Test issuer'"));
  CHECK_THAT(run_command("pdfsig -nocert '" + file.string() + "'").text, Catch::Contains("Signature is Valid."));
}

TEST_CASE("A wrong password is refused as such") {
  const TemporaryFolder dir;
  make_certificate(dir, kElliptic);
  const auto file = make_container(dir);
  CHECK_THROWS_WITH(load_signer(file, "wrong", kValidTime),
                    "key file '" + file.string() + "': the password is wrong, or the file was changed");
  CHECK_THROWS_WITH(load_signer(file, "", kValidTime), Catch::Contains("password is wrong"));
}

TEST_CASE("A certificate outside its validity is refused with the date") {
  const TemporaryFolder dir;
  make_certificate(dir, kElliptic);
  const auto file = make_container(dir);
  CHECK_THROWS_WITH(load_signer(file, "secret", "2000-01-01T00:00:00Z"), Catch::Contains("not valid before"));
  CHECK_THROWS_WITH(load_signer(file, "secret", "2199-01-01T00:00:00Z"), Catch::Contains("expired since"));
  CHECK_THROWS_WITH(load_signer(file, "secret", "now"), Catch::Contains("'now'"));
}

TEST_CASE("The validity of a certificate includes both of its ends, RFC 5280 4.1.2.5") {
  const TemporaryFolder dir;
  make_certificate(dir, kElliptic);
  run(dir, "openssl x509 -in cert.pem -outform DER -out cert.der");
  const Certificate certificate = read_certificate(bytes_of(dir.path() / "cert.der"));
  std::tm first{};
  std::tm last{};
  REQUIRE(ASN1_TIME_to_tm(X509_get0_notBefore(certificate.get()), &first) == 1);
  REQUIRE(ASN1_TIME_to_tm(X509_get0_notAfter(certificate.get()), &last) == 1);
  const std::time_t from = timegm(&first);
  const std::time_t until = timegm(&last);
  CHECK(validity_fault(certificate.get(), from).empty());
  CHECK(validity_fault(certificate.get(), until).empty());
  CHECK_THAT(validity_fault(certificate.get(), from - 1), Catch::StartsWith("not valid before "));
  CHECK_THAT(validity_fault(certificate.get(), until + 1), Catch::StartsWith("expired since "));
}

TEST_CASE("A file without key, certificate or match is refused as such") {
  const TemporaryFolder dir;
  make_certificate(dir, kElliptic);
  run(dir, "openssl pkcs12 -export -nokeys -out nokey.p12 -passout pass:secret -in cert.pem");
  CHECK_THROWS_WITH(load_signer(dir.path() / "nokey.p12", "secret", kValidTime),
                    Catch::Contains("holds no private key"));
  run(dir, "openssl pkcs12 -export -nocerts -out nocert.p12 -passout pass:secret -inkey key.pem");
  CHECK_THROWS_WITH(load_signer(dir.path() / "nocert.p12", "secret", kValidTime),
                    Catch::Contains("no certificate that belongs to its private key"));
}

TEST_CASE("A file that is no PKCS#12 is refused as such") {
  const TemporaryFolder dir;
  CHECK_THROWS_WITH(load_signer(dir.write("key.p12", "text"), "secret", kNow), Catch::Contains("no PKCS#12 file"));
  CHECK_THROWS_WITH(load_signer(dir.write("key.p12", ""), "secret", kNow), Catch::Contains("no PKCS#12 file"));
  CHECK_THROWS_WITH(load_signer(dir.path() / "absent.p12", "secret", kNow), Catch::Contains("absent.p12"));
}

TEST_CASE("A key too weak, of another kind or for another use is refused") {
  const TemporaryFolder dir;
  make_certificate(dir, "-newkey rsa:1024");
  CHECK_THROWS_WITH(load_signer(make_container(dir), "secret", kValidTime), Catch::Contains("has 1024 bits"));
  make_certificate(dir, "-newkey ed25519");
  CHECK_THROWS_WITH(load_signer(make_container(dir), "secret", kValidTime),
                    Catch::Contains("neither an RSA nor an elliptic curve key"));
  make_certificate(dir, kElliptic, "keyAgreement");
  CHECK_THROWS_WITH(load_signer(make_container(dir), "secret", kValidTime), Catch::Contains("not meant for signing"));
}

TEST_CASE("An outdated container is refused with what to do") {
  const TemporaryFolder dir;
  make_certificate(dir, kElliptic);
  const auto file = make_container(dir, "-legacy -certpbe PBE-SHA1-RC2-40");
  CHECK_THROWS_WITH(load_signer(file, "secret", kValidTime), Catch::Contains("export it again with AES"));
}
