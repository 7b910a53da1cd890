#include "core/seal/verify.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/seal/pages/page_list.h"
#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

struct Gap {
  std::size_t begin;
  std::size_t end;
};

/// The test files hold the placeholder's name once: their streams are compressed.
Gap gap_of(const std::string& bytes) {
  const std::size_t name = bytes.find("/Contents <", bytes.find("/ByteRange"));
  REQUIRE(name != std::string::npos);
  const std::size_t begin = bytes.find('<', name);
  return {begin, bytes.find('>', begin) + 1};
}

/// Octets of the CMS, without its padding.
std::size_t cms_size(const std::string& bytes, const Gap& gap) {
  const std::string digits = bytes.substr(gap.begin + 1, gap.end - gap.begin - 2);
  return 4 + std::stoul(digits.substr(4, 4), nullptr, 16);
}

bool holds(const TemporaryFolder& dir, const std::string& bytes) {
  return verify_dossier(dir.write("changed.pdf", bytes), kSchemaDir).holds();
}

bool holds_with_flip(const TemporaryFolder& dir, std::string bytes, std::size_t position, unsigned mask) {
  bytes.at(position) = static_cast<char>(static_cast<unsigned char>(bytes.at(position)) ^ mask);
  return holds(dir, bytes);
}

bool fails_at(const Verification& verification, const std::string& what) {
  for (const auto& step : verification.steps) {
    if (step.what == what) return !step.holds;
  }
  return false;
}

Verification verified(const TemporaryFolder& dir, const ResultsDocument& document,
                      const std::vector<Attachment>& attachments) {
  return verify_dossier(write_signed(dir, document, attachments, demonstration_signer()), kSchemaDir);
}

}  // namespace

TEST_CASE("An untouched dossier holds in every step, from the PDF alone") {
  const TemporaryFolder dir;
  const TemporaryFolder elsewhere;
  const auto file = elsewhere.write("copy.pdf", bytes_of(write_demonstration(dir)));
  const auto verification = verify_dossier(file, kSchemaDir);
  INFO(steps_text(verification));
  CHECK(verification.holds());
  CHECK(verification.steps.size() == 22);
  CHECK_FALSE(verification.for_issue);
}

TEST_CASE("A byte flipped anywhere fails") {
  const TemporaryFolder dir;
  const std::string bytes = bytes_of(write_demonstration(dir));
  REQUIRE(holds(dir, bytes));
  // A prime step, so that every region is met at changing places; the one bit that also turns the case of a letter.
  constexpr std::size_t kStep = 211;
  for (std::size_t position = 0; position < bytes.size(); position += kStep) {
    INFO(position);
    CHECK_FALSE(holds_with_flip(dir, bytes, position, 0x20));
    CHECK_FALSE(holds_with_flip(dir, bytes, position, 0x01));
  }
}

TEST_CASE("A byte flipped in the signature itself fails, padding included") {
  const TemporaryFolder dir;
  const std::string bytes = bytes_of(write_demonstration(dir));
  const Gap gap = gap_of(bytes);
  const std::size_t padding = gap.begin + 1 + 2 * cms_size(bytes, gap);
  std::vector<std::size_t> positions{gap.begin, gap.end - 1, gap.end - 2, padding - 1, padding, padding + 1};
  for (std::size_t position = gap.begin; position < padding; position += 13) positions.push_back(position);
  for (const std::size_t position : positions) {
    INFO(position - gap.begin);
    for (const unsigned mask : {0x01U, 0x20U}) CHECK_FALSE(holds_with_flip(dir, bytes, position, mask));
  }
}

TEST_CASE("A byte flipped in ByteRange, date, cross-reference or trailer fails") {
  const TemporaryFolder dir;
  const std::string bytes = bytes_of(write_demonstration(dir));
  std::vector<std::size_t> positions;
  for (const char* mark : {"/ByteRange", "(D:", "startxref", "%%EOF", "%PDF"}) {
    const std::size_t start = bytes.rfind(mark);
    REQUIRE(start != std::string::npos);
    for (std::size_t i = start; i < std::min(start + 24, bytes.size()); ++i) positions.push_back(i);
  }
  for (const std::size_t position : positions) {
    INFO(position);
    CHECK_FALSE(holds_with_flip(dir, bytes, position, 0x01));
  }
}

TEST_CASE("Bytes added or cut fail") {
  const TemporaryFolder dir;
  const std::string bytes = bytes_of(write_demonstration(dir));
  CHECK_FALSE(holds(dir, bytes + "\n"));
  CHECK_FALSE(holds(dir, "\n" + bytes));
  CHECK_FALSE(holds(dir, bytes.substr(0, bytes.size() - 1)));
}

