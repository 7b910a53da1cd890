// What the record of a report says beside its kind and number: who had it made, who may use it and where.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier::fire {

/// Stated in Evidence::scope as `sponsor: NAME; permission: WHO MAY USE IT; countries: A, B` (schemas/evidence.md). A
/// permission of `none` or `no` is none.
struct ReportTerms {
  std::string sponsor;
  std::string permission;
  std::vector<std::string> countries;
};

ReportTerms report_terms(std::string_view scope);

/// Whether the report counts in the jurisdiction: it names that, or a state of which that is a part. The parts of the
/// United Kingdom are known; a union of states is not the name of a country.
bool names_country(const std::vector<std::string>& countries, std::string_view jurisdiction);

/// Why `standard` gives no class, as a part of a reason that begins with the document: none of `accepted` is in it, it
/// stands without its edition, or the edition is later than the report. Empty when one of them stands with its edition.
/// Precondition: `standard` is not empty.
std::string standard_fault(const Evidence& document, const std::vector<std::string_view>& accepted,
                           std::string_view what_it_gives);

}  // namespace panel_dossier::fire
