// Attacks on a signed dossier, each with what it tries. None may hold. The kinds are those of the published reports on
// PDF signatures (universal forgery, incremental saving, signature wrapping, shadow and certification attacks), of RFC
// 5652 (2009) and of what a dossier adds of its own.
#include <catch2/catch.hpp>
#include <functional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <string>
#include <vector>

#include "core/seal/revision/approval.h"
#include "core/seal/revision/increment.h"
#include "tests/seal/test_authority.h"
#include "tests/seal/unchecked_signer.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A dossier for issue whose signer leads to an authority that the reader trusts.
class AttackedDossier {
 public:
  const TestAuthority& authority = test_authority();
  std::string bytes;

  AttackedDossier() {
    const auto signer = load_signer(authority.issue("victim"), "secret", kBuildTime);
    const ResultsDocument document = exported_document(true);
    bytes = bytes_of(write_signed(dir_, document, attachments_of(document), *signer));
    contents_ = bytes.find('<', bytes.find("/Contents <", bytes.find("/ByteRange")));
    contents_end_ = bytes.find('>', contents_) + 1;
  }

  Verification verified(const std::string& attacked) const {
    TrustSources sources;
    sources.files = {authority.root(), list_};
    sources.time_utc = "2026-11-26T02:00:00Z";
    return verify_dossier(dir_.write("attacked.pdf", attacked), kSchemaDir, sources);
  }

  /// What the signature covers.
  std::string content() const { return bytes.substr(0, contents_) + bytes.substr(contents_end_); }

  /// With these octets in place of the signature.
  std::string with_cms(const std::string& cms) const {
    std::string digits;
    for (const char octet : cms) {
      constexpr const char* kDigits = "0123456789abcdef";
      digits += kDigits[static_cast<unsigned char>(octet) >> 4U];
      digits += kDigits[static_cast<unsigned char>(octet) & 15U];
    }
    const std::size_t room = contents_end_ - contents_ - 2;
    REQUIRE(digits.size() <= room);
    digits.resize(room, '0');
    return replaced(contents_ + 1, digits);
  }

  /// With the text at the position, over what stands there.
  std::string replaced(std::size_t position, const std::string& text) const {
    std::string attacked = bytes;
    attacked.replace(position, text.size(), text);
    return attacked;
  }

  /// With `other` in place of the first `text` behind the signature dictionary's beginning; both of one length.
  std::string in_dictionary(const std::string& text, const std::string& other) const {
    REQUIRE(text.size() == other.size());
    const std::size_t at = bytes.find(text, bytes.find("/ByteRange") - 100);
    REQUIRE(at != std::string::npos);
    return replaced(at, other);
  }

  /// With another ByteRange in its room.
  std::string with_range(const std::string& numbers) const {
    const std::size_t begin = bytes.find('[', bytes.find("/ByteRange"));
    const std::size_t end = bytes.find(']', begin);
    REQUIRE(numbers.size() <= end - begin - 1);
    return replaced(begin + 1, numbers + std::string(end - begin - 1 - numbers.size(), ' '));
  }

  /// A CMS that openssl makes over what the signature covers, with the key of a certificate of the authority.
  std::string openssl_cms(const std::string& options, const std::string& name = "victim") const {
    const auto file = dir_.write("content.bin", content());
    authority.run("openssl cms -sign -binary -in '" + file.string() + "' -signer " + name + ".pem -inkey " + name +
                  ".key -outform DER -out attack.der " + options);
    return bytes_of(authority.file("attack.der"));
  }

  /// Followed by an update of these objects, whose text `make` gives for the open file and the next free number.
  std::string with_update(const std::function<ObjectTexts(QPDF&, int)>& make) const {
    QPDF pdf;
    pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
    const RevisionEnd end = revision_end(pdf, bytes);
    return bytes + increment_text(end, make(pdf, end.object_count));
  }

  const TemporaryFolder& folder() const { return dir_; }
  std::size_t contents() const { return contents_; }
  std::size_t contents_end() const { return contents_end_; }

