// The properties and settings that findings cite, and a project without one of them or with it spoilt.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/properties.h"
#include "core/api/model/settings.h"

namespace panel_dossier::testing {

/// A property by its full name, or a setting by its key with the indexes of lists.
struct CitedInput {
  CheckInput::Source source = CheckInput::Source::property;
  std::string name;

  bool operator<(const CitedInput& other) const { return std::tie(source, name) < std::tie(other.source, other.name); }
};

/// What the inputs of the finding cite, each once: properties, settings, and tables of the plugin's data folder. The
/// export's own attributes, files of evidence and the files that settings name are none of these.
std::vector<CitedInput> cited_inputs(const Finding& finding, const Settings& settings);

/// Visits the properties of every entity of the project.
void for_each_properties(Project& project, const std::function<void(Properties&)>& visit);

struct ProjectAndSettings {
  Project project;
  Settings settings;
};

/// What can be absent: a number or text that is an element of a list of settings stands for the list, for no list has
/// gaps. A member of an element can be absent by itself.
CitedInput whole_input(const CitedInput& input);

/// Takes the property away from every entity of the project, or the key and all keys below it from the settings.
void remove_input(ProjectAndSettings& from, const CitedInput& input);

/// How a value is spoilt.
enum class Spoiling { not_a_number, opposite_sign, thousandfold, unknown_word };

/// Text that no list of words holds.
inline constexpr std::string_view kUnknownWord = "no such word";

/// Spoils the values of that name that are of the kind: numbers, or text. False when there is none, or when the
/// spoiling changes none of them.
bool spoil_input(ProjectAndSettings& from, const CitedInput& input, Spoiling how);

}  // namespace panel_dossier::testing
