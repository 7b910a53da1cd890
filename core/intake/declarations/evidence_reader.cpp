#include "core/intake/declarations/evidence_reader.h"

#include <utility>

#include "core/api/support/project_file.h"

namespace panel_dossier {

void EvidenceReader::read() {
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
    index_[entity.key()] = project_.evidence.size();
    if (const Element information = context_.graph.entity(entity, "ReferencedDocument")) {
      references_of_information_[information.key()].push_back(entity);
    }
    project_.evidence.push_back(std::move(evidence));
  }
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
