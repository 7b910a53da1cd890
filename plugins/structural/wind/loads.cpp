#include "plugins/structural/wind/loads.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier::structural {

namespace {

double coefficient(const DataTable& table, const std::string& key, double area_m2) {
  const auto large = table.number(key, "cpe10");
  const auto small = table.number(key, "cpe1");
  if (!large || !small) throw std::runtime_error("wall_pressure_coefficients.csv has no complete row '" + key + "'");
  const double share = std::log10(std::clamp(area_m2, 1.0, 10.0));
  return small->value - (small->value - large->value) * share;
}

}  // namespace

const char* to_string(WindZone zone) {
  switch (zone) {
    case WindZone::a: return "A";
    case WindZone::b: return "B";
    case WindZone::c: return "C";
    case WindZone::d: return "D";
    case WindZone::e: return "E";
  }
  return "";
}

double zone_length_m(double across_wind_m, double height_m) {
  return std::min(across_wind_m, 2.0 * height_m);
}

std::vector<ZoneStretch> side_wall_zones(double zone_length_m, double wall_length_m) {
  const double a_end_m = std::min(zone_length_m / 5.0, wall_length_m);
  const double b_end_m = std::min(zone_length_m, wall_length_m);
  std::vector<ZoneStretch> zones{{WindZone::a, {0.0, a_end_m}}};
  if (b_end_m > a_end_m) zones.push_back({WindZone::b, {a_end_m, b_end_m}});
  if (wall_length_m > b_end_m) zones.push_back({WindZone::c, {b_end_m, wall_length_m}});
  return zones;
}

std::vector<Stretch> windward_strips(double height_m, double across_wind_m) {
  if (height_m <= across_wind_m) return {{0.0, height_m}};
  if (height_m <= 2.0 * across_wind_m) return {{0.0, across_wind_m}, {across_wind_m, height_m}};
  std::vector<Stretch> strips{{0.0, across_wind_m}};
  const double middle_m = height_m - 2.0 * across_wind_m;
  const auto count = static_cast<int>(std::ceil(middle_m / across_wind_m));
  for (int i = 0; i < count; ++i) {
    strips.push_back({across_wind_m + middle_m * i / count, across_wind_m + middle_m * (i + 1) / count});
  }
  strips.push_back({height_m - across_wind_m, height_m});
  return strips;
}

double external_pressure_coefficient(const DataTable& table, WindZone zone, double area_m2, double slenderness) {
  const std::string name = to_string(zone);
  if (zone != WindZone::d && zone != WindZone::e) return coefficient(table, name, area_m2);
  const auto at = [&](const char* ratio) { return coefficient(table, name + "/" + ratio, area_m2); };
  if (slenderness <= 0.25) return at("0.25");
  if (slenderness <= 1.0) return std::lerp(at("0.25"), at("1"), (slenderness - 0.25) / 0.75);
  return std::lerp(at("1"), at("5"), (slenderness - 1.0) / 4.0);
}

namespace {

/// A size may be given in whole centimetres.
constexpr double kSizeTolerance_m = 0.01;

std::optional<double> read_size(FindingBuilder& builder, const Facade& facade, const Settings& settings,
                                const Vec3& direction, const char* symbol, double extent_m) {
  const bool along_x = std::abs(direction.x) >= std::abs(direction.y);
  const std::string key = along_x ? "building.width_m" : "building.depth_m";
  const char* name =
      along_x ? "size of the building along the project's x axis" : "size of the building along the project's y axis";
  const auto given = settings.number(key);
  if (!given) {
    if (facade.sides == 4) {
      Origin origin;
      origin.entity = "placements of all panels";
      return builder.positive(name, symbol, "m", Sourced<double>{extent_m, origin}, {});
    }
    builder.missing("setting " + key + " (" + name + "; panels stand on " + std::to_string(facade.sides) +
                    " of its 4 sides only, so their extent is not the building's)");
    return std::nullopt;
  }
  const auto size_m = builder.positive(name, symbol, "m", given, {});
  if (size_m && extent_m > *size_m + kSizeTolerance_m) {
    builder.missing("panels reach over " + fixed_text(extent_m, 2) + " m, more than setting " + key + " of " +
                    fixed_text(*size_m, 2) + " m: give the size over their outer faces, or building.block_gap_m when " +
                    "the export holds several blocks");
    return std::nullopt;
  }
  return size_m;
}

/// The pressures of all zones on one panel, added one by one.
class Pressures {
 public:
  Pressures(const WindSite& site, const BlockSize& size, const PanelPlace& place, const InternalCoefficients& internal,
            const DataTable& coefficients, double area_m2)
      : site_(site),
        size_(size),
        place_(place),
        internal_(internal),
        coefficients_(coefficients),
        area_m2_(area_m2),
        top_m_(std::max(size.height_m, place.height.top_m)),
        internal_pressure_pa_(site.at(top_m_).peak_pressure_pa) {}

