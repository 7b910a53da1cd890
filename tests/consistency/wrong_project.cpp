#include "tests/consistency/wrong_project.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/api/testing/temporary_folder.h"
#include "core/intake/document/file_bytes.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier::consistency {

namespace {

const std::filesystem::path kSample = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project";

// An infill panel with a window, an oversail panel, a load-bearing one and the one that fails on purpose.
constexpr const char* kMarks = "S0-01,S0-02,N0-01,E1-01,E1-03,W0-01";

/// The sound project: written once a process, with the evidence beside it.
class SoundProject {
 public:
  SoundProject() {
    const std::filesystem::path file = folder_.path() / "sound.ifcxml";
    const std::string command = "'" PANEL_DOSSIER_SAMPLE_GENERATOR "' --out '" + file.string() + "' --only " + kMarks;
    if (std::system(command.c_str()) != 0) throw std::runtime_error("the sample's generator failed");
    model_ = read_file(file);
    std::filesystem::remove(file);
    std::filesystem::copy(kSample / "evidence", folder_.path() / "evidence", std::filesystem::copy_options::recursive);
    for (const char* table : {"rates.csv", "carbon_targets.csv"}) {
      std::filesystem::copy_file(kSample / table, folder_.path() / table);
    }
    settings_ = nlohmann::json::parse(read_file(kSample / "settings.json"));
    settings_.erase("library");  // wrong projects bring libraries of their own
    plugins_ = load_plugins({PANEL_DOSSIER_PLUGIN_DIR}).plugins;
  }

  const testing::TemporaryFolder& folder() const { return folder_; }
  const std::vector<LoadedPlugin>& plugins() const { return plugins_; }

  void copy_to(WrongProject& project) const {
    project.model.load_buffer(model_.data(), model_.size());
    project.settings = settings_;
  }

