// Numbers and units as they stand on pages: classic locale, decimal point, no grouping, minus sign U+2212.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/pipeline/record/recorded_finding.h"

namespace panel_dossier {

/// With exactly `decimals` decimals; a value that rounds to zero has no sign. Not finite: `not a number`.
std::string format_fixed(double value, int decimals);

/// With up to four significant digits, trailing zeros dropped; below 0.0001 and from 10 million on as `1.23 × 10⁻⁶`.
std::string format_significant(double value);

/// A length in metres as whole millimetres, with one decimal where it is not whole.
std::string format_millimetres(double length_m);

/// The unit with the trade's symbols: `m2` -> `m²`, `CO2` -> `CO₂`, `degC` -> `°C`; other units unchanged.
std::string format_unit(std::string_view unit);

/// `value unit`; text as it is; nothing as an empty string. Numbers with four significant digits.
std::string format_value(const Value& value, std::string_view unit);
/// The same with fixed decimals; a length of less than 0.1 m in millimetres, with four significant digits.
std::string format_value(const Value& value, std::string_view unit, int decimals);

/// `1 build`, `3 builds`.
std::string in_number(std::size_t count, const char* noun);

/// The limit of a finding with its relation: `≤ 0.26 W/(m²·K)`, `≥ EI 60`; empty without a limit.
std::string format_limit(const RecordedFinding& finding);
/// The same without its unit where that is the value's: `≤ 0.26`.
std::string format_limit_figure(const RecordedFinding& finding);

}  // namespace panel_dossier