 private:
  TemporaryFolder dir_;
  std::filesystem::path list_ = authority.revocation_list();
  std::size_t contents_ = 0;
  std::size_t contents_end_ = 0;
};

QPDFObjectHandle first_page(QPDF& pdf) {
  return QPDFPageDocumentHelper(pdf).getAllPages().at(0).getObjectHandle();
}

std::string painted() {
  const std::string paint = "BT /F1 20 Tf 50 500 Td (REI 120 PASSED) Tj ET";
  return "<< /Length " + std::to_string(paint.size()) + " >>\nstream\n" + paint + "\nendstream";
}

/// The update that shows another page, in the form of many programs: a table and a trailer.
std::string update_with_table(const AttackedDossier& dossier) {
  const std::size_t offset = dossier.bytes.size();
  const std::string object = "3 0 obj\n<< /Type /Catalog >>\nendobj\n";
  const std::size_t start = dossier.bytes.rfind("startxref\n") + 10;
  const std::string previous = dossier.bytes.substr(start, dossier.bytes.find('\n', start) - start);
  char entry[32];
  std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", offset);
  return dossier.bytes + object + "xref\n3 1\n" + entry + "trailer\n<< /Size 40 /Root 3 0 R /Prev " + previous +
         " >>\nstartxref\n" + std::to_string(offset + object.size()) + "\n%%EOF\n";
}

struct Attack {
  const char* label;
  std::function<std::string(const AttackedDossier&)> make;
};

std::vector<Attack> universal_forgeries() {
  return {
      {"no Contents", [](const auto& d) { return d.in_dictionary("/Contents", "/Contentz"); }},
      {"no ByteRange", [](const auto& d) { return d.in_dictionary("/ByteRange", "/ByteRangf"); }},
      {"Contents of zeros", [](const auto& d) { return d.with_cms(""); }},
      {"Contents of an empty sequence", [](const auto& d) { return d.with_cms(std::string("\x30\x00", 2)); }},
      {"ByteRange of zeros", [](const auto& d) { return d.with_range("0 0 0 0"); }},
      {"ByteRange below zero", [](const auto& d) { return d.with_range("0 -1 -1 -1"); }},
      {"ByteRange of three numbers", [](const auto& d) { return d.with_range("0 10 20"); }},
      {"ByteRange from the second byte",
       [](const auto& d) {
         return d.with_range("1 " + std::to_string(d.contents() - 1) + " " + std::to_string(d.contents_end()) + " " +
                             std::to_string(d.bytes.size() - d.contents_end()));
       }},
      {"another form of signature named",
       [](const auto& d) { return d.in_dictionary("CAdES.detached", "RFC3161.stampd"); }},
      {"a signature in capital digits",
       [](const auto& d) {
         std::string attacked = d.bytes;
         for (std::size_t i = d.contents(); i < d.contents_end(); ++i) {
           if (attacked[i] >= 'a' && attacked[i] <= 'f') attacked[i] = static_cast<char>(attacked[i] - 'a' + 'A');
         }
         return attacked;
       }},
      {"something behind the signature in its room",
       [](const auto& d) { return d.replaced(d.contents_end() - 3, "01"); }},
  };
}

