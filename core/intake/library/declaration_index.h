// The declarations that lie in the libraries, by what identifies them.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/intake/library/library_files.h"

namespace panel_dossier {

struct DeclarationIdentity {
  std::size_t in_library = 0;
  std::string location;  ///< relative to the folder of the library
  /// UUID and registration number of an ILCD+EPD data set, field `identification` of a CSV file, name of the file
  /// without its ending; not empty.
  std::vector<std::string> identifications;
  std::string product;  ///< `baseName`, English before other languages, or field `product`; may be empty
};

/// Looks into every declaration once, when it is first asked. A file that cannot be read has its name alone.
class DeclarationIndex {
 public:
  explicit DeclarationIndex(const std::vector<LibraryFolder>& folders) : folders_(folders) {}

  /// Those of this identification, in either case; an earlier library's before a later one's.
  std::vector<const DeclarationIdentity*> of_identification(const std::string& wanted);
  /// Likewise those of this product.
  std::vector<const DeclarationIdentity*> of_product(const std::string& wanted);

 private:
  const std::vector<LibraryFolder>& folders_;
  std::vector<DeclarationIdentity> declarations_;
  bool is_read_ = false;

  const std::vector<DeclarationIdentity>& all();
};

}  // namespace panel_dossier
