#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <unordered_map>
#include <utility>

#include "core/api/support/units.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/derivation.h"
#include "core/dossier/parts/references.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/sheet_drawings.h"

namespace panel_dossier {

namespace {

constexpr double kSheetCodeSize = 76.0;
constexpr std::string_view kBatchProperty = "Pset_ManufacturerOccurrence.BatchReference";

std::string property_text(const Property& property) {
  if (const auto* logical = std::get_if<bool>(&property.value)) return *logical ? "yes" : "no";
  if (const auto* number = std::get_if<double>(&property.value)) {
    const bool years = property.unit == "s" && *number >= units::kSecondPerYear;
    return years ? format_significant(*number / units::kSecondPerYear) + " years"
                 : format_value(*number, property.unit);
  }
  return std::get<std::string>(property.value);
}

bool is_record(std::string_view name) {
  constexpr std::array<std::string_view, 6> kSets{"Panel_",           "Pset_Manufacturer", "Pset_Warranty",
                                                  "Pset_ServiceLife", "Pset_Maintenance",  "Pset_Condition"};
  return std::any_of(kSets.begin(), kSets.end(), [&](std::string_view set) { return name.starts_with(set); });
}

std::string size_text(const Panel& panel) {
  return format_millimetres(panel.width_m.value) + " × " + format_millimetres(panel.height_m.value) + " × " +
         format_millimetres(panel.thickness_m.value) + " mm (width × height × thickness)";
}

std::string verdict_text(const PanelSummary& summary) {
  VerdictCounts counts{};
  count_verdicts(summary.findings, counts);
  std::string text;
  for (const VerdictCount& count : listed(counts))
    text += (text.empty() ? "" : ", ") + std::to_string(count.count) + " " + std::string(to_string(count.verdict));
  return text.empty() ? "no findings" : text;
}

// Name and value pairs set beside the QR code.
void write_identity(Book& book, const Panel& panel, const PanelSummary& summary) {
  Flow& flow = book.flow;
  const std::vector<std::pair<std::string, std::string>> rows{
      {"type", summary.type},
      {"building, storey",
       panel.building + (panel.building.empty() || summary.storey.empty() ? "" : ", ") + summary.storey},
      {"size", size_text(panel)},
      {"area",
       format_fixed(panel.gross_area_m2(), 2) + " m² gross, " + format_fixed(panel.net_area_m2(), 2) + " m² net"},
      {"verdicts", verdict_text(summary)},
      {"GlobalId", panel.global_id},
      {"hash", summary.hash}};
  constexpr double kNameWidth = 68.0;
  const TextStyle& style = type::kTable;
  const double width = grid::kWidth - kSheetCodeSize - kNameWidth - 10.0;
  const double top = flow.y();
  draw_qr_code(book.pdf, flow.page(), {grid::kRight - kSheetCodeSize + 6.0, top - kSheetCodeSize + 6.0}, kSheetCodeSize,
               panel_code(panel.global_id, summary.hash));
  const std::size_t first_page = flow.page();
  const auto measure = [&](std::string_view text) { return book.pdf.text_width(text, style.face, style.size); };
  constexpr TextStyle kName{Face::regular, 7.0, 9.0, kMidGrey};
  for (const auto& [name, value] : rows) {
    flow.need(style.leading);
    book.pdf.text(flow.page(), {grid::kLeft, flow.y() - style.size}, name, kName);
    for (const std::string& line : wrap(value.empty() ? "–" : value, width, measure)) {
      flow.need(style.leading);
      book.pdf.text(flow.page(), {grid::kLeft + kNameWidth, flow.y() - style.size}, line, style);
      flow.skip(style.leading + 0.5);
    }
  }
  if (flow.page() == first_page) flow.move_to(std::min(flow.y(), top - kSheetCodeSize + 6.0));
  flow.skip(4.0);
  book.pdf.line(flow.page(), {grid::kLeft, flow.y()}, {grid::kRight, flow.y()}, {0.4, kRule, 0, 0});
  flow.skip(4.0);
}

/// A finding of a panel, by indices into ResultsDocument::panels and PanelSummary::findings.
struct FindingPlace {
  std::size_t panel = 0;
  std::size_t finding = 0;
};

/// One entry a finding: the earlier panel whose sheet holds the same working.
using Workings = std::vector<std::optional<FindingPlace>>;

/// Whether one working serves both. A derivation alone does not: the reason why two panels are not assessed may differ,
/// and it is printed with the working alone.
bool print_alike(const RecordedFinding& a, const RecordedFinding& b) {
  return a.derivation == b.derivation && a.title == b.title && a.value == b.value && a.unit == b.unit &&
         a.limit == b.limit && a.relation == b.relation && a.utilisation == b.utilisation && a.verdict == b.verdict &&
         a.reason == b.reason && a.basis == b.basis;
}

/// For each panel the workings that earlier sheets hold.
std::vector<Workings> earlier_workings(const std::vector<PanelSummary>& panels) {
  std::unordered_map<const Derivation*, std::vector<FindingPlace>> printed;
  std::vector<Workings> earlier(panels.size());
  for (std::size_t panel = 0; panel < panels.size(); ++panel) {
    const std::vector<RecordedFinding>& findings = panels[panel].findings;
    for (std::size_t finding = 0; finding < findings.size(); ++finding) {
      std::vector<FindingPlace>& places = printed[findings[finding].derivation.get()];
      const auto same = std::find_if(places.begin(), places.end(), [&](const FindingPlace& place) {
        return print_alike(panels[place.panel].findings[place.finding], findings[finding]);
      });
      if (same == places.end()) {
        places.push_back({panel, finding});
        earlier[panel].emplace_back(std::nullopt);
      } else {
        earlier[panel].emplace_back(*same);
      }
    }
  }
  return earlier;
}

/// Where the derivation of a finding stands, here or on an earlier sheet.
std::string working_anchor(const Book& book, const PanelSummary& summary, const Workings& workings,
                           std::size_t finding) {
  if (!workings[finding]) return derivation_anchor(summary.global_id, finding);
  return derivation_anchor(book.results().panels[workings[finding]->panel].global_id, workings[finding]->finding);
}

void write_findings(Book& book, const PanelSummary& summary, const Workings& workings) {
  Flow& flow = book.flow;
  flow.heading("Findings");
  if (summary.findings.empty()) {
    flow.paragraph("No check returned a finding for this panel.");
    return;
  }
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"no.", true}, {"check"}, {"value"}, {"limit"}, {"util.", true}, {"verdict"}, {"basis"}, {"clause"}};
  for (std::size_t i = 0; i < summary.findings.size(); ++i) {
    const RecordedFinding& finding = summary.findings[i];
    if (book.is_silent(finding.check)) continue;
    Cell title(finding.title);
    title.link = working_anchor(book, summary, workings, i);
    table.rows.push_back({link_cell(std::to_string(i + 1), title.link), title, value_cell(finding), limit_cell(finding),
                          utilisation_cell(finding), verdict_cell(finding.verdict),
                          std::string(to_string(finding.basis)), finding.clause});
  }
  if (!table.rows.empty()) set_table(flow, std::move(table));
  for (const std::string& id : book.silent) flow.paragraph(Book::silence_of(*book.plugin(id)), type::kNote);
}

