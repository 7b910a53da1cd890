// What of a build is not proved: grouped by cause, worst first, with who can close it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// Findings of one check, or of several of a discipline, that are open, or fail, for one cause.
struct OpenPoint {
  Verdict verdict = Verdict::not_assessed;  ///< fail, evidence needed or not assessed
  std::string check;                        ///< id; of several with `; ` between, as are their titles
  std::string title;
  std::string what;                ///< the reason of the first of them, behind its value and limit where it fails
  std::string who;                 ///< can close it
  std::vector<std::string> marks;  ///< panels in the project's order; empty for the project itself
  std::string first_panel;         ///< GlobalId of the first of them; empty for the project
};

/// Two findings have one cause when check, verdict and reason are the same but for numbers in the reason, or when
/// checks of one discipline give the same verdict and reason of the same panels. Sorted by verdict: fail, evidence
/// needed, not assessed; within one by number of panels, then by check.
std::vector<OpenPoint> open_points(const ResultsDocument& document);

/// Those of one panel alone, each with that panel's own figures.
std::vector<OpenPoint> open_points_of(const PanelSummary& panel);

/// Ids of the plugins that have nothing to show: findings, but none of a panel or the project with a value, a pass or a
/// fail. Pages give such a discipline a line in place of its tables.
std::vector<std::string> disciplines_without_result(const ResultsDocument& document);

/// The points with one in place of all those of a discipline without a result.
std::vector<OpenPoint> in_short(const std::vector<OpenPoint>& points, const ResultsDocument& document);

/// How many points there are of a verdict.
std::size_t count_of(const std::vector<OpenPoint>& points, Verdict verdict);

/// `12 panels: S0-01, S0-02, …`, `panel 'S0-01'` or `the project`.
std::string subject_of(const OpenPoint& point);

/// RFC 4180 CSV: verdict, check, title, what, who, panels (their number), marks (separated by a space).
std::string open_points_csv(const std::vector<OpenPoint>& points);

}  // namespace panel_dossier