  void add_windward() {
    const Stretch height{std::max(place_.height.foot_m, 0.0), place_.height.top_m};
    // A panel above the building's height, such as one before a parapet, counts to the uppermost strip.
    for (const Stretch& strip : windward_strips(top_m_, size_.along_m)) {
      const double share = overlap_m(strip, height) / height.length_m();
      if (share * height.length_m() > tolerance::kModelling_m) {
        add("onto the façade", WindZone::d, share, strip.to_m, size_.slenderness_frontal());
      }
    }
  }

  void add_leeward() { add("onto the far side", WindZone::e, 1.0, top_m_, size_.slenderness_frontal()); }

  void add_side(const char* wind, const Stretch& position) {
    for (const ZoneStretch& zone : side_wall_zones(size_.side_zone_length_m(), size_.along_m)) {
      const double length_m = overlap_m(zone.stretch, position);
      if (length_m > tolerance::kModelling_m) {
        add(wind, zone.zone, length_m / position.length_m(), top_m_, size_.slenderness_side());
      }
    }
  }

  std::vector<ZonePressure> done() && { return std::move(result_); }

 private:
  const WindSite& site_;
  const BlockSize& size_;
  const PanelPlace& place_;
  const InternalCoefficients& internal_;
  const DataTable& coefficients_;
  double area_m2_;
  double top_m_;
  double internal_pressure_pa_;  ///< at the top: 7.2.9(7) asks for the height of the openings, which are not known
  std::vector<ZonePressure> result_;

  void add(const char* wind, WindZone zone, double share, double reference_height_m, double slenderness) {
    const PeakVelocityPressure peak = site_.at(reference_height_m);
    ZonePressure pressure;
    pressure.wind = wind;
    pressure.zone = zone;
    pressure.share = share;
    pressure.reference_height_m = reference_height_m;
    pressure.exposure_factor = peak.exposure_factor;
    pressure.external = external_pressure_coefficient(coefficients_, zone, area_m2_, slenderness);
    pressure.internal = pressure.external > 0.0 ? internal_.minimum : internal_.maximum;
    pressure.net_pa = peak.peak_pressure_pa * pressure.external - internal_pressure_pa_ * pressure.internal;
    result_.push_back(std::move(pressure));
  }
};

}  // namespace

std::optional<BlockSize> read_block_size(FindingBuilder& builder, const Facade& facade, const Settings& settings,
                                         double height_m) {
  if (!facade.rectangular) {
    builder.missing(
        "the façades are not the sides of one rectangle, for which alone EN 1991-1-4 7.2.2 has zones: give "
        "Panel_Structure.DesignWindPressure");
    return std::nullopt;
  }
  const auto along_m = read_size(builder, facade, settings, facade.along, "d", facade.extent_m());
  const auto across_m = read_size(builder, facade, settings, facade.outward, "b", facade.depth_m);
  if (!along_m || !across_m) return std::nullopt;
  const BlockSize size{*along_m, *across_m, height_m};
  if (std::max(size.slenderness_frontal(), size.slenderness_side()) > kMaximumSlenderness) {
    builder.missing("the building is more than 5 times as high as deep, where EN 1991-1-4 table 7.1 ends: give " +
                    std::string("Panel_Structure.DesignWindPressure"));
    return std::nullopt;
  }
  return size;
}

InternalCoefficients read_internal_coefficients(FindingBuilder& builder, const Settings& settings) {
  InternalCoefficients result;
  const auto maximum = settings.number("structural.wind.internal_pressure_maximum");
  const auto minimum = settings.number("structural.wind.internal_pressure_minimum");
  if (maximum) {
    result.maximum = builder.number("largest internal pressure coefficient", "c_pi,max", "", maximum, {}).value_or(0.0);
  }
  if (minimum) {
    result.minimum =
        builder.number("smallest internal pressure coefficient", "c_pi,min", "", minimum, {}).value_or(0.0);
  }
  if (result.minimum > result.maximum) {
    builder.missing("setting structural.wind.internal_pressure_minimum must not exceed internal_pressure_maximum");
  }
  return result;
}

PanelPlace place_on_facade(const Panel& panel, const Facade& facade, const BlockSize& size,
                           const HeightAboveGround& height) {
  const Stretch extent = extent_along(panel, facade.along);
  const double unknown_m = std::max(size.along_m - facade.extent_m(), 0.0);
  return {{extent.from_m - facade.from_m, extent.to_m - facade.from_m + unknown_m},
          {facade.to_m - extent.to_m, facade.to_m - extent.from_m + unknown_m},
          height};
}

std::vector<ZonePressure> zone_pressures(const WindSite& site, const BlockSize& size, const PanelPlace& place,
                                         const InternalCoefficients& internal, const DataTable& coefficients,
                                         double area_m2) {
  Pressures pressures(site, size, place, internal, coefficients, area_m2);
  pressures.add_windward();
  pressures.add_leeward();
  pressures.add_side("from the left", place.from_left);
  pressures.add_side("from the right", place.from_right);
  return std::move(pressures).done();
}

}  // namespace panel_dossier::structural
