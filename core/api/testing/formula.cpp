#include "core/api/testing/formula.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <numbers>
#include <numeric>
#include <optional>
#include <set>
#include <string_view>
#include <utility>
#include <variant>

#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "core/api/testing/expression.h"
#include "core/api/testing/findings.h"

namespace panel_dossier::testing {

namespace {

/// The powers of m, kg, s and K of which a quantity is made. Compared with room for the roots of a formula.
using Dimension = std::array<double, 4>;

/// None for a word that is no unit of measure.
std::optional<Dimension> word_dimension(std::string_view word) {
  static const std::map<std::string_view, Dimension> dimensions{
      {"", {0, 0, 0, 0}},      {"1", {0, 0, 0, 0}},     {"%", {0, 0, 0, 0}},   {"°", {0, 0, 0, 0}},
      {"rad", {0, 0, 0, 0}},   {"m", {1, 0, 0, 0}},     {"mm", {1, 0, 0, 0}},  {"km", {1, 0, 0, 0}},
      {"g", {0, 1, 0, 0}},     {"kg", {0, 1, 0, 0}},    {"t", {0, 1, 0, 0}},   {"s", {0, 0, 1, 0}},
      {"min", {0, 0, 1, 0}},   {"h", {0, 0, 1, 0}},     {"d", {0, 0, 1, 0}},   {"days", {0, 0, 1, 0}},
      {"K", {0, 0, 0, 1}},     {"°C", {0, 0, 0, 1}},    {"N", {1, 1, -2, 0}},  {"kN", {1, 1, -2, 0}},
      {"kNm", {2, 1, -2, 0}},  {"Nmm", {2, 1, -2, 0}},  {"Nm", {2, 1, -2, 0}}, {"Pa", {-1, 1, -2, 0}},
      {"kPa", {-1, 1, -2, 0}}, {"MPa", {-1, 1, -2, 0}}, {"J", {2, 1, -2, 0}},  {"kJ", {2, 1, -2, 0}},
      {"W", {2, 1, -3, 0}},    {"kW", {2, 1, -3, 0}}};
  const auto found = dimensions.find(word);
  return found == dimensions.end() ? std::nullopt : std::optional(found->second);
}

Dimension product_of(const Dimension& left, const Dimension& right, double power) {
  Dimension result{};
  for (std::size_t i = 0; i < result.size(); ++i) result[i] = left[i] + power * right[i];
  return result;
}

bool are_equal(const Dimension& left, const Dimension& right) {
  constexpr double kSame = 1.0e-9;
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (std::abs(left[i] - right[i]) > kSame) return false;
  }
  return true;
}

/// The words of which printed units are made; `m2` and `m3` are those of environmental declarations.
double word_factor(std::string_view word) {
  static const std::map<std::string_view, double> factors{{"mm", 1.0e-3},
                                                          {"km", 1.0e3},
                                                          {"g", 1.0e-3},
                                                          {"t", 1.0e3},
                                                          {"kN", 1.0e3},
                                                          {"kNm", 1.0e3},
                                                          {"Nmm", 1.0e-3},
                                                          {"kPa", 1.0e3},
                                                          {"MPa", 1.0e6},
                                                          {"kJ", 1.0e3},
                                                          {"kW", 1.0e3},
                                                          {"min", 60.0},
                                                          {"h", units::kSecondPerHour},
                                                          {"d", units::kSecondPerDay},
                                                          {"days", units::kSecondPerDay},
                                                          {"%", 1.0 / units::kPercentPerWhole},
                                                          {"°", std::numbers::pi / 180.0}};
  const auto found = factors.find(word);
  return found == factors.end() ? 1.0 : found->second;
}

/// Reads products and quotients of words, such as `W/(m²·K)`, from left to right.
class UnitReader {
 public:
  explicit UnitReader(std::string_view text) : text_(text) {}

  double product() {
    double result = factor();
    while (true) {
      const Dimension before = dimension_;
      if (take("·")) {
        result *= factor();
        dimension_ = product_of(before, dimension_, 1.0);
      } else if (take("/")) {
        result /= factor();
        dimension_ = product_of(before, dimension_, -1.0);
      } else {
        return result;
      }
    }
  }

  /// Of what was read; none when one of its words is no unit of measure.
  std::optional<Dimension> dimension() const { return is_measure_ ? std::optional(dimension_) : std::nullopt; }

