// Properties and settings put, replaced and taken away by hand.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "core/api/model/origin.h"
#include "core/api/model/properties.h"
#include "core/api/model/settings.h"

namespace panel_dossier::testing {

/// An origin in the export, as the intake would give it.
inline Origin origin_of(std::string entity, std::string property = {}) {
  Origin origin;
  origin.entity = std::move(entity);
  origin.global_id = "0000000000000000000001";
  origin.line = 7;
  origin.property = std::move(property);
  return origin;
}

/// An origin in the export that tells entity and line only.
inline Origin export_origin(std::string entity, std::uint32_t line) {
  Origin origin;
  origin.entity = std::move(entity);
  origin.line = line;
  return origin;
}

inline Property property_of(std::variant<double, bool, std::string> value) {
  return {std::move(value), {}, export_origin("IfcPropertySingleValue", 7)};
}

/// Takes text literals as text, never as logicals.
inline Property property_of(const char* text) {
  return property_of(std::string(text));
}

/// Adds a property; one of that name that stands already is kept.
inline void put(Properties& properties, std::string_view set, std::string_view name,
                std::variant<double, bool, std::string> value) {
  properties.add(set, name, {std::move(value), {}, origin_of("IfcPropertySingleValue", std::string(name))});
}

/// Removes a property, named `Pset.Property`.
inline void remove(Properties& properties, std::string_view full_name) {
  Properties result;
  for (const auto& [name, value] : properties.all()) {
    const std::size_t dot = name.find('.');
    if (name != full_name) result.add(name.substr(0, dot), name.substr(dot + 1), value);
  }
  properties = std::move(result);
}

/// Puts a property in place of one of that name, or adds it.
inline void replace(Properties& properties, const std::string& set, const std::string& name, Property property) {
  std::string full_name = set;
  // Not written as a sum: GCC 12 sees an overrun in it once it is inlined.
  full_name.append(".").append(name);
  remove(properties, full_name);
  properties.add(set, name, std::move(property));
}

/// Settings without one key.
inline Settings without(const Settings& settings, std::string_view key) {
  Settings result;
  for (const auto& [name, value] : settings.all()) {
    if (name != key) result.set(name, value);
  }
  return result;
}

}  // namespace panel_dossier::testing
