// Reaction to fire classes of EN 13501-1 for construction products other than floorings and pipe insulation, and those
// of a panel's layers.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"

namespace panel_dossier::fire {

inline constexpr int kRankOfA2 = 1;

struct ReactionClass {
  int rank = 0;      ///< 0 for A1, kRankOfA2 for A2, then B to F
  int smoke = 0;     ///< 1 to 3; 0 where the class states none (A1, E, F)
  int droplets = 0;  ///< 0 to 2

  /// `A2-s1,d0`.
  std::string text() const;
  /// True when this is as good as or better than `required` in class, smoke and droplets.
  bool meets(const ReactionClass& required) const;
};

/// Reads `A1`, `A2-s1,d0`, `B-s3, d2`, `D-s2 d0`, `E`, `E-d2`, `F`; none for anything else, and for A2 to D without
/// smoke and droplets.
std::optional<ReactionClass> parse_reaction_class(std::string_view text);

inline constexpr const char* kOutsideUnknown =
    "which face is outside is not known (Panel_Construction.FirstLayerFace or setting intake.layer_order)";

struct LayerClass {
  std::string name;
  std::optional<std::size_t> material;  ///< index into Project::materials; none for the outer leaf fixed on site
  std::string material_name;
  bool membrane = false;
  bool insulation = false;
  std::optional<Sourced<std::string>> stated;  ///< Panel_Fire.ReactionToFire as given
  std::optional<ReactionClass> parsed;         ///< none also where the class stated cannot be
  std::string fault;                           ///< why it cannot be, naming both sources; else empty
};

/// Every layer with a material, from inside to outside; air layers are left out.
std::vector<LayerClass> layer_classes(const Panel& panel, const Project& project);

/// Class of the material at this index, as a layer of the given name. Wood and plastics are never of class A1 or A2,
/// whose gross heat of combustion is at most 2 and 3 MJ/kg (EN 13501-1:2018 table 1, from memory): theirs is more than
/// 15 MJ/kg.
LayerClass class_of(const Project& project, std::size_t material, std::string name);

/// The classes in a table.
Table class_table(const std::vector<LayerClass>& layers);

/// Records the class as an input. Notes what is missing and returns none when the layer has no usable class.
std::optional<ReactionClass> surface(FindingBuilder& builder, const char* where, const LayerClass& layer);

}  // namespace panel_dossier::fire