TEST_CASE("A file that was changed and saved again fails") {
  const TemporaryFolder dir;
  const auto file = write_demonstration(dir);
  const auto saved = dir.path() / "saved.pdf";
  REQUIRE(run_command("qpdf '" + file.string() + "' '" + saved.string() + "'").status == 0);
  CHECK_FALSE(verify_dossier(saved, kSchemaDir).holds());
}

TEST_CASE("Another export than the one built from is found out, though signed") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  auto attachments = attachments_of(document);
  attachments[1].bytes += "<!-- -->";
  CHECK(fails_at(verified(dir, document, attachments), "the export is attached unchanged"));
}

TEST_CASE("Panel data that do not come from the export are found out, though signed") {
  const TemporaryFolder dir;
  ResultsDocument document = exported_document();
  PanelSummary& panel = document.panels.front();
  panel.data_hash = std::string(64, 'a');
  panel.hash = panel_hash(panel.data_hash, panel.findings);
  document.build.hash_tree_root = hash_tree_root(document);
  CHECK(fails_at(verified(dir, document, attachments_of(document)),
                 "the panels' data, read again from the export, have the stated hashes"));
}

TEST_CASE("Findings that were not hashed are found out, though signed") {
  const TemporaryFolder dir;
  ResultsDocument document = exported_document();
  document.panels.front().findings.front().verdict = Verdict::pass;
  CHECK(fails_at(verified(dir, document, attachments_of(document)), "the panels' findings have the stated hashes"));
}

TEST_CASE("A derivation that was not hashed is found out, though signed") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  auto attachments = attachments_of(document);
  const std::string note = "a note";
  attachments[0].bytes.replace(attachments[0].bytes.find(note), note.size(), "a lie");
  const Verification verification = verified(dir, document, attachments);
  CHECK(fails_at(verification, "the derivations have the hashes that findings name them by"));
  CHECK_FALSE(fails_at(verification, "the panels' findings have the stated hashes"));
}

TEST_CASE("A root that differs between metadata and results is found out, though signed") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  ResultsDocument other = document;
  other.build.hash_tree_root = std::string(64, 'b');
  CHECK(fails_at(verified(dir, other, attachments_of(document)),
                 "the root of the hash tree is the one in results.json and in the metadata"));
  CHECK(fails_at(verified(dir, document, attachments_of(other)),
                 "the root of the hash tree is the one in results.json and in the metadata"));
}

TEST_CASE("Pages that claim to be for issue under the demonstration key are found out") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document(true);
  CHECK(fails_at(verified(dir, document, attachments_of(document)), "the mark of issue agrees with the key"));
}

TEST_CASE("Missing or broken attachments are named") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  CHECK(fails_at(verified(dir, document, {}), "results.json is attached and readable"));
  auto attachments = attachments_of(document);
  attachments[0].bytes = "{";
  CHECK(fails_at(verified(dir, document, attachments), "results.json is attached and readable"));
  attachments = attachments_of(document);
  attachments.pop_back();
  CHECK(fails_at(verified(dir, document, attachments), "the settings are attached unchanged"));
}

TEST_CASE("A file that cannot be read is an error, one that is no dossier does not hold") {
  const TemporaryFolder dir;
  CHECK_THROWS_AS(verify_dossier(dir.path() / "absent.pdf", kSchemaDir), std::runtime_error);
  CHECK_THROWS_AS(verify_dossier(dir.path(), kSchemaDir), std::runtime_error);
  for (const char* content : {"", "not a PDF", "%PDF-1.7\n", "%PDF-1.7\nstartxref\n99999999\n%%EOF\n"}) {
    CHECK_FALSE(holds(dir, content));
  }
  CHECK_FALSE(verify_dossier(write_pages(dir, "text"), kSchemaDir).holds());
}

TEST_CASE("A gap without a signature is told from a signature that was changed") {
  const TemporaryFolder dir;
  const std::string signed_bytes = bytes_of(write_demonstration(dir));
  const Gap gap = gap_of(signed_bytes);
  const std::size_t digits = gap.end - gap.begin - 2;
  const auto detail = [&](const std::string& filling) {
    std::string bytes = signed_bytes;
    bytes.replace(gap.begin + 1, filling.size(), filling);
    return steps_text(verify_dossier(dir.write("changed.pdf", bytes), kSchemaDir));
  };
  const auto no_signature = Catch::Contains("the signature is not a CMS in DER, or the file is not signed");
  CHECK_THAT(detail(std::string(digits, '0')), no_signature);
  CHECK_THAT(detail(std::string(digits, 'f')), no_signature);
  CHECK_THAT(detail("3084ffffffff"), no_signature);  // an element longer than the gap
  CHECK_THAT(detail("3000"), Catch::Contains("the padding behind the signature is not all zero"));
}

