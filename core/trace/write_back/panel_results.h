// What a build found of each panel, as the property set that is written back into the export.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

struct ResultProperty {
  std::string name;
  std::string description;  ///< in words, with unit and clause; may be empty
  std::variant<double, std::string> value;
};

/// The set of one panel.
struct PanelResults {
  std::string global_id;  ///< of the panel
  std::vector<ResultProperty> properties;
};

/// The defined type of its value: `IfcReal`, `IfcLabel` or, of more than 255 characters, `IfcText`.
std::string_view type_of(const ResultProperty& property);

/// In the order of the document: which dossier, when and by which version, then of every finding its verdict
/// (`discipline.name.verdict`) and, where it has a value, that (`discipline.name`).
std::vector<PanelResults> panel_results(const ResultsDocument& document);

/// The character of UTF-8 at the front of `text`, which is taken off; U+FFFD for bytes that are none. Precondition: the
/// text is not empty.
char32_t take_character(std::string_view& text);

/// An IfcGloballyUniqueId for what is written for a panel: the same each time, and another for each `purpose`.
std::string derived_global_id(std::string_view panel_global_id, std::string_view purpose);

/// The number as STEP and XML Schema both read it: `0.19`, `1.5E-5`; always with a point.
std::string real_text(double value);

}  // namespace panel_dossier
