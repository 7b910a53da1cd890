#include "core/api/testing/change.h"

#include <stdexcept>
#include <utility>

#include "core/api/testing/properties.h"

namespace panel_dossier::testing {

namespace {

/// The properties of the entities that a change is of.
using PropertiesOf = std::function<std::vector<Properties*>(Project&)>;

[[noreturn]] void nothing_to_change(const std::string& what) {
  throw std::logic_error("the case changes nothing: the project has no " + what);
}

std::pair<std::string, std::string> set_and_name(const std::string& property) {
  const std::size_t dot = property.find('.');
  if (dot == std::string::npos) throw std::logic_error("'" + property + "' is not named as Pset.Property");
  return {property.substr(0, dot), property.substr(dot + 1)};
}

Change set_property(PropertiesOf of, std::string property, PropertyValue value) {
  return [of = std::move(of), property = std::move(property), value = std::move(value)](Project& project, Settings&) {
    const auto [set, name] = set_and_name(property);
    const std::vector<Properties*> all = of(project);
    if (all.empty()) nothing_to_change("entity that could have " + property);
    for (Properties* properties : all) {
      const Property* present = properties->find(set, name);
      Property changed =
          present == nullptr ? Property{{}, {}, origin_of("IfcPropertySingleValue", property)} : *present;
      changed.value = value;
      replace(*properties, set, name, std::move(changed));
    }
  };
}

Change drop_property(PropertiesOf of, std::string property) {
  return [of = std::move(of), property = std::move(property)](Project& project, Settings&) {
    const auto [set, name] = set_and_name(property);
    bool found = false;
    for (Properties* properties : of(project)) {
      found = found || properties->find(set, name) != nullptr;
      remove(*properties, property);
    }
    if (!found) nothing_to_change(property);
  };
}

std::vector<Properties*> of_panels(Project& project) {
  std::vector<Properties*> all;
  for (Panel& panel : project.panels) all.push_back(&panel.properties);
  return all;
}

std::vector<Properties*> of_materials(Project& project) {
  std::vector<Properties*> all;
  for (Material& material : project.materials) all.push_back(&material.properties);
  return all;
}

PropertiesOf of_material(std::size_t index) {
  return [index](Project& project) { return std::vector<Properties*>{&project.materials.at(index).properties}; };
}

PropertiesOf of_parts(PartKind kind) {
  return [kind](Project& project) {
    std::vector<Properties*> all;
    for (Panel& panel : project.panels) {
      for (Part& part : panel.parts) {
        if (part.kind == kind) all.push_back(&part.properties);
      }
    }
    return all;
  };
}

std::vector<Properties*> of_fillings(Project& project) {
  std::vector<Properties*> all;
  for (Panel& panel : project.panels) {
    for (Opening& opening : panel.openings) {
      if (!opening.filling_entity.empty()) all.push_back(&opening.filling_properties);
    }
  }
  return all;
}

std::vector<Properties*> of_project(Project& project) {
  return {&project.properties};
}

}  // namespace

Change set_of_panels(std::string property, PropertyValue value) {
  return set_property(of_panels, std::move(property), std::move(value));
}

Change drop_of_panels(std::string property) {
  return drop_property(of_panels, std::move(property));
}

Change set_of_material(std::size_t material, std::string property, PropertyValue value) {
  return set_property(of_material(material), std::move(property), std::move(value));
}

Change drop_of_material(std::size_t material, std::string property) {
  return drop_property(of_material(material), std::move(property));
}

Change set_of_materials(std::string property, PropertyValue value) {
  return set_property(of_materials, std::move(property), std::move(value));
}

Change drop_of_materials(std::string property) {
  return drop_property(of_materials, std::move(property));
}

Change set_of_parts(PartKind kind, std::string property, PropertyValue value) {
  return set_property(of_parts(kind), std::move(property), std::move(value));
}

Change drop_of_parts(PartKind kind, std::string property) {
  return drop_property(of_parts(kind), std::move(property));
}

Change set_of_fillings(std::string property, PropertyValue value) {
  return set_property(of_fillings, std::move(property), std::move(value));
}

Change drop_of_fillings(std::string property) {
  return drop_property(of_fillings, std::move(property));
}

Change set_of_project(std::string property, PropertyValue value) {
  return set_property(of_project, std::move(property), std::move(value));
}

Change drop_of_project(std::string property) {
  return drop_property(of_project, std::move(property));
}

Change set_setting(std::string key, Settings::Value value) {
  return [key = std::move(key), value = std::move(value)](Project&, Settings& settings) { settings.set(key, value); };
}

Change drop_setting(std::string key) {
  return [key = std::move(key)](Project&, Settings& settings) {
    if (settings.all().find(key) == settings.all().end()) nothing_to_change("setting " + key);
    settings = without(settings, key);
  };
}

Change drop_settings(std::string prefix) {
  return [prefix = std::move(prefix)](Project&, Settings& settings) {
    Settings kept;
    for (const auto& [key, value] : settings.all()) {
      if (!key.starts_with(prefix)) kept.set(key, value);
    }
    if (kept.all().size() == settings.all().size()) nothing_to_change("setting " + prefix + "…");
    settings = std::move(kept);
  };
}

Change change_panels(std::function<void(Panel&)> change) {
  return [change = std::move(change)](Project& project, Settings&) {
    if (project.panels.empty()) nothing_to_change("panel");
    for (Panel& panel : project.panels) change(panel);
  };
}

Change drop_parts(PartKind kind) {
  return [kind](Project& project, Settings&) {
    std::size_t dropped = 0;
    for (Panel& panel : project.panels) {
      dropped += std::erase_if(panel.parts, [kind](const Part& part) { return part.kind == kind; });
    }
    if (dropped == 0) nothing_to_change("part of kind " + std::string(to_string(kind)));
  };
}

Change rename_materials(std::string name) {
  return [name = std::move(name)](Project& project, Settings&) {
    if (project.materials.empty()) nothing_to_change("material");
    for (Material& material : project.materials) material.name = name;
  };
}

Change together(std::vector<Change> changes) {
  return [changes = std::move(changes)](Project& project, Settings& settings) {
    for (const Change& change : changes) change(project, settings);
  };
}

}  // namespace panel_dossier::testing