std::vector<Attack> wrappings_and_updates() {
  return {
      {"a gap that takes in more than Contents",
       [](const auto& d) {
         return d.with_range("0 " + std::to_string(d.contents() - 20) + " " + std::to_string(d.contents_end()) + " " +
                             std::to_string(d.bytes.size() - d.contents_end()));
       }},
      {"a line more at the end", [](const auto& d) { return d.bytes + "\n"; }},
      {"a byte before the head", [](const auto& d) { return " " + d.bytes; }},
      {"the last line cut", [](const auto& d) { return d.bytes.substr(0, d.bytes.size() - 6); }},
      {"a body without a table", [](const auto& d) { return d.bytes + "5 0 obj\n<< >>\nendobj\n"; }},
      {"the tail written twice", [](const auto& d) { return d.bytes + d.bytes.substr(d.bytes.rfind("startxref\n")); }},
      {"an update with a table and another catalog", [](const auto& d) { return update_with_table(d); }},
      {"an update with another page",
       [](const auto& d) {
         return d.with_update([](QPDF& pdf, int next) {
           auto page = first_page(pdf).shallowCopy();
           page.replaceKey("/Contents", reference_to(pdf, next));
           // The library leaves out a key whose object is not there yet.
           std::string text = page.unparse();
           text.insert(text.rfind(">>"), "/Contents " + std::to_string(next) + " 0 R ");
           return ObjectTexts{{first_page(pdf).getObjectID(), text}, {next, painted()}};
         });
       }},
      {"an update that switches the page's content itself",
       [](const auto& d) {
         return d.with_update([](QPDF& pdf, int) {
           return ObjectTexts{{first_page(pdf).getKey("/Contents").getObjectID(), painted()}};
         });
       }},
      {"an update with an annotation that paints over the page",
       [](const auto& d) {
         return d.with_update([](QPDF& pdf, int next) {
           std::string page = first_page(pdf).unparseResolved();
           const std::size_t list = page.find("/Annots [");
           REQUIRE(list != std::string::npos);
           page.insert(list + 9, " " + std::to_string(next) + " 0 R");
           return ObjectTexts{{first_page(pdf).getObjectID(), page},
                              {next,
                               "<< /Type /Annot /Subtype /FreeText /Rect [0 0 500 800] /F 4 /Contents (REI 120) "
                               "/DA (/F1 20 Tf) >>"}};
         });
       }},
      {"an update without the signature's form",
       [](const auto& d) {
         return d.with_update([](QPDF& pdf, int) {
           auto root = pdf.getRoot().shallowCopy();
           root.removeKey("/AcroForm");
           return ObjectTexts{{pdf.getRoot().getObjectID(), root.unparse()}};
         });
       }},
      {"an update with other attachments",
       [](const auto& d) {
         return d.with_update([](QPDF& pdf, int) {
           auto root = pdf.getRoot().shallowCopy();
           root.removeKey("/AF");
           return ObjectTexts{{pdf.getRoot().getObjectID(), root.unparse()}};
         });
       }},
      {"a chain of tables that leads to itself",
       [](const auto& d) {
         QPDF pdf;
         pdf.processMemoryFile("dossier", d.bytes.data(), d.bytes.size());
         RevisionEnd end = revision_end(pdf, d.bytes);
         end.cross_reference = end.file_size;
         return d.bytes + increment_text(end, {});
       }},
      {"a second signature that copies the first",
       [](const auto& d) {
         const auto signer = load_signer(d.authority.issue("victim2"), "secret", kBuildTime);
         std::string attacked = sign_again(d.bytes, *signer, "checker", "", kBuildTime);
         const std::size_t room = attacked.find('<', attacked.find("/Contents <", d.bytes.size()));
         const std::string copied = d.bytes.substr(d.contents() + 1, d.contents_end() - d.contents() - 2);
         const std::size_t size = std::min(copied.size(), attacked.find('>', room) - room - 1);
         attacked.replace(room + 1, size, copied.substr(0, size));
         return attacked;
       }},
      {"a second signature that shows another name",
       [](const auto& d) {
         class Renamed : public UncheckedSigner {
          public:
           using UncheckedSigner::UncheckedSigner;
           std::string subject() const override { return "CN=building control"; }
         };
         const Renamed signer(d.authority.file("victim.key"), d.authority.file("victim.pem"));
         return sign_again(d.bytes, signer, "approver", "", kBuildTime);
       }},
      {"an encrypted copy",
       [](const auto& d) {
         const auto file = d.folder().write("plain.pdf", d.bytes);
         const auto encrypted = d.folder().path() / "encrypted.pdf";
         REQUIRE(run_command("qpdf --encrypt '' owner 256 -- '" + file.string() + "' '" + encrypted.string() + "'")
                     .status == 0);
         return bytes_of(encrypted);
       }},
      {"a copy with every object plain",
       [](const auto& d) {
         const auto file = d.folder().write("plain.pdf", d.bytes);
         const auto plain = d.folder().path() / "qdf.pdf";
         REQUIRE(run_command("qpdf --qdf '" + file.string() + "' '" + plain.string() + "'").status == 0);
         return bytes_of(plain);
       }},
  };
}

