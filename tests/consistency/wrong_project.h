// Projects that are wrong in one thing, made from a few panels of the sample by editing its model.
#pragma once

#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/geometry.h"
#include "core/intake/inputs.h"
#include "core/pipeline/run.h"

namespace panel_dossier::consistency {

/// The export as a tree and the settings, in the units in which they are written: mm, and SI for the rest.
struct WrongProject {
  pugi::xml_document model;
  nlohmann::json settings;
  std::vector<std::pair<std::string, std::string>> files = {};  ///< name and text of further files beside the settings
  std::map<std::string, std::string> records;                   ///< text by name of the file in records/
};

using Edit = std::function<void(WrongProject&)>;

// Edits of the model. Each throws std::logic_error when there is nothing of the kind, so that no case runs on the sound
// project. Properties are named in full: `Pset_WallCommon.LoadBearing`; all that have the name are meant.

Edit set_property(std::string property, std::string text);
Edit scale_property(std::string property, double factor);
Edit drop_property(std::string property);
/// One more property, in a set of its own, of each panel. `type` is the defined type of its value.
Edit add_to_panels(std::string property, std::string type, std::string text);
/// Of the material of that name alone.
Edit set_of_material(std::string material, std::string property, std::string text);
Edit scale_of_material(std::string material, std::string property, double factor);
Edit set_category(std::string material, std::string category);
/// IfcMaterialLayer.Category, wherever it is `from`.
Edit set_layer_category(std::string from, std::string to);
/// All parts of an entity, such as `IfcMember`, whose Name begins so; empty for all.
Edit drop_parts(std::string entity, std::string name);
/// The first of them alone, or a second one like it.
Edit drop_first_part(std::string entity, std::string name);
Edit double_first_part(std::string entity, std::string name);
/// Sizes of their extrusions, and coordinates of their placements: along x, y or z of the panel (0, 1, 2), mm.
Edit scale_length(std::string entity, std::string name, double factor);
Edit move_first_part(std::string entity, std::string name, int axis, double by_mm);
/// Their extrusions cut off at this share of their length, by a half space.
Edit clip_length(std::string entity, std::string name, double share);
/// Their extrusions under another entity's name.
Edit rename_shapes(std::string entity, std::string name, std::string shape);
/// An element beside the panels that fills this box of the world, mm; `predefined_type` may be empty.
Edit add_element(std::string entity, std::string name, std::string predefined_type, const Box3& box_mm);
/// Any attribute of all entities of that name.
Edit set_attribute(std::string entity, std::string attribute, std::string text);
Edit scale_attribute(std::string entity, std::string attribute, double factor);

/// A setting by its dotted key.
Edit set_setting(std::string key, nlohmann::json value);
Edit drop_setting(std::string key);
/// A library of this one table: `materials.csv` and its text.
Edit add_library(std::string table, std::string text);

/// A table of records beside the export, in place of one of that name.
Edit put_records(std::string file, std::string text);

Edit both(Edit first, Edit second);

/// What became of a wrong project.
struct Outcome {
  bool refused = false;
  Diagnostics diagnostics;
  Project project;
  Settings settings;
  Results results;  ///< of the plugins asked for; empty when refused
};

/// Reads and weighs the project with this edit, and runs the plugin of this id; none when it is empty.
Outcome outcome_of(const Edit& edit, const std::string& plugin);

/// What the plugin of this id says of the project under those settings.
Results results_of(const Project& project, const Settings& settings, const std::string& plugin);

/// A case of the table: the finding that must not pass, and the words that its reason must hold.
struct WrongCase {
  std::string label;
  Edit edit;
  std::string check;  ///< id; `refused` where the inputs must be refused
  std::string words;
  Edit base = {};  ///< made before the edit, and of the sound project too, where the few panels alone do not pass
};

/// Puts cases into the table. Use as a constant at namespace scope.
class RegisterWrongCases {
 public:
  explicit RegisterWrongCases(std::vector<WrongCase> cases);
};

/// In no order that a test may rely on.
const std::vector<WrongCase>& wrong_cases();

}  // namespace panel_dossier::consistency
