// The rows of a library's tables as products: what each says, of which properties, and what joins it with the export.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/properties.h"
#include "core/intake/claims/material_kinds.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/library/library_files.h"

namespace panel_dossier {

struct ProductValue {
  const PropertyRow* known = nullptr;  ///< never null
  Property property;                   ///< in SI, with the row as its origin

  std::string full_name() const { return known->set + "." + known->property; }
};

/// A product of a library. Which of the rules are filled joins it; a row without any goes by the product's own name.
struct LibraryProduct {
  LibraryTableKind kind = LibraryTableKind::materials;
  std::size_t in_library = 0;
  std::string file;
  std::uint32_t row = 0;
  std::string place;  ///< `../office/materials.csv row 12`
  std::string product;
  std::string name;     ///< rule: of the material, part or filling in the export; of the panel's type, or its mark
  std::string pattern;  ///< rule: the same with * and ?
  std::string classification;  ///< rule: of the material or panel
  std::string article_number;  ///< rule
  std::string category;        ///< kind of a material by schemas/material_kinds.csv: `wood`; may be empty
  std::vector<ProductValue> values;
  bool is_used = false;
};

/// What the tables of one kind fill: `material`, `part`, `filling` or `panel`, as the lists of properties call it;
/// empty for evidence and people.
std::string_view entity_of(LibraryTableKind kind);

/// Reads the products of every table of materials, boards, fixings, windows, lifting and panels. Columns are `product`,
/// `source` and `day`, the rules, `declaration`, and properties of `rows` by their full name or title with a unit in
/// brackets. A column of no meaning is warned of; errors are a unit that is missing or of another dimension, a value
/// out of the property's range or none of its words, a category of no kind of material, a row without product, source
/// or day, a day that is none or later than `today`, a pattern that holds no letter or digit, and a product, name,
/// pattern or article number that stands twice in the products of one library that fill one thing.
std::vector<LibraryProduct> read_library_products(const LibraryFiles& files, const std::vector<PropertyRow>& rows,
                                                  const MaterialKinds& kinds, std::string_view today,
                                                  Diagnostics& diagnostics);

}  // namespace panel_dossier
