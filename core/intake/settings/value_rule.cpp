#include "core/intake/settings/value_rule.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"
#include "core/intake/document/text_limit.h"

namespace panel_dossier {

namespace {

// std::regex recurses with the length of the text; no name, code or date of a project is as long.
constexpr std::size_t kMostMatchedBytes = 1000;

bool starts_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

bool is_of_kind(ValueKind kind, const Settings::Value& value) {
  const double* number = std::get_if<double>(&value);
  switch (kind) {
    case ValueKind::any: return true;
    case ValueKind::text: return std::holds_alternative<std::string>(value);
    case ValueKind::number: return number != nullptr;
    case ValueKind::whole_number: return number != nullptr && std::floor(*number) == *number;
    case ValueKind::logical: break;
  }
  return std::holds_alternative<bool>(value);
}

const char* kind_text(ValueKind kind) {
  switch (kind) {
    case ValueKind::any: return "a value";
    case ValueKind::text: return "a text";
    case ValueKind::number: return "a number";
    case ValueKind::whole_number: return "a whole number";
    case ValueKind::logical: break;
  }
  return "true or false";
}

/// The bounds that the rule sets, in words; the first that `number` breaks where one is given, else all.
std::vector<std::string> bounds_of(const ValueRule& rule, const double* number) {
  std::vector<std::string> bounds;
  const auto add = [&](const std::optional<double>& bound, const char* words, auto keeps) {
    if (bound && (number == nullptr || !keeps(*number, *bound))) bounds.push_back(words + shortest_text(*bound));
  };
  add(rule.at_least, "at least ", std::greater_equal<>());
  add(rule.above, "above ", std::greater<>());
  add(rule.at_most, "at most ", std::less_equal<>());
  add(rule.below, "below ", std::less<>());
  return bounds;
}

std::string breach_of_number(const ValueRule& rule, double number) {
  const std::vector<std::string> broken = bounds_of(rule, &number);
  return broken.empty() ? std::string() : shortest_text(number) + " is not " + broken.front();
}

std::string breach_of_text(const ValueRule& rule, const std::string& text) {
  const auto characters = static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
  const std::string quoted = "'" + shortened_text(text) + "'";
  if (text.size() > kLongestText_bytes) return quoted + " is too long";
  if (characters < rule.least_length) return text.empty() ? "the text is empty" : quoted + " is too short";
  if (rule.is_date && !is_iso_date(text)) return quoted + " is not a date";
  if (!rule.pattern) return {};
  if (text.size() > kMostMatchedBytes) return quoted + " is too long";
  return std::regex_search(text, *rule.pattern) ? std::string() : quoted + " has another form";
}

std::string breach_of(const ValueRule& rule, const Settings::Value& value) {
  const auto& choices = rule.choices;
  if (!choices.empty()) {
    const bool allowed = std::find(choices.begin(), choices.end(), value) != choices.end();
    return allowed ? std::string() : shown_value(value) + " is not allowed here";
  }
  if (!is_of_kind(rule.kind, value)) return shown_value(value) + " is not " + kind_text(rule.kind);
  if (const double* number = std::get_if<double>(&value)) return breach_of_number(rule, *number);
  if (const std::string* text = std::get_if<std::string>(&value)) return breach_of_text(rule, *text);
  return {};
}

std::string choices_text(const std::vector<Settings::Value>& choices) {
  std::vector<std::string> words;
  for (const Settings::Value& choice : choices) {
    const std::string* word = std::get_if<std::string>(&choice);
    words.push_back(word != nullptr ? *word : shown_value(choice));
  }
  return joined(words);
}

}  // namespace

std::string shown_value(const Settings::Value& value) {
  if (const double* number = std::get_if<double>(&value)) return shortest_text(*number);
  if (const bool* logical = std::get_if<bool>(&value)) return *logical ? "true" : "false";
  return "'" + shortened_text(std::get<std::string>(value)) + "'";
}

std::string ValueRule::wanted() const {
  if (!choices.empty()) return "one of: " + choices_text(choices);
  std::string text = kind_text(kind);
  if (is_date) text = "a date as 2026-06-01";
  if (pattern) text = "a text of this form";
  const std::vector<std::string> bounds = bounds_of(*this, nullptr);
  if (!bounds.empty()) text += " that is " + joined(bounds, " and ");
  return description.empty() ? text : text + ": " + description;
}

std::optional<ValueFault> ValueRule::fault_of(const Settings::Value& value) const {
  std::string breach = breach_of(*this, value);
  if (breach.empty()) return std::nullopt;
  const bool number_wanted = kind == ValueKind::number || kind == ValueKind::whole_number;
  const std::string* text = std::get_if<std::string>(&value);
  if (number_wanted && text != nullptr && parse_decimal(*text)) {
    return ValueFault{breach + " but a text in quotes", "leave the quotes out"};
  }
  return ValueFault{std::move(breach), "write " + wanted()};
}

}  // namespace panel_dossier
