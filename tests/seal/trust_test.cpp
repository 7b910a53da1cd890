// Who signed, and whether that is somebody whom the reader trusts; when; with what.
#include <catch2/catch.hpp>
#include <cctype>
#include <string>
#include <vector>

#include "core/intake/document/sha256.h"
#include "tests/seal/seal_support.h"
#include "tests/seal/test_authority.h"
#include "tests/seal/unchecked_signer.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A day after the dossiers of these tests.
constexpr const char* kNextDay = "2026-11-26T02:00:00Z";

std::filesystem::path dossier_of(const TemporaryFolder& dir, const Signer& signer) {
  const ResultsDocument document = exported_document(true);
  return write_signed(dir, document, attachments_of(document), signer);
}

TrustSources trusting(std::vector<std::filesystem::path> files, const std::string& time_utc = kNextDay) {
  TrustSources sources;
  sources.files = std::move(files);
  sources.time_utc = time_utc;
  return sources;
}

const VerifiedSignature& only(const Verification& verification) {
  REQUIRE(verification.signatures.size() == 1);
  return verification.signatures.front();
}

}  // namespace

TEST_CASE("Without anybody named as trusted a dossier is open, however intact") {
  const TemporaryFolder dir;
  const auto signer = load_signer(test_authority().issue("signatory"), "secret", kBuildTime);
  const auto verification = verify_dossier(dossier_of(dir, *signer), kSchemaDir, trusting({}));
  CHECK(verification.holds());
  CHECK(verification.answer() == Answer::open);
  CHECK(only(verification).trust.answer == Answer::open);
  CHECK_THAT(only(verification).trust.words, Catch::Contains("nobody was named whom you trust"));
}

TEST_CASE("A dossier whose signer leads to a named authority, unrevoked, holds") {
  const TemporaryFolder dir;
  const TestAuthority& authority = test_authority();
  const auto file = dossier_of(dir, *load_signer(authority.issue("signatory"), "secret", kBuildTime));
  const auto without_list = verify_dossier(file, kSchemaDir, trusting({authority.root()}));
  CHECK(only(without_list).trust.answer == Answer::holds);
  CHECK_THAT(only(without_list).trust.words, Catch::Contains("vouched for by 'CN=Test authority'"));
  CHECK(only(without_list).revocation.answer == Answer::open);
  CHECK(without_list.answer() == Answer::open);
  const auto with_list = verify_dossier(file, kSchemaDir, trusting({authority.root(), authority.revocation_list()}));
  INFO(only(with_list).revocation.words);
  CHECK(only(with_list).revocation.answer == Answer::holds);
  CHECK(with_list.answer() == Answer::holds);
  // A list that has run out tells nothing of today.
  const auto later = verify_dossier(file, kSchemaDir,
                                    trusting({authority.root(), authority.revocation_list()}, "2026-12-26T00:00:00Z"));
  CHECK(only(later).revocation.answer == Answer::open);
}

TEST_CASE("A fingerprint names a signer, with and without colons, in either case of letters, and no other") {
  const TemporaryFolder dir;
  const auto file = dossier_of(dir, *load_signer(test_authority().issue("signatory"), "secret", kBuildTime));
  TrustSources sources = trusting({});
  const auto verification = verify_dossier(file, kSchemaDir, sources);
  std::string fingerprint = only(verification).fingerprint;
  sources.fingerprints = {fingerprint};
  CHECK(verify_dossier(file, kSchemaDir, sources).answer() == Answer::holds);
  std::string with_colons;
  for (std::size_t i = 0; i < fingerprint.size(); i += 2) {
    with_colons += (i == 0 ? "" : ":") + fingerprint.substr(i, 2);
  }
  std::string in_capitals = with_colons;
  for (char& digit : in_capitals) digit = static_cast<char>(std::toupper(static_cast<unsigned char>(digit)));
  for (const std::string& written : {with_colons, in_capitals}) {
    sources.fingerprints = {written};
    CHECK(verify_dossier(file, kSchemaDir, sources).answer() == Answer::holds);
  }
  fingerprint[0] = fingerprint[0] == '0' ? '1' : '0';
  sources.fingerprints = {fingerprint};
  CHECK(verify_dossier(file, kSchemaDir, sources).answer() == Answer::fails);
  sources.fingerprints = {"abc"};
  CHECK_THROWS_WITH(verify_dossier(file, kSchemaDir, sources), Catch::Contains("'abc' is not a SHA-256"));
}