  bool at_end() const { return at_ == text_.size(); }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  Dimension dimension_{};  ///< of the product or factor read last
  bool is_measure_ = true;

  bool take(std::string_view sign) {
    if (!text_.substr(at_).starts_with(sign)) return false;
    at_ += sign.size();
    return true;
  }

  double factor() {
    if (take("(")) {
      const double inside = product();
      take(")");
      return inside;
    }
    const std::size_t start = at_;
    while (!at_end() && !stops()) ++at_;
    const std::string_view name = text_.substr(start, at_ - start);
    const auto dimension = word_dimension(name);
    is_measure_ = is_measure_ && dimension;
    double power = 1.0;
    if (take("²")) power = 2.0;
    if (take("³")) power = 3.0;
    if (take("⁴")) power = 4.0;
    dimension_ = product_of({}, dimension.value_or(Dimension{}), power);
    return std::pow(word_factor(name), power);
  }

  bool stops() const {
    for (const std::string_view sign : {"/", "(", ")", "·", "²", "³", "⁴"}) {
      if (text_.substr(at_).starts_with(sign)) return true;
    }
    return false;
  }
};

/// A number or whatever else stands there, as the finding prints it.
struct Meaning {
  Value value;
  std::string unit;

  bool operator==(const Meaning&) const = default;
};

/// The cells of one row that an expression names, by the name of their column.
using Row = std::map<std::string_view, Meaning>;

/// What the symbols of a finding mean at one of its steps.
class Symbols {
 public:
  explicit Symbols(const Finding& finding) : finding_(finding) {
    for (const Input& input : finding.inputs) add(input.symbol, {input.value, input.unit});
    for (const Table& table : finding.tables) {
      for (const Column& column : table.columns) columns_.insert(column.name);
    }
  }

  void add(const std::string& symbol, Meaning meaning) {
    std::vector<Meaning>& meanings = symbols_[symbol];
    if (std::find(meanings.begin(), meanings.end(), meaning) == meanings.end()) meanings.push_back(std::move(meaning));
  }

  bool is_symbol(std::string_view name) const { return symbols_.find(name) != symbols_.end(); }
  bool is_column(std::string_view name) const { return columns_.contains(name); }

  std::vector<std::string_view> names() const {
    std::vector<std::string_view> result(columns_.begin(), columns_.end());
    for (const auto& [symbol, meanings] : symbols_) result.push_back(symbol);
    return result;
  }

  /// The one meaning of the symbol; throws ExpressionError when it has none or several.
  const Meaning& meaning(const std::string& symbol) const {
    const auto found = symbols_.find(symbol);
    if (found == symbols_.end()) {
      throw ExpressionError("the column '" + symbol + "' stands outside of sum(), min() and max()");
    }
    if (found->second.size() > 1) {
      throw ExpressionError("'" + symbol + "' has " + std::to_string(found->second.size()) + " meanings");
    }
    return found->second.front();
  }

  /// Of a symbol or else a column; throws ExpressionError for what has several.
  std::string unit_of(const std::string& name) const {
    if (is_symbol(name)) return meaning(name).unit;
    std::set<std::string> units;
    for (const Table& table : finding_.tables) {
      for (const Column& column : table.columns) {
        if (column.name == name) units.insert(column.unit);
      }
    }
    if (units.size() != 1) throw ExpressionError("'" + name + "' is no column of one unit");
    return *units.begin();
  }

  bool has_other_meaning(const std::string& symbol, const Meaning& meaning) const {
    const auto found = symbols_.find(symbol);
    return found != symbols_.end() && std::any_of(found->second.begin(), found->second.end(),
                                                  [&](const Meaning& other) { return other != meaning; });
  }

  /// The rows of the one table that has all these columns, without those in which one of the cells is empty.
  std::vector<Row> rows(const std::set<std::string>& columns) const {
    const Table* found = nullptr;
    for (const Table& table : finding_.tables) {
      if (!has_all(table, columns)) continue;
      if (found != nullptr) throw ExpressionError("several tables have " + quoted(columns));
      found = &table;
    }
    if (found == nullptr) throw ExpressionError("no table has all of " + quoted(columns));
    std::vector<Row> result;
    for (const std::vector<Value>& cells : found->rows) {
      Row row;
      for (std::size_t i = 0; i < found->columns.size(); ++i) {
        const Column& column = found->columns[i];
        const bool is_wanted = columns.contains(column.name) && !std::holds_alternative<std::monostate>(cells.at(i));
        if (is_wanted) row.insert_or_assign(column.name, Meaning{cells[i], column.unit});
      }
      if (row.size() == columns.size()) result.push_back(std::move(row));
    }
    return result;
  }

