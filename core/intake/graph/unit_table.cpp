#include "core/intake/graph/unit_table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/api/support/units.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

using enum MeasureKind;

// ISO 16739-1:2018, IfcMeasureResource (from memory); the symbols are those of the coherent SI unit.
constexpr Measure kMeasures[] = {
    {"IfcLengthMeasure", quantity, "LENGTHUNIT", "m"},
    {"IfcPositiveLengthMeasure", quantity, "LENGTHUNIT", "m"},
    {"IfcNonNegativeLengthMeasure", quantity, "LENGTHUNIT", "m"},
    {"IfcAreaMeasure", quantity, "AREAUNIT", "m²"},
    {"IfcVolumeMeasure", quantity, "VOLUMEUNIT", "m³"},
    {"IfcMassMeasure", quantity, "MASSUNIT", "kg"},
    {"IfcTimeMeasure", quantity, "TIMEUNIT", "s"},
    {"IfcPlaneAngleMeasure", quantity, "PLANEANGLEUNIT", "rad"},
    {"IfcPositivePlaneAngleMeasure", quantity, "PLANEANGLEUNIT", "rad"},
    {"IfcThermodynamicTemperatureMeasure", quantity, "THERMODYNAMICTEMPERATUREUNIT", "K"},
    {"IfcForceMeasure", quantity, "FORCEUNIT", "N"},
    {"IfcPressureMeasure", quantity, "PRESSUREUNIT", "Pa"},
    {"IfcPowerMeasure", quantity, "POWERUNIT", "W"},
    {"IfcEnergyMeasure", quantity, "ENERGYUNIT", "J"},
    {"IfcFrequencyMeasure", quantity, "FREQUENCYUNIT", "Hz"},
    {"IfcThermalTransmittanceMeasure", quantity, "THERMALTRANSMITTANCEUNIT", "W/(m²·K)"},
    {"IfcThermalConductivityMeasure", quantity, "THERMALCONDUCTANCEUNIT", "W/(m·K)"},
    {"IfcThermalResistanceMeasure", quantity, "THERMALRESISTANCEUNIT", "m²·K/W"},
    {"IfcSpecificHeatCapacityMeasure", quantity, "SPECIFICHEATCAPACITYUNIT", "J/(kg·K)"},
    {"IfcMassDensityMeasure", quantity, "MASSDENSITYUNIT", "kg/m³"},
    {"IfcAreaDensityMeasure", quantity, "AREADENSITYUNIT", "kg/m²"},
    {"IfcMassPerLengthMeasure", quantity, "MASSPERLENGTHUNIT", "kg/m"},
    {"IfcLinearForceMeasure", quantity, "LINEARFORCEUNIT", "N/m"},
    {"IfcPlanarForceMeasure", quantity, "PLANARFORCEUNIT", "Pa"},
    {"IfcModulusOfElasticityMeasure", quantity, "MODULUSOFELASTICITYUNIT", "Pa"},
    {"IfcShearModulusMeasure", quantity, "SHEARMODULUSUNIT", "Pa"},
    {"IfcVaporPermeabilityMeasure", quantity, "VAPORPERMEABILITYUNIT", "kg/(m·s·Pa)"},
    {"IfcVolumetricFlowRateMeasure", quantity, "VOLUMETRICFLOWRATEUNIT", "m³/s"},
    {"IfcHeatingValueMeasure", quantity, "HEATINGVALUEUNIT", "J/kg"},
    {"IfcRatioMeasure", pure_number, "", ""},
    {"IfcPositiveRatioMeasure", pure_number, "", ""},
    {"IfcNormalisedRatioMeasure", pure_number, "", ""},
    {"IfcReal", pure_number, "", ""},
    {"IfcInteger", pure_number, "", ""},
    {"IfcPositiveInteger", pure_number, "", ""},
    {"IfcCountMeasure", pure_number, "", ""},
    {"IfcNumericMeasure", pure_number, "", ""},
    {"IfcBoolean", logical, "", ""},
    {"IfcLogical", logical, "", ""},
    {"IfcLabel", text, "", ""},
    {"IfcText", text, "", ""},
    {"IfcIdentifier", text, "", ""},
    {"IfcDescriptiveMeasure", text, "", ""},
    {"IfcURIReference", text, "", ""},
    {"IfcDate", text, "", ""},
    {"IfcDateTime", text, "", ""},
    {"IfcTime", text, "", ""},
    {"IfcDuration", duration, "", "s"},
};

}  // namespace