TEST_CASE("A stranger's key of the same name is found out, self-signed or of a false authority of the same name") {
  const TemporaryFolder dir;
  const TestAuthority& authority = test_authority();
  const std::vector<std::filesystem::path> files{authority.root(), authority.revocation_list()};
  const TestAuthority false_authority;  // of the same name
  false_authority.self_signed("signatory");
  const UncheckedSigner stranger(false_authority.file("signatory.key"), false_authority.file("signatory.pem"));
  const auto self_signed = verify_dossier(dossier_of(dir, stranger), kSchemaDir, trusting(files));
  CHECK(self_signed.holds());
  CHECK(self_signed.answer() == Answer::fails);
  CHECK_THAT(only(self_signed).trust.words, Catch::Contains("leads to nobody whom you named"));
  const auto signer = load_signer(false_authority.issue("signatory"), "secret", kBuildTime);
  const auto impersonated = verify_dossier(dossier_of(dir, *signer), kSchemaDir, trusting(files));
  CHECK(impersonated.answer() == Answer::fails);
  CHECK(only(impersonated).trust.answer == Answer::fails);
}

TEST_CASE("A revoked certificate fails without a proven time, whenever it was revoked") {
  const TemporaryFolder dir;
  const TestAuthority authority;
  const auto file = dossier_of(dir, *load_signer(authority.issue("signatory"), "secret", kBuildTime));
  authority.revoke("signatory", "261125120000Z");
  const auto verification = verify_dossier(file, kSchemaDir, trusting({authority.root(), authority.revocation_list()}));
  CHECK(verification.answer() == Answer::fails);
  CHECK_THAT(only(verification).revocation.words, Catch::Contains("was revoked at 2026-11-25T12:00:00Z"));
  // The list counts even for who names the certificate itself.
  const auto pinned =
      verify_dossier(file, kSchemaDir, trusting({authority.file("signatory.pem"), authority.revocation_list()}));
  CHECK(pinned.answer() == Answer::fails);
}

TEST_CASE("A revocation counts also in a list that has run out or is of a part of the certificates") {
  const TemporaryFolder dir;
  const TestAuthority authority;
  const auto file = dossier_of(dir, *load_signer(authority.issue("signatory"), "secret", kBuildTime));
  constexpr const char* kAfterTheList = "2026-12-26T00:00:00Z";
  const auto revocation_at = [&](const std::filesystem::path& named, const std::filesystem::path& list,
                                 const char* time) {
    return only(verify_dossier(file, kSchemaDir, trusting({named, list}, time))).revocation;
  };
  const std::string from = "20261125000000Z";
  const std::string until = "20261225000000Z";
  // What a list does not name is good only by one that is whole and current.
  const auto partial_without = authority.revocation_list(from, until, "-crlexts only_persons");
  CHECK(revocation_at(authority.root(), partial_without, kNextDay).answer == Answer::open);

  authority.revoke("signatory", "261125120000Z");
  for (const auto& named : {authority.root(), authority.file("signatory.pem")}) {
    INFO(named.filename().string());
    const Judgement old = revocation_at(named, authority.revocation_list(from, until), kAfterTheList);
    CHECK(old.answer == Answer::fails);
    CHECK_THAT(old.words, Catch::Contains("was revoked at 2026-11-25T12:00:00Z"));
    const auto partial = authority.revocation_list(from, until, "-crlexts only_persons");
    CHECK(revocation_at(named, partial, kNextDay).answer == Answer::fails);
  }
}

TEST_CASE("A hold counts only while its list does, for it can be lifted") {
  const TemporaryFolder dir;
  const TestAuthority authority;
  const auto file = dossier_of(dir, *load_signer(authority.issue("signatory"), "secret", kBuildTime));
  authority.revoke("signatory", "261125120000Z", "certificateHold");
  const auto files = std::vector<std::filesystem::path>{authority.root(), authority.revocation_list()};
  CHECK(only(verify_dossier(file, kSchemaDir, trusting(files))).revocation.answer == Answer::fails);
  CHECK(only(verify_dossier(file, kSchemaDir, trusting(files, "2026-12-26T00:00:00Z"))).revocation.answer ==
        Answer::open);
}

TEST_CASE("A time that is in the future, or that an expired certificate cannot show, is never plain") {
  const TemporaryFolder dir;
  const TestAuthority& authority = test_authority();
  const auto file = dossier_of(dir, *load_signer(authority.issue("signatory"), "secret", kBuildTime));
  const auto files = std::vector<std::filesystem::path>{authority.file("signatory.pem")};
  const auto early = verify_dossier(file, kSchemaDir, trusting(files, "2026-11-24T02:00:00Z"));
  CHECK(early.answer() == Answer::open);
  CHECK_THAT(only(early).time.words, Catch::Contains("in the future"));
  // A back-dated build with a key that has expired since looks just so.
  const auto late = verify_dossier(file, kSchemaDir, trusting(files, "2027-01-02T02:00:00Z"));
  CHECK(late.answer() == Answer::open);
  CHECK_THAT(only(late).time.words, Catch::Contains("expired since") && Catch::Contains("nothing shows"));
  const auto by_root = verify_dossier(file, kSchemaDir, trusting({authority.root()}, "2027-01-02T02:00:00Z"));
  CHECK(only(by_root).time.answer == Answer::open);
  CHECK(only(by_root).trust.answer == Answer::holds);
}

