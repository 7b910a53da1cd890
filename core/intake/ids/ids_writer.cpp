#include "core/intake/ids/ids_writer.h"

#include <algorithm>
#include <array>
#include <map>
#include <pugixml.hpp>
#include <set>
#include <sstream>
#include <string_view>
#include <tuple>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/ids/ids_schema.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

constexpr const char* kAllVersions = "IFC2X3 IFC4 IFC4X3_ADD2";

/// The classes that a property may stand on: by the kind of entity in the lists and, where it says more, by the set.
struct ClassesForm {
  std::string_view on;
  std::string_view set;      ///< beginning of its name; empty: any other
  std::string_view classes;  ///< blank separated
  std::string_view words;
};

// The first that fits counts.
constexpr std::array kClasses{
    ClassesForm{"panel", "", "IFCWALL IFCWALLSTANDARDCASE IFCWALLELEMENTEDCASE IFCELEMENTASSEMBLY", "panels"},
    ClassesForm{"filling", "Pset_WindowCommon", "IFCWINDOW IFCWINDOWSTANDARDCASE", "windows"},
    ClassesForm{"filling", "Pset_DoorCommon", "IFCDOOR IFCDOORSTANDARDCASE", "doors"},
    ClassesForm{"filling", "", "IFCWINDOW IFCWINDOWSTANDARDCASE IFCDOOR IFCDOORSTANDARDCASE", "windows and doors"},
    ClassesForm{"part", "Panel_Fastener", "IFCMECHANICALFASTENER IFCDISCRETEACCESSORY IFCFASTENER", "fixings"},
    ClassesForm{"part", "Pset_MechanicalFastener", "IFCMECHANICALFASTENER", "fasteners"},
    ClassesForm{"part", "Panel_Member", "IFCMEMBER IFCMEMBERSTANDARDCASE", "framing members"},
    ClassesForm{"part", "",
                "IFCMEMBER IFCMEMBERSTANDARDCASE IFCPLATE IFCPLATESTANDARDCASE IFCCOVERING IFCBUILDINGELEMENTPART "
                "IFCMECHANICALFASTENER IFCDISCRETEACCESSORY IFCFASTENER",
                "parts"},
    ClassesForm{"material", "", "IFCMATERIAL", "materials"},
    ClassesForm{"layer", "", "IFCMATERIALLAYER", "material layers"},
    ClassesForm{"building", "", "IFCBUILDING", "buildings"},
};

constexpr std::array kQuantityTypes{
    std::pair{"IfcQuantityLength"sv, "IFCLENGTHMEASURE"sv}, std::pair{"IfcQuantityArea"sv, "IFCAREAMEASURE"sv},
    std::pair{"IfcQuantityVolume"sv, "IFCVOLUMEMEASURE"sv}, std::pair{"IfcQuantityWeight"sv, "IFCMASSMEASURE"sv},
    std::pair{"IfcQuantityCount"sv, "IFCCOUNTMEASURE"sv},   std::pair{"IfcQuantityTime"sv, "IFCTIMEMEASURE"sv},
};

const ClassesForm* classes_of(const std::string& on, const std::string& set) {
  const auto found = std::find_if(kClasses.begin(), kClasses.end(),
                                  [&](const ClassesForm& form) { return form.on == on && set.starts_with(form.set); });
  return found == kClasses.end() ? nullptr : &*found;
}

std::string data_type_of(const PropertyRow& row) {
  for (const auto& [quantity, type] : kQuantityTypes) {
    if (row.measure == quantity) return std::string(type);
  }
  return in_capitals(row.measure);
}

void add_simple(pugi::xml_node owner, const char* name, const std::string& text) {
  owner.append_child(name).append_child("simpleValue").text().set(text.c_str());
}

pugi::xml_node add_restriction(pugi::xml_node owner, const char* base) {
  pugi::xml_node restriction = owner.append_child("xs:restriction");
  restriction.append_attribute("base").set_value(base);
  return restriction;
}

void add_limit(pugi::xml_node restriction, const char* name, const std::string& value) {
  restriction.append_child(name).append_attribute("value").set_value(value.c_str());
}

/// What the list says of the value: its words, or how far a number can go.
void add_value(pugi::xml_node property, const PropertyRow& row) {
  if (!row.words.empty()) {
    pugi::xml_node restriction = add_restriction(property.append_child("value"), "xs:string");
    for (const std::string& word : row.words) add_limit(restriction, "xs:enumeration", word);
    return;
  }
  // A duration is compared as text.
  if (!row.range || row.bounds.empty() || row.measure == "IfcDuration") return;
  const bool is_integer = row.measure == "IfcInteger";
  const auto text = [&](double bound) { return is_integer ? fixed_text(bound, 0) : shortest_text(bound); };
  pugi::xml_node restriction = add_restriction(property.append_child("value"), is_integer ? "xs:integer" : "xs:double");
  add_limit(restriction, "xs:minInclusive", text(row.range->least));
  add_limit(restriction, "xs:maxInclusive", text(row.range->most));
}

