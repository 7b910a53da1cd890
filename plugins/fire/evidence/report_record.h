// How the record of a report reads: to which edition of which standard it is, and in which countries it counts.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier::fire {

/// Whether the report counts in the jurisdiction: `countries` (`A, B`) name that, or a state of which that is a part.
/// The parts of the United Kingdom are known; a union of states is not the name of a country.
bool names_country(std::string_view countries, std::string_view jurisdiction);

/// Why `standard` gives no class, as a part of a reason that begins with the document: none of `accepted` is in it, it
/// stands without its edition, or the edition is later than the report. Empty when one of them stands with its edition.
/// Precondition: `standard` is not empty.
std::string standard_fault(const Evidence& document, const std::vector<std::string_view>& accepted,
                           std::string_view what_it_gives);

}  // namespace panel_dossier::fire
