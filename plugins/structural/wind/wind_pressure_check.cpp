#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/structural/wind/loads.h"
#include "plugins/structural/wind/wind_checks.h"

namespace panel_dossier::structural {

namespace {

/// Of a pressure given for the panel, or by one coefficient: no zones.
constexpr const char* kWithoutZones = "EN 1991-1-4:2005+A1:2010 4.2 to 4.5, 5.2";
constexpr const char* kOverride = "structural.wind.external_pressure_coefficient";

/// Not finite placements give none here, so that no later comparison can pass on them.
std::optional<HeightAboveGround> read_height(FindingBuilder& builder, const Panel& panel, const Project& project,
                                             const Settings& settings) {
  const auto ground = ground_level(project, settings);
  if (!ground) {
    builder.missing("setting building.ground_level_m (no storey has an elevation)");
    return std::nullopt;
  }
  const HeightAboveGround height = height_above_ground(panel, *ground);
  if (!std::isfinite(height.top_m)) {
    builder.missing("placement and height of the panel (" + describe(panel.height_m.origin) + ")");
    return std::nullopt;
  }
  if (height.top_m <= 0.0 || height.top_m <= height.foot_m) {
    builder.missing("the top of the panel is " + fixed_text(height.top_m, 2) + " m above ground at " +
                    fixed_text(ground->level_m.value, 2) + " m (" + describe(ground->level_m.origin) +
                    "): a height above ground must be greater than zero");
    return std::nullopt;
  }
  builder.number("ground level", "", "m", ground->level_m, {});
  if (ground->assumed) builder.note(ground_note(*ground));
  return height;
}

/// The building's height, or the panel's top where that is higher; none, with the reason noted, above 200 m.
std::optional<double> reference_height(FindingBuilder& builder, const Panel& panel, const WindSite& site,
                                       const HeightAboveGround& height) {
  if (height.top_m > site.building_height_m) {
    builder.number("top of the panel above ground", "z_top", "m", Sourced<double>{height.top_m, panel.height_m.origin},
                   {});
  }
  const double reference_m = std::max(site.building_height_m, height.top_m);
  if (reference_m <= kMaximumWindHeight_m) return reference_m;
  builder.missing("reference height above 200 m, where EN 1991-1-4 4.3.2 ends");
  return std::nullopt;
}

const char* reference_formula(const WindSite& site, const HeightAboveGround& height) {
  return height.top_m > site.building_height_m ? "z_e = max(h; z_top)" : "z_e = h";
}

/// A calculated pressure goes back to the wind velocity above all.
const Origin& velocity_origin(const WindSite& site) {
  return site.fundamental_velocity_m_per_s.origin;
}

PanelWind without_pressure(FindingBuilder& builder) {
  PanelWind result;
  result.finding = builder.not_assessed();
  result.on_parts.why_none =
      kWindPressureCheck.id + " is " + std::string(to_string(result.finding.verdict)) + ": " + result.finding.reason;
  return result;
}

const Facade* facade_of(FindingBuilder& builder, const Panel& panel, const Project& project,
                        const FacadeLayout& facades) {
  const auto index = static_cast<std::size_t>(&panel - project.panels.data());
  if (const auto facade = facades.facade[index]) return &facades.facades[*facade];
  builder.missing(
      "the façade of the panel: it must stand upright with a placement, and its outer face must be known (material "
      "layers, or setting intake.layer_order)");
  return nullptr;
}

double extreme(const std::vector<ZonePressure>& pressures, bool inward) {
  double result_pa = 0.0;
  for (const ZonePressure& one : pressures) {
    result_pa = inward ? std::max(result_pa, one.net_pa) : std::min(result_pa, one.net_pa);
  }
  return result_pa;
}

double largest(const std::vector<ZonePressure>& pressures) {
  return std::max(extreme(pressures, true), -extreme(pressures, false));
}

Table zone_table(const std::vector<ZonePressure>& pressures) {
  Table table;
  table.title = "Wind zones on the panel (left and right as seen from outside; w_i > 0 towards the building)";
  table.columns = {{"wind", ""},     {"zone", ""}, {"share", "%"}, {"z_e", "m"},
                   {"c_e(z_e)", ""}, {"c_pe", ""}, {"c_pi", ""},   {"w_i", "Pa"}};
  for (const ZonePressure& one : pressures) {
    table.rows.push_back({one.wind, std::string(to_string(one.zone)), 100.0 * one.share, one.reference_height_m,
                          one.exposure_factor, one.external, one.internal, one.net_pa});
  }
  return table;
}

void add_notes(FindingBuilder& builder, const Facade& facade, const BlockSize& size) {
  const double unknown_m = size.along_m - facade.extent_m();
  if (unknown_m > 0.1) {
    builder.note("The export's panels leave " + fixed_text(unknown_m, 2) +
                 " m of the façade open, and on which side is not known: each panel is taken to reach over it.");
  }
  builder.note(
      "The worst zone that the panel touches holds for the whole panel. c_pe is that of the panel's area; studs, rails "
      "and "
      "fixings carry less and are checked with w_1. Parapets (7.4), recesses and neighbouring buildings are not "
      "included.");
}

void add_parapet_note(FindingBuilder& builder, double above_building_m) {
  if (above_building_m <= 0.01) return;
  builder.note("The panel stands " + fixed_text(above_building_m, 2) +
               " m above the building's height: that part is a parapet, whose pressures by 7.4 are not in the zones.");
}

/// All that the zones of one panel give.
struct ZoneResult {
  WindSite site;
  BlockSize size;
  const Facade* facade = nullptr;
  HeightAboveGround height;
  double reference_m = 0.0;
  double above_building_m = 0.0;  ///< of the panel's top; 0 where it ends below
  std::vector<ZonePressure> pressures;
  double on_parts_pa = 0.0;  ///< w_1
};

/// None, with what is missing noted in the builder.
std::optional<ZoneResult> read_zones(FindingBuilder& builder, const Panel& panel, const Project& project,
                                     const Settings& settings, const Tables& tables, const FacadeLayout& facades) {
  ZoneResult result;
  result.site = read_site(builder, settings, tables);
  const InternalCoefficients internal = read_internal_coefficients(builder, settings);
  const auto external = panel.properties.logical("Pset_WallCommon", "IsExternal");
  if (external && !external->value) {
    builder.missing("Panel_Structure.DesignWindPressure (the panel is not external, and zones are of outer walls)");
  }
  const auto height = read_height(builder, panel, project, settings);
  result.facade = facade_of(builder, panel, project, facades);
  const auto size = result.facade && result.site.building_height_m > 0.0
                        ? read_block_size(builder, *result.facade, settings, result.site.building_height_m)
                        : std::nullopt;
  if (builder.incomplete()) return std::nullopt;
  const auto reference_m = reference_height(builder, panel, result.site, *height);
  if (!reference_m) return std::nullopt;
  result.size = *size;
  result.height = *height;
  result.reference_m = *reference_m;
  result.above_building_m = std::max(0.0, height->top_m - result.site.building_height_m);
  const PanelPlace place = place_on_facade(panel, *result.facade, result.size, *height);
  const auto pressures_for = [&](double area_m2) {
    return zone_pressures(result.site, result.size, place, internal, tables.wall_pressure_coefficients, area_m2);
  };
  result.pressures = pressures_for(panel.gross_area_m2());
  result.on_parts_pa = largest(pressures_for(1.0));
  return result;
}

PanelWind pressure_by_zones(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                            const FacadeLayout& facades) {
  FindingBuilder builder(kWindPressureCheck, panel.global_id);
  builder.decimals(0);
  const auto zones = read_zones(builder, panel, project, settings, tables, facades);
  if (!zones) return without_pressure(builder);
  const double pressure_pa = largest(zones->pressures);
  builder.number("width of the panel", "B", "m", panel.width_m, {});
  builder.number("height of the panel", "H", "m", panel.height_m, {});
  builder.step("reference height", "z_e", zones->reference_m, "m", reference_formula(zones->site, zones->height));
  add_site_steps(builder, zones->site, zones->reference_m);
  builder.step("loaded area of the panel", "A", panel.gross_area_m2(), "m²", "A = B · H")
      .step("length of zones A and B, wind along the façade", "e", zones->size.side_zone_length_m(), "m",
            "e = min(b; 2 · h)")
      .step("largest pressure towards the building", "w_in", extreme(zones->pressures, true), "Pa",
            "w_in = max(0; w_i)")
      .step("largest suction", "w_out", extreme(zones->pressures, false), "Pa", "w_out = min(0; w_i)")
      .step("largest for a loaded area of 1 m², likewise with c_pe,1", "w_1", zones->on_parts_pa, "Pa")
      .step("wind pressure", "w", pressure_pa, "Pa", "w = max(|w_in|; |w_out|)")
      .table(zone_table(zones->pressures));
  add_notes(builder, *zones->facade, zones->size);
  builder.note("Pressure of a zone: w_i = q_p(z_e) · c_pe − q_p(z_i) · c_pi, with z_i the top of the building.");
  add_parapet_note(builder, zones->above_building_m);
  const double on_parts_pa = std::max(pressure_pa, zones->on_parts_pa);
  return {builder.inform(pressure_pa, "Pa"), {Sourced<double>{on_parts_pa, velocity_origin(zones->site)}, {}}};
}

/// What was given instead of zones may be lower than their result by so much: sizes and coefficients are rounded.
constexpr double kLowerBy = 0.05;

/// Why the entry of the settings' list `confirmed_values` holds for a value; empty where nobody confirmed it.
std::string confirmed_because(const Settings& settings, std::string_view name, const std::string& mark, double value) {
  for (std::size_t i = 0;; ++i) {
    const std::string key = "confirmed_values." + std::to_string(i) + ".";
    const auto named = settings.text(key + "name");
    if (!named) return {};
    const auto of = settings.text(key + "of");
    const auto given = settings.number(key + "value");
    const auto reason = settings.text(key + "reason");
    if (named->value != name || (of && of->value != mark) || !given || !reason) continue;
    if (std::abs(given->value - value) <= 1e-9 * std::abs(value)) return reason->value;
  }
}

/// A pressure or coefficient that stands in place of the zones' result, beside that result where it can be worked out.
struct GivenWind {
  std::string name;          ///< `Panel_Structure.DesignWindPressure` or the key of the setting
  Sourced<double> value;     ///< of the property or setting
  double pressure_pa = 0.0;  ///< that it gives
};

struct ZoneComparison {
  std::string contradiction;  ///< why the given value contradicts the zones' result; empty where it does not
  double on_parts_pa = 0.0;   ///< for studs, rails and lintels: not below the zones' result for 1 m², unless confirmed
};

/// Adds the zones' result for comparison; where the zones cannot be worked out, that is noted.
ZoneComparison against_zones(FindingBuilder& builder, const Panel& panel, const Project& project,
                             const Settings& settings, const Tables& tables, const FacadeLayout& facades,
                             const GivenWind& given) {
  ZoneComparison as_given{{}, given.pressure_pa};
  FindingBuilder unused(kWindPressureCheck, panel.global_id);
  const auto zones = read_zones(unused, panel, project, settings, tables, facades);
  if (!zones) {
    builder.note("Not compared with the zones of EN 1991-1-4 7.2.2, which cannot be worked out without: " +
                 unused.not_assessed().reason + ".");
    return as_given;
  }
  const double by_zones_pa = largest(zones->pressures);
  builder.step("for comparison: zones of the façade, area of the panel, 7.2.2", "w_z", by_zones_pa, "Pa")
      .step("for comparison: the same for a loaded area of 1 m²", "w_z,1", zones->on_parts_pa, "Pa");
  add_parapet_note(builder, zones->above_building_m);
  const std::string both = given.name + " of " + shortest_text(given.value.value) + " (" +
                           describe(given.value.origin) + ") gives " + fixed_text(given.pressure_pa, 0) +
                           " Pa, but the wind zones of the façade by the settings structural.wind and building give " +
                           fixed_text(by_zones_pa, 0) + " Pa on the panel";
  if (given.pressure_pa < (1.0 - kLowerBy) * by_zones_pa) {
    const std::string why = confirmed_because(settings, given.name, panel.mark, given.value.value);
    if (why.empty()) {
      return {both + ": lower by more than " + fixed_text(100.0 * kLowerBy, 0) +
                  " %; correct one of them, or confirm the lower one with a reason under 'confirmed_values' of the "
                  "settings",
              0.0};
    }
    builder.note(both + ". Confirmed in the settings: " + why + ".");
    return as_given;
  }
  if (zones->on_parts_pa <= given.pressure_pa) return as_given;
  builder.note(
      "The given pressure is below that of the zones for a loaded area of 1 m², which the checks of studs, "
      "rails and lintels use instead.");
  return {{}, zones->on_parts_pa};
}

PanelWind contradicted(FindingBuilder& builder, const std::string& why) {
  PanelWind result;
  result.finding = builder.not_assessed(why);
  result.on_parts.why_none = kWindPressureCheck.id + " is not assessed: " + why;
  return result;
}

/// One coefficient for the whole envelope, given by the engineer.
PanelWind pressure_by_one_coefficient(const Panel& panel, const Project& project, const Settings& settings,
                                      const Tables& tables, const FacadeLayout& facades) {
  FindingBuilder builder(kWindPressureCheck, panel.global_id);
  builder.clause(kWithoutZones).decimals(0);
  const WindSite site = read_site(builder, settings, tables);
  const auto coefficient = builder.positive("net pressure coefficient, external and internal together", "c_p,net", "",
                                            settings.number(kOverride), {});
  const auto height = read_height(builder, panel, project, settings);
  if (builder.incomplete()) return without_pressure(builder);
  const auto reference_m = reference_height(builder, panel, site, *height);
  if (!reference_m) return without_pressure(builder);
  const double pressure_pa = site.at(*reference_m).peak_pressure_pa * *coefficient;
  builder.step("reference height", "z_e", *reference_m, "m", reference_formula(site, *height));
  add_site_steps(builder, site, *reference_m);
  builder.step("wind pressure", "w", pressure_pa, "Pa", "w = q_p · c_p,net")
      .note(
          "The reference height is that of the whole building (EN 1991-1-4 7.2.2, building not taller than wide); "
          "safe for every panel below it.")
      .note(
          "One pressure coefficient for the whole envelope: zones A to E and panel areas below 10 m² are not told "
          "apart; the coefficient must cover them. Funnelling between buildings is not included.");
  const GivenWind given{kOverride, *settings.number(kOverride), pressure_pa};
  const ZoneComparison compared = against_zones(builder, panel, project, settings, tables, facades, given);
  if (!compared.contradiction.empty()) return contradicted(builder, compared.contradiction);
  return {builder.inform(pressure_pa, "Pa"), {Sourced<double>{compared.on_parts_pa, velocity_origin(site)}, {}}};
}

/// The engineer's value stands unless the zones give clearly more; a reader sees both.
PanelWind declared_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                            const FacadeLayout& facades, const Sourced<double>& pressure) {
  FindingBuilder builder(kWindPressureCheck, panel.global_id);
  builder.clause(kWithoutZones).basis(Basis::declared).decimals(0);
  const auto value = builder.positive("wind pressure given for the panel", "w_k", "Pa", pressure, {});
  if (!value) return without_pressure(builder);
  builder.step("pressure on the panel, as given", "w", *value, "Pa", "w = w_k");
  builder.note("Taken from the export as the structural engineer's value; not calculated here.");
  const GivenWind given{"Panel_Structure.DesignWindPressure", pressure, *value};
  const ZoneComparison compared = against_zones(builder, panel, project, settings, tables, facades, given);
  if (!compared.contradiction.empty()) return contradicted(builder, compared.contradiction);
  return {builder.inform(*value, "Pa"), {Sourced<double>{compared.on_parts_pa, pressure.origin}, {}}};
}

}  // namespace

