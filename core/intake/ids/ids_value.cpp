#include "core/intake/ids/ids_value.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <limits>
#include <stdexcept>

#include "core/api/support/words.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

namespace {

constexpr double kIdsTolerance = 1e-6;  // IDS 1.0, relative and absolute together

/// One rounding of a double more than the tolerance, so that a limit written in decimals is taken in.
double tolerance_of(double value) {
  const double tolerance = std::abs(value) * kIdsTolerance + kIdsTolerance;
  return tolerance + std::numeric_limits<double>::epsilon() * (std::abs(value) + 1.0);
}

bool is_number(const FoundValue& found) {
  return found.kind == FoundValue::Kind::real || found.kind == FoundValue::Kind::integer;
}

bool is_whole_literal(const std::string& text) {
  const std::size_t sign = !text.empty() && (text.front() == '+' || text.front() == '-') ? 1 : 0;
  return text.size() > sign && text.find_first_not_of("0123456789", sign) == std::string::npos;
}

bool within_bounds(const IdsValue& wanted, const FoundValue& found) {
  if (!wanted.has_bounds()) return true;
  if (!is_number(found)) return false;
  const double x = found.number;
  return (!wanted.min_inclusive || x >= *wanted.min_inclusive - tolerance_of(*wanted.min_inclusive)) &&
         (!wanted.max_inclusive || x <= *wanted.max_inclusive + tolerance_of(*wanted.max_inclusive)) &&
         (!wanted.min_exclusive || x > *wanted.min_exclusive + tolerance_of(*wanted.min_exclusive)) &&
         (!wanted.max_exclusive || x < *wanted.max_exclusive - tolerance_of(*wanted.max_exclusive));
}

/// Of UTF-8: characters, as XML Schema counts them.
std::size_t characters_of(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

bool within_lengths(const IdsValue& wanted, const FoundValue& found) {
  if (!wanted.length && !wanted.min_length && !wanted.max_length) return true;
  if (found.kind != FoundValue::Kind::text) return false;
  const std::size_t length = characters_of(found.text);
  return (!wanted.length || length == *wanted.length) && (!wanted.min_length || length >= *wanted.min_length) &&
         (!wanted.max_length || length <= *wanted.max_length);
}

}  // namespace

bool IdsMatcher::matches_literal(const std::string& literal, const FoundValue& found) const {
  switch (found.kind) {
    case FoundValue::Kind::text: return literal == found.text;
    case FoundValue::Kind::logical:
      return found.logical ? literal == "true" || literal == "1" : literal == "false" || literal == "0";
    case FoundValue::Kind::integer:
      if (!is_whole_literal(literal)) return false;
      [[fallthrough]];
    case FoundValue::Kind::real: break;
  }
  const auto number = parse_number(literal);
  return number && std::abs(found.number - *number) <= tolerance_of(*number);
}

bool IdsMatcher::matches_patterns(const IdsValue& wanted, const FoundValue& found) {
  if (wanted.patterns.empty()) return true;
  if (found.kind != FoundValue::Kind::text) return false;
  for (const IdsPattern& pattern : wanted.patterns) {
    const auto start = std::chrono::steady_clock::now();
    const IdsPattern::Result result = pattern.match(found.text);
    clock_.add(std::chrono::steady_clock::now() - start);
    if (result == IdsPattern::Result::too_hard || clock_.is_over()) {
      throw std::runtime_error("the pattern '" + pattern.expression() + "' takes too long to try; write a simpler one");
    }
    if (result == IdsPattern::Result::matches) return true;
  }
  return false;
}

bool IdsMatcher::matches(const IdsValue& wanted, const FoundValue& found) {
  if (wanted.is_simple) return matches_literal(wanted.text, found);
  const auto& listed = wanted.enumeration;
  const bool is_listed = listed.empty() || std::any_of(listed.begin(), listed.end(), [&](const std::string& literal) {
                           return matches_literal(literal, found);
                         });
  return is_listed && within_bounds(wanted, found) && within_lengths(wanted, found) && matches_patterns(wanted, found);
}

bool IdsMatcher::matches(const IdsValue& wanted, const std::string& name) {
  FoundValue found;
  found.text = name;
  return matches(wanted, found);
}

}  // namespace panel_dossier
