// A comparison for people and for other programs.
#pragma once

#include <string>

#include "core/trace/compare.h"

namespace panel_dossier {

/// Whether changes of one kind, check and cause share a line.
enum class ChangeLines { each, grouped };

/// Several lines: which builds, causes with their effects, verdicts that moved, figures that moved by more than the
/// least share, and how many did by less. Ends with a newline.
std::string comparison_text(const Comparison& comparison, ChangeLines lines = ChangeLines::each);

/// As schemas/comparison.schema.json says: two-space indent, the causes of a change as positions in the list of causes,
/// and every change, also the small ones. Ends with a newline.
std::string comparison_json(const Comparison& comparison);

}  // namespace panel_dossier