const Measure* find_measure(std::string_view type) {
  static const std::unordered_map<std::string_view, const Measure*> by_type = [] {
    std::unordered_map<std::string_view, const Measure*> index;
    for (const Measure& measure : kMeasures) index.emplace(measure.type, &measure);
    return index;
  }();
  const auto found = by_type.find(type);
  return found == by_type.end() ? nullptr : found->second;
}

namespace {

using namespace std::string_view_literals;

struct SiName {
  std::string_view name;
  std::string_view unit_type;
  double factor;        ///< to the coherent SI unit
  double prefix_power;  ///< MILLI SQUARE_METRE is mm²: the prefix belongs to the metre
};

// IfcSIUnitName and IfcUnitEnum, ISO 16739-1:2018 (from memory), as far as the measures that are read need them.
constexpr std::array kSiNames{
    SiName{"METRE", "LENGTHUNIT", 1.0, 1.0},
    SiName{"SQUARE_METRE", "AREAUNIT", 1.0, 2.0},
    SiName{"CUBIC_METRE", "VOLUMEUNIT", 1.0, 3.0},
    SiName{"GRAM", "MASSUNIT", 1e-3, 1.0},
    SiName{"SECOND", "TIMEUNIT", 1.0, 1.0},
    SiName{"KELVIN", "THERMODYNAMICTEMPERATUREUNIT", 1.0, 1.0},
    SiName{"DEGREE_CELSIUS", "THERMODYNAMICTEMPERATUREUNIT", 1.0, 1.0},
    SiName{"RADIAN", "PLANEANGLEUNIT", 1.0, 1.0},
    SiName{"STERADIAN", "SOLIDANGLEUNIT", 1.0, 1.0},
    SiName{"NEWTON", "FORCEUNIT", 1.0, 1.0},
    SiName{"PASCAL", "PRESSUREUNIT", 1.0, 1.0},
    SiName{"JOULE", "ENERGYUNIT", 1.0, 1.0},
    SiName{"WATT", "POWERUNIT", 1.0, 1.0},
    SiName{"HERTZ", "FREQUENCYUNIT", 1.0, 1.0},
    SiName{"AMPERE", "ELECTRICCURRENTUNIT", 1.0, 1.0},
    SiName{"VOLT", "ELECTRICVOLTAGEUNIT", 1.0, 1.0},
    SiName{"OHM", "ELECTRICRESISTANCEUNIT", 1.0, 1.0},
    SiName{"COULOMB", "ELECTRICCHARGEUNIT", 1.0, 1.0},
    SiName{"FARAD", "ELECTRICCAPACITANCEUNIT", 1.0, 1.0},
    SiName{"SIEMENS", "ELECTRICCONDUCTANCEUNIT", 1.0, 1.0},
    SiName{"HENRY", "INDUCTANCEUNIT", 1.0, 1.0},
    SiName{"WEBER", "MAGNETICFLUXUNIT", 1.0, 1.0},
    SiName{"TESLA", "MAGNETICFLUXDENSITYUNIT", 1.0, 1.0},
    SiName{"CANDELA", "LUMINOUSINTENSITYUNIT", 1.0, 1.0},
    SiName{"LUMEN", "LUMINOUSFLUXUNIT", 1.0, 1.0},
    SiName{"LUX", "ILLUMINANCEUNIT", 1.0, 1.0},
    SiName{"MOLE", "AMOUNTOFSUBSTANCEUNIT", 1.0, 1.0},
    SiName{"BECQUEREL", "RADIOACTIVITYUNIT", 1.0, 1.0},
    SiName{"GRAY", "ABSORBEDDOSEUNIT", 1.0, 1.0},
    SiName{"SIEVERT", "DOSEEQUIVALENTUNIT", 1.0, 1.0},
};

constexpr std::array kPrefixes{
    std::pair{"EXA"sv, 1e18},  std::pair{"PETA"sv, 1e15},  std::pair{"TERA"sv, 1e12},   std::pair{"GIGA"sv, 1e9},
    std::pair{"MEGA"sv, 1e6},  std::pair{"KILO"sv, 1e3},   std::pair{"HECTO"sv, 1e2},   std::pair{"DECA"sv, 1e1},
    std::pair{"DECI"sv, 1e-1}, std::pair{"CENTI"sv, 1e-2}, std::pair{"MILLI"sv, 1e-3},  std::pair{"MICRO"sv, 1e-6},
    std::pair{"NANO"sv, 1e-9}, std::pair{"PICO"sv, 1e-12}, std::pair{"FEMTO"sv, 1e-15}, std::pair{"ATTO"sv, 1e-18},
};

constexpr int kMaxUnitDepth = 8;
constexpr double kMaxExponent = 10.0;

std::optional<double> prefix_factor(const std::string& prefix) {
  if (prefix.empty()) return 1.0;
  const auto found = std::find_if(kPrefixes.begin(), kPrefixes.end(), [&](const auto& p) { return p.first == prefix; });
  if (found == kPrefixes.end()) return std::nullopt;
  return found->second;
}

const SiName* find_si_name(const std::string& name) {
  const auto found = std::find_if(kSiNames.begin(), kSiNames.end(), [&](const SiName& n) { return n.name == name; });
  return found == kSiNames.end() ? nullptr : &*found;
}

}  // namespace

