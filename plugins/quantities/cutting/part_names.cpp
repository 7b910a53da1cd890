#include "plugins/quantities/cutting/part_names.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include "core/api/support/words.h"

namespace panel_dossier::quantities {

namespace {

struct NumberedName {
  std::string_view stem;
  std::string_view digits;
};

NumberedName split(std::string_view name) {
  const std::size_t last_other = name.find_last_not_of("0123456789");
  const std::size_t start = last_other == std::string_view::npos ? 0 : last_other + 1;
  return {name.substr(0, start), name.substr(start)};
}

/// None without digits or with more than fit.
std::optional<std::uint64_t> number(std::string_view digits) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc{}) return std::nullopt;
  return value;
}

bool follows(std::string_view name, std::string_view next) {
  const NumberedName a = split(name);
  const NumberedName b = split(next);
  const auto number_a = number(a.digits);
  const auto number_b = number(b.digits);
  return a.stem == b.stem && a.digits.size() == b.digits.size() && number_a && number_b && *number_b == *number_a + 1;
}

}  // namespace

std::string part_names(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t first = 0; first < names.size();) {
    std::size_t last = first;
    while (last + 1 < names.size() && follows(names[last], names[last + 1])) ++last;
    if (first != 0) text += "; ";
    text += names[first];
    if (last == first + 1) text += "; " + names[last];
    if (last > first + 1) text.append(" to ").append(split(names[last]).digits);
    first = last + 1;
  }
  return text;
}

MaterialKey material_key(const Project& project, std::optional<std::size_t> material) {
  const Material* found = material_at(project, material);
  return {found == nullptr ? "not stated" : found->name, material};
}

std::size_t materials_named(const Project& project, const std::string& name) {
  return static_cast<std::size_t>(std::count_if(project.materials.begin(), project.materials.end(),
                                                [&name](const Material& other) { return other.name == name; }));
}

std::string printed_name(const Project& project, const MaterialKey& material) {
  const std::size_t all = material.index ? materials_named(project, material.name) : 1;
  if (all < 2) return material.name;
  const auto end = project.materials.begin() + static_cast<std::ptrdiff_t>(*material.index + 1);
  const auto place = std::count_if(project.materials.begin(), end,
                                   [&material](const Material& other) { return other.name == material.name; });
  return material.name + " (" + std::to_string(place) + " of " + std::to_string(all) + " of this name)";
}

std::string fastener_type(const Part& part) {
  const auto type = part.properties.text("Panel_Fastener", "Type");
  return type && !type->value.empty() ? type->value : part.name;
}

std::string storey_name(const Project& project, std::size_t index) {
  return index < project.storeys.size() ? project.storeys[index].name : "no storey";
}

std::string millimetres_text(Micrometres length) {
  return fixed_text(millimetres(length), length % 1000 == 0 ? 0 : 1);
}

std::string section_name(Micrometres thickness, Micrometres width) {
  return millimetres_text(thickness) + " × " + millimetres_text(width);
}

}  // namespace panel_dossier::quantities
