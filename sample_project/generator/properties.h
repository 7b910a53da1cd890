// Property sets as data, before they are written.
#pragma once

#include <string>
#include <vector>

namespace sample_export {

/// One IfcPropertySingleValue.
struct Property {
  std::string name;
  std::string measure;  ///< IFC defined type of the value, such as IfcLabel
  std::string value;
  std::string unit_id;  ///< id of the property's own unit; empty: the project's unit
};

struct PropertySet {
  std::string name;
  std::vector<Property> properties;
};

Property label(std::string name, std::string value);
Property text(std::string name, std::string value);
Property identifier(std::string name, std::string value);
Property date(std::string name, std::string iso_8601);
Property boolean(std::string name, bool value);
/// IfcDuration.
Property duration_of_years(std::string name, int years);
Property integer(std::string name, int value);
/// `measure` is the IFC defined type, the value in the project's unit of that measure.
Property number(std::string name, std::string measure, double value);
Property number_in(std::string name, std::string measure, double value, std::string unit_id);

}  // namespace sample_export
