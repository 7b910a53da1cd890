// Signatures, checked from outside by poppler's pdfsig and by openssl cms.
#include <algorithm>
#include <catch2/catch.hpp>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

struct Extracted {
  std::string cms;
  std::string content;
};

/// By ByteRange and Contents alone, as any other tool would do.
Extracted extract(const std::filesystem::path& file) {
  QPDF pdf;
  pdf.processFile(file.c_str());
  auto signature = pdf.getRoot().getKey("/AcroForm").getKey("/Fields").getArrayItem(0).getKey("/V");
  auto range = signature.getKey("/ByteRange").getArrayAsVector();
  const std::string bytes = bytes_of(file);
  const auto part = [&](std::size_t i) {
    return bytes.substr(static_cast<std::size_t>(range.at(i).getIntValue()),
                        static_cast<std::size_t>(range.at(i + 1).getIntValue()));
  };
  return {signature.getKey("/Contents").getStringValue(), part(0) + part(2)};
}

std::string cms_command(const TemporaryFolder& dir, const Extracted& extracted) {
  const auto cms = dir.write("signature.der", extracted.cms);
  const auto content = dir.write("content.bin", extracted.content);
  return "openssl cms -verify -binary -inform DER -in '" + cms.string() + "' -content '" + content.string() +
         "' -out /dev/null ";
}

}  // namespace

TEST_CASE("pdfsig confirms the signature over the whole document") {
  const TemporaryFolder dir;
  const auto outcome = run_command("pdfsig '" + write_demonstration(dir).string() + "'");
  CHECK_THAT(outcome.text, Catch::Contains("Signature is Valid."));
  CHECK_THAT(outcome.text, Catch::Contains("Total document signed"));
  CHECK_THAT(outcome.text, Catch::Contains("ETSI.CAdES.detached"));
  CHECK_THAT(outcome.text, Catch::Contains("Demonstration key - not for issue"));
  CHECK_THAT(outcome.text, Catch::Contains("SHA-256"));
}

TEST_CASE("openssl confirms the signature over the signed ranges") {
  const TemporaryFolder dir;
  const Extracted extracted = extract(write_demonstration(dir));
  const auto outcome = run_command(cms_command(dir, extracted) + "-noverify");
  INFO(outcome.text);
  CHECK(outcome.status == 0);
  // With its own certificate as trust anchor, openssl also checks signing-certificate-v2 (option -cades).
  const std::string folder = dir.path().string();
  const auto anchor = run_command("openssl pkcs7 -inform DER -in '" + folder + "/signature.der' -print_certs -out '" +
                                  folder + "/anchor.pem'");
  REQUIRE(anchor.status == 0);
  const auto with_cades =
      run_command(cms_command(dir, extracted) + "-cades -purpose any -CAfile '" + folder + "/anchor.pem'");
  INFO(with_cades.text);
  CHECK(with_cades.status == 0);
}

TEST_CASE("openssl refuses the signature over changed content") {
  const TemporaryFolder dir;
  Extracted extracted = extract(write_demonstration(dir));
  extracted.content[100] = static_cast<char>(extracted.content[100] ^ 1);
  CHECK(run_command(cms_command(dir, extracted) + "-noverify").status != 0);
}

TEST_CASE("The signature has the attributes of the PAdES baseline and no signing time") {
  const TemporaryFolder dir;
  const auto cms = dir.write("signature.der", extract(write_demonstration(dir)).cms);
  const auto outcome = run_command("openssl cms -cmsout -print -noout -inform DER -in '" + cms.string() + "'");
  CHECK_THAT(outcome.text, Catch::Contains("contentType"));
  CHECK_THAT(outcome.text, Catch::Contains("messageDigest"));
  CHECK_THAT(outcome.text, Catch::Contains("signingCertificateV2"));
  CHECK_THAT(outcome.text, !Catch::Contains("signingTime"));
  CHECK_THAT(outcome.text, Catch::Contains("eContent: <ABSENT>"));
}

TEST_CASE("A signed dossier is a sound PDF") {
  const TemporaryFolder dir;
  const auto outcome = run_command("qpdf --check '" + write_demonstration(dir).string() + "'");
  INFO(outcome.text);
  CHECK(outcome.status == 0);
}

TEST_CASE("A signature that does not fit leaves the file as it was") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  const auto file = dir.path() / "dossier.pdf";
  finish_dossier(write_pages(dir, "text"), document, attachments_of(document), 100, file);
  const std::string before = bytes_of(file);
  CHECK_THROWS_WITH(sign_dossier(file, demonstration_signer(), kBuildTime),
                    Catch::Contains("dossier.pdf") && Catch::Contains("the file has 100 for it"));
  CHECK(bytes_of(file) == before);
  CHECK_FALSE(std::filesystem::exists(dir.path() / "dossier.pdf.part"));
}

TEST_CASE("A file without an empty signature field cannot be signed") {
  const TemporaryFolder dir;
  CHECK_THROWS_WITH(sign_dossier(write_pages(dir, "text"), demonstration_signer(), kBuildTime),
                    Catch::Contains("exactly one form field"));
  CHECK_THROWS_WITH(sign_dossier(dir.path() / "absent.pdf", demonstration_signer(), kBuildTime),
                    Catch::Contains("absent.pdf"));
}

TEST_CASE("An attachment that looks like a signature is not taken for it") {
  const TemporaryFolder dir;
  const ResultsDocument document = exported_document();
  auto attachments = attachments_of(document);
  attachments.push_back({"decoy.bin", "application/octet-stream", "", "Supplement",
                         "1 0 obj << /Type /Sig /ByteRange [0 9999999999 9999999999 9999999999] /Contents <00> >>"});
  const auto verification =
      verify_dossier(write_signed(dir, document, attachments, demonstration_signer()), kSchemaDir);
  INFO(steps_text(verification));
  CHECK(verification.holds());
}

TEST_CASE("The demonstration key says that it is not for issue") {
  CHECK(demonstration_signer().subject() == "CN=Demonstration key - not for issue");
  CHECK_FALSE(demonstration_signer().for_issue());
  CHECK(demonstration_signer().sign(sha256("content")).size() <= demonstration_signer().signature_bytes());
}
