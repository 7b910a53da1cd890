#include "core/dossier/handover/cobie_workbook.h"

#include <algorithm>
#include <stdexcept>

#include "core/dossier/handover/cobie_check.h"
#include "core/dossier/handover/cobie_delivery.h"
#include "core/dossier/handover/workbook_file.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

/// The colours of the public templates.
std::uint32_t fill_of_kind(const std::string& kind) {
  if (kind == "required") return 0xFFFF99;
  if (kind == "reference") return 0xFFCC99;
  if (kind == "external") return 0xCC99FF;
  return 0xCCFFCC;
}

void write_instruction(WorkbookFile& file, const HandoverContent& content, const CobieDelivery& delivery) {
  const BuildSummary& build = content.results().build;
  file.begin_sheet("Instruction");
  file.widths({22.0, 60.0});
  const auto line = [&file](const std::string& label, const std::string& text) { file.row({label, text}); };
  line("Title", "COBie");
  line("Version", "2");
  line("Release", "4");
  line("Status", build.export_schema);
  line("Region", "en-UK");
  line("Project", content.project().name);
  line("Made", build.time_utc + " by panel-dossier " + build.program_version + " from " + build.export_name);
  line("Issue", build.issue.is_issue() ? build.issue.id + " " + build.issue.status : "none: a working build");
  line("Missing", "n/a stands wherever the project says nothing. Nothing is guessed.");
  line("Contacts",
       "An address that ends in not-given.invalid reaches nobody: no e-mail address is known of that contact.");
  line("Spaces", "One space for each storey, so that components have one: rooms are not read from the model.");
  line("Proof", "dossier.pdf of the same build holds the calculations, the evidence and the signature.");
  line("Legend", "Heads: yellow required, orange reference, violet from the model, green if specified.");
  for (const std::string& note : delivery.notes) line("Note", note);
}

void write_table(WorkbookFile& file, const CobieTable& table) {
  file.begin_sheet(table.form().name);
  std::vector<HeadCell> head;
  for (const CobieColumn& column : table.form().columns) {
    const bool is_long = column.name == "Description" || column.name == "Name" || column.name == "Constituents";
    head.push_back({column.name, is_long ? 36.0 : 0.0, fill_of_kind(column.kind)});
  }
  file.head(head);
  for (const std::vector<Value>& row : table.rows()) file.row(row);
}

/// A column a list; what the delivery adds to a list stands below the list's own values.
void write_pick_lists(WorkbookFile& file, const CobieBook& book) {
  file.begin_sheet("PickLists");
  std::vector<HeadCell> head;
  std::vector<std::vector<std::string>> columns;
  std::size_t longest = 0;
  for (const PickList& list : cobie_pick_lists()) {
    head.push_back({list.name, 0.0, 0});
    columns.push_back(list.values);
    const std::vector<std::string> own = own_values(book, list);
    columns.back().insert(columns.back().end(), own.begin(), own.end());
    longest = std::max(longest, columns.back().size());
  }
  file.head(head);
  for (std::size_t row = 0; row < longest; ++row) {
    std::vector<Value> cells;
    cells.reserve(columns.size());
    for (const std::vector<std::string>& column : columns)
      cells.push_back(row < column.size() ? Value(column[row]) : Value());
    file.row(cells);
  }
}

}  // namespace

void write_cobie(const HandoverContent& content, const std::filesystem::path& file) {
  const CobieDelivery delivery = cobie_delivery(content);
  const std::vector<std::string> faults = cobie_faults(delivery.book);
  if (!faults.empty()) {
    throw std::runtime_error("'" + file.filename().string() +
                             "' would break the rules of COBie: " + list_some(faults, 3));
  }
  WorkbookFile workbook(file, "COBie: " + content.project().name, content.results().build.time_utc);
  write_instruction(workbook, content, delivery);
  for (const CobieTable& table : delivery.book.sheets()) write_table(workbook, table);
  write_pick_lists(workbook, delivery.book);
  workbook.close();
}

}  // namespace panel_dossier