void add_property(pugi::xml_node requirements, const PropertyRow& row) {
  pugi::xml_node property = requirements.append_child("property");
  property.append_attribute("dataType").set_value(data_type_of(row).c_str());
  property.append_attribute("cardinality").set_value(row.need == PropertyNeed::must ? "required" : "optional");
  std::string instructions = row.title;
  if (!row.meaning.empty()) instructions += ": " + row.meaning;
  if (!row.unit.empty()) instructions += "; in " + row.unit;
  property.append_attribute("instructions").set_value(instructions.c_str());
  add_simple(property, "propertySet", row.set);
  add_simple(property, "baseName", row.property);
  add_value(property, row);
}

/// One specification: these rows, of entities of one kind.
struct Wanted {
  const ClassesForm* form = nullptr;
  std::string name;
  std::string description;
  std::vector<const PropertyRow*> rows;
};

void add_specification(pugi::xml_node specifications, const Wanted& wanted) {
  pugi::xml_node specification = specifications.append_child("specification");
  specification.append_attribute("name").set_value(wanted.name.c_str());
  specification.append_attribute("ifcVersion").set_value(kAllVersions);
  specification.append_attribute("description").set_value(wanted.description.c_str());
  pugi::xml_node applicability = specification.append_child("applicability");
  // A building may have no window; without panels and materials there is nothing to check.
  const bool is_needed = wanted.rows.front()->need == PropertyNeed::must && wanted.form->on != "filling";
  applicability.append_attribute("minOccurs").set_value(is_needed ? "1" : "0");
  applicability.append_attribute("maxOccurs").set_value("unbounded");
  pugi::xml_node name = applicability.append_child("entity").append_child("name");
  const std::vector<std::string> classes = split(wanted.form->classes, ' ');
  if (classes.size() == 1) {
    name.append_child("simpleValue").text().set(classes.front().c_str());
  } else {
    pugi::xml_node restriction = add_restriction(name, "xs:string");
    for (const std::string& one : classes) add_limit(restriction, "xs:enumeration", one);
  }
  pugi::xml_node requirements = specification.append_child("requirements");
  for (const PropertyRow* row : wanted.rows) add_property(requirements, *row);
}

/// In order: what is needed by kind of entity, then what is useful by kind and set.
std::vector<Wanted> wanted_by(const std::vector<PropertyRow>& rows) {
  using Key = std::tuple<int, std::ptrdiff_t, std::string>;
  std::map<Key, Wanted> wanted;
  std::set<std::tuple<std::string, std::string, std::string>> listed;
  for (const PropertyRow& row : rows) {
    for (const std::string& on : entities_with(row)) {
      const ClassesForm* form = classes_of(on, row.set);
      if (form == nullptr || !listed.emplace(row.set, row.property, on).second) continue;
      const bool is_must = row.need == PropertyNeed::must;
      Wanted& one = wanted[{is_must ? 0 : 1, form - kClasses.data(), is_must ? std::string() : row.set}];
      one.form = form;
      one.rows.push_back(&row);
      const std::string words(form->words);
      one.name = is_must ? "Must: " + words : "Useful: " + words + ", " + row.set;
      one.description = is_must ? "Without these a discipline has nothing to say."
                                : "Where these stand in the export, they stand so.";
    }
  }
  std::vector<Wanted> ordered;
  ordered.reserve(wanted.size());
  for (auto& [key, one] : wanted) ordered.push_back(std::move(one));
  return ordered;
}

}  // namespace

std::string ids_text(const std::vector<PropertyRow>& rows) {
  pugi::xml_document document;
  pugi::xml_node declaration = document.append_child(pugi::node_declaration);
  declaration.append_attribute("version").set_value("1.0");
  declaration.append_attribute("encoding").set_value("UTF-8");
  pugi::xml_node ids = document.append_child("ids");
  ids.append_attribute("xmlns").set_value("http://standards.buildingsmart.org/IDS");
  ids.append_attribute("xmlns:xs").set_value("http://www.w3.org/2001/XMLSchema");
  ids.append_attribute("xmlns:xsi").set_value("http://www.w3.org/2001/XMLSchema-instance");
  ids.append_attribute("xsi:schemaLocation")
      .set_value("http://standards.buildingsmart.org/IDS http://standards.buildingsmart.org/IDS/1.0/ids.xsd");
  ids.append_child("info").append_child("title").text().set("What the panel dossier reads of a model");
  pugi::xml_node specifications = ids.append_child("specifications");
  for (const Wanted& wanted : wanted_by(rows)) add_specification(specifications, wanted);
  std::ostringstream text;
  document.save(text, "  ", pugi::format_indent, pugi::encoding_utf8);
  return text.str();
}

}  // namespace panel_dossier
