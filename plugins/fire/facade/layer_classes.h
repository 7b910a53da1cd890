// Reaction to fire class of each layer of a panel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "plugins/fire/facade/reaction_class.h"

namespace panel_dossier::fire {

inline constexpr const char* kOutsideUnknown =
    "which face is outside is not known (Panel_Construction.FirstLayerFace or setting intake.layer_order)";

struct LayerClass {
  std::string name;
  std::string material;
  bool membrane = false;
  bool insulation = false;
  std::optional<Sourced<std::string>> stated;  ///< Panel_Fire.ReactionToFire as given
  std::optional<ReactionClass> parsed;
};

/// Every layer with a material, from inside to outside; air layers are left out.
std::vector<LayerClass> layer_classes(const Panel& panel, const Project& project);

/// Class of a material, as a layer of the given name.
LayerClass class_of(const Material& material, std::string name, bool membrane);

/// What to say of a layer without a usable class.
std::string missing_class(const LayerClass& layer);

/// The classes in a table.
Table class_table(const std::vector<LayerClass>& layers);

/// Records the class as an input. Notes what is missing and returns none when the layer has no usable class.
std::optional<ReactionClass> surface(FindingBuilder& builder, const char* where, const LayerClass& layer);

}  // namespace panel_dossier::fire
