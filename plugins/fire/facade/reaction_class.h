// Reaction to fire classes of EN 13501-1 for construction products other than floorings and pipe insulation.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier::fire {

struct ReactionClass {
  int rank = 0;      ///< 0 for A1, 1 for A2, then B to F
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

}  // namespace panel_dossier::fire
