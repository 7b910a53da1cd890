// The expressions that stand behind the equals sign of a printed formula.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier::testing {

/// Why a text is no expression, or why an expression has no value.
class ExpressionError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct Expression {
  enum class Kind { number, name, negative, sum, difference, product, quotient, power, root, magnitude, function };
  Kind kind = Kind::number;
  double number = 0.0;
  std::string name = {};  ///< of the symbol or column, or of the function
  std::vector<Expression> operands = {};
};

/// Whether the text holds only what a symbol may: letters of any script, digits, `_`, `,`, primes and en dashes.
bool is_symbol(std::string_view text);

/// Reads the whole text. `names` are the symbols and columns that it may name; the longest that fits is taken. Throws
/// ExpressionError.
Expression parse_expression(std::string_view text, std::vector<std::string_view> names);

}  // namespace panel_dossier::testing
