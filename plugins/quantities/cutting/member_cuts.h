// How a member is cut: the angles of its ends and the holes drilled in it.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "core/api/model/panel.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// Angles in degrees between the cuts at the two ends and the member's axis, the smaller first; 90 is a square cut.
/// None when the shape is not one straight piece between two straight cuts (notched, tapered, or no solid).
std::optional<std::pair<double, double>> end_angles_deg(const Part& part, const CutPart& cut);

/// `rectangular`, `ends 45° and 90°` or `shaped`.
std::string shape_in_words(const Part& part, const CutPart& cut);

/// Whether two parts of the same blank, cut at their ends alone, are the same piece: their solids are equal.
bool same_mitres(const Part& a, const Part& b, const CutPart& cut);

/// Holes as the workshop reads them, `20 mm at 300, 900`, from Panel_Member.Holes: diameter and distance from the lower
/// or left end in mm, as `20@300; 20@900`. Empty when the part has none; none when the text cannot be read or a hole
/// lies outside the member.
std::optional<std::string> holes_in_words(const Part& part, const CutPart& cut);

}  // namespace panel_dossier::quantities
