#include "plugins/quantities/records/batches.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/quantities/records/record_order.h"

namespace panel_dossier::quantities {

const CheckDeclaration kBatchesCheck{
    .id = "quantities.batches",
    .title = "Batches in the panel, by delivery",
    .project_title = {},
    .sentence =
        "Every batch that the records name for the panel came with a delivery that the records of deliveries hold, and "
        "was built in no earlier than it arrived; the value is the number of those that did not.",
    .clause = "ISO 9001:2015, 8.5.2 (from memory)",
    .units = {"batches"},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels,
    .inputs =
        with_records({optional_property("Pset_ManufacturerOccurrence.BatchReference")}, {"batches", "deliveries"}),
    .limits = {"Batches that the export alone names: it has no place for the delivery.",
               "Parts for which nobody wrote down a batch.", "What a delivery note says of itself."},
    .role = {}};

namespace {

struct BatchFaults {
  double batches = 0.0;  ///< with a fault
  RecordFaults faults;
};

void judge_batch(const PanelRecord& record, const Project& project, BatchFaults& found) {
  const std::string batch = "batch '" + record.words("batch") + "' (" + place_of_record(record) + ")";
  const std::string number = record.words("delivery");
  if (number.empty()) {
    found.batches += 1.0;
    found.faults.gaps.push_back(batch + " names no delivery: write the number of its delivery note");
    return;
  }
  const Delivery* delivery = find_delivery(project, number);
  if (delivery == nullptr) {
    found.batches += 1.0;
    found.faults.gaps.push_back(batch + " is of delivery '" + number +
                                "', which the records of deliveries do not have: enter it there");
    return;
  }
  if (delivery->day <= record.day) return;
  found.batches += 1.0;
  found.faults.failures.push_back(batch + " was built in on " + record.day + ", before its delivery '" + number +
                                  "' arrived on " + delivery->day + " (" + delivery->origin.table + ", row " +
                                  delivery->origin.row + "); correct the day or the delivery");
}

Value arrival_of(const PanelRecord& record, const Project& project) {
  const Delivery* delivery = find_delivery(project, record.words("delivery"));
  return delivery == nullptr ? std::string("–") : delivery->day;
}

}  // namespace

bool has_batch_records(const Panel& panel) {
  return std::any_of(panel.records.begin(), panel.records.end(),
                     [](const PanelRecord& record) { return record.table == "batches"; });
}

Finding batches(const Panel& panel, const Project& project) {
  FindingBuilder finding(kBatchesCheck, panel.global_id);
  finding.basis(Basis::declared).decimals(0);
  Table table{"Batches built in",
              {{"batch", ""}, {"material", ""}, {"part", ""}, {"built in", ""}, {"delivery", ""}, {"arrived", ""}},
              {}};
  BatchFaults found;
  double all = 0.0;
  for (const PanelRecord& record : panel.records) {
    if (record.table != "batches") continue;
    all += 1.0;
    finding.text("batch", record.text("batch"), "");
    judge_batch(record, project, found);
    table.rows.push_back({record.words("batch"), record.words("material"), record.words("part"), record.day,
                          record.words("delivery"), arrival_of(record, project)});
  }
  finding.step("batches by the records", "n", all, "");
  finding.table(std::move(table));
  std::vector<std::string> reasons = found.faults.failures;
  reasons.insert(reasons.end(), found.faults.gaps.begin(), found.faults.gaps.end());
  Finding closed = finding.judge(found.batches, "batches", Relation::at_most, 0.0, joined(reasons, "; "));
  if (closed.verdict == Verdict::fail && found.faults.failures.empty()) closed.verdict = Verdict::evidence_needed;
  return closed;
}

std::vector<OutputRow> batch_rows(const Project& project) {
  std::vector<OutputRow> rows;
  for (const MaterialBatch& batch : project.batches) {
    std::vector<std::string> marks;
    for (const std::size_t panel : batch.panels) marks.push_back(project.panels[panel].mark);
    rows.push_back({batch.reference, batch.material, joined(batch.kinds), joined(batch.deliveries),
                    static_cast<double>(marks.size()), joined(marks, " ")});
  }
  return rows;
}

}  // namespace panel_dossier::quantities
