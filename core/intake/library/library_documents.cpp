#include "core/intake/library/library_documents.h"

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/evidence/evidence_file.h"
#include "core/intake/library/declaration_index.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kDeclarationSetOfLibrary = "Panel_EnvironmentalDeclaration";

/// Every text that may be the id of a document.
class NamedIds {
 public:
  explicit NamedIds(const Project& project) {
    take(project.properties);
    for (const Material& material : project.materials) take(material.properties);
    for (const Panel& panel : project.panels) {
      take(panel.properties);
      for (const Part& part : panel.parts) take(part.properties);
      for (const Opening& opening : panel.openings) take(opening.filling_properties);
    }
  }

  const std::set<std::string>& all() const { return ids_; }

 private:
  std::set<std::string> ids_;

  void take(const Properties& properties) {
    for (const auto& [name, property] : properties.all()) {
      const auto* text = std::get_if<std::string>(&property.value);
      if (text != nullptr && !text->empty()) ids_.insert(*text);
    }
  }
};

class LibraryDocuments {
 public:
  LibraryDocuments(Project& project, const std::vector<EvidenceRegister*>& registers,
                   const std::vector<LibraryFolder>& folders, Diagnostics& diagnostics)
      : project_(project), registers_(registers), folders_(folders), index_(folders), diagnostics_(diagnostics) {}

  void add() {
    name_declarations_of_products();
    const NamedIds named(project_);
    for (const std::string& id : named.all()) add_registered(id);
    for (const Material& material : project_.materials) {
      const auto id = material.properties.text(kDeclarationSetOfLibrary, "DocumentId");
      if (id) add_declaration(id->value);
    }
  }

 private:
  Project& project_;
  const std::vector<EvidenceRegister*>& registers_;
  const std::vector<LibraryFolder>& folders_;
  DeclarationIndex index_;
  Diagnostics& diagnostics_;
  std::set<std::string> told_;

  void warn(const std::string& file, std::string message, std::string advice) {
    if (!told_.insert(message).second) return;
    diagnostics_.push_back({Severity::warning, file, 0, 0, {}, {}, std::move(message), std::move(advice)});
  }

  std::string shown(const DeclarationIdentity& declaration) const {
    return folders_[declaration.in_library].name + "/" + declaration.location;
  }

  /// The one that was found; none, with a warning, of several.
  const DeclarationIdentity* single(const std::vector<const DeclarationIdentity*>& found, const std::string& what) {
    if (found.size() > 1) {
      warn(shown(*found[1]), "is of " + what + ", as " + shown(*found[0]) + " is; neither is used",
           "keep one of them, or name the one that is meant by its identification");
    }
    return found.size() == 1 ? found.front() : nullptr;
  }

  void name_declarations_of_products() {
    for (Material& material : project_.materials) {
      if (material.properties.find(kDeclarationSetOfLibrary, "DocumentId") != nullptr) continue;
      const auto product = material.properties.text(kDeclarationSetOfLibrary, "Product");
      if (!product) continue;
      const auto* found = single(index_.of_product(product->value), "the product '" + product->value + "'");
      if (found == nullptr) continue;
      Property property;
      property.value = found->identifications.back();
      property.origin.kind = OriginKind::input_table;
      property.origin.table = shown(*found);
      property.origin.row = "product";
      property.origin.property = std::string(kDeclarationSetOfLibrary) + ".DocumentId";
      property.origin.source = "the declaration of this product";
      material.properties.add(kDeclarationSetOfLibrary, "DocumentId", std::move(property));
    }
  }

  void add_registered(const std::string& id) {
    if (find_evidence(project_, id) != nullptr) return;
    const auto known = std::find_if(registers_.rbegin(), registers_.rend(),
                                    [&](const EvidenceRegister* documents) { return documents->has(id); });
    if (known == registers_.rend()) return;
    std::optional<Evidence> document = (*known)->document(id);
    if (document->location.empty()) take_declaration(*document);
    take(std::move(*document));
    // By which somebody else than the sponsor may use it.
    const std::string permission = project_.evidence.back().permission;
    if (!permission.empty()) add_registered(permission);
  }

  void add_declaration(const std::string& id) {
    if (find_evidence(project_, id) != nullptr) return;
    Evidence document;
    document.id = id;
    if (!take_declaration(document)) return;
    document.kind = EvidenceKind::environmental_declaration;
    document.origin.kind = OriginKind::input_table;
    document.origin.property = "identification";
    take(std::move(document));
  }

  /// Fills place and name from the file of this identification; false where there is none, or more than one.
  bool take_declaration(Evidence& document) {
    const std::string& id = document.id;
    auto declarations = index_.of_identification(id);
    // An office may know a declaration by its product alone.
    if (declarations.empty()) declarations = index_.of_product(id);
    const auto* found = single(declarations, "the declaration '" + id + "'");
    if (found == nullptr) return false;
    document.location = found->location;
    document.folder = folders_[found->in_library].folder.string();
    if (document.name.empty()) document.name = found->product;
    if (document.origin.table.empty()) {
      document.origin.table = shown(*found);
      document.origin.row = "identification";
    }
    return true;
  }

  void take(Evidence document) {
    look_into_document(document, project_.folder);
    const std::string name = "document '" + document.id + "'";
    if (document.status != EvidenceStatus::present) {
      warn(document.origin.table,
           name + ": " + std::string(to_string(document.status)) + " ('" + document.location + "')",
           "put the document itself into the folder of the library, and its own number into the row");
    }
    for (const std::string& fault : document.faults) {
      warn(document.origin.table, joined({name, fault}, ": "), "it proves nothing until this is mended");
    }
    project_.evidence.push_back(std::move(document));
  }
};

}  // namespace

void add_library_documents(Project& project, const std::vector<EvidenceRegister*>& registers,
                           const std::vector<LibraryFolder>& folders, Diagnostics& diagnostics) {
  LibraryDocuments(project, registers, folders, diagnostics).add();
}

}  // namespace panel_dossier
