// What a JSON Schema says of a setting, a list or a group of settings.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/intake/settings/value_rule.h"

namespace panel_dossier {

/// A tree as deep as the settings are nested; only read once it is made, so safe to share between threads.
struct SettingDescription {
  enum class Form { value, list, group };

  std::string name;  ///< of a property; empty for the elements of a list and for the whole
  Form form = Form::value;
  ValueRule rule;  ///< of a value; its `description` is that of lists and groups too

  // A group:
  std::vector<SettingDescription> properties;  ///< in the order of the schema
  std::vector<std::string> required;
  bool takes_other_keys = false;
  std::shared_ptr<const SettingDescription> other_keys;  ///< what their values may be; null: anything

  // A list:
  std::shared_ptr<const SettingDescription> elements;  ///< null: anything
  std::optional<std::size_t> least_elements;
  std::optional<std::size_t> most_elements;
  std::string unique;  ///< property of its elements whose texts may not repeat; empty when there is none

  // A text that names a CSV file:
  std::string rows_of;   ///< the list beside it that the file's rows become; empty for other settings
  std::string row_word;  ///< what a row is: `rate`

  /// What is said of a property; null when nothing is.
  const SettingDescription* property(const std::string& wanted) const;
};

/// The group that `schema` describes: a JSON Schema, draft 2020-12, of whose words only those may be used that the
/// schemas of this program use. Throws std::runtime_error saying which setting is described wrongly, and how.
SettingDescription read_setting_description(const std::string& schema);

}  // namespace panel_dossier
