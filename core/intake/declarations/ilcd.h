// What the data sets of the ILCD format have in common. Element names: ILCD format 1.1, from memory.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/document/line_table.h"
#include "core/intake/graph/element.h"

namespace panel_dossier {

/// The child of that name in English, else the first. Prefixes vary from tool to tool, so local names alone are
/// compared.
Element in_english(const Element& parent, std::string_view name);

/// Parses in place into `parsed`; the fault with its line when the text is not well-formed XML or has a document type
/// declaration, whose entities must never be looked at.
std::optional<DeclarationFault> parse_ilcd(std::string& text, const LineTable& lines, XmlDocument& parsed);

}  // namespace panel_dossier