TEST_CASE("Hostile files do not hold and do not crash") {
  const TemporaryFolder dir;
  const std::string bytes = bytes_of(write_demonstration(dir));
  std::mt19937 random(1);
  const auto below = [&random](std::size_t bound) { return static_cast<std::size_t>(random()) % bound; };
  for (int round = 0; round < 150; ++round) {
    std::string changed = bytes;
    for (int i = 0; i < 20; ++i) changed[below(changed.size())] = static_cast<char>(random());
    if (round % 3 == 0) changed.resize(below(changed.size()));
    if (round % 5 == 0) changed.insert(below(changed.size() + 1), bytes, below(bytes.size()), 300);
    CHECK_FALSE(holds(dir, changed));
  }
}

namespace {

/// A dossier that names one volume, as a build leaves them.
struct DossierWithVolume {
  TemporaryFolder dir;
  std::filesystem::path volume = dir.path() / "dossier-annex.pdf";
  std::filesystem::path dossier = dir.path() / "dossier.pdf";

  DossierWithVolume() {
    const ResultsDocument document = exported_document();
    finish_dossier(write_pages(dir, "Calculations"), document, {}, demonstration_signer().signature_bytes(), volume,
                   "Annex");
    sign_dossier(volume, demonstration_signer(), kBuildTime);
    auto attachments = attachments_of(document);
    attachments.push_back(
        {std::string(kVolumesAttachment), "text/csv", "volumes", "Data",
         "file,what,pages,sha256\ndossier-annex.pdf,Annex,1," + to_hex(sha256(bytes_of(volume))) + "\n"});
    std::filesystem::rename(write_signed(dir, document, attachments, demonstration_signer()), dossier);
  }
};

constexpr const char* kVolumesStep = "the volumes are those of this dossier";
constexpr const char* kNamedStep = "its dossier names it";

}  // namespace

TEST_CASE("A dossier holds with its volumes beside it, and each volume beside its dossier") {
  const DossierWithVolume made;
  CHECK(verify_dossier(made.dossier, kSchemaDir).holds());
  const Verification volume = verify_dossier(made.volume, kSchemaDir);
  CHECK(volume.holds());
  CHECK(volume.volume == "Annex");
}

TEST_CASE("A volume that is missing, changed or another's is found out from the dossier") {
  const DossierWithVolume made;
  const std::string bytes = bytes_of(made.volume);
  std::filesystem::remove(made.volume);
  CHECK(fails_at(verify_dossier(made.dossier, kSchemaDir), kVolumesStep));
  made.dir.write("dossier-annex.pdf", bytes + "\n");
  CHECK(fails_at(verify_dossier(made.dossier, kSchemaDir), kVolumesStep));
}

TEST_CASE("A volume without its dossier, or one that the dossier does not name, does not hold") {
  const DossierWithVolume made;
  const std::string bytes = bytes_of(made.volume);
  const TemporaryFolder alone;
  CHECK(fails_at(verify_dossier(alone.write("dossier-annex.pdf", bytes), kSchemaDir), kNamedStep));
  CHECK(fails_at(verify_dossier(made.dir.write("dossier-panels-1.pdf", bytes), kSchemaDir), kNamedStep));
  alone.write("dossier.pdf", bytes_of(write_demonstration(made.dir)));
  CHECK(fails_at(verify_dossier(alone.path() / "dossier-annex.pdf", kSchemaDir), kNamedStep));
}

TEST_CASE("A list of volumes that names none, or a file elsewhere, does not hold") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  for (const char* list : {"file,what,pages,sha256\n", "file,what,pages,sha256\n../annex.pdf,Annex,1,00\n",
                           "file,what,pages,sha256\nannex.pdf\n"}) {
    INFO(list);
    auto attachments = attachments_of(document);
    attachments.push_back({std::string(kVolumesAttachment), "text/csv", "volumes", "Data", list});
    CHECK(fails_at(verified(dir, document, attachments), kVolumesStep));
  }
}

TEST_CASE("A list of pages comes back from its text, and rows of another form are refused") {
  const std::vector<ListedPage> pages{{std::string(64, 'a'), "Cover"}, {std::string(64, 'b'), "5  Panels, A"}};
  const std::string text = page_list_text(pages);
  const std::vector<ListedPage> read = page_list_from(text);
  REQUIRE(read.size() == 2);
  CHECK(read[1].sha256 == pages[1].sha256);
  CHECK(read[1].bookmark == pages[1].bookmark);
  for (const char* row : {"3,abc,\"open", "3,abc", "4,abc,Cover", ""})
    CHECK_THROWS_WITH(page_list_from(text + row + "\n"), Catch::Contains("of the list of pages has another form"));
}
