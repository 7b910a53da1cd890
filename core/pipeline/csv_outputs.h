// quantities.csv, cutting.csv, deliveries.csv and carbon.csv: what workshop, site and client load into a spreadsheet.
#pragma once

#include <string>

#include "core/api/model/project.h"
#include "core/pipeline/results.h"

namespace panel_dossier {

/// All texts are RFC 4180 CSV in UTF-8 with a header line and CRLF line ends, in the order of Project::panels; numbers
/// stand in their shortest exact form with a decimal point. A text cell that begins with `=`, `+`, `-`, `@`, a tab or a
/// carriage return gets a leading apostrophe, so that a spreadsheet shows it instead of computing it. Columns are
/// described in schemas/outputs.md. They are drawn from findings alone and compute nothing.

/// One row a panel with its overall sizes, a column for each check of the discipline `quantities` that has a number,
/// and columns for a few of their steps; then the row `TOTAL` from the project findings of the same id and unit. A cell
/// is empty where the check was not assessed.
std::string quantities_csv(const Project& project, const Results& results);

/// The rows of the table of each panel's finding `quantities.cutting_list`, behind the panel's mark, type, storey,
/// batch and erection order; the last two are steps of the finding, empty where it has none.
/// Panels whose list was not assessed have no rows.
std::string cutting_csv(const Project& project, const Results& results);

/// The table `Panels by load` of the project finding `quantities.deliveries` under its own headings: one row a panel in
/// the order of erection. Empty when the finding has no such table.
std::string deliveries_csv(const Results& results);

/// One row for each module and indicator of the table `By module` of each panel's finding `carbon.whole_life`, then of
/// the table of whole sums of its `carbon.core_indicators`, and last those of the project under the panel `TOTAL`. What
/// a panel has no value for has no rows; no total stands while a panel has none.
std::string carbon_csv(const Project& project, const Results& results);

}  // namespace panel_dossier