TEST_CASE("verify refuses the keys and certificates that build refuses") {
  struct Case {
    const char* label;
    const char* words;
    std::string section;
    std::string new_key;
    std::string more;
  };
  const std::vector<Case> cases{
      {"RSA of 1024 bits", "has 1024 bits", "signer", "rsa:1024", ""},
      {"a curve of 224 bits", "has 224 bits", "signer", "ec -pkeyopt ec_paramgen_curve:P-224", ""},
      {"another kind of key", "neither an RSA nor an elliptic curve key", "signer", "ed25519", ""},
      {"key usage of another purpose", "not meant for signing", "agreement", kCurveKey, ""},
      {"extended key usage of servers", "for another purpose", "server", kCurveKey, ""},
      {"extended key usage of time stamps", "for another purpose", "stamps", kCurveKey, ""},
      {"a certificate signed over SHA-1", "weak digest (sha1)", "signer", kCurveKey, "-md sha1"},
      {"a certificate signed over MD5", "weak digest (md5)", "", "rsa:2048", "-md md5"}};
  const TestAuthority& authority = test_authority();
  for (const Case& one : cases) {
    INFO(one.label);
    const TemporaryFolder dir;
    if (one.section.empty()) {
      authority.self_signed("unfit", one.new_key, one.more);
    } else {
      const auto key =
          authority.issue("unfit", one.section, "20260101000000Z", "20270101000000Z", one.new_key, one.more);
      CHECK_THROWS_WITH(load_signer(key, "secret", kBuildTime), Catch::Contains(one.words));
    }
    if (one.new_key == "ed25519") continue;  // its signature has another form, which is refused before
    const UncheckedSigner signer(authority.file("unfit.key"), authority.file("unfit.pem"));
    const auto verification =
        verify_dossier(dossier_of(dir, signer), kSchemaDir, trusting({authority.file("unfit.pem")}));
    CHECK(verification.answer() == Answer::fails);
    CHECK_THAT(steps_text(verification),
               Catch::Contains("FAILS the key and its certificate are fit to sign") && Catch::Contains(one.words));
  }
}

TEST_CASE("A certificate for persons may sign") {
  CHECK_NOTHROW(load_signer(test_authority().issue("person", "person"), "secret", kBuildTime));
}

TEST_CASE("What holds no certificate is refused as a source of trust, by name") {
  const TemporaryFolder dir;
  const auto file = write_demonstration(dir);
  CHECK_THROWS_WITH(verify_dossier(file, kSchemaDir, trusting({dir.path() / "absent.pem"})),
                    Catch::Contains("absent.pem"));
  CHECK_THROWS_WITH(verify_dossier(file, kSchemaDir, trusting({dir.write("text.pem", "text")})),
                    Catch::Contains("text.pem") && Catch::Contains("no certificate"));
  const TemporaryFolder empty;
  CHECK_THROWS_WITH(verify_dossier(file, kSchemaDir, trusting({empty.path()})), Catch::Contains("the folder"));
}

TEST_CASE("A folder of certificates is taken whole, and the demonstration key is trusted only by name") {
  const TemporaryFolder dir;
  const TemporaryFolder trusted;
  const auto file = write_demonstration(dir);
  trusted.write("readme.txt", "text");
  trusted.write("demonstration.pem", demonstration_signer().certificate_pem());
  const auto verification = verify_dossier(file, kSchemaDir, trusting({trusted.path()}));
  CHECK(verification.answer() == Answer::holds);
  CHECK_FALSE(verification.for_issue);
  // Trust in another does not extend to it.
  const TemporaryFolder others;
  others.write("another.pem", bytes_of(test_authority().root()));
  CHECK(verify_dossier(file, kSchemaDir, trusting({others.path()})).answer() == Answer::fails);
}

TEST_CASE("An incomplete build is open, and never one for issue") {
  const TemporaryFolder dir;
  ResultsDocument document = exported_document();
  document.build.incomplete = true;
  const auto demonstration =
      verify_dossier(write_signed(dir, document, attachments_of(document), demonstration_signer()), kSchemaDir);
  CHECK(demonstration.holds());
  CHECK(demonstration.incomplete);
  document.build.signed_for_issue = true;
  const auto signer = load_signer(test_authority().issue("signatory"), "secret", kBuildTime);
  const auto for_issue = verify_dossier(write_signed(dir, document, attachments_of(document), *signer), kSchemaDir);
  CHECK(for_issue.answer() == Answer::fails);
  CHECK_THAT(steps_text(for_issue), Catch::Contains("an incomplete build is signed for issue"));
}
