// Writes JSON with numbers in their shortest exact form. Private to the trace stage: callers get text.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace panel_dossier {

/// The number as ECMAScript writes it, which RFC 8785 (2020), 3.2.2.3 takes over: the shortest decimal that reads back
/// as the same double. Throws std::runtime_error when it is not finite, for JSON has no word for that.
std::string shortest_number(double value);

/// Canonical form of RFC 8785: no white space, object members sorted by the UTF-16 code units of their names.
std::string canonical_json(const nlohmann::ordered_json& value);

/// Two-space indent, members in the order of the value, newline at the end.
std::string indented_json(const nlohmann::ordered_json& value);

}  // namespace panel_dossier
