// What one value of the settings, or one field of a table beside them, may be.
#pragma once

#include <cstddef>
#include <optional>
#include <regex>
#include <string>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/document/value_range.h"

namespace panel_dossier {

/// What is wrong with a value or a row, and what to do about it.
struct ValueFault {
  std::string message;
  std::string advice;
};

enum class ValueKind { any, text, number, whole_number, logical };

/// A copy is as good as the original, and a rule is only read once it is made, so safe to share between threads.
struct ValueRule {
  ValueKind kind = ValueKind::any;
  std::vector<Settings::Value> choices;  ///< empty: any value of the kind
  std::optional<double> at_least;
  std::optional<double> above;
  std::optional<double> at_most;
  std::optional<double> below;
  std::optional<ValueRange> usual;    ///< a number outside of it needs to be confirmed
  std::size_t least_length = 0;       ///< of a text, in characters
  std::optional<std::regex> pattern;  ///< that a text must hold
  bool is_date = false;               ///< a text must be YYYY-MM-DD
  std::string description;            ///< what the value is, with its unit; part of the advice

  /// The first breach of the rule; none when the value keeps it.
  std::optional<ValueFault> fault_of(const Settings::Value& value) const;

  /// What to write: `a number that is above 0: Length of the load bed, m`.
  std::string wanted() const;
};

/// The value as a message shows it: texts in quotes and cut short.
std::string shown_value(const Settings::Value& value);

}  // namespace panel_dossier