UnitTable::UnitTable(const ReadContext& context, const Element& project) : context_(context) {
  const Element assignment = context.graph.entity(project, "UnitsInContext");
  if (!assignment) {
    context_.report.error(project, "has no UnitsInContext", "export the unit assignment with at least a length unit");
    return;
  }
  for (const Element& entity : context.graph.entities(assignment, "Units")) {
    if (ifc_type(entity) == "IfcMonetaryUnit") continue;
    const Known& found = unit(entity);
    if (!found.scale) continue;
    if (!assigned_.emplace(found.unit_type, *found.scale).second) {
      context_.report.error(entity, "the project assigns a second " + found.unit_type, "keep one unit of each type");
    }
  }
  const auto length = assigned_.find("LENGTHUNIT");
  if (length != assigned_.end()) {
    length_factor_ = length->second.factor;
  } else {
    context_.report.error(assignment, "no usable unit of type LENGTHUNIT is assigned",
                          "assign METRE, MILLI METRE or a conversion-based unit of length");
  }
}

const UnitTable::Known& UnitTable::unit(const Element& entity, int depth) {
  const auto found = known_.find(entity.key());
  if (found != known_.end()) return found->second;
  // Entered as unknown first, so that a unit defined by itself ends here.
  known_[entity.key()] = {};
  Known read = depth > kMaxUnitDepth ? unknown(entity, "of more than 8 levels") : read_unit(entity, depth);
  return known_[entity.key()] = std::move(read);
}

UnitTable::Known UnitTable::read_unit(const Element& entity, int depth) {
  const std::string_view type = ifc_type(entity);
  if (type == "IfcSIUnit") return si_unit(entity);
  if (type == "IfcConversionBasedUnit" || type == "IfcConversionBasedUnitWithOffset") {
    return conversion_based_unit(entity, depth);
  }
  if (type == "IfcDerivedUnit") return derived_unit(entity, depth);
  std::string name = context_.graph.text(entity, "Name");
  return unknown(entity, name.empty() ? std::string(type) : name);
}

UnitTable::Known UnitTable::unknown(const Element& entity, const std::string& name) {
  context_.report.error(entity, "unknown unit '" + name + "'",
                        "use an SI unit, or a conversion-based or derived unit made of SI units");
  return {};
}

