#include "plugins/quantities/records/batches.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/quantities/records/record_order.h"

namespace panel_dossier::quantities {

const CheckDeclaration kBatchesCheck{
    .id = "quantities.batches",
    .title = "Batches in the panel, by delivery",
    .project_title = {},
    .sentence =
        "Every batch that the records name for the panel is of a material and part of it, came with a delivery of that "
        "material that the records of deliveries hold, and was built in no earlier than it arrived and no later than "
        "the panel was installed; the value is the number of those of which this does not hold.",
    .clause = "ISO 9001:2015, 8.5.2 (from memory)",
    .units = {"batches"},
    .kind = CheckKind::evidence,
    .scope = CheckScope::panels,
    .inputs = with_records(
        {optional_property("Pset_ManufacturerOccurrence.BatchReference"), optional_property("Panel_Install.Date")},
        {"batches", "deliveries"}),
    .limits = {"Batches that the export alone names: it has no place for the delivery.",
               "Parts for which nobody wrote down a batch.", "What a delivery note says of itself."},
    .role = {}};

namespace {

bool is_same_name(const std::string& a, const std::string& b) {
  return lower_case(a) == lower_case(b);
}

std::string material_of(const Part& part, const Project& project) {
  const Material* material = material_at(project, part.material);
  return material == nullptr ? std::string() : material->name;
}

/// A layer of an export without parts holds its material no less.
bool holds_material(const Panel& panel, const std::string& name, const Project& project) {
  const auto is_it = [&](const auto& thing) {
    const Material* material = material_at(project, thing.material);
    return material != nullptr && is_same_name(material->name, name);
  };
  return std::any_of(panel.parts.begin(), panel.parts.end(), is_it) ||
         std::any_of(panel.layers.begin(), panel.layers.end(), is_it);
}

const Part* part_named(const Panel& panel, const std::string& name) {
  const auto found =
      std::find_if(panel.parts.begin(), panel.parts.end(), [&](const Part& part) { return part.name == name; });
  return found == panel.parts.end() ? nullptr : &*found;
}

/// Holds the batches of one panel against its export, its installation and the deliveries.
class BatchJudge {
 public:
  BatchJudge(const Panel& panel, const Project& project) : panel_(panel), project_(project) {}

  void judge(const PanelRecord& record) {
    const std::size_t before = faults_.failures.size() + faults_.gaps.size();
    batch_ = "batch '" + record.words("batch") + "' (" + place_of_record(record) + ")";
    judge_names(record);
    judge_delivery(record);
    judge_installation(record);
    if (faults_.failures.size() + faults_.gaps.size() > before) with_fault_ += 1.0;
  }

  double with_fault() const { return with_fault_; }
  const RecordFaults& faults() const { return faults_; }

 private:
  const Panel& panel_;
  const Project& project_;
  std::string batch_;  ///< in words, of the row that is judged
  double with_fault_ = 0.0;
  RecordFaults faults_;

  void fail(const std::string& what) { faults_.failures.push_back(batch_ + " " + what); }
  void doubt(const std::string& what) { faults_.gaps.push_back(batch_ + " " + what); }

  void judge_names(const PanelRecord& record) {
    const std::string material = record.words("material");
    const std::string part = record.words("part");
    if (!material.empty() && !holds_material(panel_, material, project_)) {
      doubt("is of '" + material + "', of which the panel has nothing by the export: correct the name");
    }
    if (!part.empty() && part_named(panel_, part) == nullptr) {
      doubt("is of part '" + part + "', which the panel does not have by the export: correct the name");
    }
  }

  void judge_delivery(const PanelRecord& record) {
    const std::string number = record.words("delivery");
    if (number.empty()) return doubt("names no delivery: write the number of its delivery note");
    const Delivery* delivery = find_delivery(project_, number);
    if (delivery == nullptr) {
      return doubt("is of delivery '" + number + "', which the records of deliveries do not have: enter it there");
    }
    judge_material_of(record, number);
    if (delivery->day <= record.day) return;
    fail("was built in on " + record.day + ", before its delivery '" + number + "' arrived on " + delivery->day + " (" +
         delivery->origin.table + ", row " + delivery->origin.row + "); correct the day or the delivery");
  }

  void judge_material_of(const PanelRecord& record, const std::string& number) {
    std::string material = record.words("material");
    const Part* part = part_named(panel_, record.words("part"));
    if (material.empty() && part != nullptr) material = material_of(*part, project_);
    if (material.empty()) return;
    std::vector<std::string> others;
    for (const PanelRecord& row : project_.records) {
      if (row.table != "deliveries" || row.words("delivery") != number) continue;
      const std::string brought = row.words("material");
      // A row that names no material may be of any.
      if (brought.empty() || is_same_name(brought, material)) return;
      others.push_back("'" + brought + "' (" + place_of_record(row) + ")");
    }
    if (others.empty()) return;
    doubt("is of '" + material + "', but its delivery '" + number + "' brought " + joined(others) +
          ": correct one of them");
  }

  void judge_installation(const PanelRecord& record) {
    const auto installed = panel_.properties.text("Panel_Install", "Date");
    if (!installed || record.day <= installed->value) return;
    fail("was built in on " + record.day + ", after the panel was installed on " + installed->value + " (" +
         describe(installed->origin) + "); correct one of the days");
  }
};

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
  BatchJudge judge(panel, project);
  double all = 0.0;
  for (const PanelRecord& record : panel.records) {
    if (record.table != "batches") continue;
    all += 1.0;
    finding.text("batch", record.text("batch"), "");
    judge.judge(record);
    table.rows.push_back({record.words("batch"), record.words("material"), record.words("part"), record.day,
                          record.words("delivery"), arrival_of(record, project)});
  }
  finding.step("batches by the records", "n", all, "");
  finding.table(std::move(table));
  const RecordFaults& faults = judge.faults();
  std::vector<std::string> reasons = faults.failures;
  reasons.insert(reasons.end(), faults.gaps.begin(), faults.gaps.end());
  Finding closed = finding.judge(judge.with_fault(), "batches", Relation::at_most, 0.0, joined(reasons, "; "));
  if (closed.verdict == Verdict::fail && faults.failures.empty()) closed.verdict = Verdict::evidence_needed;
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
