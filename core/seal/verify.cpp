#include "core/seal/verify.h"

#include <openssl/evp.h>
#include <openssl/x509.h>

#include <algorithm>
#include <cstddef>
#include <exception>
#include <filesystem>
#include <map>
#include <optional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QUtil.hh>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/document/sha256.h"
#include "core/intake/export_reader.h"
#include "core/intake/settings/settings_reader.h"
#include "core/seal/certificate.h"
#include "core/seal/cms_form.h"
#include "core/seal/file_bytes.h"
#include "core/seal/finish.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signature_field.h"
#include "core/trace/canonical.h"
#include "core/trace/record.h"
#include "core/trace/results_reader.h"

namespace panel_dossier {

namespace {

/// Throws std::runtime_error with `otherwise` unless it `holds`, which fails the step that asked.
void require_step(bool holds, const std::string& otherwise) {
  if (!holds) throw std::runtime_error(otherwise);
}

/// Collects verification steps; whatever goes wrong in one becomes its detail.
class StepList {
 public:
  /// Runs `check`, which returns what it found or throws std::exception with what does not hold. Returns whether it
  /// holds.
  template <typename Check>
  bool run(std::string what, Check check) {
    VerificationStep step{std::move(what), false, {}};
    try {
      step.detail = check();
      step.holds = true;
    } catch (const std::exception& error) {
      step.detail = error.what();
    }
    steps_.push_back(std::move(step));
    return steps_.back().holds;
  }

  std::vector<VerificationStep> take() { return std::move(steps_); }