std::vector<CheckInput> wind_inputs() {
  return {
      optional_property("Panel_Structure.DesignWindPressure"),
      optional_property("Pset_WallCommon.IsExternal"),
      optional_setting("structural.national_annex"),
      optional_setting("structural.wind.procedure"),
      optional_setting("structural.wind.basic_velocity_m_per_s"),
      optional_setting("structural.wind.site_altitude_m"),
      optional_setting("structural.wind.terrain_category"),
      optional_setting("structural.wind.direction_factor"),
      optional_setting("structural.wind.season_factor"),
      optional_setting("structural.wind.annual_probability"),
      optional_setting("structural.wind.orography_factor"),
      optional_setting("structural.wind.upwind_slope"),
      optional_setting("structural.wind.orographic_location_factor"),
      optional_setting("structural.wind.external_pressure_coefficient"),
      optional_setting("structural.wind.internal_pressure_maximum"),
      optional_setting("structural.wind.internal_pressure_minimum"),
      optional_setting("building.height_m"),
      optional_setting("building.width_m"),
      optional_setting("building.depth_m"),
      optional_setting("building.ground_level_m"),
      optional_setting("building.block_gap_m"),
      optional_setting("confirmed_values.*"),
      data_table("national_annex.csv"),
      data_table("terrain_categories.csv"),
      data_table("wall_pressure_coefficients.csv"),
  };
}

