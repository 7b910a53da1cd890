// Signatures as openssl makes them, which are no dossier's.
#include "core/seal/cms_form.h"

#include <catch2/catch.hpp>

#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::string made(const TemporaryFolder& dir, const std::string& command) {
  const auto outcome = run_command("cd '" + dir.path().string() + "' && " + command);
  INFO(command << "\n" << outcome.text);
  REQUIRE(outcome.status == 0);
  return bytes_of(dir.path() / "made.der");
}

}  // namespace

TEST_CASE("A CMS has exactly one signer or is refused") {
  const TemporaryFolder dir;
  dir.write("content", "text");
  for (const char* name : {"one", "two"}) {
    const std::string pem = std::string(name) + ".pem";
    REQUIRE(run_command("cd '" + dir.path().string() + "' && openssl req -x509 -nodes -newkey ec -pkeyopt " +
                        "ec_paramgen_curve:P-256 -subj /CN=" + name + " -keyout " + pem + ".key -out " + pem +
                        " && cat " + pem + ".key >> " + pem)
                .status == 0);
  }
  const std::string sign = "openssl cms -sign -binary -in content -outform DER -out made.der -signer one.pem";
  CHECK(parse_cms(made(dir, sign)).certificates.size() == 1);
  const auto refused = Catch::Contains("exactly one signer");
  CHECK_THROWS_WITH(parse_cms(made(dir, sign + " -signer two.pem")), refused);
  CHECK_THROWS_WITH(parse_cms(made(dir, "openssl crl2pkcs7 -nocrl -certfile one.pem -outform DER -out made.der")),
                    refused);
  CHECK_THROWS_WITH(parse_cms(made(dir, "openssl cms -data_create -in content -outform DER -out made.der")), refused);
  CHECK_THROWS_WITH(parse_cms(made(dir, sign + " -nocerts")), Catch::Contains("holds no certificate"));
}

TEST_CASE("The size of an element counts tag, length and content, X.690 8.1") {
  CHECK(der_element_size(std::string("\x30\x03\x02\x01\x05", 5)) == 5);
  CHECK(der_element_size(std::string("\x30\x00\x02\x01\x05", 5)) == 2);
  CHECK(der_element_size("\x04\x81\x80" + std::string(200, 'x')) == 3 + 128);
  CHECK(der_element_size(std::string("\x04\x82\x01\x00", 4) + std::string(256, 'x')) == 4 + 256);
  CHECK(der_element_size("") == 0);
  CHECK(der_element_size(std::string(8, '\0')) == 0);
}

TEST_CASE("A CMS that is composed holds its parts, whatever the form of their lengths") {
  const TemporaryFolder dir;
  const std::string certificate =
      made(dir,
           "openssl req -x509 -nodes -newkey ec -pkeyopt ec_paramgen_curve:P-256 -subj /CN=one -keyout key.pem "
           "-outform DER -out made.der");
  CmsParts parts;
  parts.certificates = {certificate};
  parts.signed_attributes = signed_attributes(sha256("content"), parts.certificates);
  // One octet tells a length up to 127, two up to 255, three beyond (X.690 8.1.3).
  for (const std::size_t size : {1U, 127U, 128U, 129U, 255U, 256U, 257U}) {
    INFO(size);
    parts.signature = std::string(size, 's');
    const std::string cms = compose_cms(parts);
    CHECK(der_element_size(cms) == cms.size());
    const CmsParts read = parse_cms(cms);
    CHECK(read.signature == parts.signature);
    CHECK(read.signed_attributes == parts.signed_attributes);
    CHECK(read.certificates == parts.certificates);
  }
}
