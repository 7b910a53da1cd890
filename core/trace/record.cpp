#include "core/trace/record.h"

#include <algorithm>
#include <exception>
#include <map>
#include <set>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/sha256.h"
#include "core/trace/canonical.h"
#include "core/trace/hash_tree.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

HexDigest hash_or_note(const fs::path& file, std::vector<std::string>& failures) {
  try {
    return to_hex(sha256_file(file));
  } catch (const std::runtime_error& error) {
    failures.emplace_back(error.what());
    return {};
  }
}

/// Symbolic links are resolved first, so that none leads out of the folder.
bool lies_below(const fs::path& file, const fs::path& folder) {
  const fs::path resolved_folder = fs::weakly_canonical(folder);
  const fs::path resolved_file = fs::weakly_canonical(file);
  const auto [rest, unused] = std::ranges::mismatch(resolved_folder, resolved_file);
  return rest == resolved_folder.end();
}

HashedFile hashed_evidence(const Evidence& evidence, const fs::path& project_dir, std::vector<std::string>& failures) {
  HashedFile record{evidence.location, evidence.id, {}};
  const fs::path folder = evidence.folder.empty() ? project_dir : fs::path(evidence.folder);
  const fs::path file = folder / evidence.location;
  if (evidence.status == EvidenceStatus::missing || evidence.status == EvidenceStatus::refused) return record;
  if (!lies_below(file, folder)) {
    failures.push_back("evidence '" + evidence.location + "' leads outside its folder and was not hashed");
    return record;
  }
  record.sha256 = hash_or_note(file, failures);
  return record;
}

std::vector<HashedFile> hashed_tables(const PluginRecord& plugin, std::vector<std::string>& failures) {
  std::vector<fs::path> files;
  std::error_code error;
  if (!fs::exists(plugin.data_dir)) return {};
  for (const auto& entry : fs::directory_iterator(plugin.data_dir, error)) {
    const fs::path extension = entry.path().extension();
    if (extension == ".csv" || extension == ".json") files.push_back(entry.path());
  }
  if (error) {
    failures.push_back("cannot list '" + plugin.data_dir.string() + "', the data tables of plugin '" + plugin.info.id +
                       "': " + error.message());
  }
  std::ranges::sort(files);
  std::vector<HashedFile> tables;
  tables.reserve(files.size());
  for (const fs::path& file : files) {
    tables.push_back({file.filename().string(), plugin.info.id, hash_or_note(file, failures)});
  }
  return tables;
}

PluginSummary plugin_summary(const PluginRecord& plugin, std::vector<std::string>& failures) {
  return {plugin.info.id,
          plugin.info.title,
          plugin.info.version,
          plugin.info.caution,
          plugin.info.standards,
          hash_or_note(plugin.file, failures),
          hashed_tables(plugin, failures),
          plugin.checks};
}

ProjectSummary project_summary(const Project& project) {
  return {project.global_id, project.name, project.description, project.phase, project.site_name, project.buildings};
}

PanelSummary panel_summary(const Panel& panel, const Project& project, HexDigest data_hash,
                           std::vector<RecordedFinding> findings, std::vector<NotApplicable> not_applicable) {
  PanelSummary summary{panel.global_id,      panel.mark, panel.type,          {},
                       std::move(data_hash), {},         std::move(findings), std::move(not_applicable)};
  if (panel.storey) summary.storey = project.storeys.at(*panel.storey).name;
  try {
    summary.hash = panel_hash(summary.data_hash, summary.findings);
  } catch (const std::exception& error) {
    throw std::runtime_error("panel '" + panel.mark + "' cannot be hashed: " + error.what());
  }
  return summary;
}

std::vector<BatchSummary> batch_summaries(const Project& project) {
  std::vector<BatchSummary> batches;
  for (const MaterialBatch& batch : project.batches) {
    BatchSummary summary{batch.reference, batch.material, batch.kinds, batch.deliveries, {}};
    for (const std::size_t panel : batch.panels) summary.marks.push_back(project.panels.at(panel).mark);
    batches.push_back(std::move(summary));
  }
  return batches;
}

BuildSummary build_summary(const Project& project, const Results& results, const BuildFacts& facts) {
  BuildSummary build;
  build.program_version = facts.program_version;
  build.time_utc = facts.time_utc;
  build.export_name = facts.export_name;
  build.export_schema = facts.export_schema;
  build.export_sha256 = facts.export_sha256.empty() ? to_hex(sha256(facts.export_bytes)) : facts.export_sha256;
  if (facts.settings_bytes) build.settings_sha256 = to_hex(sha256(*facts.settings_bytes));
  for (const auto& [name, bytes] : facts.settings_files) {
    build.settings_files.push_back({name, {}, to_hex(sha256(bytes))});
  }
  build.settings = facts.settings;
  build.issue = facts.issue;
  build.signed_for_issue = facts.signed_for_issue;
  build.failures = results.failures;
  build.withheld = results.withheld;
  build.confirmed = facts.confirmed_values;
  for (const auto& plugin : results.plugins) build.plugins.push_back(plugin_summary(plugin, build.failures));
  for (const auto& evidence : project.evidence) {
    build.evidence.push_back(hashed_evidence(evidence, facts.project_dir, build.failures));
  }
  for (const OutputTable& output : results.outputs) build.outputs.push_back(output.declaration.file);
  build.incomplete = !build.failures.empty();
  return build;
}