 private:
  const Finding& finding_;
  std::map<std::string, std::vector<Meaning>, std::less<>> symbols_;
  std::set<std::string, std::less<>> columns_;

  static bool has_all(const Table& table, const std::set<std::string>& columns) {
    return std::all_of(columns.begin(), columns.end(), [&](const std::string& name) {
      return std::any_of(table.columns.begin(), table.columns.end(),
                         [&](const Column& column) { return column.name == name; });
    });
  }

  static std::string quoted(const std::set<std::string>& columns) {
    return "the column '" + joined({columns.begin(), columns.end()}, "', '") + "'";
  }
};

enum class Scale { si, as_printed };

/// Gives expressions their number.
class Evaluator {
 public:
  Evaluator(const Symbols& symbols, Scale scale) : symbols_(symbols), scale_(scale) {}

  double value_of(const Expression& expression) {
    using Kind = Expression::Kind;
    const auto operand = [&](std::size_t i) { return value_of(expression.operands[i]); };
    switch (expression.kind) {
      case Kind::number: return expression.number;
      case Kind::name: return number_of(meaning_of(expression.name), expression.name);
      case Kind::negative: return -operand(0);
      case Kind::sum: return operand(0) + operand(1);
      case Kind::difference: return operand(0) - operand(1);
      case Kind::product: return operand(0) * operand(1);
      case Kind::quotient: return operand(0) / operand(1);
      case Kind::power: return std::pow(operand(0), operand(1));
      case Kind::root: return std::sqrt(operand(0));
      case Kind::magnitude: return std::abs(operand(0));
      case Kind::function: return function_of(expression);
    }
    return std::numeric_limits<double>::quiet_NaN();
  }

 private:
  const Symbols& symbols_;
  Scale scale_;
  const Row* row_ = nullptr;  ///< the row at hand inside sum(), min() and max()

  const Meaning& meaning_of(const std::string& name) const {
    if (row_ != nullptr) {
      if (const auto cell = row_->find(name); cell != row_->end()) return cell->second;
    }
    return symbols_.meaning(name);
  }

  double number_of(const Meaning& meaning, const std::string& name) const {
    const double* number = std::get_if<double>(&meaning.value);
    if (number == nullptr) throw ExpressionError("'" + name + "' is no number");
    return scale_ == Scale::si ? *number * unit_factor(meaning.unit) : *number;
  }

  double function_of(const Expression& expression) {
    const std::string& name = expression.name;
    if (name == "sum") return sum_of(expression.operands.front());
    if (name == "min" || name == "max") return extreme_of(expression);
    const double argument = value_of(expression.operands.front());
    if (name == "exp") return std::exp(argument);
    if (name == "ln") return std::log(argument);
    const bool in_degrees = scale_ == Scale::as_printed && names_degrees(expression);
    const double angle_rad = in_degrees ? units::radians_from_degrees(argument) : argument;
    if (name == "sin") return std::sin(angle_rad);
    return name == "cos" ? std::cos(angle_rad) : std::tan(angle_rad);
  }

  double sum_of(const Expression& summand) {
    const Row* outer = std::exchange(row_, nullptr);
    const std::set<std::string> columns = columns_of(summand);
    if (columns.empty()) throw ExpressionError("sum() names no column");
    const std::vector<double> values = by_row(summand, columns);
    row_ = outer;
    return std::accumulate(values.begin(), values.end(), 0.0);
  }

  double extreme_of(const Expression& expression) {
    std::vector<double> values;
    for (const Expression& operand : expression.operands) {
      std::set<std::string> columns;
      // Inside a row, or where every name is a symbol among several operands, min() and max() compare those.
      if (row_ == nullptr && !(expression.operands.size() > 1 && all_symbols(operand))) columns = columns_of(operand);
      const std::vector<double> further =
          columns.empty() ? std::vector<double>{value_of(operand)} : by_row(operand, columns);
      values.insert(values.end(), further.begin(), further.end());
    }
    if (values.empty()) throw ExpressionError(expression.name + "() is of no row");
    return expression.name == "min" ? *std::min_element(values.begin(), values.end())
                                    : *std::max_element(values.begin(), values.end());
  }

