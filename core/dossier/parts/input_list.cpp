#include "core/dossier/parts/input_list.h"

#include <algorithm>

#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

// A character that no name holds parts the members of the key.
constexpr char kPart = '\x1F';

std::string key_of(const Input& input, const std::string& origin) {
  // Values count as one when they print alike.
  return input.name + kPart + input.symbol + kPart + format_value(input.value, input.unit) + kPart + origin;
}

}  // namespace

std::pair<std::size_t, bool> InputList::number(const Input& input) {
  const std::string origin = short_origin(input.origin);
  const auto [entry, is_new] = numbers_.try_emplace(key_of(input, origin), numbers_.size() + 1);
  if (is_new) {
    const auto [index, is_new_source] = source_index_.try_emplace(origin, sources_.size());
    if (is_new_source) sources_.push_back({origin, {}});
    sources_[index->second].second.push_back(entry->second);
  }
  return {entry->second, is_new};
}

std::string number_ranges(std::vector<std::size_t> numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  std::string text;
  for (std::size_t first = 0; first < numbers.size();) {
    std::size_t last = first;
    while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) ++last;
    text += (text.empty() ? "" : ", ") + std::to_string(numbers[first]);
    if (last > first) text += (last > first + 1 ? "–" : ", ") + std::to_string(numbers[last]);
    first = last + 1;
  }
  return "[" + text + "]";
}

std::string short_origin(const Origin& origin) {
  const bool of_a_set = origin.kind == OriginKind::export_file && origin.property.find('.') != std::string::npos;
  if (!of_a_set || origin.line == 0) return describe(origin);
  return origin.property + ", line " + std::to_string(origin.line);
}

}  // namespace panel_dossier
