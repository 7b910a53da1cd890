// A key that never leaves its token: SoftHSM2 in the place of one.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>

#include "tests/seal/test_authority.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kModule = "/usr/lib/softhsm/libsofthsm2.so";
constexpr const char* kUri = "pkcs11:token=practice;object=signing";

/// A token of that label with the key and the certificate of a test authority; the PIN is 4321.
void make_token(const TestAuthority& authority, const std::string& label) {
  authority.run("softhsm2-util --init-token --free --label " + label + " --so-pin 8765 --pin 4321");
  authority.run("softhsm2-util --import signing.p8 --token " + label + " --label signing --id 01 --pin 4321");
  authority.run(std::string("pkcs11-tool --module ") + kModule + " --token-label " + label +
                " --login --pin 4321 --write-object signing.der --type cert --label signing --id 01");
}

/// Two tokens: who has logged in to one stays so as long as the process, whatever PIN comes later.
const TestAuthority& tokens() {
  static const TestAuthority authority;
  static const bool made = [] {
    authority.issue("signing");
    const std::string folder = authority.file("tokens").string();
    std::filesystem::create_directory(folder);
    std::ofstream(authority.file("softhsm2.conf")) << "directories.tokendir = " << folder << "\n";
    ::setenv("SOFTHSM2_CONF", authority.file("softhsm2.conf").c_str(), 1);
    authority.run("openssl pkcs8 -topk8 -nocrypt -in signing.key -out signing.p8");
    authority.run("openssl x509 -in signing.pem -outform DER -out signing.der");
    make_token(authority, "practice");
    make_token(authority, "locked");
    return true;
  }();
  REQUIRE(made);
  return authority;
}

}  // namespace

TEST_CASE("A dossier is signed with a key in a token, and verified as any other") {
  const TestAuthority& authority = tokens();
  const auto signer = load_token_signer(kUri, kModule, "4321", kBuildTime);
  CHECK(signer->for_issue());
  CHECK(signer->subject() == "CN=signing");
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document(true);
  const auto file = write_signed(dir, document, attachments_of(document), *signer);
  TrustSources sources;
  sources.files = {authority.root(), authority.revocation_list()};
  sources.time_utc = "2026-11-26T02:00:00Z";
  const Verification verification = verify_dossier(file, kSchemaDir, sources);
  INFO(steps_text(verification));
  CHECK(verification.answer() == Answer::holds);
  CHECK_THAT(run_command("pdfsig -nocert '" + file.string() + "'").text, Catch::Contains("Signature is Valid."));
}

TEST_CASE("What is wrong with a token is said: module, object, PIN, validity") {
  tokens();
  CHECK_THROWS_WITH(load_token_signer(kUri, "/nonexistent.so", "4321", kBuildTime),
                    Catch::Contains("module '/nonexistent.so' is not there") && Catch::Contains(kUri));
  CHECK_THROWS_WITH(load_token_signer("pkcs11:token=practice;object=other", kModule, "4321", kBuildTime),
                    Catch::Contains("holds no certificate"));
  CHECK_THROWS_WITH(load_token_signer("pkcs11:token=locked;object=signing", kModule, "1111", kBuildTime),
                    Catch::Contains("cannot be used"));
  CHECK_THROWS_WITH(load_token_signer(kUri, kModule, "4321", "2028-01-01T00:00:00Z"), Catch::Contains("expired since"));
}
