#include "plugins/carbon/declarations/declared_material.h"

#include <cstddef>
#include <set>
#include <utility>

#include "plugins/carbon/declarations/declaration_reader.h"

namespace panel_dossier::carbon {

namespace {

std::optional<Sourced<std::string>> document_id(const Material& material) {
  return material.properties.text(kDeclarationSet, "DocumentId");
}

std::set<std::string> declarations_named_by(const Project& project) {
  std::set<std::string> ids;
  for (const Material& material : project.materials) {
    if (const auto id = document_id(material)) ids.insert(id->value);
  }
  return ids;
}

DeclarationFile read_file(const Project& project, const Evidence& evidence, std::vector<InputProblem>& problems) {
  DeclarationResult result = read_declaration(folder_of(evidence, project), evidence.location, evidence.id);
  if (result.declaration) return {std::move(result.declaration), {}};
  const DeclarationFault& fault = result.fault;
  problems.push_back(
      {evidence.location, fault.line, "declaration: " + fault.message + "; its content is not used", fault.advice});
  const std::string place = fault.line == 0 ? "" : ":" + std::to_string(fault.line);
  return {std::nullopt, evidence.location + place + ": " + fault.message};
}

}  // namespace

std::vector<DeclarationFile> read_declaration_files(const Project& project, std::vector<InputProblem>& problems) {
  const std::set<std::string> named = declarations_named_by(project);
  std::vector<DeclarationFile> files(project.evidence.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    const Evidence& evidence = project.evidence[i];
    if (evidence.status != EvidenceStatus::present || !named.contains(evidence.id)) continue;
    if (is_readable_declaration(evidence.location)) files[i] = read_file(project, evidence, problems);
  }
  return files;
}

std::vector<DeclaredMaterial> declared_materials(const Project& project, const std::vector<DeclarationFile>& files) {
  std::vector<DeclaredMaterial> declared;
  declared.reserve(project.materials.size());
  for (const Material& material : project.materials) {
    DeclaredMaterial& entry = declared.emplace_back();
    entry.material = &material;
    const auto id = document_id(material);
    if (id) entry.document = find_evidence(project, id->value);
    if (entry.document == nullptr) continue;
    const DeclarationFile& file = files.at(static_cast<std::size_t>(entry.document - project.evidence.data()));
    if (file.content) entry.file = &*file.content;
    entry.file_fault = file.fault;
  }
  return declared;
}

}  // namespace panel_dossier::carbon
