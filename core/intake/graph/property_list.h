// Lists of the properties that the program and its plugins read: schemas/model_properties.csv and the plugins' own.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/document/value_range.h"

namespace panel_dossier {

/// A list as text: those of an installation come from files, that of a dossier from what is attached to it.
struct PropertyListText {
  std::string name;  ///< file name, for messages
  std::string text;
};

/// Each file read whole. Reports a file that cannot be read.
std::vector<PropertyListText> load_property_lists(const std::vector<std::filesystem::path>& files, Reporter& report);

struct PropertyRow {
  std::string set;
  std::string property;
  std::string on;       ///< entity that the set hangs on
  std::string measure;  ///< IFC measure type, or entity of a quantity
  std::string unit;     ///< inside the program; empty for none
  std::string bounds;   ///< column `range`: from which to which number it can be, or the words it may be
  std::string custom;   ///< column `usual`: from which to which number it is without a word of confirmation
  std::string meaning;
  std::string place;  ///< `FILE:LINE`

  // Read of the columns:
  std::optional<ValueRange> range = {};
  std::optional<ValueRange> usual = {};
  std::vector<std::string> words = {};  ///< empty: any text
};

/// All rows of the lists, one list after the other. A list with the head of older dossiers has no bounds. Reports as
/// errors a line without the eight fields, a number without bounds or with such that are none, and a property that has
/// another measure, unit or bounds in a row before, with the places of both.
std::vector<PropertyRow> read_property_lists(const std::vector<PropertyListText>& lists, Reporter& report);

/// One list for those who set up an export: sets of the standard before those of ours, each in alphabetical order,
/// their properties in the order of the rows; one that stands in several lists comes once, as the first of them says
/// it.
std::string property_list_text(const std::vector<PropertyRow>& rows);

}  // namespace panel_dossier
