#include "sample_project/generator/properties.h"

#include <utility>

#include "sample_project/generator/export_writer.h"

namespace sample_export {

Property label(std::string name, std::string value) {
  return {std::move(name), "IfcLabel", std::move(value), {}};
}

Property text(std::string name, std::string value) {
  return {std::move(name), "IfcText", std::move(value), {}};
}

Property identifier(std::string name, std::string value) {
  return {std::move(name), "IfcIdentifier", std::move(value), {}};
}

Property date(std::string name, std::string iso_8601) {
  return {std::move(name), "IfcDate", std::move(iso_8601), {}};
}

Property boolean(std::string name, bool value) {
  return {std::move(name), "IfcBoolean", value ? "true" : "false", {}};
}

Property duration_of_years(std::string name, int years) {
  return {std::move(name), "IfcDuration", "P" + std::to_string(years) + "Y", {}};
}

Property integer(std::string name, int value) {
  return {std::move(name), "IfcInteger", std::to_string(value), {}};
}

Property number(std::string name, std::string measure, double value) {
  return {std::move(name), std::move(measure), number_text(value), {}};
}

Property number_in(std::string name, std::string measure, double value, std::string unit_id) {
  return {std::move(name), std::move(measure), number_text(value), std::move(unit_id)};
}

}  // namespace sample_export