 private:
  std::vector<VerificationStep> steps_;
};

std::string whole_file_covered(std::string_view bytes, const SignatureFacts& facts) {
  const auto begin = static_cast<long long>(facts.place.contents_begin);
  const auto end = static_cast<long long>(facts.place.contents_end);
  const auto size = static_cast<long long>(bytes.size());
  require_step(facts.byte_range == std::vector<long long>{0, begin, end, size - end},
               "the signed ranges leave out more than the signature itself; something was added or cut after signing");
  return std::to_string(size) + " bytes, all but the " + std::to_string(end - begin) + " of the signature itself";
}

/// The CMS in the gap, whose hexadecimal digits and padding may have one form only.
std::string cms_in_gap(std::string_view gap) {
  const std::string_view digits = gap.substr(1, gap.size() - 2);
  const std::string octets = QUtil::hex_decode(std::string(digits));
  require_step(QUtil::hex_encode(octets) == digits, "the signature is not written in lower-case hexadecimal digits");
  const std::size_t size = der_element_size(octets);
  require_step(size != 0 && size <= octets.size(), "the signature is not a CMS in DER, or the file is not signed");
  require_step(octets.find_first_not_of('\0', size) == std::string::npos,
               "the padding behind the signature is not all zero");
  return octets.substr(0, size);
}

std::string form_kept(const SignatureFacts& facts, const std::string& cms, const CmsParts& parts) {
  require_step(facts.sub_filter == "/ETSI.CAdES.detached", "its form is '" + facts.sub_filter + "'");
  require_step(compose_cms(parts) == cms, "parts that no signature covers differ from the form this program writes");
  return "PAdES baseline B, " + std::to_string(cms.size()) + " bytes";
}

std::string digest_signed(const Digest& content, const CmsParts& parts) {
  require_step(parts.signed_attributes.find(message_digest_attribute(content)) != std::string::npos,
               "the content was changed after signing");
  return "SHA-256 " + to_hex(content);
}

std::string certificate_named(const Digest& content, const CmsParts& parts) {
  require_step(parts.signed_attributes.find(signing_certificate_attribute(parts.certificates)) != std::string::npos,
               "the certificate was exchanged after signing");
  require_step(parts.signed_attributes == signed_attributes(content, parts.certificates),
               "there are other signed attributes than the baseline's");
  return "number of certificates: " + std::to_string(parts.certificates.size()) + ", each named with its SHA-256";
}

std::string value_fits(const CmsParts& parts) {
  using Context = Handle<EVP_MD_CTX, EVP_MD_CTX_free>;
  const Certificate signer = read_certificate(parts.certificates.at(0));
  const auto context = owned<Context>(EVP_MD_CTX_new(), "verify");
  const auto* signature = reinterpret_cast<const unsigned char*>(parts.signature.data());
  const auto* content = reinterpret_cast<const unsigned char*>(parts.signed_attributes.data());
  EVP_PKEY* key = X509_get0_pubkey(signer.get());
  require_step(key != nullptr && EVP_DigestVerifyInit(context.get(), nullptr, EVP_sha256(), nullptr, key) == 1 &&
                   EVP_DigestVerify(context.get(), signature, parts.signature.size(), content,
                                    parts.signed_attributes.size()) == 1,
               "the signature was not made with the certificate's key over these attributes");
  return std::to_string(EVP_PKEY_get_bits(key)) + " bit key";
}

std::string described_certificate(x509_st* certificate, const std::string& date) {
  const std::string time_utc = iso_from_pdf_date(date);
  const std::string fault = validity_fault(certificate, seconds_from_iso(time_utc));
  require_step(fault.empty(), "signed " + time_utc + ", but the certificate is " + fault);
  const bool self_signed = X509_self_signed(certificate, 1) == 1;
  const std::string trust =
      is_demonstration(certificate) ? "self-signed demonstration key, not for issue"
      : self_signed                 ? "self-signed: nobody else vouches for this name; compare the fingerprint "
                                      "with one that the signatory gave you another way"
                    : "issued by '" + issuer_text(certificate) + "'; whether to trust that issuer is for you to decide";
  return "'" + subject_text(certificate) + "', " + trust + ", valid when signed (" + time_utc + "), SHA-256 " +
         to_hex(sha256(certificate_octets(certificate)));
}

/// Adds a step each for: coverage of the whole file, form of the signature, digest, signing certificate, signature
/// value, certificate. Returns whether the certificate is another than the demonstration key's; false when it cannot
/// be read.
bool add_signature_steps(StepList& steps, std::string_view bytes, const SignatureFacts& facts) {
  const SignaturePlace& place = facts.place;
  steps.run("the signature covers the whole file", [&] { return whole_file_covered(bytes, facts); });
  Sha256 hasher;
  hasher.add(bytes.substr(0, place.contents_begin));
  hasher.add(bytes.substr(place.contents_end));
  const Digest content = hasher.finish();
  CmsParts parts;
  Certificate certificate;
  const bool readable = steps.run("the signature has the form this program writes", [&] {
    const std::string cms = cms_in_gap(bytes.substr(place.contents_begin, place.contents_end - place.contents_begin));
    parts = parse_cms(cms);
    certificate = read_certificate(parts.certificates.at(0));
    return form_kept(facts, cms, parts);
  });
  if (!certificate) return false;
  steps.run("the signed digest is that of the file", [&] { return digest_signed(content, parts); });
  steps.run("the signing certificate is the one that was signed", [&] { return certificate_named(content, parts); });
  steps.run("the signature was made with the certificate's key", [&] { return value_fits(parts); });
  steps.run("the certificate", [&] { return described_certificate(certificate.get(), facts.date); });
  return readable && !is_demonstration(certificate.get());
}

/// What is attached to a dossier.
struct AttachedContent {
  std::map<std::string, std::string> attachments;  ///< by name
  std::string xmp;
  bool for_issue = false;             ///< what the certificate says
  std::filesystem::path schema_dir;   ///< holds the XSD of the accepted export
  std::filesystem::path project_dir;  ///< where evidence would lie; its presence changes no hash
};

using File = std::pair<const std::string, std::string>;

const File& attachment_with(const AttachedContent& content, const HexDigest& hash) {
  const auto found = std::find_if(content.attachments.begin(), content.attachments.end(),
                                  [&hash](const File& file) { return to_hex(sha256(file.second)) == hash; });
  require_step(found != content.attachments.end(),
               "no attachment has the SHA-256 " + hash + " that results.json states");
  return *found;
}

std::string named(const File& file, const HexDigest& hash) {
  return "'" + file.first + "', " + std::to_string(file.second.size()) + " bytes, SHA-256 " + hash;
}

/// The first names of a list, for a message.
std::string shortened(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 5;
  std::string text;
  for (std::size_t i = 0; i < std::min(kShown, names.size()); ++i) text += (i == 0 ? "'" : ", '") + names[i] + "'";
  if (names.size() > kShown) text += " and " + std::to_string(names.size() - kShown) + " more";
  return text;
}

void refuse_errors(const Diagnostics& diagnostics) {
  const auto error = std::find_if(diagnostics.begin(), diagnostics.end(),
                                  [](const Diagnostic& diagnostic) { return diagnostic.severity == Severity::error; });
  if (error != diagnostics.end()) throw std::runtime_error(to_string(*error));
}

/// The settings matter here for how the export is read, nothing else.
void take_settings(const File* settings, IntakeOptions& options) {
  if (settings == nullptr) return;
  SettingsResult read = read_settings(settings->second, settings->first);
  options.default_layer_order = layer_order_setting(read.settings, read.diagnostics);
  options.panel_rules = panel_rules(read.settings);
  refuse_errors(read.diagnostics);
}

Project read_project(const AttachedContent& content, const File& export_file, const File* settings) {
  IntakeOptions options;
  options.schema_dir = content.schema_dir;
  options.project_dir = content.project_dir;
  take_settings(settings, options);
  // Dossiers from before plugins had lists of their own have none attached.
  const auto list = content.attachments.find(std::string(kPropertyListAttachment));
  if (list != content.attachments.end()) options.property_lists = {{list->first, list->second}};
  IntakeResult read = read_export(export_file.second, export_file.first, options);
  refuse_errors(read.diagnostics);
  require_step(read.project.has_value(), "the attached export cannot be read");
  return std::move(*read.project);
}

std::string data_recomputed(const Project& project, const ResultsDocument& results) {
  require_step(project.panels.size() == results.panels.size(),
               "the export has " + std::to_string(project.panels.size()) + " panels and results.json " +
                   std::to_string(results.panels.size()));
  std::vector<std::string> differing;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    const PanelSummary& summary = results.panels[i];
    const bool same = panel.global_id == summary.global_id && panel.mark == summary.mark &&
                      to_hex(sha256(canonical_panel(panel, project))) == summary.data_hash;
    if (!same) differing.push_back(summary.mark);
  }
  require_step(differing.empty(), "the export gives other data for panel " + shortened(differing) +
                                      "; the dossier was not made from it, or by a version that reads it differently");
  return std::to_string(project.panels.size()) + " panels";
}

std::string derivations_recomputed(const ResultsDocument& results) {
  const std::vector<const Derivation*> derivations = derivations_of(results);
  for (const Derivation* derivation : derivations) {
    require_step(derivation_hash(*derivation) == derivation->hash, "the derivation '" + derivation->hash +
                                                                       "' of check '" + derivation->check +
                                                                       "' is not the one that was hashed");
  }
  return std::to_string(derivations.size()) + " derivations";
}

std::string findings_recomputed(const ResultsDocument& results) {
  std::vector<std::string> differing;
  for (const PanelSummary& panel : results.panels) {
    if (panel_hash(panel.data_hash, panel.findings) != panel.hash) differing.push_back(panel.mark);
  }
  require_step(differing.empty(), "the findings of panel " + shortened(differing) + " are not those that were hashed");
  return std::to_string(results.panels.size()) + " panels";
}

std::string root_recomputed(const ResultsDocument& results, const std::string& xmp) {
  HexDigest root = hash_tree_root(results.panels);
  require_step(root == results.build.hash_tree_root,
               "results.json states another root: " + results.build.hash_tree_root);
  require_step(root == hash_tree_root_of(xmp), "the metadata state another root: '" + hash_tree_root_of(xmp) + "'");
  return root;
}

std::string issue_agrees(const ResultsDocument& results, bool for_issue) {
  require_step(results.build.signed_for_issue == for_issue,
               for_issue ? "its pages say that it is not for issue, but its key is no demonstration key"
                         : "its pages say that it is signed for issue, but its key is a demonstration key");
  return for_issue ? "signed for issue" : "not signed for issue, and its pages say so";
}

ResultsDocument read_results(const AttachedContent& content) {
  const auto found = content.attachments.find(std::string(kResultsAttachment));
  require_step(found != content.attachments.end(), "there is no attachment of that name");
  return results_from_json(found->second);
}

/// Hashes of the volumes that the attached list names, by file name. Throws std::runtime_error for a list that names
/// none or a file elsewhere.
std::map<std::string, HexDigest> volumes_named(const std::string& list) {
  std::map<std::string, HexDigest> volumes;
  std::istringstream lines(list);
  std::string line;
  std::getline(lines, line);  // the head
  while (std::getline(lines, line)) {
    const auto fields = csv_fields(line);
    require_step(fields && fields->size() == 4, "line '" + line + "' of " + std::string(kVolumesAttachment) +
                                                    " has not the four columns file, what, pages and sha256");
    const std::filesystem::path name(fields->front());
    require_step(name == name.filename(), "volume '" + name.string() + "' is no file name");
    volumes[name.string()] = fields->back();
  }
  require_step(!volumes.empty(), std::string(kVolumesAttachment) + " names no volume");
  return volumes;
}

std::string volumes_unchanged(const std::string& list, const std::filesystem::path& folder) {
  const auto volumes = volumes_named(list);
  for (const auto& [name, hash] : volumes) {
    require_step(std::filesystem::is_regular_file(folder / name),
                 "volume '" + name + "' is not there; put it beside this file");
    require_step(to_hex(sha256_file(folder / name)) == hash,
                 "volume '" + name + "' is not the one that was signed with this dossier");
  }
  return std::to_string(volumes.size()) + " volumes beside this file";
}

/// Adds a step each for: results.json, the export, the settings, the panels' data hashes, the derivations' and
/// the findings' hashes, the root of the hash tree, and the mark of issue. Stops at the first of the first two that
/// does not hold.
void add_content_steps(StepList& steps, const AttachedContent& content) {
  ResultsDocument results;
  const File* export_file = nullptr;
  const File* settings = nullptr;
  const bool readable = steps.run("results.json is attached and readable", [&] {
    results = read_results(content);
    return "build of " + results.build.time_utc + ", program version " + results.build.program_version;
  });
  const bool has_export = readable && steps.run("the export is attached unchanged", [&] {
    export_file = &attachment_with(content, results.build.export_sha256);
    return named(*export_file, results.build.export_sha256);
  });
  if (!has_export) return;
  steps.run("the settings are attached unchanged", [&] {
    if (results.build.settings_sha256.empty()) return std::string("the build used none");
    settings = &attachment_with(content, results.build.settings_sha256);
    return named(*settings, results.build.settings_sha256);
  });
  for (const HashedFile& file : results.build.settings_files) {
    steps.run("'" + file.name + "', which the settings name, is attached unchanged",
              [&] { return named(attachment_with(content, file.sha256), file.sha256); });
  }
  steps.run("the panels' data, read again from the export, have the stated hashes",
            [&] { return data_recomputed(read_project(content, *export_file, settings), results); });
  steps.run("the derivations have the hashes that findings name them by",
            [&] { return derivations_recomputed(results); });
  steps.run("the panels' findings have the stated hashes", [&] { return findings_recomputed(results); });
  steps.run("the root of the hash tree is the one in results.json and in the metadata",
            [&] { return root_recomputed(results, content.xmp); });
  steps.run("the mark of issue agrees with the key", [&] { return issue_agrees(results, content.for_issue); });
}

using Object = QPDFObjectHandle;

std::string stream_bytes(Object stream) {
  const auto data = stream.getStreamData(qpdf_dl_all);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

/// The XMP metadata of the document; empty when there is none.
std::string read_metadata(QPDF& pdf) {
  Object metadata = pdf.getRoot().getKey("/Metadata");
  return metadata.isStream() ? stream_bytes(metadata) : std::string();
}

/// Attached files by name. Throws std::runtime_error or what QPDF throws when one cannot be read.
std::map<std::string, std::string> read_attachments(QPDF& pdf) {
  std::map<std::string, std::string> attachments;
  for (const auto& [name, file] : QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFiles()) {
    Object stream = file->getEmbeddedFileStream();
    if (!stream.isStream()) throw std::runtime_error("attachment '" + name + "' has no content");
    attachments[name] = stream_bytes(stream);
  }
  return attachments;
}

/// A volume proves nothing by itself: the dossier that it belongs to names its hash.
std::string named_by_dossier(const std::filesystem::path& volume, std::string_view bytes) {
  const std::filesystem::path dossier = volume.parent_path() / "dossier.pdf";
  require_step(std::filesystem::is_regular_file(dossier),
               "'" + dossier.string() + "' is not there; put this volume beside its dossier");
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processFile(dossier.c_str());
  // The others may be the size of the whole project.
  const auto list = QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFile(std::string(kVolumesAttachment));
  require_step(list != nullptr && list->getEmbeddedFileStream().isStream(),
               "'" + dossier.string() + "' names no volumes");
  const auto volumes = volumes_named(stream_bytes(list->getEmbeddedFileStream()));
  const auto found = volumes.find(volume.filename().string());
  require_step(found != volumes.end() && found->second == to_hex(sha256(bytes)),
               "'" + dossier.string() + "' does not name a volume of this name and content");
  return "by '" + dossier.string() + "', which has to be verified itself";
}

std::string opened(QPDF& pdf, const std::string& bytes) {
  pdf.setSuppressWarnings(true);
  // A damaged file is refused, not repaired: the repaired one is not what was signed.
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
  return "PDF " + pdf.getPDFVersion() + ", " + std::to_string(pdf.getAllPages().size()) + " pages";
}

}  // namespace

bool Verification::holds() const {
  return !steps.empty() &&
         std::all_of(steps.begin(), steps.end(), [](const VerificationStep& step) { return step.holds; });
}

Verification verify_dossier(const std::filesystem::path& file, const std::filesystem::path& schema_dir) {
  const std::string bytes = read_bytes(file);
  StepList steps;
  Verification verification;
  QPDF pdf;
  SignatureFacts facts;
  AttachedContent content;
  content.schema_dir = schema_dir;
  content.project_dir = std::filesystem::absolute(file).parent_path();
  if (steps.run("the file opens", [&] { return opened(pdf, bytes); }) && steps.run("it has one signature", [&] {
        facts = read_signature(pdf, bytes);
        return "dated " + facts.date;
      })) {
    verification.for_issue = content.for_issue = add_signature_steps(steps, bytes, facts);
    if (steps.run("the attachments can be read", [&] {
          content.attachments = read_attachments(pdf);
          content.xmp = read_metadata(pdf);
          return std::to_string(content.attachments.size()) + " files";
        })) {
      verification.volume = volume_of(content.xmp);
      if (verification.volume.empty()) {
        add_content_steps(steps, content);
      } else {
        steps.run("its dossier names it", [&] { return named_by_dossier(std::filesystem::absolute(file), bytes); });
      }
      const auto volumes = content.attachments.find(std::string(kVolumesAttachment));
      if (volumes != content.attachments.end()) {
        steps.run("the volumes are those of this dossier",
                  [&] { return volumes_unchanged(volumes->second, content.project_dir); });
      }
    }
  }
  verification.steps = steps.take();
  return verification;
}

}  // namespace panel_dossier