std::vector<Attack> faults_of_the_cms() {
  return {
      {"a content of its own in the CMS",
       [](const auto& d) {
         const auto small = d.folder().write("small.bin", "other");
         d.authority.run("openssl cms -sign -binary -nodetach -in '" + small.string() +
                         "' -signer victim.pem -inkey victim.key -cades -outform DER -out attack.der");
         return d.with_cms(bytes_of(d.authority.file("attack.der")));
       }},
      {"no signed attributes", [](const auto& d) { return d.with_cms(d.openssl_cms("-noattr")); }},
      {"a time of signing among the attributes",
       [](const auto& d) { return d.with_cms(d.openssl_cms("-cades -nosmimecap")); }},
      {"a digest by SHA-1", [](const auto& d) { return d.with_cms(d.openssl_cms("-md sha1 -nosmimecap")); }},
      {"two signers",
       [](const auto& d) {
         d.authority.issue("second");
         return d.with_cms(d.openssl_cms("-nosmimecap -signer second.pem -inkey second.key"));
       }},
      {"no certificate", [](const auto& d) { return d.with_cms(d.openssl_cms("-nocerts -nosmimecap")); }},
      {"a signature over another content",
       [](const auto& d) {
         const UncheckedSigner signer(d.authority.file("victim.key"), d.authority.file("victim.pem"));
         return d.with_cms(signer.sign(sha256("another content")));
       }},
      {"a certificate exchanged for another of the same key",
       [](const auto& d) {
         d.authority.issue("other");
         const UncheckedSigner signer(d.authority.file("victim.key"), d.authority.file("victim.pem"));
         CmsParts parts = parse_cms(signer.sign(sha256(d.content())));
         const UncheckedSigner other(d.authority.file("other.key"), d.authority.file("other.pem"));
         parts.certificates = other.certificates;
         return d.with_cms(compose_cms(parts));
       }},
      {"a certificate added beside the signer's",
       [](const auto& d) {
         const UncheckedSigner signer(d.authority.file("victim.key"), d.authority.file("victim.pem"));
         CmsParts parts = parse_cms(signer.sign(sha256(d.content())));
         d.authority.issue("other");
         const UncheckedSigner other(d.authority.file("other.key"), d.authority.file("other.pem"));
         parts.certificates.push_back(other.certificates.front());
         return d.with_cms(compose_cms(parts));
       }},
      {"a text in place of a time stamp",
       [](const auto& d) {
         const UncheckedSigner signer(d.authority.file("victim.key"), d.authority.file("victim.pem"));
         CmsParts parts = parse_cms(signer.sign(sha256(d.content())));
         parts.time_stamp = std::string("\x30\x03\x02\x01\x05", 5);
         return d.with_cms(compose_cms(parts));
       }},
      {"signed anew by a stranger of the same name",
       [](const auto& d) {
         const TestAuthority stranger;
         stranger.self_signed("victim");
         const UncheckedSigner signer(stranger.file("victim.key"), stranger.file("victim.pem"));
         return d.with_cms(signer.sign(sha256(d.content())));
       }},
  };
}

