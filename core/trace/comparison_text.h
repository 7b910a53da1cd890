// A comparison for people and for other programs.
#pragma once

#include <string>

#include "core/trace/compare.h"

namespace panel_dossier {

/// Several lines: which builds, causes with their effects, verdicts that moved, figures that moved by more than the
/// least share, and how many did by less. Ends with a newline.
std::string comparison_text(const Comparison& comparison);

/// The marks of panels: the first few, and how many more; `every one of 60` is for the caller to know.
std::string some_marks(const std::vector<std::string>& marks);

/// As schemas/comparison.schema.json says: two-space indent, the causes of a change as positions in the list of causes,
/// and every change, also the small ones. Ends with a newline.
std::string comparison_json(const Comparison& comparison);

}  // namespace panel_dossier
