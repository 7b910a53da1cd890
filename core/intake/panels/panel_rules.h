// The rules of the settings that say which elements of the export are panels.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/settings.h"

namespace panel_dossier {

/// One entry of the setting `intake.panels`. All that it names must hold for an element to fit it.
struct PanelRule {
  bool includes = true;
  std::string entity;          ///< `IfcWall` stands for every kind of wall; empty: walls and element assemblies
  std::string type_name;       ///< pattern
  std::string classification;  ///< pattern of the identification or the name of a classification reference
  std::string property;        ///< `Pset.Property`
  std::optional<Settings::Value> equals;  ///< of the property; a text is a pattern, a number in SI. None: it is there
  std::string storey;                     ///< pattern
  std::string layer_set;                  ///< pattern of the name of the material layer set
  std::string text;                       ///< `rule 1 (include type_name 'EW-*')`, for messages and counts
};

/// The rules in the order of the settings. Precondition: the settings keep to their schema.
std::vector<PanelRule> panel_rules(const Settings& settings);

}  // namespace panel_dossier
