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

/// A property that the export holds and no check may use, because it is implausible or another source says otherwise.
struct WithheldProperty {
  Property property;
  std::string why;  ///< what is wrong with which value, and what to do; a part of reasons
};

/// All properties of one entity: its own, with those of its type behind them. Quantity sets (`Qto_…`) are among them.
/// The names that the program reads, with units, are listed in schemas/properties.csv.
class Properties {
 public:
  /// Adds a property; an existing one of that name is kept, so add those of the occurrence before those of the type.
  void add(std::string_view set, std::string_view name, Property property);

  /// Takes the property `Pset.Property` out of use; without effect when it is absent.
  void withhold(std::string_view full_name, std::string why);

  /// The property or null; null for one that is withheld.
  const Property* find(std::string_view set, std::string_view name) const;

  /// The value as the asked type, or none when the property is absent or of another type.
  std::optional<Sourced<double>> number(std::string_view set, std::string_view name) const;
  std::optional<Sourced<bool>> logical(std::string_view set, std::string_view name) const;
  std::optional<Sourced<std::string>> text(std::string_view set, std::string_view name) const;

  /// Every property that may be used, of whatever set, under its full name `Pset.Property`, in alphabetical order.
  const std::map<std::string, Property, std::less<>>& all() const { return properties_; }
  /// Likewise those that are withheld.
  const std::map<std::string, WithheldProperty, std::less<>>& withheld() const { return withheld_; }

 private:
  std::map<std::string, Property, std::less<>> properties_;
  std::map<std::string, WithheldProperty, std::less<>> withheld_;
};

}  // namespace panel_dossier
