// The documents behind what fire checks are told: reports of fire resistance and documents behind reaction to fire
// classes, on the day of assessment.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::fire {

/// YYYY-MM-DD of setting project.assessment_date; empty when it is not set.
std::string assessment_day(const Settings& settings);

/// `document 'FT-9' is not in the export (IfcDocumentReference)`.
std::string not_in_the_export(std::string_view id);

/// For what a document is asked: the day, the place and the maker of the panel. Each is empty where nobody states it.
struct DocumentUse {
  std::string day;           ///< YYYY-MM-DD of setting project.assessment_date
  std::string jurisdiction;  ///< setting project.jurisdiction
  std::string maker;         ///< Pset_ManufacturerTypeInformation.Manufacturer of the panel
};

DocumentUse document_use(const Panel& panel, const Settings& settings);

/// What is wrong with the document as a report or classification of fire resistance; empty when it serves. Its record
/// states the issuer, a standard with its edition that leads to a class of EN 13501-2, the day of issue, the sponsor
/// and countries, that of the project among them; one made for another than the maker of the panel comes with a
/// permission to use it, a document of the project that is there and valid.
std::string resistance_report_fault(const Evidence& document, const Project& project, const DocumentUse& use);

/// What is wrong with the document as one behind a reaction to fire class: a classification report or a declaration of
/// performance; empty when it serves. The record of a report states issuer, day of issue and EN 13501-1 with its
/// edition; a document that names countries names that of the project.
std::string reaction_document_fault(const Evidence& document, const DocumentUse& use);

/// What is wrong with the document as the fire strategy behind a class asked for; empty when it serves. Its
/// record states issuer and day of issue.
std::string strategy_fault(const Evidence& document, const std::string& day);

/// Why the reaction to fire classes of these materials (indices into Project::materials; none: an outer leaf fixed on
/// site) rest on nothing: each on the document Panel_Fire.DocumentId of the material, where it names none on any
/// document of the panel that serves. Empty when all have one.
std::string missing_class_documents(const Panel& panel, const Project& project, const Settings& settings,
                                    const std::vector<std::optional<std::size_t>>& materials);
/// What it reads.
std::vector<CheckInput> class_document_inputs();
/// What `document_use` reads.
std::vector<CheckInput> document_use_inputs();

}  // namespace panel_dossier::fire
