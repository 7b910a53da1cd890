// Time stamps of a real server on this machine, honest and not (RFC 3161 (2001)).
#include "core/seal/time/time_stamp.h"

#include <catch2/catch.hpp>
#include <ctime>
#include <string>

#include "core/seal/pdf_date.h"
#include "core/seal/time/time_stamper.h"
#include "tests/seal/test_stamp_server.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A dossier of now by a signer whose certificate is valid as long as the authority's.
std::filesystem::path stamped_dossier(const TemporaryFolder& dir, const TestStampServer& server, const std::string& way,
                                      const std::string& time_utc) {
  const auto key = server.authority.issue("signatory", "signer", kLongAgo, kFarAway);
  const auto signer = load_signer(key, "secret", time_utc, time_stamp_server(server.url(way)));
  const ResultsDocument document = exported_document(true);
  const std::filesystem::path file = dir.path() / "dossier.pdf";
  finish_dossier(write_pages(dir, "text"), document, attachments_of(document), signer->signature_bytes(), file);
  sign_dossier(file, *signer, time_utc);
  return file;
}

std::string now_utc() {
  return iso_from_seconds(std::time(nullptr));
}

}  // namespace

TEST_CASE("A dossier with a time stamp proves its time to who trusts the stamp's authority") {
  const TestStampServer& server = test_stamp_server();
  const TemporaryFolder dir;
  const auto file = stamped_dossier(dir, server, "honest", now_utc());
  TrustSources sources;
  sources.files = {server.authority.file("signatory.pem")};
  const auto pinned = verify_dossier(file, kSchemaDir, sources);
  INFO(steps_text(pinned));
  REQUIRE(pinned.signatures.size() == 1);
  CHECK(pinned.holds());
  CHECK(pinned.signatures[0].proven_time_utc.empty());
  CHECK(pinned.signatures[0].form == "PAdES B-T");
  CHECK_THAT(pinned.signatures[0].time.words, Catch::Contains("by 'CN=stamps', which leads to nobody whom you named"));

  sources.files.push_back(server.authority.root());
  const auto proven = verify_dossier(file, kSchemaDir, sources);
  INFO(proven.signatures[0].time.words);
  CHECK(proven.answer() == Answer::holds);
  CHECK_FALSE(proven.signatures[0].proven_time_utc.empty());
  CHECK_THAT(proven.signatures[0].time.words, Catch::StartsWith("proven "));

  // Long after the certificates ran out the stamp still shows that they had not when it was made.
  sources.time_utc = "2051-01-01T00:00:00Z";
  CHECK(verify_dossier(file, kSchemaDir, sources).signatures[0].time.answer == Answer::holds);
  sources.files.pop_back();
  CHECK(verify_dossier(file, kSchemaDir, sources).signatures[0].time.answer == Answer::open);
}

TEST_CASE("A time stamp shows a claim that is back-dated by more than a day, or made after the stamp") {
  const TestStampServer& server = test_stamp_server();
  const TemporaryFolder dir;
  TrustSources sources;
  sources.files = {server.authority.root(), server.authority.revocation_list(kLongAgo, kFarAway)};
  const auto answer = [&](std::time_t before_now_s) {
    const auto file = stamped_dossier(dir, server, "honest", iso_from_seconds(std::time(nullptr) - before_now_s));
    return verify_dossier(file, kSchemaDir, sources).signatures.at(0).time;
  };
  CHECK(answer(3600).answer == Answer::holds);
  CHECK(answer(2 * 86400).answer == Answer::open);
  CHECK_THAT(answer(2 * 86400).words, Catch::Contains("may be back-dated"));
  CHECK_THAT(answer(-86400).words, Catch::Contains("before the time that the signer claims"));
}

TEST_CASE("openssl and pdfsig confirm a signature with a time stamp, and openssl the stamp") {
  const TestStampServer& server = test_stamp_server();
  const TemporaryFolder dir;
  const std::string token = time_stamp_server(server.url("honest"))->token("content");
  dir.write("content", "content");
  const auto outcome = run_command("cd '" + dir.path().string() + "' && openssl ts -verify -token_in -in '" +
                                   dir.write("token", token).string() + "' -data content -CAfile '" +
                                   server.authority.root().string() + "'");
  INFO(outcome.text);
  CHECK(outcome.status == 0);
  CHECK_THAT(run_command("pdfsig -nocert '" + stamped_dossier(dir, server, "honest", now_utc()).string() + "'").text,
             Catch::Contains("Signature is Valid.") && Catch::Contains("Total document signed"));
}

