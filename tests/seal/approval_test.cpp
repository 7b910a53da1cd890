// Several signatures in turn, and the proofs that a dossier keeps of them.
#include "core/seal/revision/approval.h"

#include <catch2/catch.hpp>
#include <ctime>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <string>

#include "core/seal/pdf_date.h"
#include "core/seal/revision/kept_proofs.h"
#include "core/seal/time/time_stamper.h"
#include "tests/seal/test_stamp_server.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kDayAfter = "2026-11-26T02:00:00Z";

/// A dossier of an author, then signed by a checker and an approver of one authority.
struct ApprovedDossier {
  const TestAuthority& authority = test_authority();
  TemporaryFolder dir;
  std::string authored;
  std::string checked;
  std::string approved;

  ApprovedDossier() {
    const ResultsDocument document = exported_document(true);
    authored = bytes_of(write_signed(dir, document, attachments_of(document), *signer("author")));
    checked = sign_again(authored, *signer("checker"), "checker", "figures ≤ limits", "2026-11-25T10:00:00Z");
    approved = sign_again(checked, *signer("approver"), "approver", "", "2026-11-25T12:00:00Z");
  }

  std::unique_ptr<Signer> signer(const std::string& name) const {
    return load_signer(authority.issue(name), "secret", kBuildTime);
  }

  Verification verified(const std::string& bytes) const {
    TrustSources sources;
    sources.files = {authority.root(), authority.revocation_list()};
    sources.time_utc = kDayAfter;
    return verify_dossier(dir.write("verified.pdf", bytes), kSchemaDir, sources);
  }
};

}  // namespace

TEST_CASE("Author, checker and approver sign in turn, and verify names each with role, reason and time") {
  const ApprovedDossier made;
  const Verification verification = made.verified(made.approved);
  INFO(steps_text(verification));
  CHECK(verification.answer() == Answer::holds);
  REQUIRE(verification.signatures.size() == 3);
  CHECK(verification.signatures[0].role == "author");
  CHECK(verification.signatures[1].role == "checker");
  CHECK(verification.signatures[1].reason == "figures ≤ limits");
  CHECK(verification.signatures[1].signer == "CN=checker");
  CHECK(verification.signatures[1].claimed_time_utc == "2026-11-25T10:00:00Z");
  CHECK(verification.signatures[2].role == "approver");
  CHECK_THAT(verification.changes.words, Catch::Contains("a signature as checker; a signature as approver"));
  CHECK(made.verified(made.checked).signatures.size() == 2);
}

TEST_CASE("A later signature leaves every earlier byte as it was") {
  const ApprovedDossier made;
  CHECK(made.checked.substr(0, made.authored.size()) == made.authored);
  CHECK(made.approved.substr(0, made.checked.size()) == made.checked);
}

TEST_CASE("pdfsig and qpdf confirm a dossier with three signatures, and its first page shows them") {
  const ApprovedDossier made;
  const auto file = made.dir.write("three.pdf", made.approved);
  const std::string text = run_command("pdfsig -nocert '" + file.string() + "'").text;
  CAPTURE(text);
  std::size_t valid = 0;
  for (std::size_t at = text.find("Signature is Valid."); at != std::string::npos;
       at = text.find("Signature is Valid.", at + 1)) {
    ++valid;
  }
  CHECK(valid == 3);
  CHECK_THAT(text, Catch::Contains("Signature #3") && Catch::Contains("Total document signed"));
  const auto checked = run_command("qpdf --check '" + file.string() + "'");
  INFO(checked.text);
  CHECK(checked.status == 0);
  const std::string page = run_command("pdftotext '" + file.string() + "' -").text;
  CHECK_THAT(page, Catch::Contains("Signed as checker") && Catch::Contains("CN=approver") &&
                       Catch::Contains("2026-11-25T10:00:00Z"));
}

