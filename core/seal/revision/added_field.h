// A signature field more in an update: what the catalogue, the form and the first page then say. Private to the seal
// stage.
#pragma once

#include <string>

#include "core/seal/revision/increment.h"

class QPDF;

namespace panel_dossier {

/// Where a field is added.
struct AddedField {
  ObjectTexts objects;  ///< catalogue and first page, which then name the field
  int number = 0;       ///< of the field among all, from 1
  std::string page;     ///< reference to the first page
};

/// For a field that will be the object of that number. Throws std::runtime_error when the file has no signature yet.
AddedField added_field(QPDF& pdf, int object);

/// `12 0 R`.
std::string reference(int number);

}  // namespace panel_dossier
