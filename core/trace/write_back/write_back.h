// An export written again with the results of its panels as property sets, and nothing else changed.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/trace/write_back/panel_results.h"

namespace panel_dossier {

/// The ifcXML export with the results of each panel as its property set `Panel_Results` and in sets of the standard's:
/// new entities before the end of the model, an id on a panel that had none, new members on the last line of a set that
/// stands, all other bytes as they are. What an earlier build wrote is taken out first, so that writing again gives the
/// same bytes. Identifiers are derived from the panel's GlobalId. Throws std::runtime_error when a
/// panel or a set that stands cannot be found or the text is no XML that the intake would have read.
std::string xml_with_results(std::string_view text, const std::vector<PanelResults>& results);

/// The same of the STEP form: new instances before the end of the data section, numbered above the highest one. Where
/// the schema is IFC2X3 the owner history of the panel is used again. Throws std::runtime_error when a panel, a set or
/// the end of the data section cannot be found, or a panel of IFC2X3 has no owner history.
std::string step_with_results(std::string_view text, const std::vector<PanelResults>& results);

/// Either of the two, by the form of the export: one that is packed is unpacked, one in UTF-16 or Latin-1 becomes
/// UTF-8.
std::string export_with_results(std::string_view bytes, const std::vector<PanelResults>& results);

/// Throws std::runtime_error when there is such a file and it is no export with results: then no build wrote it.
void require_earlier_results(const std::filesystem::path& file);

/// Puts the text in the place of `file` in one step. Throws std::runtime_error when the file is one of `inputs`, or the
/// file system refuses; the file is then as it was.
void write_in_place(const std::filesystem::path& file, std::string_view text,
                    const std::vector<std::filesystem::path>& inputs);

}  // namespace panel_dossier