const CheckDeclaration kWindPressureCheck{
    .id = "structural.wind_pressure",
    .title = "Characteristic wind pressure",
    .project_title = "Characteristic wind pressure, largest of all panels",
    .sentence =
        "The characteristic wind pressure on a panel is the one given for it, else the peak velocity pressure "
        "times one given coefficient, else the largest by the wind zones of the façade that the panel stands "
        "in, inward or outward.",
    .clause = "EN 1991-1-4:2005+A1:2010 4.2 to 4.5, 5.2, 7.2.1, 7.2.2, 7.2.9",
    .other_clauses = {kWithoutZones, kFacadesClause},
    .units = {"Pa"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = wind_inputs(),
    .limits = {
        "Zones are those of rectangular blocks up to 5 times as high as deep and 200 m high; other plans need a "
        "given pressure.",
        "Parapets, recesses, neighbouring buildings, dominant openings (7.2.9(4) and (5)) and friction are not "
        "worked out.",
        "The location factor of a hill is read from the settings, not from the figures of annex A.",
        "A given pressure or coefficient is taken as it stands where the zones cannot be worked out, and where they "
        "give up to 5 % more."}};

PanelWind wind_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                        const FacadeLayout& facades) {
  if (const auto given = panel.properties.number("Panel_Structure", "DesignWindPressure")) {
    return declared_pressure(panel, project, settings, tables, facades, *given);
  }
  if (settings.number(kOverride)) return pressure_by_one_coefficient(panel, project, settings, tables, facades);
  return pressure_by_zones(panel, project, settings, tables, facades);
}

}  // namespace panel_dossier::structural