UnitTable::Known UnitTable::si_unit(const Element& entity) {
  const std::string name = enumeration_token(context_.graph.text(entity, "Name"));
  const std::string prefix = enumeration_token(context_.graph.text(entity, "Prefix"));
  const std::string stated_type = enumeration_token(context_.graph.text(entity, "UnitType"));
  const SiName* si = find_si_name(name);
  const auto scale = prefix_factor(prefix);
  if (si == nullptr || !scale) return unknown(entity, prefix.empty() ? name : prefix + " " + name);
  if (!stated_type.empty() && stated_type != si->unit_type) {
    context_.report.error(entity, "unit '" + name + "' is no " + stated_type, "state a unit that fits its UnitType");
    return {};
  }
  const double offset = name == "DEGREE_CELSIUS" ? units::kZeroCelsius_K : 0.0;
  return {std::string(si->unit_type), UnitScale{si->factor * std::pow(*scale, si->prefix_power), offset}};
}

UnitTable::Known UnitTable::conversion_based_unit(const Element& entity, int depth) {
  const std::string name = context_.graph.text(entity, "Name");
  const Element factor = context_.graph.entity(entity, "ConversionFactor");
  const Element base = factor ? context_.graph.entity(factor, "UnitComponent") : Element();
  const auto value = factor ? number(context_, factor, "ValueComponent") : std::nullopt;
  if (!base || !value || *value <= 0.0) return unknown(entity, name);
  const Known of = unit(base, depth + 1);
  if (!of.scale) return {};
  const std::string stated_type = enumeration_token(context_.graph.text(entity, "UnitType"));
  const double shift = number(context_, entity, "ConversionOffset").value_or(0.0);
  UnitScale scale{of.scale->factor * *value, of.scale->offset + shift * of.scale->factor * *value};
  return {stated_type.empty() ? of.unit_type : stated_type, scale};
}

UnitTable::Known UnitTable::derived_unit(const Element& entity, int depth) {
  std::string unit_type = enumeration_token(context_.graph.text(entity, "UnitType"));
  double factor = 1.0;
  const std::vector<Element> elements = context_.graph.entities(entity, "Elements");
  if (elements.empty()) return unknown(entity, unit_type);
  for (const Element& element : elements) {
    const Element base = context_.graph.entity(element, "Unit");
    const auto exponent = required_number(context_, element, "Exponent");
    if (!base || !exponent || std::abs(*exponent) > kMaxExponent) return unknown(entity, unit_type);
    const Known of = unit(base, depth + 1);
    if (!of.scale) return {};
    factor *= std::pow(of.scale->factor, *exponent);
  }
  if (!std::isfinite(factor) || factor <= 0.0) return unknown(entity, unit_type);
  return {std::move(unit_type), UnitScale{factor, 0.0}};
}

UnitScale UnitTable::assigned(const Measure& measure) {
  const auto found = assigned_.find(measure.unit_type);
  if (found != assigned_.end()) return found->second;
  // Without an assigned unit the coherent SI unit is meant. Areas and volumes are worth a word where lengths are not
  // in metres, since some exporters then mean the square and cube of their unit of length.
  const bool is_ambiguous = length_factor_ != 1.0 && (measure.symbol == "m²" || measure.symbol == "m³");
  if (is_ambiguous && warned_.emplace(std::string(measure.unit_type), true).second) {
    context_.report.file_warning("no unit of type " + std::string(measure.unit_type) +
                                     " is assigned; its values are read in " + std::string(measure.symbol),
                                 "assign the unit to settle it");
  }
  return {};
}

std::optional<double> UnitTable::to_si(double value, const Measure& measure, const Element& own_unit) {
  if (measure.kind != MeasureKind::quantity && !own_unit) return value;
  UnitScale scale;
  if (own_unit) {
    const Known& own = unit(own_unit);
    if (!own.scale) return std::nullopt;
    scale = *own.scale;
  } else {
    scale = assigned(measure);
  }
  return value * scale.factor + scale.offset;
}

}  // namespace panel_dossier
