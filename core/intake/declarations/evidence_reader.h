// Documents the export names as evidence.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Belongs to one run on one thread; `project` must outlive it.
class EvidenceReader {
 public:
  EvidenceReader(const ReadContext& context, std::filesystem::path project_dir, Project& project)
      : context_(context), project_dir_(std::move(project_dir)), project_(project) {}

  /// Fills Project::evidence with every IfcDocumentReference of the file, and warns of each that is not there.
  void read();

  /// Appends the indices of the documents associated with an entity; one may come more than once.
  void add_documents_of(const Element& entity, std::vector<std::size_t>& evidence) const;

 private:
  const ReadContext& context_;
  std::filesystem::path project_dir_;
  Project& project_;
  std::unordered_map<const void*, std::size_t> index_;
  std::unordered_map<const void*, std::vector<Element>> references_of_information_;

  void warn(const Element& entity, const Evidence& evidence) const;
};

}  // namespace panel_dossier
