// Whether pages are those that were signed, and a panel's pages those of its results. Private to the seal stage.
#pragma once

#include "core/seal/verification/content_steps.h"
#include "core/seal/verification/step_list.h"
#include "core/trace/results_document.h"

class QPDF;

namespace panel_dossier {

/// Adds the step that each page has the content that the attached list says.
void add_page_step(StepList& steps, const AttachedContent& content, QPDF& pdf);

/// Adds the step that the pages of each panel in this file state the hash that results.json has for it; and where one
/// panel is asked for (`AttachedContent::panel`), the steps that prove it by itself.
void add_panel_steps(StepList& steps, const AttachedContent& content, const ResultsDocument& results, QPDF& pdf);

}  // namespace panel_dossier
