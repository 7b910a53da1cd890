// Small changes of a project and its settings, for cases of a check.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::testing {

/// What a case does to the sound project and settings. Those below throw std::logic_error when there is nothing of the
/// kind to change, so that no case runs on an unchanged project.
using Change = std::function<void(Project&, Settings&)>;

/// Numbers in SI units, as the intake gives them.
using PropertyValue = std::variant<double, bool, std::string>;

// Properties are named in full: `Pset_WallCommon.LoadBearing`. A value set keeps the origin of the one it replaces.

/// Of every panel.
Change set_of_panels(std::string property, PropertyValue value);
Change drop_of_panels(std::string property);
/// Of the material of this index.
Change set_of_material(std::size_t material, std::string property, PropertyValue value);
Change drop_of_material(std::size_t material, std::string property);
/// Of all materials.
Change set_of_materials(std::string property, PropertyValue value);
Change drop_of_materials(std::string property);
/// Of every part of this kind, in every panel.
Change set_of_parts(PartKind kind, std::string property, PropertyValue value);
Change drop_of_parts(PartKind kind, std::string property);
/// Of what fills the openings of every panel.
Change set_of_fillings(std::string property, PropertyValue value);
Change drop_of_fillings(std::string property);
/// Of the project, its site and its buildings.
Change set_of_project(std::string property, PropertyValue value);
Change drop_of_project(std::string property);

Change set_setting(std::string key, Settings::Value value);
Change drop_setting(std::string key);
/// Every key that starts with `prefix`: `sound.targets.`.
Change drop_settings(std::string prefix);

/// Anything about every panel: its sizes, layers, parts or openings.
Change change_panels(std::function<void(Panel&)> change);
/// Every part of this kind away, from every panel.
Change drop_parts(PartKind kind);
/// All materials under one name: results must follow the material, not its name.
Change rename_materials(std::string name);

/// One change after the other.
Change together(std::vector<Change> changes);

}  // namespace panel_dossier::testing
