#include "core/intake/declarations/evidence_reader.h"

#include <algorithm>
#include <set>
#include <system_error>
#include <utility>

#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

namespace fs = std::filesystem;

namespace {

bool is_below(const fs::path& path, const fs::path& folder) {
  const auto [at_folder, at_path] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
  return at_folder == folder.end() && at_path != path.end();
}

/// `https://…` and the drive of another operating system are no relative paths either.
bool is_relative_path(const std::string& location) {
  const bool has_scheme = location.find(':') < location.find('/');
  const bool has_nul = location.find('\0') != std::string::npos;
  return !location.empty() && !has_scheme && !has_nul && location.front() != '/' && location.front() != '\\';
}

/// The documents that materials name as their environmental declarations: the only files whose content is read.
std::set<std::string> declarations_named_by(const Project& project) {
  std::set<std::string> ids;
  for (const Material& material : project.materials) {
    const auto id = material.properties.text("Panel_EnvironmentalDeclaration", "DocumentId");
    if (id) ids.insert(id->value);
  }
  return ids;
}

}  // namespace

EvidenceStatus find_evidence_file(const fs::path& project_dir, const std::string& location) {
  if (!is_relative_path(location)) return EvidenceStatus::refused;
  std::error_code failed;
  const fs::path folder = fs::canonical(project_dir, failed);
  if (failed) return EvidenceStatus::missing;
  // Before the file system is asked: a path that climbs out is refused whether or not something is there.
  if (!is_below((folder / location).lexically_normal(), folder)) return EvidenceStatus::refused;
  const fs::path file = fs::weakly_canonical(folder / location, failed);
  if (failed) return EvidenceStatus::missing;
  if (!is_below(file, folder)) return EvidenceStatus::refused;
  return fs::is_regular_file(file, failed) ? EvidenceStatus::present : EvidenceStatus::missing;
}

void EvidenceReader::read() {
  const std::set<std::string> declarations = declarations_named_by(project_);
  for (const Element& entity : context_.graph.all("IfcDocumentReference")) {
    Evidence evidence;
    evidence.id = context_.graph.text(entity, "Identification");
    if (evidence.id.empty()) evidence.id = context_.graph.text(entity, "ItemReference");
    evidence.name = context_.graph.text(entity, "Name");
    evidence.location = context_.graph.text(entity, "Location");
    evidence.origin = context_.report.origin(entity, "Location");
    evidence.status =
        evidence.location.empty() ? EvidenceStatus::missing : find_evidence_file(project_dir_, evidence.location);
    warn(entity, evidence);
    if (evidence.status == EvidenceStatus::present && declarations.contains(evidence.id)) {
      read_content(entity, evidence);
    }
    index_[entity.key()] = project_.evidence.size();
    if (const Element information = context_.graph.entity(entity, "ReferencedDocument")) {
      references_of_information_[information.key()].push_back(entity);
    }
    project_.evidence.push_back(std::move(evidence));
  }
}

void EvidenceReader::read_content(const Element& entity, Evidence& evidence) const {
  if (!is_readable_declaration(evidence.location)) return;
  DeclarationResult result = read_declaration(project_dir_, evidence.location, evidence.id);
  evidence.declaration = std::move(result.declaration);
  if (evidence.declaration) return;
  const std::string place = result.fault.line == 0 ? "" : ":" + std::to_string(result.fault.line);
  evidence.declaration_fault = evidence.location + place + ": " + result.fault.message;
  context_.report.warning(entity, "declaration " + evidence.declaration_fault + "; its content is not used",
                          result.fault.advice);
}

void EvidenceReader::warn(const Element& entity, const Evidence& evidence) const {
  if (evidence.status == EvidenceStatus::missing) {
    const std::string what = evidence.location.empty() ? "document '" + evidence.id + "' has no Location"
                                                       : "evidence '" + evidence.location + "' is not there";
    context_.report.warning(entity, what + "; listed as missing", "put the file into the project folder");
  } else if (evidence.status == EvidenceStatus::refused) {
    context_.report.warning(entity,
                            "evidence '" + evidence.location + "' is not inside the project folder; not followed",
                            "copy the file into the project folder and give its relative path");
  }
}

void EvidenceReader::add_documents_of(const Element& entity, std::vector<std::size_t>& evidence) const {
  const auto add = [&](const Element& document) {
    const auto found = index_.find(document.key());
    if (found != index_.end()) evidence.push_back(found->second);
  };
  for (const Element& document : context_.graph.linked(Link::documents, entity)) {
    if (!context_.budget.take(1)) return;
    add(document);
    const auto references = references_of_information_.find(document.key());
    if (references == references_of_information_.end()) continue;
    for (const Element& reference : references->second) add(reference);
  }
}

}  // namespace panel_dossier
