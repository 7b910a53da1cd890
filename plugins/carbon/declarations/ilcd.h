// What the data sets of the ILCD format have in common; the process data set with the EPD extensions, as declaration
// programmes exchange it; and the flow data set beside it, which says what its amount is an amount of. Element names:
// ILCD format 1.1 and ILCD+EPD 1.2, from memory.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>

#include "core/api/model/origin.h"
#include "core/api/support/line_table.h"
#include "plugins/carbon/declarations/declaration_reader.h"

namespace panel_dossier::carbon::ilcd {

/// Prefixes vary from tool to tool, so elements and attributes go by their local names alone. A node that is not there
/// answers every question with nothing.
std::string_view name_of(const pugi::xml_node& element);
pugi::xml_node child_of(const pugi::xml_node& element, std::string_view name);
std::string_view attribute_of(const pugi::xml_node& element, std::string_view name);
/// All text directly inside, joined over comments and CDATA sections.
std::string text_of(const pugi::xml_node& element);
/// The child of that name in English, else the first.
pugi::xml_node child_in_english(const pugi::xml_node& element, std::string_view name);

/// Parses in place into `parsed`; the fault with its line when the text is not well-formed XML or has a document type
/// declaration, whose entities must never be looked at.
std::optional<DeclarationFault> parse(std::string& text, const LineTable& lines, pugi::xml_document& parsed);
/// Line of an element in the text it was parsed from.
std::uint32_t line_of(const pugi::xml_node& element, const LineTable& lines);

/// The unit of the reference flow property of a flow data set: `kg` of mass, `m3` of volume, `m2` of area, `m` of
/// length, `piece` of a number of pieces. None for another property, for one that is not 1 by itself, and for anything
/// that is no readable flow data set.
std::optional<Sourced<std::string>> read_flow_unit(std::string text, const std::string& location,
                                                   const std::string& document);

/// The same for the file that the declaration at `location` refers to by `uri`, a path relative to it such as
/// `../flows/UUID.xml`. None when it is not there or not inside `project_dir`; nothing outside is opened.
std::optional<Sourced<std::string>> read_flow_unit_beside(const std::filesystem::path& project_dir,
                                                          const std::string& location, const std::string& uri,
                                                          const std::string& document);

}  // namespace panel_dossier::carbon::ilcd
