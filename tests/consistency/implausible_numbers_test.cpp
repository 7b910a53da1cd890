// Every number of the sample's export, a thousand times off: refused or withheld by the intake.
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "core/api/support/words.h"
#include "core/api/testing/properties.h"
#include "core/intake/graph/property_list.h"
#include "tests/consistency/wrong_project.h"

using namespace panel_dossier;
using namespace panel_dossier::consistency;
using namespace panel_dossier::testing;

namespace {

const std::filesystem::path kSourceDir = PANEL_DOSSIER_SOURCE_DIR;

/// Full names of the properties of the sample that hold a number other than 0, with one of the numbers.
std::map<std::string, double> numbers_of(const Project& project) {
  std::map<std::string, double> numbers;
  const auto take = [&](const Properties& properties) {
    for (const auto& [name, property] : properties.all()) {
      const double* number = std::get_if<double>(&property.value);
      if (number != nullptr && *number != 0.0) numbers.emplace(name, *number);
    }
  };
  for (const Material& material : project.materials) take(material.properties);
  for (const Panel& panel : project.panels) {
    take(panel.properties);
    for (const Part& part : panel.parts) take(part.properties);
    for (const Opening& opening : panel.openings) take(opening.filling_properties);
  }
  return numbers;
}

std::vector<PropertyRow> known_rows() {
  Reporter report("lists");
  std::vector<std::filesystem::path> files{kSourceDir / "schemas/model_properties.csv"};
  for (const char* plugin : {"carbon", "fire", "quantities", "structural", "thermal"}) {
    files.push_back(kSourceDir / "plugins" / plugin / "properties.csv");
  }
  return read_property_lists(load_property_lists(files, report), report);
}

const PropertyRow* row_of(const std::vector<PropertyRow>& rows, const std::string& name) {
  for (const PropertyRow& row : rows) {
    if (row.set + "." + row.property == name) return &row;
  }
  return nullptr;
}

bool is_withheld(const Project& project, const std::string& name) {
  bool found = false;
  const auto look = [&](const Properties& properties) { found = found || properties.withheld().contains(name); };
  for (const Material& material : project.materials) look(material.properties);
  for (const Panel& panel : project.panels) {
    look(panel.properties);
    for (const Part& part : panel.parts) look(part.properties);
    for (const Opening& opening : panel.openings) look(opening.filling_properties);
  }
  return found;
}

/// Whether a thousandth or a thousandfold of the number must be noticed: the bounds of a declaration's figures hold for
/// a kilogram and for a cubic metre, so only what they add up to tells; a count, an order and a limit of a field of
/// application may be any; a load and a distance may be small.
bool may_be_any(const std::string& name, double factor) {
  static const std::set<std::string> kAny{"Panel_Identity.ErectionOrder", "Panel_FastenerQuantities.Count",
                                          "Panel_FastenerQuantities.GrossWeight", "Panel_Timber.MoistureContent",
                                          "Panel_Timber.ReferenceMoistureContent"};
  static const std::set<std::string> kMayBeSmall{
      "Panel_FireEvidence.MaxLoad",        "Panel_EnvironmentalDeclaration.WasteRateA5",
      "Panel_Structure.RackingLoad",       "Panel_Window.EdgeTransmittance",
      "Panel_Junction.ParapetHeight",      "Panel_Fastener.Adjustment",
      "Panel_Thermal.DeclaredTemperature", "Panel_Junction.HeadTransmittance",
      "Panel_Junction.LeftTransmittance",  "Panel_Junction.RightTransmittance"};
  if (name.starts_with("Panel_EnvironmentalDeclaration.Gwp")) return true;
  return kAny.contains(name) || (factor < 1.0 && kMayBeSmall.contains(name));
}

}  // namespace

TEST_CASE("A number of the export that is a thousand times off is refused or withheld", "[plain]") {
  const Outcome sound = outcome_of({}, {});
  REQUIRE_FALSE(sound.refused);
  const std::vector<PropertyRow> rows = known_rows();
  std::size_t tried = 0;
  for (const auto& [name, number] : numbers_of(sound.project)) {
    if (row_of(rows, name) == nullptr) continue;  // nothing reads it
    for (const double factor : {1000.0, 0.001}) {
      if (may_be_any(name, factor)) continue;
      const Outcome outcome = outcome_of(scale_property(name, factor), {});
      INFO(name << " " << number << " times " << factor);
      CHECK((outcome.refused || is_withheld(outcome.project, name)));
      ++tried;
    }
  }
  CHECK(tried > 80);
}
