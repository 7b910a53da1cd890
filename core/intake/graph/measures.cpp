#include "core/intake/graph/measures.h"

#include <unordered_map>

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
    {"IfcDuration", text, "", ""},
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

}  // namespace panel_dossier