/// What a signer whom the reader trusts may not sign either: contents that do not belong together.
std::vector<std::pair<const char*, std::function<void(ResultsDocument&, std::vector<Attachment>&)>>> forged_contents() {
  const auto passes = [](ResultsDocument& document) {
    document.panels.front().findings.front().verdict = Verdict::pass;
  };
  return {{"a verdict changed in the results",
           [passes](ResultsDocument& document, auto& attachments) {
             passes(document);
             attachments[0].bytes = to_json(document);
           }},
          {"a finding of the project changed",
           [](ResultsDocument& document, auto& attachments) {
             document.project_findings = document.panels.front().findings;
             attachments[0].bytes = to_json(document);
           }},
          {"the project's leaf taken out of the tree",
           [](ResultsDocument& document, auto& attachments) {
             document.build.project_hash.clear();
             attachments[0].bytes = to_json(document);
           }},
          {"another export", [](ResultsDocument&, auto& attachments) { attachments[1].bytes += " "; }},
          {"no results", [](ResultsDocument&, auto& attachments) { attachments.erase(attachments.begin()); }}};
}

}  // namespace

TEST_CASE("No attack on a signed dossier holds") {
  const AttackedDossier dossier;
  REQUIRE(dossier.verified(dossier.bytes).answer() == Answer::holds);
  std::size_t count = 0;
  for (const auto& attacks : {universal_forgeries(), wrappings_and_updates(), faults_of_the_cms()}) {
    for (const Attack& attack : attacks) {
      INFO(attack.label);
      const std::string attacked = attack.make(dossier);
      REQUIRE(attacked != dossier.bytes);
      CHECK(dossier.verified(attacked).answer() == Answer::fails);
      ++count;
    }
  }
  CHECK(count >= 25);
}

TEST_CASE("Contents that do not belong together fail even under a trusted signature") {
  const AttackedDossier dossier;
  const auto signer = load_signer(dossier.authority.issue("insider"), "secret", kBuildTime);
  for (const auto& [label, forge] : forged_contents()) {
    INFO(label);
    const TemporaryFolder dir;
    ResultsDocument document = exported_document(true);
    auto attachments = attachments_of(document);
    forge(document, attachments);
    CHECK(dossier.verified(bytes_of(write_signed(dir, document, attachments, *signer))).answer() == Answer::fails);
  }
}

TEST_CASE("A page that is not the listed one fails even under a trusted signature") {
  const AttackedDossier dossier;
  const auto signer = load_signer(dossier.authority.issue("insider"), "secret", kBuildTime);
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document(true);
  const auto honest = dir.path() / "honest.pdf";
  finish_dossier(write_pages(dir, "REI 30"), document, attachments_of(document), signer->signature_bytes(), honest);
  // The finished file with another page in it, before it is signed.
  QPDF pdf;
  pdf.processFile(honest.c_str());
  first_page(pdf).replaceKey("/Contents", pdf.newStream("BT /F1 20 Tf 50 500 Td (REI 120 PASSED) Tj ET"));
  const auto forged = dir.path() / "forged.pdf";
  QPDFWriter writer(pdf, forged.c_str());
  writer.setObjectStreamMode(qpdf_o_preserve);
  writer.write();
  sign_dossier(forged, *signer, kBuildTime);
  const Verification verification = dossier.verified(bytes_of(forged));
  CHECK(verification.answer() == Answer::fails);
  CHECK_THAT(steps_text(verification), Catch::Contains("page 1 is not the one that was listed"));
}

TEST_CASE("One panel is proved by its hash path, and one that is not there is not") {
  const AttackedDossier dossier;
  const auto file = dossier.folder().write("one.pdf", dossier.bytes);
  const Verification proved = verify_dossier(file, kSchemaDir, {}, "P-01");
  const std::string text = steps_text(proved);
  CHECK_THAT(text, Catch::Contains("holds panel 'P-01': its data and findings have its hash") &&
                       Catch::Contains("holds panel 'P-01': its hash leads to the signed root: leaf 1 of 2, with ") &&
                       Catch::Contains("FAILS panel 'P-01': its pages are those that were signed: neither"));
  CHECK_THAT(steps_text(verify_dossier(file, kSchemaDir, {}, "P-99")), Catch::Contains("has no panel 'P-99'"));
}
