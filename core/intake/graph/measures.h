// The defined types of values: which unit each needs and the SI symbol it has inside the program.
#pragma once

#include <string_view>

namespace panel_dossier {

enum class MeasureKind { quantity, pure_number, logical, text };

struct Measure {
  std::string_view type;  ///< IFC defined type
  MeasureKind kind;
  std::string_view unit_type;  ///< enumerator of IfcUnitEnum or IfcDerivedUnitEnum; empty for a pure number
  std::string_view symbol;     ///< SI symbol
};

/// The measure of an IFC defined type or quantity attribute (`LengthValue`); null when it is none that is read.
const Measure* find_measure(std::string_view type);

}  // namespace panel_dossier