/// The line of the export, or the row of a table beside it.
std::string place_text(const Origin& origin) {
  if (origin.kind == OriginKind::input_table) return origin.table + ", row " + origin.row;
  return origin.line == 0 ? "–" : std::to_string(origin.line);
}

/// Every row of the records, the oldest first: what counts is the newest, and what was before it is kept.
void write_history(Book& book, const Panel& panel) {
  if (panel.records.empty()) return;
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"day"}, {"record"}, {"what"}, {"by"}, {"row"}};
  for (const PanelRecord& record : panel.records) {
    std::string name = record.table;
    std::replace(name.begin(), name.end(), '_', ' ');
    table.rows.push_back({record.day, name, record.what, record.by, place_text(record.origin)});
  }
  book.flow.heading("Records of workshop and site");
  set_table(book.flow, std::move(table));
}

void write_records(Book& book, const Panel& panel) {
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"property"}, {"value"}, {"line"}};
  for (const auto& [name, property] : panel.properties.all()) {
    if (!is_record(name)) continue;
    table.rows.push_back({name, property_text(property), place_text(property.origin)});
  }
  std::map<std::string, std::set<std::string>> batches;
  for (const Part& part : panel.parts) {
    const auto batch = part.properties.all().find(kBatchProperty);
    if (batch == part.properties.all().end()) continue;
    const Material* material = material_at(book.project(), part.material);
    batches[property_text(batch->second)].insert(material != nullptr ? material->name
                                                                     : std::string(to_string(part.kind)));
  }
  for (const auto& [batch, materials] : batches) {
    const std::vector<std::string> names(materials.begin(), materials.end());
    table.rows.push_back({"batch of " + list_some(names, 8), batch, "–"});
  }
  book.flow.heading("Making, inspection, as built, installation");
  if (table.rows.empty()) {
    book.flow.paragraph(
        "The export carries no batch, inspection, as-built, installation or warranty record for this panel.");
    return;
  }
  book.flow.paragraph("Line: where the property stands in the model export, or in a table beside it.", type::kNote);
  set_table_in_columns(book.flow, std::move(table), 2);
}

