#include "plugins/quantities/records/record_keys.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/quantities/records/record_order.h"

namespace panel_dossier::quantities {

const CheckDeclaration kRecordKeysCheck{
    .id = "quantities.record_keys",
    .title = "Records that name no panel of the export",
    .project_title = {},
    .sentence =
        "Every row of the records that names a mark, serial number or GlobalId names that of a panel of the export; "
        "the "
        "value is the number of rows that do not.",
    .clause = "ISO 9001:2015, 7.5.3 (from memory)",
    .units = {"rows"},
    .kind = CheckKind::evidence,
    .scope = CheckScope::project,
    .inputs = with_records({}, {"as_built", "inspections", "batches", "deliveries", "installation", "air_tests",
                                "weather_exposure", "in_use"}),
    .limits = {"Rows that name another panel of the export than the one they were written for."},
    .role = {}};

bool keeps_records(const Project& project) {
  return !project.stray_records.empty() || std::any_of(project.panels.begin(), project.panels.end(),
                                                       [](const Panel& panel) { return !panel.records.empty(); });
}

Finding record_keys(const Project& project) {
  constexpr std::size_t kRowsNamed = 5;
  FindingBuilder finding(kRecordKeysCheck, "");
  finding.basis(Basis::declared).decimals(0);
  Table table{"Rows that name no panel", {{"row", ""}, {"names", ""}, {"day", ""}, {"what", ""}}, {}};
  std::string reason = "these rows name no panel of the export: ";
  double placed = 0.0;
  for (const Panel& panel : project.panels) placed += static_cast<double>(panel.records.size());
  for (std::size_t i = 0; i < project.stray_records.size(); ++i) {
    const auto& [key, record] = project.stray_records[i];
    if (i < kRowsNamed) reason += (i == 0 ? "" : "; ") + place_of_record(record) + " " + key;
    table.rows.push_back({place_of_record(record), key, record.day, record.what});
  }
  const std::size_t rows = table.rows.size();
  if (rows > kRowsNamed) reason += " and " + std::to_string(rows - kRowsNamed) + " more, all in the table";
  reason += "; correct what they name, or take them out";
  finding.step("rows that name a panel of the export", "n", placed, "");
  if (rows > 0) finding.table(std::move(table));
  Finding closed = finding.judge(static_cast<double>(rows), "rows", Relation::at_most, 0.0, reason);
  if (closed.verdict == Verdict::fail) closed.verdict = Verdict::evidence_needed;
  return closed;
}

}  // namespace panel_dossier::quantities
