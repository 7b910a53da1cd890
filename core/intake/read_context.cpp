#include "core/intake/read_context.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

// A panel of a real export shares its type's properties and little else, well below one copied item per 4 bytes.
constexpr std::size_t kBytesPerItem = 4;
constexpr std::size_t kItemsOfAnyFile = 1'000'000;
constexpr std::size_t kLongestQuoted = 60;

std::string quoted(std::string_view text) {
  const bool is_long = text.size() > kLongestQuoted;
  return "'" + std::string(text.substr(0, kLongestQuoted)) + (is_long ? "…'" : "'");
}

void report_not_a_number(const ReadContext& context, const Element& at, std::string_view attribute,
                         std::string_view text) {
  context.report.error(at, std::string(attribute) + " " + quoted(text) + " is not a finite number",
                       "write it as in 12.5 or 1.25E1");
}

bool append_numbers(const ReadContext& context, const Element& at, std::string_view attribute, std::string_view text,
                    std::vector<double>& found) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  for (std::string_view rest = trimmed(text); !rest.empty();) {
    const auto end = std::find_if(rest.begin(), rest.end(), is_space);
    const std::string_view word = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
    const auto value = parse_number(word);
    if (!value) {
      report_not_a_number(context, at, attribute, word);
      return false;
    }
    found.push_back(*value);
    rest = trimmed(rest.substr(word.size()));
  }
  return true;
}

/// The values of a list in order; an inner list is written as one text or as elements of its own.
bool append_list(const ReadContext& context, const Element& list, std::string_view attribute, int levels,
                 std::vector<double>& found) {
  if (!list.first_child()) {
    const auto plain = list.plain_text();
    return plain ? append_numbers(context, list, attribute, *plain, found)
                 : append_numbers(context, list, attribute, list.text(), found);
  }
  if (levels == 0) return true;
  std::vector<Element> items;
  for (Element item = list.first_child(); item; item = item.next_sibling()) items.push_back(item);
  order_by_position(items);
  for (const Element& item : items) {
    if (!append_list(context, item, attribute, levels - 1, found)) return false;
  }
  return true;
}

}  // namespace

ExpansionBudget::ExpansionBudget(std::size_t file_size) : limit_(kItemsOfAnyFile + file_size / kBytesPerItem) {}

bool ExpansionBudget::take(std::size_t items) {
  if (is_spent()) return false;
  if (items <= limit_ && used_.fetch_add(items, std::memory_order_relaxed) <= limit_ - items) return true;
  is_over_.store(true, std::memory_order_relaxed);
  return false;
}

std::optional<double> parse_number(std::string_view text) {
  text = trimmed(text);
  if (text.size() > 1 && text.front() == '+' && text[1] != '-') text.remove_prefix(1);
  double value = 0.0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

namespace {

std::optional<double> number_in(const ReadContext& context, const TypedText& found, std::string_view attribute) {
  const auto value = parse_number(found.text);
  if (!value) report_not_a_number(context, found.at, attribute, found.text);
  return value;
}

}  // namespace

std::optional<double> number(const ReadContext& context, const Element& owner, std::string_view attribute) {
  const auto found = context.graph.value(owner, attribute);
  return found ? number_in(context, *found, attribute) : std::nullopt;
}

std::optional<double> required_number(const ReadContext& context, const Element& owner, std::string_view attribute) {
  const auto found = context.graph.value(owner, attribute);
  if (found) return number_in(context, *found, attribute);
  context.report.error(owner, "has no " + std::string(attribute), "the standard requires it");
  return std::nullopt;
}

std::optional<std::vector<double>> numbers(const ReadContext& context, const Element& owner,
                                           std::string_view attribute) {
  std::vector<double> found;
  constexpr std::size_t kOfPoint = 3;
  found.reserve(kOfPoint);
  if (const auto text = owner.attribute(attribute)) {
    if (!append_numbers(context, owner, attribute, *text, found)) return std::nullopt;
    return found;
  }
  const Element list = owner.child(attribute);
  if (list && !append_list(context, list, attribute, 2, found)) return std::nullopt;
  return found;
}

std::optional<std::vector<NumberList>> number_lists(const ReadContext& context, const Element& owner,
                                                    std::string_view attribute) {
  std::vector<NumberList> lists;
  const Element list = owner.child(attribute);
  if (!list || !list.first_child()) {
    auto values = numbers(context, owner, attribute);
    if (!values) return std::nullopt;
    if (!values->empty()) lists.push_back({{}, std::move(*values)});
    return lists;
  }
  std::vector<Element> items;
  for (Element item = list.first_child(); item; item = item.next_sibling()) items.push_back(item);
  order_by_position(items);
  for (const Element& item : items) {
    NumberList inner{std::string(ifc_type(item)), {}};
    if (!append_list(context, item, attribute, 2, inner.values)) return std::nullopt;
    lists.push_back(std::move(inner));
  }
  return lists;
}

std::optional<bool> parse_logical(std::string_view text) {
  const std::string token = enumeration_token(text);
  if (token == "TRUE" || token == "T" || token == "1") return true;
  if (token == "FALSE" || token == "F" || token == "0") return false;
  return std::nullopt;
}

}  // namespace panel_dossier