  std::vector<double> by_row(const Expression& expression, const std::set<std::string>& columns) {
    for (const std::string& column : columns) {
      if (symbols_.is_symbol(column)) throw ExpressionError("'" + column + "' is both a column and a symbol");
    }
    std::vector<double> result;
    for (const Row& row : symbols_.rows(columns)) {
      row_ = &row;
      result.push_back(value_of(expression));
      row_ = nullptr;
    }
    return result;
  }

  /// The columns over which the expression runs: those named outside of a sum() of its own.
  std::set<std::string> columns_of(const Expression& expression) const {
    std::set<std::string> result;
    if (expression.kind == Expression::Kind::function && expression.name == "sum") return result;
    if (expression.kind == Expression::Kind::name && symbols_.is_column(expression.name))
      result.insert(expression.name);
    for (const Expression& operand : expression.operands) result.merge(columns_of(operand));
    return result;
  }

  bool all_symbols(const Expression& expression) const {
    if (expression.kind == Expression::Kind::name && !symbols_.is_symbol(expression.name)) return false;
    return std::all_of(expression.operands.begin(), expression.operands.end(),
                       [&](const Expression& operand) { return all_symbols(operand); });
  }

  bool names_degrees(const Expression& expression) const {
    if (expression.kind == Expression::Kind::name) return meaning_of(expression.name).unit == "°";
    return std::any_of(expression.operands.begin(), expression.operands.end(),
                       [&](const Expression& operand) { return names_degrees(operand); });
  }
};

/// Whether an expression of quantities works out in units, and in which. A number has no unit, but for a 0 beside terms
/// that have one.
class Dimensions {
 public:
  explicit Dimensions(const Symbols& symbols) : symbols_(symbols) {}

  /// False when a unit is no unit of measure, so that nothing can be said.
  bool are_known() const { return are_known_; }

  /// None when terms of different units are added or compared, or one stands where only a number may.
  std::optional<Dimension> of(const Expression& expression) {
    using Kind = Expression::Kind;
    const auto operand = [&](std::size_t i) { return of(expression.operands[i]); };
    switch (expression.kind) {
      case Kind::number: return Dimension{};
      case Kind::name: return of_unit(symbols_.unit_of(expression.name));
      case Kind::negative:
      case Kind::magnitude: return operand(0);
      case Kind::sum:
      case Kind::difference: return common(expression);
      case Kind::product:
      case Kind::quotient: {
        const auto left = operand(0);
        const auto right = operand(1);
        if (!left || !right) return std::nullopt;
        return product_of(*left, *right, expression.kind == Kind::product ? 1.0 : -1.0);
      }
      case Kind::power: return raised(operand(0), expression.operands[1]);
      case Kind::root: return powered(operand(0), 0.5);
      case Kind::function: return of_function(expression);
    }
    return std::nullopt;
  }

  std::optional<Dimension> of_unit(std::string_view unit) {
    constexpr std::string_view kPer = "per ";
    const bool is_inverse = unit.starts_with(kPer);
    UnitReader reader(is_inverse ? unit.substr(kPer.size()) : unit);
    reader.product();
    const auto dimension = reader.at_end() ? reader.dimension() : std::nullopt;
    are_known_ = are_known_ && dimension;
    return powered(dimension.value_or(Dimension{}), is_inverse ? -1.0 : 1.0);
  }

 private:
  const Symbols& symbols_;
  bool are_known_ = true;

  static std::optional<Dimension> powered(const std::optional<Dimension>& base, double power) {
    return base ? std::optional(product_of({}, *base, power)) : std::nullopt;
  }

  static bool is_plain_number(const Expression& expression) {
    return expression.kind == Expression::Kind::number ||
           (expression.kind == Expression::Kind::negative && is_plain_number(expression.operands.front()));
  }

  std::optional<Dimension> raised(const std::optional<Dimension>& base, const Expression& exponent) {
    if (!base) return std::nullopt;
    if (are_equal(*base, {})) return of(exponent) && are_equal(*of(exponent), {}) ? base : std::nullopt;
    if (!is_plain_number(exponent)) return std::nullopt;
    return powered(base, Evaluator(symbols_, Scale::si).value_of(exponent));
  }

  std::optional<Dimension> common(const Expression& expression) {
    std::optional<Dimension> result;
    for (const Expression& operand : expression.operands) {
      if (operand.kind == Expression::Kind::number && operand.number == 0.0) continue;
      const auto found = of(operand);
      if (!found || (result && !are_equal(*result, *found))) return std::nullopt;
      result = found;
    }
    return result ? result : Dimension{};
  }

