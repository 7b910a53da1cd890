// The units in which an engineer reads what the project gives in SI.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/origin.h"
#include "core/api/support/units.h"

namespace panel_dossier::structural {

/// A number of SI units times `times`, over `over`, is one of this unit: a length in mm comes out as it was written.
struct PrintedUnit {
  const char* name = "";
  double times = 1.0;
  double over = 1.0;

  double of(double value_si) const { return value_si * times / over; }
  Sourced<double> of(const Sourced<double>& value_si) const { return {of(value_si.value), value_si.origin}; }
  std::optional<Sourced<double>> of(const std::optional<Sourced<double>>& value_si) const {
    return value_si ? std::optional(of(*value_si)) : std::nullopt;
  }
};

inline constexpr PrintedUnit kNumber{};
inline constexpr PrintedUnit kMetre{"m"};
inline constexpr PrintedUnit kKilogram{"kg"};
inline constexpr PrintedUnit kMillimetre{"mm", units::kMillimetrePerMetre};
inline constexpr PrintedUnit kKilonewton{"kN", 1.0, units::kNewtonPerKilonewton};
inline constexpr PrintedUnit kKilonewtonPerMetre{"kN/m", 1.0, units::kNewtonPerKilonewton};
inline constexpr PrintedUnit kKilonewtonPerM2{"kN/m²", 1.0, units::kNewtonPerKilonewton};
inline constexpr PrintedUnit kNewtonPerMm2{"N/mm²", 1.0, units::kPascalPerNewtonPerMm2};

/// As `FindingBuilder::positive`, printed in that unit; returned in SI.
inline std::optional<double> read_positive(FindingBuilder& builder, std::string name, std::string symbol,
                                           const PrintedUnit& unit, const std::optional<Sourced<double>>& value_si,
                                           std::string what_is_missing) {
  const auto read =
      builder.positive(std::move(name), std::move(symbol), unit.name, unit.of(value_si), std::move(what_is_missing));
  return read ? std::optional(value_si->value) : std::nullopt;
}

}  // namespace panel_dossier::structural
