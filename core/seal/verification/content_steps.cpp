#include "core/seal/verification/content_steps.h"

#include <algorithm>
#include <cstddef>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <sstream>
#include <stdexcept>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/document/sha256.h"
#include "core/intake/export_reader.h"
#include "core/intake/settings/settings_reader.h"
#include "core/seal/finish.h"
#include "core/seal/verification/step_list.h"
#include "core/trace/canonical.h"
#include "core/trace/record.h"
#include "core/trace/results_reader.h"

namespace panel_dossier {

namespace {

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

std::string project_recomputed(const ResultsDocument& results) {
  if (results.build.project_hash.empty()) return "the dossier is from before they stood in the hash tree";
  require_step(project_hash(results.project_findings) == results.build.project_hash,
               "the findings of the project as a whole are not those that were hashed");
  return std::to_string(results.project_findings.size()) + " findings";
}

std::string root_recomputed(const ResultsDocument& results, const std::string& xmp) {
  HexDigest root = hash_tree_root(results);
  require_step(root == results.build.hash_tree_root,
               "results.json states another root: " + results.build.hash_tree_root);
  require_step(root == hash_tree_root_of(xmp), "the metadata state another root: '" + hash_tree_root_of(xmp) + "'");
  return root;
}

std::string issue_agrees(const ResultsDocument& results, bool for_issue) {
  require_step(!for_issue || !results.build.incomplete, "an incomplete build is signed for issue, which none may be");
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

}  // namespace

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

ResultsDocument add_content_steps(StepList& steps, const AttachedContent& content) {
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
  if (!has_export) return results;
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
  steps.run("the project's findings have the stated hash", [&] { return project_recomputed(results); });
  steps.run("the root of the hash tree is the one in results.json and in the metadata",
            [&] { return root_recomputed(results, content.xmp); });
  steps.run("the mark of issue agrees with the key", [&] { return issue_agrees(results, content.for_issue); });
  return results;
}

namespace {

using Object = QPDFObjectHandle;

std::string stream_bytes(Object stream) {
  const auto data = stream.getStreamData(qpdf_dl_all);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

}  // namespace

std::string read_metadata(QPDF& pdf) {
  Object metadata = pdf.getRoot().getKey("/Metadata");
  return metadata.isStream() ? stream_bytes(metadata) : std::string();
}

std::map<std::string, std::string> read_attachments(QPDF& pdf) {
  std::map<std::string, std::string> attachments;
  for (const auto& [name, file] : QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFiles()) {
    Object stream = file->getEmbeddedFileStream();
    if (!stream.isStream()) throw std::runtime_error("attachment '" + name + "' has no content");
    attachments[name] = stream_bytes(stream);
  }
  return attachments;
}

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

}  // namespace panel_dossier