TEST_CASE("A signature of a stranger among several fails, and that of the others is still told") {
  const ApprovedDossier made;
  const TestAuthority false_authority;
  const auto stranger = load_signer(false_authority.issue("approver"), "secret", kBuildTime);
  const Verification verification =
      made.verified(sign_again(made.checked, *stranger, "approver", "", "2026-11-25T12:00:00Z"));
  CHECK(verification.holds());
  CHECK(verification.answer() == Answer::fails);
  REQUIRE(verification.signatures.size() == 3);
  CHECK(verification.signatures[1].trust.answer == Answer::holds);
  CHECK(verification.signatures[2].trust.answer == Answer::fails);
}

TEST_CASE("A byte flipped in a later signature's update fails", "[plain]") {
  const ApprovedDossier made;
  for (std::size_t position = made.authored.size(); position < made.approved.size(); position += 97) {
    INFO(position);
    std::string bytes = made.approved;
    bytes[position] = static_cast<char>(bytes[position] ^ 1);
    CHECK(made.verified(bytes).answer() == Answer::fails);
  }
}

TEST_CASE("What another program appends is named and fails, before and after an honest signature") {
  const ApprovedDossier made;
  // An update that paints over the first page, in the form of many programs.
  const auto with_update = [](const std::string& bytes) {
    QPDF pdf;
    pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
    const RevisionEnd end = revision_end(pdf, bytes);
    auto page = QPDFPageDocumentHelper(pdf).getAllPages().at(0).getObjectHandle();
    const int number = end.object_count;
    auto changed = page.shallowCopy();
    changed.replaceKey("/Contents", reference_to(pdf, number));
    const std::string paint = "BT /F1 20 Tf 50 500 Td (REI 120 PASSED) Tj ET";
    return bytes +
           increment_text(
               end, {{page.getObjectID(), changed.unparse()},
                     {number, "<< /Length " + std::to_string(paint.size()) + " >>\nstream\n" + paint + "\nendstream"}});
  };
  const Verification after = made.verified(with_update(made.checked));
  CHECK(after.answer() == Answer::fails);
  CHECK(after.changes.answer == Answer::fails);
  CHECK_THAT(steps_text(after), Catch::Contains("changed after signing, by another hand") && Catch::Contains("(Page)"));
  const std::string between = with_update(made.authored);
  const auto signer = made.signer("checker");
  CHECK(made.verified(sign_again(between, *signer, "checker", "", kDayAfter)).answer() == Answer::fails);
}

TEST_CASE("A role that is none, a tenth further signature and a file that is no dossier are refused") {
  const ApprovedDossier made;
  const auto signer = made.signer("checker");
  for (const char* role : {"", " checker", "che(cker", "ch\xc3\xa9"}) {
    INFO(role);
    CHECK_THROWS_WITH(sign_again(made.authored, *signer, role, "", kDayAfter), Catch::Contains("the role '"));
  }
  std::string bytes = made.authored;
  for (int i = 0; i < kMostApprovals; ++i) bytes = sign_again(bytes, *signer, "checker", "", kDayAfter);
  CHECK(made.verified(bytes).answer() == Answer::holds);
  CHECK_THROWS_WITH(sign_again(bytes, *signer, "checker", "", kDayAfter), Catch::Contains("no room for more than 9"));
  CHECK_THROWS_WITH(sign_again(bytes_of(write_pages(made.dir, "text")), *signer, "checker", "", kDayAfter),
                    Catch::Contains("the file"));
  CHECK_THROWS_AS(sign_again("text", *signer, "checker", "", kDayAfter), std::exception);
}

