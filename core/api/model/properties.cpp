#include "core/api/model/properties.h"

#include <utility>

namespace panel_dossier {

namespace {

std::string full_name(std::string_view set, std::string_view name) {
  std::string key(set);
  key += '.';
  key += name;
  return key;
}

template <typename T>
std::optional<Sourced<T>> value_as(const Property* property) {
  if (property == nullptr) return std::nullopt;
  const T* value = std::get_if<T>(&property->value);
  if (value == nullptr) return std::nullopt;
  return Sourced<T>{*value, property->origin};
}

}  // namespace

// The property is moved on; the check does not see through try_emplace.
// NOLINTNEXTLINE(performance-unnecessary-value-param)
void Properties::add(std::string_view set, std::string_view name, Property property) {
  std::string key = full_name(set, name);
  // What is withheld is there too: another source does not take its place.
  if (withheld_.find(key) == withheld_.end()) properties_.try_emplace(std::move(key), std::move(property));
}

void Properties::withhold(std::string_view full_name, std::string why) {
  const auto found = properties_.find(full_name);
  if (found == properties_.end()) return;
  withheld_.insert_or_assign(found->first, WithheldProperty{std::move(found->second), std::move(why)});
  properties_.erase(found);
}

const Property* Properties::find(std::string_view set, std::string_view name) const {
  const auto found = properties_.find(full_name(set, name));
  return found == properties_.end() ? nullptr : &found->second;
}

std::optional<Sourced<double>> Properties::number(std::string_view set, std::string_view name) const {
  return value_as<double>(find(set, name));
}

std::optional<Sourced<bool>> Properties::logical(std::string_view set, std::string_view name) const {
  return value_as<bool>(find(set, name));
}

std::optional<Sourced<std::string>> Properties::text(std::string_view set, std::string_view name) const {
  return value_as<std::string>(find(set, name));
}

}  // namespace panel_dossier
