// Whether the days of a panel's records follow each other as they must.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"

namespace panel_dossier::quantities {

/// What records say against a panel, in words: that it fails, and what is not shown.
struct RecordFaults {
  std::vector<std::string> failures;
  std::vector<std::string> gaps;
};

/// `records/batches.csv, row 4`.
std::string place_of_record(const PanelRecord& record);

/// Days YYYY-MM-DD by export and newest record; each empty where there is none.
struct KnownDays {
  std::string inspected;  ///< Panel_Inspection.Date
  std::string installed;  ///< Panel_Install.Date
  std::string assessed;   ///< project.assessment_date
};

/// Of the rows of all tables: a day before the panel was made or, of a batch, after it; delivered after it was
/// installed; in use or lined before; installed while an inspection stood rejected that was accepted later; a day after
/// the assessment, which is a gap, as is a day that cannot be told to have been without one. What the newest inspection
/// and installation say is judged elsewhere.
RecordFaults faults_of_order(const Panel& panel, const KnownDays& days);

}  // namespace panel_dossier::quantities
