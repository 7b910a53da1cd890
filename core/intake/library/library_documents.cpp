#include "core/intake/library/library_documents.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <filesystem>
#include <iterator>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/support/project_file.h"
#include "core/api/support/words.h"
#include "core/intake/claims/claimed_value.h"
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

/// Whether both are files of their folders and hold the same.
bool have_same_bytes(const std::filesystem::path& folder, const std::string& location,
                     const std::filesystem::path& other_folder, const std::string& other_location) {
  constexpr std::size_t kLargestCompared_bytes = std::size_t{64} << 20U;
  if (find_evidence_file(folder, location) != EvidenceStatus::present) return false;
  if (find_evidence_file(other_folder, other_location) != EvidenceStatus::present) return false;
  const auto bytes = load_at_most(folder / location, kLargestCompared_bytes);
  if (!bytes || bytes->size() > kLargestCompared_bytes) return false;
  return bytes == load_at_most(other_folder / other_location, kLargestCompared_bytes);
}

/// What two rows of one document say differently, in words.
std::vector<std::string> differing_fields(const Evidence& a, const Evidence& b) {
  constexpr std::array<std::pair<const char*, std::string Evidence::*>, 11> kFields{{
      {"number", &Evidence::number},
      {"issuer", &Evidence::issuer},
      {"standard", &Evidence::standard},
      {"day of issue", &Evidence::issued},
      {"last day", &Evidence::expires},
      {"subject", &Evidence::subject},
      {"scope", &Evidence::scope},
      {"sponsor", &Evidence::sponsor},
      {"permission", &Evidence::permission},
      {"countries", &Evidence::countries},
      {"sha256", &Evidence::sha256},
  }};
  std::vector<std::string> words;
  if (a.kind != b.kind) words.emplace_back("kind");
  for (const auto& [word, member] : kFields) {
    if (a.*member != b.*member) words.emplace_back(word);
  }
  return words;
}

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

  /// The one that was found; of several that say the same the last, else none. Warns of several.
  const DeclarationIdentity* single(const std::vector<const DeclarationIdentity*>& found, const std::string& what) {
    if (found.empty()) return nullptr;
    const DeclarationIdentity* last = found.back();
    const auto differs = [&](const DeclarationIdentity* one) {
      return one != last && !have_same_bytes(folders_[one->in_library].folder, one->location,
                                             folders_[last->in_library].folder, last->location);
    };
    const auto differing = std::find_if(found.begin(), found.end(), differs);
    if (differing != found.end()) {
      warn(shown(*last), "is of " + what + ", as " + shown(**differing) + " is; neither is used",
           "keep one of them, or name the one that is meant by its identification");
      return nullptr;
    }
    if (found.size() > 1) {
      warn(shown(*last), "is of " + what + ", as " + shown(*found.front()) + " is, and says the same",
           "keep one of them");
    }
    return last;
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
    for (auto earlier = std::next(known); earlier != registers_.rend(); ++earlier) {
      if (const auto other = (*earlier)->document(id)) compare(*document, *other);
    }
    if (document->location.empty()) take_declaration(*document);
    take(std::move(*document));
    // By which somebody else than the sponsor may use it.
    const std::string permission = project_.evidence.back().permission;
    if (!permission.empty()) add_registered(permission);
  }

  /// Tells of a second row of one document; the document proves nothing where they differ.
  void compare(Evidence& document, const Evidence& other) {
    const std::string places = place_in_words(document.origin) + " and " + place_in_words(other.origin);
    std::vector<std::string> differing = differing_fields(document, other);
    const bool has_other_file = (document.location != other.location || document.folder != other.folder) &&
                                !have_same_bytes(document.folder, document.location, other.folder, other.location);
    if (has_other_file) differing.emplace_back("file");
    if (differing.empty()) {
      warn(document.origin.table, "document '" + document.id + "' stands in " + places + ", which say the same",
           "keep one of the rows");
    } else {
      document.faults.push_back(places + " differ in its " + joined(differing) + "; keep the row that is meant");
    }
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
