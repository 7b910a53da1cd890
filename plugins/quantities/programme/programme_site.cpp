#include "plugins/quantities/programme/programme_site.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace panel_dossier::quantities {

namespace {

constexpr double kMostCranes = 100.0;
/// A quarter of a year on site is storage, not delivery.
constexpr double kMostLeadDays = 60.0;
constexpr double kHoursOfADay = 24.0;

double read(FindingBuilder& finding, const Settings& settings, const char* name, const char* symbol, const char* unit,
            const std::string& key) {
  return finding.positive(name, symbol, unit, settings.number(key), "setting '" + key + "' is missing or not above 0")
      .value_or(0.0);
}

MicroHours read_hours(FindingBuilder& finding, const Settings& settings, const char* name, const std::string& key) {
  const double hours = read(finding, settings, name, "", "h", key);
  if (hours <= kHoursOfADay) return micro_hours(hours);
  finding.missing("setting '" + key + "' must be at most 24, the hours of a day");
  return 0;
}

std::size_t read_cranes(FindingBuilder& finding, const Settings& settings) {
  const double cranes = read(finding, settings, "cranes, each with a crew", "n_c", "", "quantities.cranes");
  if (cranes <= kMostCranes && std::floor(cranes) == cranes) return static_cast<std::size_t>(cranes);
  finding.missing("setting 'quantities.cranes' must be a whole number from 1 to 100");
  return 0;
}

std::optional<std::size_t> read_lead_days(FindingBuilder& finding, const Settings& settings) {
  const std::string key = "quantities.transport.lead_working_days";
  if (settings.all().count(key) == 0) return std::nullopt;
  const std::string wrong = "setting '" + key + "' must be a whole number from 0 to 60";
  const auto days =
      finding.number("working days from arrival to the load's first panel", "", "", settings.number(key), wrong);
  if (!days) return std::nullopt;
  if (*days >= 0.0 && *days <= kMostLeadDays && std::floor(*days) == *days) return static_cast<std::size_t>(*days);
  finding.missing(wrong);
  return std::nullopt;
}

}  // namespace

Site read_site(FindingBuilder& finding, const Settings& settings) {
  read(finding, settings, "gross area that one crew erects in an hour", "r", "m²/h",
       "quantities.crew_area_rate_m2_per_h");
  Site site;
  site.people =
      read(finding, settings, "people of one crew, with crane operative and slinger", "", "", "quantities.crew.people");
  site.crew_day = read_hours(finding, settings, "working hours of a day", "quantities.hours_per_day");
  const MicroHours crane_day =
      read_hours(finding, settings, "hours of a day in which a crane lifts", "quantities.crane_hours_per_day");
  site.lifting_day = std::min(site.crew_day, crane_day);
  site.cranes = read_cranes(finding, settings);
  site.lead_days = read_lead_days(finding, settings);
  return site;
}

}  // namespace panel_dossier::quantities