/// Gathers the rows of data tables that verdicts rest on and nobody confirmed, each with the checks that cite it.
class UnconfirmedRows {
 public:
  explicit UnconfirmedRows(const std::vector<TableConfirmation>& confirmations) {
    for (const TableConfirmation& confirmation : confirmations)
      confirmed_.emplace(confirmation.table, confirmation.row);
  }

  void take(const std::vector<RecordedFinding>& findings) {
    for (const RecordedFinding& finding : findings) {
      if (finding.verdict != Verdict::pass && finding.verdict != Verdict::fail) continue;
      // Rows of data tables always stand with the derivation.
      for (const DerivationInput& input : finding.derivation->inputs) {
        if (input.origin) take(*input.origin, finding.check);
      }
    }
  }

  std::vector<std::string> texts() const {
    std::vector<std::string> texts;
    for (const auto& [row, entry] : rows_) {
      texts.push_back(row.first + " row '" + row.second + "': " + entry.source + "; in " +
                      joined({entry.checks.begin(), entry.checks.end()}));
    }
    return texts;
  }

 private:
  using Row = std::pair<std::string, std::string>;  ///< table and key

  struct Entry {
    std::string source;
    std::set<std::string> checks;
  };

  std::set<Row> confirmed_;
  std::map<Row, Entry> rows_;

  void take(const Origin& origin, const std::string& check) {
    if (origin.kind != OriginKind::data_table || !is_from_memory(origin.source.str())) return;
    Row row(origin.table, origin.row);
    if (confirmed_.contains(row)) return;
    Entry& entry = rows_[std::move(row)];
    entry.source = origin.source;
    entry.checks.insert(check);
  }
};

}  // namespace

std::vector<HexDigest> data_hashes(const Project& project) {
  std::vector<HexDigest> hashes;
  hashes.reserve(project.panels.size());
  for (const Panel& panel : project.panels) {
    try {
      hashes.push_back(to_hex(sha256(canonical_panel(panel, project))));
    } catch (const std::exception& error) {
      throw std::runtime_error("panel '" + panel.mark + "' cannot be hashed: " + error.what());
    }
  }
  return hashes;
}

ResultsDocument make_results_document(const Project& project, Results results, const BuildFacts& facts) {
  if (results.panel_findings.size() != project.panels.size() ||
      results.panel_not_applicable.size() != project.panels.size()) {
    throw std::runtime_error("the results are not of this project: they cover " +
                             std::to_string(results.panel_findings.size()) + " panels of " +
                             std::to_string(project.panels.size()));
  }
  ResultsDocument document;
  document.project = project_summary(project);
  document.build = build_summary(project, results, facts);
  std::vector<HexDigest> hashes = facts.data_hashes.empty() ? data_hashes(project) : facts.data_hashes;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    document.panels.push_back(panel_summary(project.panels[i], project, std::move(hashes.at(i)),
                                            std::move(results.panel_findings[i]),
                                            std::move(results.panel_not_applicable[i])));
  }
  document.project_findings = std::move(results.project_findings);
  document.project_not_applicable = std::move(results.project_not_applicable);
  document.batches = batch_summaries(project);
  UnconfirmedRows unconfirmed(facts.table_confirmations);
  for (const PanelSummary& panel : document.panels) unconfirmed.take(panel.findings);
  unconfirmed.take(document.project_findings);
  document.build.unconfirmed = unconfirmed.texts();
  document.build.project_hash = project_hash(document.project_findings);
  document.build.hash_tree_root = hash_tree_root(document);
  return document;
}

HexDigest panel_hash(const HexDigest& data_hash, const std::vector<RecordedFinding>& findings) {
  return to_hex(panel_leaf(digest_from_hex(data_hash), sha256(canonical_findings(findings))));
}

HexDigest project_hash(const std::vector<RecordedFinding>& project_findings) {
  return to_hex(project_leaf(sha256(canonical_findings(project_findings))));
}

std::vector<Digest> hash_tree_leaves(const ResultsDocument& document) {
  std::vector<Digest> leaves;
  leaves.reserve(document.panels.size() + 1);
  for (const auto& panel : document.panels) leaves.push_back(digest_from_hex(panel.hash));
  if (!document.build.project_hash.empty()) leaves.push_back(digest_from_hex(document.build.project_hash));
  return leaves;
}

HexDigest hash_tree_root(const ResultsDocument& document) {
  return to_hex(tree_root(hash_tree_leaves(document)));
}

}  // namespace panel_dossier