 private:
  testing::TemporaryFolder folder_;
  std::string model_;
  nlohmann::json settings_;
  std::vector<LoadedPlugin> plugins_;
};

const SoundProject& sound_project() {
  static const SoundProject project;
  return project;
}

template <typename Visit>
void visit_all(pugi::xml_node node, const Visit& visit) {
  for (pugi::xml_node child = node.first_child(); child;) {
    const pugi::xml_node next = child.next_sibling();  // the visitor may remove the child
    visit_all(child, visit);
    visit(child);
    child = next;
  }
}

std::string_view name_of(pugi::xml_node node) {
  return node.name();
}

void demand(bool found, const std::string& what) {
  if (!found) throw std::logic_error("the sample has no " + what);
}

/// The node of the value of a property: the text of NominalValue's wrapper.
pugi::xml_node value_node(pugi::xml_node property) {
  return property.child("NominalValue").first_child();
}

bool is_set(pugi::xml_node node) {
  const std::string_view name = name_of(node);
  return name == "IfcPropertySet" || name == "IfcMaterialProperties" || name == "IfcElementQuantity";
}

/// Visits every `IfcPropertySingleValue` of the full name below `root`.
void visit_property(pugi::xml_node root, const std::string& full_name,
                    const std::function<void(pugi::xml_node)>& visit) {
  const std::string set = full_name.substr(0, full_name.find('.'));
  const std::string name = full_name.substr(full_name.find('.') + 1);
  bool found = false;
  visit_all(root, [&](pugi::xml_node node) {
    if (!is_set(node) || node.attribute("Name").value() != set) return;
    visit_all(node, [&](pugi::xml_node property) {
      if (property.attribute("Name").value() != name) return;
      found = true;
      visit(property);
    });
  });
  demand(found, full_name);
}

void scale_value(pugi::xml_node property, double factor) {
  pugi::xml_node value = value_node(property);
  if (value) {
    value.text().set(shortest_text(value.text().as_double() * factor).c_str());
    return;
  }
  for (pugi::xml_attribute attribute : property.attributes()) {
    if (std::string_view(attribute.name()).ends_with("Value")) {
      attribute.set_value(shortest_text(attribute.as_double() * factor).c_str());
    }
  }
}

/// Removes the node; what is defined in it and referred to from elsewhere moves to the first of those places.
void remove_node(pugi::xml_node node) {
  std::map<std::string, pugi::xml_node> defined;
  visit_all(node, [&](pugi::xml_node inner) {
    if (inner.attribute("id")) defined.emplace(inner.attribute("id").value(), inner);
  });
  std::map<std::string, pugi::xml_node> first_use;
  visit_all(node.root(), [&](pugi::xml_node use) {
    const std::string ref = use.attribute("ref").value();
    if (defined.contains(ref)) first_use.emplace(ref, use);
  });
  // Uses inside of the node go with it.
  visit_all(node, [&](pugi::xml_node inner) {
    std::erase_if(first_use, [&](const auto& use) { return use.second == inner; });
  });
  // A definition within another that moves goes along with it.
  std::set<std::string> within;
  for (const auto& [id, use] : first_use) {
    visit_all(defined.at(id), [&](pugi::xml_node inner) { within.insert(inner.attribute("id").value()); });
  }
  for (const auto& [id, use] : first_use) {
    if (within.contains(id)) continue;
    const pugi::xml_node definition = defined.at(id);
    pugi::xml_node moved = use.parent().insert_child_after(use.name(), use);
    for (const pugi::xml_attribute attribute : definition.attributes()) moved.append_copy(attribute);
    for (const pugi::xml_node child : definition.children()) moved.append_copy(child);
    use.parent().remove_child(use);
  }
  node.parent().remove_child(node);
}

pugi::xml_node material_of(WrongProject& project, const std::string& name) {
  pugi::xml_node found;
  visit_all(project.model, [&](pugi::xml_node node) {
    if (name_of(node) == "IfcMaterial" && node.attribute("Name").value() == name) found = node;
  });
  demand(!found.empty(), "material '" + name + "'");
  return found;
}

using Visitor = std::function<void(pugi::xml_node)>;

void visit_entity(WrongProject& project, const std::string& entity, const std::string& name, const Visitor& visit) {
  bool found = false;
  visit_all(project.model, [&](pugi::xml_node node) {
    if (name_of(node) != entity || !std::string_view(node.attribute("Name").value()).starts_with(name)) return;
    found = true;
    visit(node);
  });
  demand(found, entity + " '" + name + "'");
}

pugi::xml_node first_entity(WrongProject& project, const std::string& entity, const std::string& name) {
  pugi::xml_node first;
  visit_entity(project, entity, name, [&](pugi::xml_node node) {
    if (!first) first = node;
  });
  return first;
}

nlohmann::json::json_pointer pointer_to(const std::string& key) {
  return nlohmann::json::json_pointer("/" + joined(split(key, '.'), "/"));
}

}  // namespace

Edit set_property(std::string property, std::string text) {
  return [=](WrongProject& project) {
    visit_property(project.model, property, [&](pugi::xml_node node) { value_node(node).text().set(text.c_str()); });
  };
}

Edit scale_property(std::string property, double factor) {
  return [=](WrongProject& project) {
    visit_property(project.model, property, [&](pugi::xml_node node) { scale_value(node, factor); });
  };
}

Edit drop_property(std::string property) {
  return [=](WrongProject& project) {
    visit_property(project.model, property, [](pugi::xml_node node) { node.parent().remove_child(node); });
  };
}

Edit add_to_panels(std::string property, std::string type, std::string text) {
  return [=](WrongProject& project) {
    visit_property(project.model, "Panel_Identity.ErectionOrder", [&](pugi::xml_node node) {
      pugi::xml_node set = node.parent().parent();
      // Not twice in a project: cases add one property to a panel.
      const auto new_id = [](pugi::xml_node of) {
        return "0Added" + std::string(of.attribute("GlobalId").value()).substr(6);
      };
      const pugi::xml_node old_relation = set.parent().parent();
      pugi::xml_node relation = old_relation.parent().append_child("IfcRelDefinesByProperties");
      relation.append_attribute("GlobalId") = new_id(old_relation).c_str();
      pugi::xml_node added = relation.append_child("RelatingPropertyDefinition").append_child("IfcPropertySet");
      added.append_attribute("GlobalId") = new_id(set).c_str();
      added.append_attribute("Name") = property.substr(0, property.find('.')).c_str();
      pugi::xml_node value = added.append_child("HasProperties").append_child("IfcPropertySingleValue");
      value.append_attribute("Name") = property.substr(property.find('.') + 1).c_str();
      value.append_child("NominalValue").append_child((type + "-wrapper").c_str()).text().set(text.c_str());
    });
  };
}