TEST_CASE("A server that fails or lies stops the signing in clear words, and leaves the file as it was") {
  struct Case {
    const char* way;
    const char* words;
  };
  const TestStampServer& server = test_stamp_server();
  const TemporaryFolder dir;
  time_stamp_server(server.url("honest"))->token("earlier");  // which it may then replay
  const auto key = server.authority.issue("signatory", "signer", kLongAgo, kFarAway);
  const ResultsDocument document = exported_document(true);
  const std::filesystem::path file = dir.path() / "dossier.pdf";
  finish_dossier(write_pages(dir, "text"), document, attachments_of(document), 30000, file);
  const std::string before = bytes_of(file);
  for (const Case& one : {Case{"garbage", "its answer is no reply"}, Case{"page", "it cannot be asked"},
                          Case{"broken", "it cannot be asked"}, Case{"replayed", "its answer is not to this question"},
                          Case{"flipped", "the time stamp's signature does not hold"},
                          Case{"rejecting", "it gives none (rejected"}, Case{"unheard", "it gives none (status 9)"}}) {
    INFO(one.way);
    const auto signer = load_signer(key, "secret", now_utc(), time_stamp_server(server.url(one.way)));
    CHECK_THROWS_WITH(sign_dossier(file, *signer, now_utc()),
                      Catch::Contains(one.words) && Catch::Contains(server.url(one.way)));
    CHECK(bytes_of(file) == before);
    CHECK_FALSE(std::filesystem::exists(dir.path() / "dossier.pdf.part"));
  }
  // Port 1 belongs to nobody.
  CHECK_THROWS_WITH(time_stamp_server("http://127.0.0.1:1/", 1)->token("text"), Catch::Contains("it cannot be asked"));
}

TEST_CASE("An address that is none of HTTP is refused") {
  for (const char* url : {"", "stamps.example", "https://stamps.example/", "ftp://stamps.example/"}) {
    INFO(url);
    CHECK_THROWS_WITH(time_stamp_server(url), Catch::Contains("no address of a time-stamp server"));
  }
}

TEST_CASE("A token over other octets, or cut, or of a certificate with more uses, is refused") {
  const TestStampServer& server = test_stamp_server();
  const std::string token = time_stamp_server(server.url("honest"))->token("content");
  CHECK(read_time_stamp(token, "content").authority == "CN=stamps");
  CHECK_THROWS_WITH(read_time_stamp(token, "other"), Catch::Contains("not over this signature"));
  CHECK_THROWS_WITH(read_time_stamp(token.substr(0, token.size() - 1), "content"), Catch::Contains("no signed token"));
  CHECK_THROWS_WITH(read_time_stamp(token + "0", "content"), Catch::Contains("no signed token"));
  CHECK_THROWS_WITH(read_time_stamp("", "content"), Catch::Contains("no signed token"));
  // The same token, signed with a certificate that is not for time stamps, or for more than them.
  const TestAuthority& authority = server.authority;
  for (const char* section : {"signer", "stamps_and_more"}) {
    INFO(section);
    authority.issue("misused", section, kLongAgo, kFarAway);
    std::ofstream(authority.file("honest.der"), std::ios::binary) << token;
    authority.run("openssl cms -verify -noverify -inform DER -in honest.der -out info.der");
    authority.run(
        "openssl cms -sign -binary -nodetach -econtent_type 1.2.840.113549.1.9.16.1.4 -cades -md sha256 "
        "-signer misused.pem -inkey misused.key -in info.der -outform DER -out misused.der");
    CHECK_THROWS_WITH(read_time_stamp(bytes_of(authority.file("misused.der")), "content"),
                      Catch::Contains("the time stamp's signature does not hold"));
  }
}

TEST_CASE("A token is believed over and by SHA-256, 384 and 512 alone") {
  const TestAuthority& authority = test_stamp_server().authority;
  const auto token_by = [&](const std::string& imprint, const std::string& signer_digest) {
    std::ofstream(authority.file("digest.cnf"), std::ios::binary)
        << "[tsa]\ndefault_tsa = any\n[any]\nserial = digest.serial\nsigner_cert = stamps.pem\n"
           "signer_key = stamps.key\ncerts = root.pem\ndefault_policy = 1.2.3.4\n"
           "digests = sha1, sha224, sha256, sha384, sha512\ness_cert_id_alg = sha256\nsigner_digest = " +
               signer_digest + "\n";
    std::ofstream(authority.file("digest.txt"), std::ios::binary) << "content";
    authority.run("openssl ts -query -" + imprint + " -data digest.txt -cert -out digest.tsq");
    authority.run("openssl ts -reply -config digest.cnf -queryfile digest.tsq -token_out -out digest.der");
    return bytes_of(authority.file("digest.der"));
  };
  for (const char* digest : {"sha256", "sha384", "sha512"}) {
    INFO(digest);
    CHECK(read_time_stamp(token_by(digest, "sha256"), "content").authority == "CN=stamps");
    CHECK(read_time_stamp(token_by("sha256", digest), "content").authority == "CN=stamps");
  }
  for (const char* digest : {"sha1", "sha224"}) {
    INFO(digest);
    CHECK_THROWS_WITH(read_time_stamp(token_by(digest, "sha256"), "content"),
                      Catch::Contains("the time stamp is over a weak digest"));
    CHECK_THROWS_WITH(read_time_stamp(token_by("sha256", digest), "content"),
                      Catch::Contains("the time stamp is signed with a weak digest"));
  }
}
