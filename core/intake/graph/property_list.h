// Lists of the properties that the program and its plugins read: schemas/model_properties.csv and the plugins' own.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
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

/// What an export must hold, and what is of use where it holds it.
enum class PropertyNeed {
  useful,
  must,  ///< without it a discipline has nothing to say
};

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
  /// What people call it, unique among the properties of one `on`: head of a column, a line of a page.
  std::string title = {};
  PropertyNeed need = PropertyNeed::useful;
  /// Beside a property of ours: those of the standard that say the same, as `Pset_MaterialWood.StrengthGrade` or, for
  /// an attribute, `IfcElement.Tag`. Empty where the standard has none, and for a property of the standard.
  std::vector<std::string> standard = {};

  // Read of the columns:
  std::optional<ValueRange> range = {};
  std::optional<ValueRange> usual = {};
  std::vector<std::string> words = {};  ///< empty: any text
};

/// All rows of the lists, one list after the other. The head names the columns; a list of an older program may lack
/// `title`, `need`, `standard` and the bounds. Reports as errors a head with a column that is not known or without one
/// that is needed, a line with more or fewer fields, a number without bounds or with such that are none, a property of
/// ours that does not say what the standard has, a property that has another measure, unit or bounds in a row before,
/// and two properties of one entity with one title, with the places of both.
std::vector<PropertyRow> read_property_lists(const std::vector<PropertyListText>& lists, Reporter& report);

/// The kinds of entity that the row speaks of: `material or part` are two.
std::vector<std::string> entities_with(const PropertyRow& row);

/// One list for those who set up an export: sets of the standard before those of ours, each in alphabetical order,
/// their properties in the order of the rows; one that stands in several lists comes once, as the first of them says
/// it.
std::string property_list_text(const std::vector<PropertyRow>& rows);

/// True for a set that bears a prefix of the standard's, `Pset_` or `Qto_`.
bool is_standard_set(std::string_view set);

}  // namespace panel_dossier