TEST_CASE("A dossier that keeps revocation data is judged without any, long after") {
  const TestStampServer& server = test_stamp_server();
  const TestAuthority& authority = server.authority;
  const std::string now = iso_from_seconds(std::time(nullptr));
  const auto signer = load_signer(authority.issue("signatory", "signer", kLongAgo, kFarAway), "secret", now,
                                  time_stamp_server(server.url("honest")));
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document(true);
  const std::filesystem::path file = dir.path() / "dossier.pdf";
  finish_dossier(write_pages(dir, "text"), document, attachments_of(document), signer->signature_bytes(), file);
  sign_dossier(file, *signer, now);
  TrustSources sources;
  sources.files = {authority.root()};
  sources.time_utc = "2051-01-01T00:00:00Z";
  const Verification bare = verify_dossier(file, kSchemaDir, sources);
  CHECK(bare.answer() == Answer::open);
  CHECK(bare.signatures.at(0).form == "PAdES B-T");

  SECTION("with a revocation list") {
    const auto list = authority.revocation_list(kLongAgo, kFarAway);
    dir.write("kept.pdf", keep_proofs(bytes_of(file), read_proof_files({authority.root(), list})));
  }
  SECTION("with OCSP responses") {
    authority.issue("responder", "responder", kLongAgo, kFarAway);
    std::vector<std::filesystem::path> proofs{authority.root()};
    for (const char* name : {"signatory", "stamps"}) {
      const std::string response = std::string(name) + ".ocsp";
      authority.run(
          "openssl ocsp -index index.txt -rsigner responder.pem -rkey responder.key -CA root.pem -issuer "
          "root.pem -cert " +
          std::string(name) + ".pem -ndays 100 -no_nonce -noverify -respout " + response);
      proofs.push_back(authority.file(response));
    }
    dir.write("kept.pdf", keep_proofs(bytes_of(file), read_proof_files(proofs)));
  }
  const Verification kept = verify_dossier(dir.path() / "kept.pdf", kSchemaDir, sources);
  INFO(steps_text(kept) << kept.signatures.at(0).revocation.words << kept.signatures.at(0).time.words);
  CHECK(kept.answer() == Answer::holds);
  CHECK(kept.signatures.at(0).form == "PAdES B-LT");
  CHECK_THAT(kept.changes.words, Catch::Contains("kept proofs: 1 certificates"));
  const auto qpdf = run_command("qpdf --check '" + (dir.path() / "kept.pdf").string() + "'");
  INFO(qpdf.text);
  CHECK(qpdf.status == 0);
  CHECK_THAT(run_command("pdfsig -nocert '" + (dir.path() / "kept.pdf").string() + "'").text,
             Catch::Contains("Signature is Valid."));
}

TEST_CASE("A revocation after the proven time does not touch a signature, one for a stolen key does") {
  const TestStampServer& server = test_stamp_server();
  const TestAuthority& authority = server.authority;
  const TemporaryFolder dir;
  const std::string now = iso_from_seconds(std::time(nullptr));
  TrustSources sources;
  sources.time_utc = "2049-01-01T00:00:00Z";
  const auto answer = [&](const std::string& name, const std::string& when, const std::string& reason) {
    const auto signer = load_signer(authority.issue(name, "signer", kLongAgo, kFarAway), "secret", now,
                                    time_stamp_server(server.url("honest")));
    const ResultsDocument document = exported_document(true);
    const std::filesystem::path file = dir.path() / (name + ".pdf");
    finish_dossier(write_pages(dir, "text"), document, attachments_of(document), signer->signature_bytes(), file);
    sign_dossier(file, *signer, now);
    authority.revoke(name, when, reason);
    sources.files = {authority.root(), authority.revocation_list(kLongAgo, kFarAway)};
    return verify_dossier(file, kSchemaDir, sources).signatures.at(0).revocation;
  };
  const Judgement later = answer("later", "480101000000Z", "superseded");
  INFO(later.words);
  CHECK(later.answer == Answer::holds);
  CHECK_THAT(later.words, Catch::Contains("after the proven time"));
  CHECK(answer("earlier", "210101000000Z", "superseded").answer == Answer::fails);
  CHECK(answer("stolen", "480101000000Z", "keyCompromise").answer == Answer::fails);
}

TEST_CASE("A file that holds no proof is refused by name") {
  const TemporaryFolder dir;
  CHECK_THROWS_WITH(read_proof_files({dir.write("text", "text")}), Catch::Contains("text' holds no certificate"));
}
