#include "plugins/quantities/delivery/vehicle.h"

#include <cmath>
#include <string>

namespace panel_dossier::quantities {

namespace {

constexpr double kMilligramsInKilogram = 1.0e6;
/// A milligram: far above the rounding of a lever of doubles, far below any weighbridge.
constexpr double kRounding_kg = 1.0e-6;

/// What a setting is called in the finding.
struct Called {
  const char* name;
  const char* symbol;
  const char* unit;
};

double read(FindingBuilder& finding, const Settings& settings, const Called& as, const std::string& key) {
  const std::string missing = "setting '" + key + "' is missing or not above 0";
  return finding.positive(as.name, as.symbol, as.unit, settings.number(key), missing).value_or(0.0);
}

double read_from_zero(FindingBuilder& finding, const Settings& settings, const Called& as, const std::string& key) {
  const std::string missing = "setting '" + key + "' is missing; 0 when there is none";
  const double value = finding.number(as.name, as.symbol, as.unit, settings.number(key), missing).value_or(0.0);
  if (value < 0.0) finding.missing("setting '" + key + "' must not be negative");
  return value;
}

/// Absent is no limit.
std::optional<double> read_side_balance(FindingBuilder& finding, const Settings& settings) {
  const std::string key = "quantities.transport.side_balance_limit";
  if (settings.all().count(key) == 0) return std::nullopt;
  const std::string wrong = "setting '" + key + "' must be a share above 0 and up to 1";
  const auto limit =
      finding.positive("difference between the sides of the bed, limit", "", "", settings.number(key), wrong);
  if (limit && *limit > 1.0) finding.missing(wrong);
  return limit;
}

void check_together(FindingBuilder& finding, const Vehicle& vehicle) {
  if (finding.incomplete()) return;
  if (vehicle.height <= vehicle.rack_base) {
    finding.missing("'structural.transport.overall_height_m' leaves no height above the deck and the rack");
  }
  if (vehicle.payload <= vehicle.racks) {
    finding.missing("'quantities.transport.rack_kg' leaves nothing of 'structural.transport.payload_kg'");
  }
  if (vehicle.axle_group_m <= vehicle.kingpin_m) {
    finding.missing("'quantities.transport.axle_group_m' must be greater than 'quantities.transport.kingpin_m'");
  }
}

}  // namespace

Milligrams milligrams(double value_kg) {
  return std::llround(value_kg * kMilligramsInKilogram);
}

Vehicle read_vehicle(FindingBuilder& finding, const Settings& settings) {
  const std::string shared = "structural.transport.";
  const std::string own = "quantities.transport.";
  const auto length = [&](const char* name, const std::string& key) {
    return read(finding, settings, {name, "", "m"}, key);
  };
  Vehicle vehicle;
  vehicle.bed_length = micrometres(length("length of the load bed", shared + "bed_length_m"));
  vehicle.bed_width = micrometres(length("width of the load bed", own + "bed_width_m"));
  const double deck_m = length("height of the deck above the road", shared + "deck_height_m");
  vehicle.height = micrometres(length("height that the route allows", shared + "overall_height_m") - deck_m);
  vehicle.rack_base = micrometres(
      read_from_zero(finding, settings, {"height of the rack under the panels", "", "m"}, own + "rack_base_m"));
  vehicle.spacer =
      micrometres(read_from_zero(finding, settings, {"clear distance between panels", "", "m"}, own + "spacer_m"));
  vehicle.payload = milligrams(read(finding, settings, {"payload of the vehicle", "P", "kg"}, shared + "payload_kg"));
  vehicle.racks =
      milligrams(read_from_zero(finding, settings, {"mass of the racks on a vehicle", "m_r", "kg"}, own + "rack_kg"));
  vehicle.kingpin_m = length("kingpin behind the headboard", own + "kingpin_m");
  vehicle.axle_group_m = length("middle of the axle group behind the headboard", own + "axle_group_m");
  vehicle.kingpin_limit_kg =
      read(finding, settings, {"load that the kingpin may take", "", "kg"}, own + "kingpin_limit_kg");
  vehicle.axle_group_limit_kg =
      read(finding, settings, {"load that the axle group may take", "", "kg"}, own + "axle_group_limit_kg");
  vehicle.side_balance_limit = read_side_balance(finding, settings);
  check_together(finding, vehicle);
  return vehicle;
}

AxleShares axle_shares(double mass_kg, double centre_m, const Vehicle& vehicle) {
  const double kingpin_kg = mass_kg * (vehicle.axle_group_m - centre_m) / (vehicle.axle_group_m - vehicle.kingpin_m);
  return {kingpin_kg, mass_kg - kingpin_kg};
}

bool carries(const AxleShares& shares, const Vehicle& vehicle) {
  return shares.kingpin_kg >= -kRounding_kg && shares.axle_group_kg >= -kRounding_kg &&
         shares.kingpin_kg <= vehicle.kingpin_limit_kg + kRounding_kg &&
         shares.axle_group_kg <= vehicle.axle_group_limit_kg + kRounding_kg;
}

}  // namespace panel_dossier::quantities