Edit set_of_material(std::string material, std::string property, std::string text) {
  return [=](WrongProject& project) {
    visit_property(material_of(project, material), property,
                   [&](pugi::xml_node node) { value_node(node).text().set(text.c_str()); });
  };
}

Edit scale_of_material(std::string material, std::string property, double factor) {
  return [=](WrongProject& project) {
    visit_property(material_of(project, material), property, [&](pugi::xml_node node) { scale_value(node, factor); });
  };
}

Edit set_category(std::string material, std::string category) {
  return
      [=](WrongProject& project) { material_of(project, material).attribute("Category").set_value(category.c_str()); };
}

Edit set_layer_category(std::string from, std::string to) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_all(project.model, [&](pugi::xml_node node) {
      if (name_of(node) != "IfcMaterialLayer" || node.attribute("Category").value() != from) return;
      found = true;
      node.attribute("Category").set_value(to.c_str());
    });
    demand(found, "layer of category " + from);
  };
}

Edit drop_parts(std::string entity, std::string name) {
  return [=](WrongProject& project) {
    visit_entity(project, entity, name, [](pugi::xml_node node) { remove_node(node); });
  };
}

Edit drop_first_part(std::string entity, std::string name) {
  return [=](WrongProject& project) { remove_node(first_entity(project, entity, name)); };
}

Edit double_first_part(std::string entity, std::string name) {
  return [=](WrongProject& project) {
    const pugi::xml_node part = first_entity(project, entity, name);
    pugi::xml_node copy = part.parent().insert_copy_after(part, part);
    // Identifiers stand once in a file: the copy refers to nothing and is referred to by nobody.
    visit_all(copy, [](pugi::xml_node node) { node.remove_attribute("id"); });
    copy.remove_attribute("id");
    std::string id = copy.attribute("GlobalId").value();
    std::swap(id[10], id[12]);
    if (id == part.attribute("GlobalId").value()) id[10] = id[10] == 'a' ? 'b' : 'a';
    copy.attribute("GlobalId").set_value(id.c_str());
  };
}

Edit scale_length(std::string entity, std::string name, double factor) {
  return [=](WrongProject& project) {
    visit_entity(project, entity, name, [&](pugi::xml_node part) {
      visit_all(part, [&](pugi::xml_node node) {
        if (name_of(node) != "IfcExtrudedAreaSolid") return;
        pugi::xml_attribute depth = node.attribute("Depth");
        depth.set_value(shortest_text(depth.as_double() * factor).c_str());
      });
    });
  };
}

Edit clip_length(std::string entity, std::string name, double share) {
  return [=](WrongProject& project) {
    visit_entity(project, entity, name, [&](pugi::xml_node part) {
      std::vector<pugi::xml_node> solids;
      visit_all(part, [&](pugi::xml_node node) {
        if (name_of(node) == "IfcExtrudedAreaSolid") solids.push_back(node);
      });
      for (pugi::xml_node solid : solids) {
        pugi::xml_node result = solid.parent().insert_child_before("IfcBooleanClippingResult", solid);
        result.append_attribute("Operator") = "difference";
        pugi::xml_node first = result.append_child("FirstOperand");
        first.append_attribute("xsi:type") = "IfcExtrudedAreaSolid";
        for (const pugi::xml_attribute attribute : solid.attributes()) first.append_copy(attribute);
        for (const pugi::xml_node child : solid.children()) first.append_copy(child);
        // The plane stands across the extrusion, whose own position it shares.
        pugi::xml_node half = result.append_child("SecondOperand");
        half.append_attribute("xsi:type") = "IfcHalfSpaceSolid";
        half.append_attribute("AgreementFlag") = "false";
        pugi::xml_node position = half.append_child("BaseSurface");
        position.append_attribute("xsi:type") = "IfcPlane";
        position = position.append_child("Position");
        const double at = solid.attribute("Depth").as_double() * share;
        const std::string point = "0. 0. " + shortest_text(at);
        position.append_child("Location").append_attribute("Coordinates") = point.c_str();
        solid.parent().remove_child(solid);
      }
    });
  };
}

