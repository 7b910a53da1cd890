// The look-up of a recall: from a batch to the panels that hold it, and from a panel to its batches.
#pragma once

#include <string>
#include <string_view>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// Whether the name is the mark or GlobalId of a panel.
bool names_panel(const ResultsDocument& results, std::string_view name);

/// Every batch of this reference, each with its material, deliveries and panels by mark, GlobalId and storey; empty
/// when no panel holds a batch of that name.
std::string batch_text(const ResultsDocument& results, std::string_view reference);

/// One line for each batch that the panel of this mark holds some of; empty when none is known.
std::string batches_of_panel_text(const ResultsDocument& results, std::string_view mark);

}  // namespace panel_dossier
