#include "core/intake/library/declaration_index.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <utility>

#include "core/api/support/csv_reader.h"
#include "core/api/support/project_file.h"
#include "core/api/support/words.h"
#include "core/intake/graph/element.h"

namespace panel_dossier {

namespace {

/// As long as a declaration may be.
constexpr std::size_t kLargestDeclarationFile_bytes = std::size_t{4} << 20U;

Element descendant(Element element, std::initializer_list<std::string_view> path) {
  for (const std::string_view name : path) element = element.child(name);
  return element;
}

/// The child of that name in English, else the first.
Element in_english(const Element& parent, std::string_view name) {
  Element first;
  for (Element child = parent.first_child(); child; child = child.next_sibling()) {
    if (child.name() != name) continue;
    if (child.attribute("lang") == "en") return child;
    if (!first) first = child;
  }
  return first;
}

void identify(DeclarationIdentity& declaration, const std::string& text) {
  if (!trimmed(text).empty()) declaration.identifications.emplace_back(trimmed(text));
}

/// Element names: ILCD format 1.1, from memory.
void read_data_set(std::string text, DeclarationIdentity& declaration) {
  XmlDocument document;
  if (!document.parse_in_place(text)) return;
  const Element information = descendant(document.root(), {"processInformation", "dataSetInformation"});
  identify(declaration, information.child("UUID").text());
  identify(declaration,
           descendant(document.root(), {"administrativeInformation", "publicationAndOwnership", "registrationNumber"})
               .text());
  declaration.product = std::string(trimmed(in_english(information.child("name"), "baseName").text()));
}

void read_fields(const std::string& text, DeclarationIdentity& declaration) {
  try {
    CsvReader reader(text);
    for (CsvRecord record; reader.next(record);) {
      constexpr std::size_t kValue = 2;
      if (record.fields.size() <= kValue) continue;
      const std::string field(trimmed(record.fields.front()));
      if (field == "identification") identify(declaration, record.fields[kValue]);
      if (field == "product") declaration.product = std::string(trimmed(record.fields[kValue]));
    }
  } catch (const CsvFault&) {
    // What is wrong with the file is told by whoever reads its figures.
  }
}

bool is_same_identification(const std::string& a, const std::string& b) {
  return lower_case(a) == lower_case(b);
}

std::vector<const DeclarationIdentity*> those_that(const std::vector<DeclarationIdentity>& declarations,
                                                   const std::function<bool(const DeclarationIdentity&)>& holds) {
  std::vector<const DeclarationIdentity*> found;
  for (const DeclarationIdentity& declaration : declarations) {
    if (holds(declaration)) found.push_back(&declaration);
  }
  return found;
}

}  // namespace

const std::vector<DeclarationIdentity>& DeclarationIndex::all() {
  if (std::exchange(is_read_, true)) return declarations_;
  for (std::size_t i = 0; i < folders_.size(); ++i) {
    for (const std::string& location : folders_[i].declarations) {
      const std::filesystem::path file = folders_[i].folder / location;
      DeclarationIdentity declaration{i, location, {file.stem().string()}, {}};
      auto text = load_at_most(file, kLargestDeclarationFile_bytes);
      const bool is_readable = text && text->size() <= kLargestDeclarationFile_bytes;
      const bool is_data_set = lower_case(location).ends_with(".xml");
      if (is_readable && is_data_set) read_data_set(std::move(*text), declaration);
      if (is_readable && !is_data_set) read_fields(*text, declaration);
      declarations_.push_back(std::move(declaration));
    }
  }
  return declarations_;
}

std::vector<const DeclarationIdentity*> DeclarationIndex::of_identification(const std::string& wanted) {
  return those_that(all(), [&](const DeclarationIdentity& declaration) {
    return std::any_of(declaration.identifications.begin(), declaration.identifications.end(),
                       [&](const std::string& known) { return is_same_identification(known, wanted); });
  });
}

std::vector<const DeclarationIdentity*> DeclarationIndex::of_product(const std::string& wanted) {
  return those_that(all(), [&](const DeclarationIdentity& declaration) {
    return is_same_identification(declaration.product, wanted);
  });
}

}  // namespace panel_dossier
