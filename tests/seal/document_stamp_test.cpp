// Document time stamps of a real server on this machine: what they prove, and what does not pass for one.
#include "core/seal/revision/document_stamp.h"

#include <catch2/catch.hpp>
#include <ctime>
#include <string>

#include "core/seal/pdf_date.h"
#include "core/seal/revision/kept_proofs.h"
#include "core/seal/time/time_stamper.h"
#include "tests/seal/test_stamp_server.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::string this_second() {
  return iso_from_seconds(std::time(nullptr));
}

/// A signed dossier of now, with or without a time stamp of its signature, and what its readers name.
struct StampedDossier {
  const TestStampServer& server = test_stamp_server();
  const TestAuthority& authority = server.authority;
  TemporaryFolder dir;
  std::string signed_bytes;
  TrustSources sources;

  explicit StampedDossier(bool with_stamped_signature) {
    const std::string now = this_second();
    const auto signer = load_signer(authority.issue("signatory", "signer", kLongAgo, kFarAway), "secret", now,
                                    with_stamped_signature ? time_stamp_server(server.url("honest")) : nullptr);
    const ResultsDocument document = exported_document(true);
    const std::filesystem::path file = dir.path() / "dossier.pdf";
    finish_dossier(write_pages(dir, "text"), document, attachments_of(document), signer->signature_bytes(), file);
    sign_dossier(file, *signer, now);
    signed_bytes = bytes_of(file);
    sources.files = {authority.root()};
  }

  std::string with_proofs() const {
    const auto list = authority.revocation_list(kLongAgo, kFarAway);
    return keep_proofs(signed_bytes, read_proof_files({authority.root(), list}));
  }
  std::string stamped(const std::string& bytes) const {
    return stamp_document(bytes, *time_stamp_server(server.url("honest")));
  }
  Verification verified(const std::string& bytes) const {
    return verify_dossier(dir.write("verified.pdf", bytes), kSchemaDir, sources);
  }
};

}  // namespace

TEST_CASE("A document time stamp over kept proofs makes the signature one of baseline LTA") {
  StampedDossier made(true);
  const std::string kept = made.with_proofs();
  const std::string stamped = made.stamped(kept);
  CHECK(stamped.substr(0, kept.size()) == kept);
  made.sources.time_utc = "2051-01-01T00:00:00Z";
  const Verification verification = made.verified(stamped);
  INFO(steps_text(verification));
  CHECK(verification.answer() == Answer::holds);
  REQUIRE(verification.time_stamps.size() == 1);
  CHECK(verification.time_stamps[0].authority == "CN=stamps");
  CHECK(verification.time_stamps[0].trust.answer == Answer::holds);
  CHECK(verification.signatures.at(0).form == "PAdES B-LTA");
  CHECK_THAT(verification.changes.words, Catch::EndsWith("a document time stamp"));
  // Proofs that came behind the stamp are not proved by it, until the next one.
  const std::string late =
      keep_proofs(made.stamped(made.signed_bytes),
                  read_proof_files({made.authority.root(), made.authority.revocation_list(kLongAgo, kFarAway)}));
  CHECK(made.verified(late).signatures.at(0).form == "PAdES B-LT");
  const Verification again = made.verified(made.stamped(late));
  CHECK(again.time_stamps.size() == 2);
  CHECK(again.signatures.at(0).form == "PAdES B-LTA");
}

TEST_CASE("qpdf and pdfsig read a dossier with a document time stamp") {
  const StampedDossier made(true);
  const auto file = made.dir.write("stamped.pdf", made.stamped(made.with_proofs()));
  const auto qpdf = run_command("qpdf --check '" + file.string() + "'");
  INFO(qpdf.text);
  CHECK(qpdf.status == 0);
  const std::string told = run_command("pdfsig -nocert '" + file.string() + "'").text;
  INFO(told);
  // It lists the stamp, but does not judge tokens.
  CHECK_THAT(told, Catch::Contains("Signature is Valid.") && Catch::Contains("Signature #2"));
}

TEST_CASE("A document time stamp shows that a signature is older than its certificate's end") {
  StampedDossier made(false);
  made.sources.time_utc = "2051-01-01T00:00:00Z";
  CHECK(made.verified(made.signed_bytes).signatures.at(0).time.answer == Answer::open);
  const Judgement time = made.verified(made.stamped(made.signed_bytes)).signatures.at(0).time;
  INFO(time.words);
  CHECK(time.answer == Answer::holds);
  CHECK_THAT(time.words, Catch::Contains("by the dossier's time stamp it existed"));
}

TEST_CASE("A document time stamp of an authority that nobody named is open") {
  StampedDossier made(false);
  made.sources.files = {made.authority.file("signatory.pem")};
  const Verification verification = made.verified(made.stamped(made.signed_bytes));
  REQUIRE(verification.time_stamps.size() == 1);
  CHECK(verification.time_stamps[0].trust.answer == Answer::open);
  CHECK_THAT(verification.time_stamps[0].trust.words, Catch::Contains("leads to nobody whom you named"));
  CHECK(verification.answer() == Answer::open);
}

TEST_CASE("What is no honest document time stamp fails") {
  const StampedDossier made(false);
  const std::string stamped = made.stamped(made.signed_bytes);
  const std::size_t contents = stamped.rfind("/Contents <") + std::string("/Contents <").size();
  SECTION("a token of another document") {
    std::string forged = made.stamped(made.with_proofs());
    const std::size_t other = forged.rfind("/Contents <") + std::string("/Contents <").size();
    forged.replace(other, 2 * kMostTokenBytes, stamped.substr(contents, 2 * kMostTokenBytes));
    CHECK(made.verified(forged).answer() == Answer::fails);
  }
  SECTION("no token at all") {
    std::string empty = stamped;
    empty.replace(contents, 2 * kMostTokenBytes, std::string(2 * kMostTokenBytes, '0'));
    CHECK(made.verified(empty).answer() == Answer::fails);
  }
  SECTION("a range that leaves out more than the token") {
    std::string shorter = stamped;
    const std::size_t range = shorter.rfind("/ByteRange [0 ") + std::string("/ByteRange [0 ").size();
    shorter[range] = shorter[range] == '9' ? '8' : static_cast<char>(shorter[range] + 1);
    CHECK(made.verified(shorter).answer() == Answer::fails);
  }
  SECTION("a changed octet in the update") {
    for (std::size_t at = made.signed_bytes.size() + 1; at < stamped.size(); at += 997) {
      std::string changed = stamped;
      changed[at] = static_cast<char>(changed[at] ^ 1);
      INFO("octet " << at);
      // In the certificates beside the token, which it does not sign, it leads to nobody whom the reader named.
      CHECK(made.verified(changed).answer() != Answer::holds);
    }
  }
  SECTION("one over a file without a signature") {
    CHECK_THROWS_WITH(made.stamped(bytes_of(write_pages(made.dir, "text"))), Catch::Contains("the file"));
  }
  SECTION("a server that stamps something else") {
    CHECK_THROWS_WITH(stamp_document(made.signed_bytes, *time_stamp_server(made.server.url("rejecting"))),
                      Catch::Contains("no time stamp of the server"));
  }
}
