// Property sets of an entity of the export, read by `Pset.Property` name.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "core/api/model/origin.h"

namespace panel_dossier {

/// A single property value. Numbers are in SI units (m, kg, s, K, N, Pa, W and their products) whatever the export
/// used.
struct Property {
  std::variant<double, bool, std::string> value;
  std::string unit;  ///< SI symbol; empty for counts, ratios, logicals and text
  Origin origin;
};

/// All properties of one entity: its own, with those of its type behind them. Quantity sets (`Qto_…`) are among them.
/// The names that the program reads, with units, are listed in schemas/properties.csv.
class Properties {
 public:
  /// Adds a property; an existing one of that name is kept, so add those of the occurrence before those of the type.
  void add(std::string_view set, std::string_view name, Property property);

  /// The property or null.
  const Property* find(std::string_view set, std::string_view name) const;

  /// The value as the asked type, or none when the property is absent or of another type.
  std::optional<Sourced<double>> number(std::string_view set, std::string_view name) const;
  std::optional<Sourced<bool>> logical(std::string_view set, std::string_view name) const;
  std::optional<Sourced<std::string>> text(std::string_view set, std::string_view name) const;

  /// Every property, of whatever set, under its full name `Pset.Property`, in alphabetical order.
  const std::map<std::string, Property, std::less<>>& all() const { return properties_; }

 private:
  std::map<std::string, Property, std::less<>> properties_;
};

}  // namespace panel_dossier