Edit rename_shapes(std::string entity, std::string name, std::string shape) {
  return [=](WrongProject& project) {
    visit_entity(project, entity, name, [&](pugi::xml_node part) {
      visit_all(part, [&](pugi::xml_node node) {
        if (name_of(node) == "IfcExtrudedAreaSolid") node.set_name(shape.c_str());
      });
    });
  };
}

Edit add_element(std::string entity, std::string name, std::string predefined_type, const Box3& box_mm) {
  return [=](WrongProject& project) {
    pugi::xml_node contained;
    visit_all(project.model, [&](pugi::xml_node node) {
      if (name_of(node) == "IfcRelContainedInSpatialStructure" && !contained) contained = node;
    });
    demand(contained.child("RelatedElements"), "contained element");
    pugi::xml_node element = contained.child("RelatedElements").append_child(entity.c_str());
    // Not twice in a project: cases add one element of a name.
    std::string id = "0Added" + name;
    id.resize(22, '0');
    std::replace(id.begin(), id.end(), ' ', '_');
    element.append_attribute("GlobalId") = id.c_str();
    element.append_attribute("Name") = name.c_str();
    if (!predefined_type.empty()) element.append_attribute("PredefinedType") = predefined_type.c_str();
    pugi::xml_node shape = element.append_child("Representation");
    shape.append_attribute("xsi:type") = "IfcProductDefinitionShape";
    shape = shape.append_child("Representations").append_child("IfcShapeRepresentation");
    shape.append_attribute("RepresentationIdentifier") = "Body";
    shape = shape.append_child("Items").append_child("IfcExtrudedAreaSolid");
    const Vec3 size = box_mm.size();
    shape.append_attribute("Depth") = shortest_text(size.z).c_str();
    pugi::xml_node profile = shape.append_child("SweptArea");
    profile.append_attribute("xsi:type") = "IfcRectangleProfileDef";
    profile.append_attribute("XDim") = shortest_text(size.x).c_str();
    profile.append_attribute("YDim") = shortest_text(size.y).c_str();
    pugi::xml_node position = shape.append_child("Position");
    position.append_attribute("xsi:type") = "IfcAxis2Placement3D";
    const Vec3 at = box_mm.min + Vec3{size.x / 2.0, size.y / 2.0, 0.0};
    const std::string point = shortest_text(at.x) + " " + shortest_text(at.y) + " " + shortest_text(at.z);
    position.append_child("Location").append_attribute("Coordinates") = point.c_str();
    shape.append_child("ExtrudedDirection").append_attribute("DirectionRatios") = "0. 0. 1.";
  };
}

Edit move_first_part(std::string entity, std::string name, int axis, double by_mm) {
  return [=](WrongProject& project) {
    bool moved = false;
    visit_all(first_entity(project, entity, name).child("ObjectPlacement"), [&](pugi::xml_node node) {
      if (name_of(node) != "Location" || moved) return;
      std::istringstream stream(node.attribute("Coordinates").value());
      double at[3] = {};
      stream >> at[0] >> at[1] >> at[2];
      at[axis] += by_mm;
      const std::string text = shortest_text(at[0]) + " " + shortest_text(at[1]) + " " + shortest_text(at[2]);
      node.attribute("Coordinates").set_value(text.c_str());
      moved = true;
    });
    demand(moved, "placement of " + entity);
  };
}

