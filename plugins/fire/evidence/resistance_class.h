// Fire resistance classes of EN 13501-2.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"

namespace panel_dossier::fire {

/// Side the fire attacks from: inside, outside, either, or not stated.
enum class FireDirection { not_stated, inside_to_outside, outside_to_inside, both };

/// Minutes for each criterion letter (R, E, I, W, M), for example `REI 60` or `R 60 / EI 30`.
struct ResistanceClass {
  std::map<char, int> minutes;
  FireDirection direction = FireDirection::not_stated;

  /// Minutes for which every criterion in `criteria` holds; 0 when one of them is not classified.
  int minutes_for(std::string_view criteria) const;
  /// True when every criterion in `criteria` that `required` classifies holds at least as long.
  bool meets(const ResistanceClass& required, std::string_view criteria) const;
  /// True when the direction that `required` states is covered.
  bool covers_direction_of(const ResistanceClass& required) const;
};

/// None when the text is not a class of EN 13501-2. Blanks are free; directions are written (i→o), (o→i), (i↔o) or with
/// -> and <->. Minutes must be one of the classification periods.
std::optional<ResistanceClass> parse_resistance_class(std::string_view text);

/// Classes shown for each side of fire, as a report gives them for a wall that is not alike on both sides (EN
/// 13501-2:2016 7.3 and 7.5): `REI 60 (i→o); REI 30 (o→i)`, or one class. None when one of them is no class.
std::optional<std::vector<ResistanceClass>> parse_resistance_classes(std::string_view text);

/// What of the classes holds for fire from the sides `asked`. For both sides the shorter period of each criterion where
/// both are shown. Where the sides asked are not stated, the shorter period of all. Where the side is not shown, the
/// shorter period of all with a direction that does not cover it. Precondition: `classes` is not empty.
ResistanceClass class_for(const std::vector<ResistanceClass>& classes, FireDirection asked);

/// `EI 60`.
std::string class_text(std::string_view criteria, int minutes);

/// `EI 15 / E 60 (i→o)`: the criteria among `criteria` that are classified, the shortest period first; empty when none
/// is.
std::string class_text(const ResistanceClass& resistance, std::string_view criteria);

/// `'REI60' is not a class of EN 13501-2 (IfcWall …)`, for a stated text that cannot be read.
std::string not_a_class(const Sourced<std::string>& text);

}  // namespace panel_dossier::fire
