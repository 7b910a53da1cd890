// Two statements of one property: whether they agree, and how they are shown to people.
#pragma once

#include <string>

#include "core/api/model/properties.h"

namespace panel_dossier {

/// Whether two sources say the same: numbers but for rounding, for they are written with few digits and pass through
/// other units; words in either case, without white space around them.
bool is_same_claim(const Property& a, const Property& b);

/// `2.4 m`, `'C24'` or `true`.
std::string claim_in_words(const Property& property);

}  // namespace panel_dossier