Edit set_attribute(std::string entity, std::string attribute, std::string text) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_all(project.model, [&](pugi::xml_node node) {
      if (name_of(node) != entity || !node.attribute(attribute.c_str())) return;
      found = true;
      node.attribute(attribute.c_str()).set_value(text.c_str());
    });
    demand(found, entity + "." + attribute);
  };
}

Edit scale_attribute(std::string entity, std::string attribute, double factor) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_all(project.model, [&](pugi::xml_node node) {
      if (name_of(node) != entity) return;
      pugi::xml_attribute value = node.attribute(attribute.c_str());
      if (!value) return;
      found = true;
      value.set_value(shortest_text(value.as_double() * factor).c_str());
    });
    demand(found, entity + "." + attribute);
  };
}

Edit set_setting(std::string key, nlohmann::json value) {
  return [=](WrongProject& project) { project.settings[pointer_to(key)] = value; };
}

Edit drop_setting(std::string key) {
  return [=](WrongProject& project) {
    const std::size_t dot = key.rfind('.');
    auto& group = dot == std::string::npos ? project.settings : project.settings[pointer_to(key.substr(0, dot))];
    demand(group.erase(key.substr(dot + 1)) == 1, "setting " + key);
  };
}

Edit add_library(std::string table, std::string text) {
  return [=](WrongProject& project) {
    project.files.emplace_back(table, text);
    project.settings["library"].push_back(table);
  };
}

Edit put_records(std::string file, std::string text) {
  return [=](WrongProject& project) { project.records[file] = text; };
}

Edit both(Edit first, Edit second) {
  return [first = std::move(first), second = std::move(second)](WrongProject& project) {
    first(project);
    second(project);
  };
}

Outcome outcome_of(const Edit& edit, const std::string& plugin) {
  const SoundProject& sound = sound_project();
  WrongProject wrong;
  sound.copy_to(wrong);
  if (edit) edit(wrong);
  InputOptions options;
  options.export_file = sound.folder().path() / "project.ifcxml";
  options.settings_file = sound.folder().path() / "settings.json";
  options.schema_dir = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";
  for (const LoadedPlugin& loaded : sound.plugins()) {
    options.plugin_folders.emplace_back(loaded.info.id, loaded.data_dir);
  }
  wrong.model.save_file(options.export_file.c_str(), "", pugi::format_raw);
  sound.folder().write("settings.json", wrong.settings.dump());
  for (const auto& [name, text] : wrong.files) sound.folder().write(name, text);
  std::filesystem::remove_all(sound.folder().path() / "records");
  for (const auto& [file, text] : wrong.records) sound.folder().write("records/" + file, text);
  Inputs inputs = read_inputs(options);
  Outcome outcome;
  outcome.refused = inputs.refused();
  outcome.diagnostics = std::move(inputs.diagnostics);
  if (outcome.refused) return outcome;
  outcome.project = std::move(*inputs.intake.project);
  outcome.settings = std::move(inputs.settings);
  // Junctions take long to solve, so heat is looked at on two panels, one of them with a window.
  if (plugin == "thermal") {
    std::erase_if(outcome.project.panels,
                  [](const Panel& panel) { return panel.mark != "S0-02" && panel.mark != "E1-03"; });
  }
  if (!plugin.empty()) outcome.results = results_of(outcome.project, outcome.settings, plugin);
  return outcome;
}

Results results_of(const Project& project, const Settings& settings, const std::string& plugin) {
  std::vector<LoadedPlugin> chosen;
  for (const LoadedPlugin& loaded : sound_project().plugins()) {
    if (loaded.info.id == plugin) chosen.push_back(loaded);
  }
  NoProgress progress;
  return run_checks(project, settings, chosen, 2, progress);
}

namespace {

std::vector<WrongCase>& table() {
  static std::vector<WrongCase> cases;
  return cases;
}

}  // namespace

RegisterWrongCases::RegisterWrongCases(std::vector<WrongCase> cases) {
  for (WrongCase& one : cases) table().push_back(std::move(one));
}

const std::vector<WrongCase>& wrong_cases() {
  return table();
}

}  // namespace panel_dossier::consistency
