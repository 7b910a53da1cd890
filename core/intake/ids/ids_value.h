// Values of an export held against what a file of requirements asks for.
#pragma once

#include <string>

#include "core/intake/ids/ids_file.h"

namespace panel_dossier {

/// A value of the export as a requirement sees it.
struct FoundValue {
  enum class Kind { text, real, integer, logical };

  Kind kind = Kind::text;
  std::string type;     ///< defined type in capitals: `IFCLABEL`
  std::string text;     ///< as written, for texts and messages
  double number = 0.0;  ///< of real and integer: in SI units
  bool logical = false;

  /// A null or empty value states nothing.
  bool is_stated() const { return !text.empty(); }
};

/// Holds values against requirements; belongs to one check on one thread. Throws std::runtime_error when patterns take
/// longer than `IdsPatternClock` grants.
class IdsMatcher {
 public:
  /// Text is compared exactly; numbers with the tolerance of IDS 1.0: v ± (|v|·1e-6 + 1e-6), by which inclusive bounds
  /// are widened and exclusive ones narrowed. Patterns and lengths are asked of texts only, bounds of numbers only.
  bool matches(const IdsValue& wanted, const FoundValue& found);
  /// A name: a text by itself.
  bool matches(const IdsValue& wanted, const std::string& name);

 private:
  IdsPatternClock clock_;

  bool matches_literal(const std::string& literal, const FoundValue& found) const;
  bool matches_patterns(const IdsValue& wanted, const FoundValue& found);
};

}  // namespace panel_dossier