void write_evidence(Book& book, const Panel& panel) {
  const auto by_material = material_documents(panel, book.project());
  if (panel.evidence.empty() && by_material.empty()) return;
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"id"}, {"document"}, {"file"}, {"status"}, {"for"}};
  const auto add = [&table](const Evidence& evidence, const std::string& use) {
    table.rows.push_back({link_cell(evidence.id, part_anchor(DossierPart::evidence)), evidence.name, evidence.location,
                          std::string(to_string(evidence.status)), use});
  };
  for (const std::size_t index : panel.evidence) add(book.project().evidence[index], "the panel");
  for (const auto& [id, materials] : by_material) {
    const std::string use = "by material: " + list_some(materials, 4);
    const Evidence* evidence = find_evidence(book.project(), id);
    if (evidence != nullptr) {
      add(*evidence, use);
    } else {
      table.rows.push_back({id, "–", "–", "not among the export's documents", use});
    }
  }
  book.flow.heading("Evidence");
  set_table(book.flow, std::move(table));
}

/// The findings worked out on earlier sheets, by sheet.
void write_shared_workings(Book& book, const PanelSummary& summary, const Workings& workings) {
  std::map<std::size_t, std::vector<std::size_t>> by_panel;
  for (std::size_t i = 0; i < workings.size(); ++i) {
    if (workings[i] && !book.is_silent(summary.findings[i].check)) by_panel[workings[i]->panel].push_back(i);
  }
  if (by_panel.empty()) return;
  book.flow.heading("Worked out on earlier sheets", type::kSubheading, 50.0);
  book.flow.paragraph(
      "Inputs, steps and results of these findings are the same figure for figure. Where the inputs stand for this "
      "panel is in results.json, attached to this file, or comes from: panel-dossier trace DIR " +
          summary.mark + ".",
      type::kNote);
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"no."}, {"sheet of"}, {"page", true}};
  for (const auto& [panel, findings] : by_panel) {
    const PanelSummary& other = book.results().panels[panel];
    std::vector<std::size_t> numbers;
    for (const std::size_t finding : findings) numbers.push_back(finding + 1);
    const std::string anchor = working_anchor(book, summary, workings, findings.front());
    const auto page = book.pdf.anchor_page(anchor);
    table.rows.push_back({number_ranges(std::move(numbers)), link_cell(other.mark, anchor),
                          page ? book.pdf.page_label(*page).first : std::string("–")});
  }
  set_table(book.flow, std::move(table));
}

bool has_shown_findings(const Book& book, const PanelSummary& summary) {
  return std::any_of(summary.findings.begin(), summary.findings.end(),
                     [&](const RecordedFinding& finding) { return !book.is_silent(finding.check); });
}

void write_sheet(Book& book, const Panel& panel, const PanelSummary& summary, const Workings& workings,
                 std::size_t part_bookmark) {
  Flow& flow = book.flow;
  const std::string title = "Panel " + summary.mark;
  const std::string head = "5  Panel sheets: " + summary.mark;
  flow.start_page({head, book.short_cautions(), false});
  book.pdf.anchor(sheet_anchor(summary.global_id), flow.page(), grid::kTop + 10.0);
  book.pdf.bookmark(part_bookmark, title, flow.page(), grid::kTop + 10.0);
  flow.heading(title, type::kPart);
  write_identity(book, panel, summary);
  constexpr double kDrawingsNeed = 380.0;
  flow.need(kDrawingsNeed);
  write_sheet_drawings(book, panel);
  flow.start_page({head, book.joined_cautions(), false, book.short_cautions()});
  write_findings(book, summary, workings);
  write_records(book, panel);
  write_history(book, panel);
  write_evidence(book, panel);
  if (!has_shown_findings(book, summary)) return;
  flow.heading("Derivations", type::kHeading, flow.least_column_height());
  write_shared_workings(book, summary, workings);
  std::vector<NumberedFinding> findings;
  for (std::size_t i = 0; i < summary.findings.size(); ++i) {
    if (!workings[i] && !book.is_silent(summary.findings[i].check)) findings.push_back({i, &summary.findings[i]});
  }
  if (!findings.empty()) write_derivations(book, findings, summary.global_id);
}

}  // namespace

void write_panel_sheets(Book& book, const DossierProgress& progress) {
  const std::size_t bookmark = book.begin_part(DossierPart::sheets);
  Flow& flow = book.flow;
  flow.paragraph(
      "One sheet a panel, in the order of the marks: identity and drawings first, then all findings, the records of "
      "making and installing, the evidence, and the derivation of every finding with the sources of its inputs. A "
      "derivation that is the same figure for figure as on an earlier sheet is printed there alone and named here.");
  flow.paragraph(
      "The QR code holds the panel's GlobalId and hash as text (panel-dossier:GLOBALID:HASH), so that a panel on site "
      "can be matched with this dossier without a network.");
  const auto workings = earlier_workings(book.results().panels);
  const std::size_t total = book.project().panels.size();
  for (std::size_t i = 0; i < total; ++i) {
    write_sheet(book, book.project().panels[i], book.results().panels[i], workings[i], bookmark);
    if (progress) progress(i + 1, total);
  }
}

}  // namespace panel_dossier