  std::optional<Dimension> of_function(const Expression& expression) {
    const auto result = common(expression);
    if (expression.name == "sum" || expression.name == "min" || expression.name == "max") return result;
    return result && are_equal(*result, {}) ? result : std::nullopt;
  }
};

bool agrees(double found, double printed) {
  constexpr double kRelative = 1.0e-9;
  constexpr double kAbsolute = 1.0e-12;
  // Half a millionth, and what is lost of it where the inputs are rounded as well.
  constexpr double kRounded = 0.501e-6;
  const double difference = std::abs(found - printed);
  if (difference <= kRelative * std::abs(printed) || difference <= kAbsolute) return true;
  return printed != 0.0 && rounded_to_millionth(printed) == printed && difference <= kRounded;
}

/// Whether the units of the expression work out to that of the step; none when that cannot be said.
std::optional<bool> works_out(const Expression& expression, const Symbols& symbols, const std::string& unit) {
  Dimensions dimensions(symbols);
  const auto found = dimensions.of(expression);
  const auto printed = dimensions.of_unit(unit);
  if (!dimensions.are_known()) return std::nullopt;
  return found && printed && are_equal(*found, *printed);
}

/// Empty when the expression gives the number of the step in the way in which a reader takes it: with the units where
/// they work out, else with the numbers as printed. Else what it gives.
std::string number_fault(const Expression& expression, const Symbols& symbols, double printed,
                         const std::string& unit) {
  const double in_si = Evaluator(symbols, Scale::si).value_of(expression) / unit_factor(unit);
  const double as_printed = Evaluator(symbols, Scale::as_printed).value_of(expression);
  const auto with_units = works_out(expression, symbols, unit);
  const bool is_right = (with_units != std::optional(false) && agrees(in_si, printed)) ||
                        (with_units != std::optional(true) && agrees(as_printed, printed));
  if (is_right) return {};
  std::string fault = "gives " + number_text(in_si) + " in SI and " + number_text(as_printed) +
                      " as printed, the step says " + number_text(printed);
  if (agrees(in_si, printed) || agrees(as_printed, printed)) {
    fault += *with_units ? "; its units work out, so that it is read with them"
                         : "; its units do not work out, so that it is read as printed";
  }
  return fault;
}

std::string formula_fault(const Step& step, const Symbols& symbols) {
  const std::size_t equals = step.formula.find('=');
  if (equals == std::string::npos) return "is not 'symbol = expression'";
  const std::string_view left = trimmed(std::string_view(step.formula).substr(0, equals));
  const std::string_view right = std::string_view(step.formula).substr(equals + 1);
  if (left != step.symbol) return "is of '" + std::string(left) + "', the step's symbol is '" + step.symbol + "'";
  if (right.find('=') != std::string_view::npos) return "has more than one equals sign";
  if (!is_symbol(step.symbol)) return "has a symbol of other than letters, digits, _ , primes and en dashes";
  const double* number = std::get_if<double>(&step.value);
  if (number == nullptr) return "stands beside a step that is no number";
  if (symbols.has_other_meaning(step.symbol, {step.value, step.unit})) {
    return "is of '" + step.symbol + "', which has another meaning further up";
  }
  try {
    return number_fault(parse_expression(right, symbols.names()), symbols, *number, step.unit);
  } catch (const ExpressionError& error) {
    return error.what();
  }
}

}  // namespace

double unit_factor(std::string_view unit) {
  constexpr std::string_view kPer = "per ";
  if (unit.starts_with(kPer)) return 1.0 / unit_factor(unit.substr(kPer.size()));
  UnitReader reader(unit);
  const double factor = reader.product();
  return reader.at_end() ? factor : 1.0;
}

std::vector<std::string> formula_faults(const Finding& finding) {
  std::vector<std::string> faults;
  Symbols symbols(finding);
  for (const Step& step : finding.steps) {
    if (!step.formula.empty()) {
      const std::string fault = formula_fault(step, symbols);
      if (!fault.empty()) faults.push_back(finding.check + ": formula '" + step.formula + "': " + fault);
    }
    if (!step.symbol.empty()) symbols.add(step.symbol, {step.value, step.unit});
  }
  return faults;
}

}  // namespace panel_dossier::testing
