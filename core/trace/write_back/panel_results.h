// What a build found of each panel, as the property sets that are written back into the export.
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
  std::string type = {};  ///< defined type of the value, or entity of a quantity; empty where the value alone says it
};

/// Description of a set of the standard's that holds results alone.
inline constexpr std::string_view kSetDescription = "result of panel-dossier: no claim of the export";

/// Results as properties of one of the standard's sets.
struct StandardResults {
  std::string set;
  std::string standing;  ///< GlobalId of the set of the export that they are added to; empty for a set of their own
  std::vector<ResultProperty> properties;  ///< of a quantity set all are quantities
};

/// The sets of one panel.
struct PanelResults {
  std::string global_id;                   ///< of the panel
  std::vector<ResultProperty> properties;  ///< of `Panel_Results`
  std::vector<StandardResults> standard = {};
};

/// The defined type of its value: that which it states, else `IfcReal`, `IfcLabel` or, of more than 255 characters,
/// `IfcText`.
std::string_view type_of(const ResultProperty& property);

/// True for a set of quantities.
bool holds_quantities(const StandardResults& set);

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
