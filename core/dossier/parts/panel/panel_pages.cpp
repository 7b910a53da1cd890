// Two pages a panel: first what a person asks, then every finding in one line, the records and the evidence.

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/annex/references.h"
#include "core/dossier/parts/panel/elevation.h"
#include "core/dossier/parts/panel/fire_class.h"
#include "core/dossier/parts/panel/labels.h"
#include "core/dossier/parts/panel/neighbours.h"
#include "core/dossier/parts/panel/panel_drawings.h"
#include "core/dossier/parts/panel/panel_facts.h"
#include "core/dossier/parts/panel/panel_records.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/verdict_fill.h"

namespace panel_dossier {

namespace {

constexpr double kPanelCodeSize = 72.0;
constexpr std::string_view kBatchProperty = "Pset_ManufacturerOccurrence.BatchReference";
constexpr TextStyle kCompact = type::kFine;

/// Facts below each other, names in one column; returns the height used.
double write_facts(Book& book, const std::vector<Fact>& facts, double left, double right, double top) {
  constexpr TextStyle kName{Face::regular, 8.0, 10.4, kMidGrey};
  constexpr TextStyle kValue{Face::regular, 8.5, 10.4, kInk};
  constexpr double kGap = 6.0;
  const auto measure = [&](std::string_view text, const TextStyle& style) {
    return book.pdf.text_width(text, style.face, style.size);
  };
  double names = 0.0;
  for (const Fact& fact : facts) names = std::max(names, measure(fact.name, kName));
  const Tagged tagged(book.pdf, Tag::table);
  double y = top;
  for (const Fact& fact : facts) {
    const Tagged tagged_row(book.pdf, Tag::row);
    {
      const Tagged tagged_name(book.pdf, Tag::cell);
      book.pdf.text(book.flow.page(), {left, y - kName.size}, fact.name, kName);
    }
    const Tagged tagged_value(book.pdf, Tag::cell);
    const auto lines = wrap(fact.value.empty() ? "not given" : fact.value, right - left - names - kGap,
                            [&](std::string_view text) { return measure(text, kValue); });
    constexpr std::size_t kMostLines = 5;
    for (std::size_t i = 0; i < std::min(lines.size(), kMostLines); ++i) {
      const bool cut = i + 1 == kMostLines && lines.size() > kMostLines;
      book.pdf.text(book.flow.page(), {left + names + kGap, y - kValue.size}, cut ? lines[i] + " …" : lines[i], kValue);
      y -= kValue.leading;
      if (fact.page_of.empty() || i + 1 < std::min(lines.size(), kMostLines)) continue;
      const double end = left + names + kGap + measure(lines[i] + " ", kValue);
      const double baseline = y + kValue.leading - kValue.size;
      book.pdf.page_reference(book.flow.page(), {end, baseline}, fact.page_of, kValue, LabelEnd::left);
      book.pdf.link(book.flow.page(), {left + names + kGap, baseline, right, baseline + kValue.size}, fact.page_of);
    }
    y -= 0.4;
  }
  return top - y;
}

/// The first day after the build on which the calendar or the export has the panel looked at; empty where there is
/// none.
std::string next_look(const Book& book, std::size_t panel) {
  const std::string built = book.results().build.time_utc.substr(0, 10);
  std::string next;
  if (const auto day = book.project().panels[panel].properties.text("Pset_Condition", "NextAssessmentDate");
      day && is_iso_date(day->value) && day->value > built)
    next = day->value;
  for (const CalendarEntry& entry : book.guidance().calendar.entries) {
    if (!next.empty() && entry.day >= next) break;
    if (entry.day > built && std::binary_search(entry.panels.begin(), entry.panels.end(), panel)) return entry.day;
  }
  return next;
}

/// When the panel is looked at next, where its build-up is mended, and by whom.
std::vector<Fact> upkeep_facts(const Book& book, std::size_t panel) {
  const std::vector<BuildUp>& build_ups = book.guidance().subjects.build_ups;
  const auto own = std::find_if(build_ups.begin(), build_ups.end(), [panel](const BuildUp& build_up) {
    return std::binary_search(build_up.panels.begin(), build_up.panels.end(), panel);
  });
  const std::string day = next_look(book, panel);
  std::vector<Fact> facts{{"looked at next", (day.empty() ? "no day is known" : day) + ", page", kRecurringAnchor}};
  if (own != build_ups.end()) {
    facts.push_back({"mending a hole", "page", build_up_anchor(static_cast<std::size_t>(own - build_ups.begin()))});
  }
  facts.push_back({"may be fixed", "what, where: page", kFixingAnchor});
  facts.push_back({"whom to call", "page", kPartiesAnchor});
  return facts;
}

void write_identity(Book& book, std::size_t index) {
  const Panel& panel = book.project().panels[index];
  const PanelSummary& summary = book.results().panels[index];
  Flow& flow = book.flow;
  const double top = flow.y();
  const double code_left = grid::kRight - kPanelCodeSize + 6.0;
  draw_qr_code(book.pdf, flow.page(), {code_left, top - kPanelCodeSize + 12.0}, kPanelCodeSize,
               panel_code(panel.global_id));
  constexpr double kLeftShare = 0.52;
  const double middle = grid::kLeft + (code_left - grid::kLeft) * kLeftShare;
  const double left_height = write_facts(book, identity_facts(book.content, panel), grid::kLeft, middle - 8.0, top);
  std::vector<Fact> figures = figure_facts(book.content, panel, summary);
  for (Fact& fact : upkeep_facts(book, index)) figures.push_back(std::move(fact));
  const double right_height = write_facts(book, figures, middle, code_left - 4.0, top);
  flow.skip(std::max({left_height, right_height, kPanelCodeSize - 12.0}));
  flow.skip(3.0);
  book.pdf.line(flow.page(), {grid::kLeft, flow.y()}, {grid::kRight, flow.y()}, {0.4, kRule, 0, 0});
  flow.skip(4.0);
}

/// A column a discipline: its verdicts counted.
TableSpec verdicts_by_discipline(const Book& book, const PanelSummary& summary) {
  std::map<std::string_view, VerdictCounts> counts;
  for (const RecordedFinding& finding : summary.findings)
    ++counts[discipline_of(finding.check)][static_cast<std::size_t>(finding.verdict)];
  TableSpec table;
  table.style = type::kFine;
  std::vector<Cell> row;
  for (const PluginSummary& plugin : book.results().build.plugins) {
    const auto found = counts.find(plugin.id);
    if (found == counts.end() || book.is_silent(plugin.id)) continue;
    table.columns.push_back({plugin.title});
    Cell cell;
    cell.counts = listed(found->second);
    row.push_back(std::move(cell));
  }
  if (!row.empty()) table.rows.push_back(std::move(row));
  return table;
}

Cell page_cell(const std::string& anchor) {
  Cell page;
  page.page_of = anchor;
  page.link = anchor;
  return page;
}

double lines_height(const Book& book, const std::vector<std::string>& texts, const TextStyle& style, double width,
                    double gap_below = 4.0) {
  double height = 0.0;
  for (const std::string& text : texts) {
    if (text.empty()) continue;
    const auto lines =
        wrap(text, width, [&](std::string_view piece) { return book.pdf.text_width(piece, style.face, style.size); });
    height += static_cast<double>(lines.size()) * style.leading + gap_below;
  }
  return height;
}

/// `FT-101 Fire resistance test report (missing: …)`; the status only where the document is not simply there.
std::string document_in_words(const Evidence& evidence) {
  std::string text = evidence.id + " " + evidence.name;
  if (evidence.status != EvidenceStatus::present) text += " (" + std::string(to_string(evidence.status)) + ")";
  return text;
}

/// Documents of the panel and of its materials; empty where it has none.
std::string evidence_in_words(const Book& book, const Panel& panel) {
  const Project& project = book.project();
  std::vector<std::string> own;
  for (const std::size_t index : panel.evidence) own.push_back(document_in_words(project.evidence[index]));
  std::vector<std::string> of_materials;
  for (const auto& [id, materials] : material_documents(panel, project)) {
    const Evidence* evidence = find_evidence(project, id);
    const std::string status = evidence == nullptr ? " (not among the export's documents)"
                               : evidence->status != EvidenceStatus::present
                                   ? " (" + std::string(to_string(evidence->status)) + ")"
                                   : "";
    of_materials.push_back(id + status);
  }
  if (own.empty() && of_materials.empty()) return {};
  std::string text = "Documents (register in part 9) of the panel: " + (own.empty() ? "none" : joined(own, "; ")) + ".";
  if (!of_materials.empty()) text += " Of its materials: " + joined(of_materials) + ".";
  return text;
}

/// `Batches of material: B3-osb (Oriented strand board OSB/3); …`; empty where the parts name none.
std::string batches_of(const Book& book, const Panel& panel) {
  std::map<std::string, std::set<std::string>> batches;
  for (const Part& part : panel.parts) {
    const auto batch = part.properties.all().find(kBatchProperty);
    if (batch == part.properties.all().end()) continue;
    const Material* material = material_at(book.project(), part.material);
    batches[property_text(batch->second)].insert(material != nullptr ? material->name
                                                                     : std::string(to_string(part.kind)));
  }
  std::vector<std::string> batch_words;
  for (const auto& [batch, materials] : batches) {
    const std::vector<std::string> names(materials.begin(), materials.end());
    batch_words.push_back(batch + " (" + list_some(names, 8) + ")");
  }
  return batch_words.empty() ? std::string() : "Batches of material: " + joined(batch_words, "; ") + ".";
}

/// Findings in words, such as a class or that a check does not apply; they have no limit to be held against.
std::string statements_of(const Book& book, const PanelSummary& summary) {
  std::vector<std::string> words;
  const RecordedFinding* among_facts = fire_class_of(book.results().build, summary).bearing;
  for (const RecordedFinding& finding : summary.findings) {
    if (&finding == among_facts) continue;
    if (finding.verdict != Verdict::information || book.is_silent(finding.check) ||
        is_for_workshop(book.results().build, finding.check))
      continue;
    if (const auto* text = std::get_if<std::string>(&finding.value)) words.push_back(finding.title + ": " + *text);
  }
  return words.empty() ? std::string() : "Also stated: " + joined(words, "; ") + ".";
}

/// First page: identity and figures, drawings, fixings, where not to drill, verdicts by discipline. Returns the scale
/// of the elevation.
double write_first_page(Book& book, std::size_t index) {
  const Panel& panel = book.project().panels[index];
  const PanelSummary& summary = book.results().panels[index];
  Flow& flow = book.flow;
  write_identity(book, index);
  const std::vector<std::string> rules = drilling_rules(book.content, panel, summary);
  const std::vector<std::string> fixings = fixings_in_words(panel);
  const std::string fixing_text =
      fixings.empty() ? "The export gives no fixings of this panel." : "Fixings: " + joined(fixings, "; ") + ".";
  constexpr double kRuleIndent = 11.0;
  const std::vector<std::string> remarks{batches_of(book, panel), statements_of(book, summary),
                                         evidence_in_words(book, panel)};
  constexpr double kHeadHeight = 1.5 * type::kSubheading.leading + grid::kBaseline;
  constexpr double kItemGap = 2.0;
  TableSpec verdicts = verdicts_by_discipline(book, summary);
  const double below = lines_height(book, {fixing_text}, type::kTable, grid::kWidth) + kHeadHeight +
                       lines_height(book, rules, type::kTable, grid::kWidth - kRuleIndent, kItemGap) +
                       table_height(book.pdf, verdicts) + lines_height(book, remarks, kCompact, grid::kWidth);
  constexpr double kLeastDrawings = 200.0;
  const double scale = write_panel_drawings(book, panel, std::max(kLeastDrawings, flow.room() - below));
  flow.paragraph(fixing_text, type::kTable);
  flow.heading("Before drilling, cutting or fixing", type::kSubheading, 20.0);
  for (const std::string& rule : rules) flow.item(rule, type::kTable);
  if (!verdicts.rows.empty()) set_table(flow, std::move(verdicts));
  for (const std::string& remark : remarks) flow.paragraph(remark, kCompact);
  return scale;
}

/// What was judged, the open ones first; their reasons stand above the table.
struct JudgedRow {
  int urgency = 0;
  std::vector<Cell> cells;
};

JudgedRow judged_row(const RecordedFinding& finding, const std::string& anchor) {
  Cell used;
  used.bar = finding.utilisation;
  const std::string limit = format_limit_figure(finding);
  return {urgency(finding.verdict),
          {link_cell(finding.title, anchor), value_cell(finding), limit.empty() ? Cell("–") : Cell(limit), used,
           verdict_cell(finding.verdict), page_cell(anchor)}};
}

void write_findings(Book& book, std::size_t panel, const PanelSummary& summary) {
  Flow& flow = book.flow;
  std::vector<JudgedRow> rows;
  TableSpec figures = compact({{"figure without a limit"}, {"value"}, {"page", true}});
  for (std::size_t i = 0; i < summary.findings.size(); ++i) {
    const RecordedFinding& finding = summary.findings[i];
    const AnnexEntry* entry = book.annex.of_panel(panel, i);
    if (entry == nullptr) continue;
    const std::string anchor = derivation_anchor(entry->number);
    if (finding.verdict != Verdict::information) {
      rows.push_back(judged_row(finding, anchor));
    } else if (std::holds_alternative<double>(finding.value)) {
      figures.rows.push_back({link_cell(finding.title, anchor), value_cell(finding), page_cell(anchor)});
    }
  }
  if (rows.empty() && figures.rows.empty()) flow.paragraph("No check returned a finding for this panel.");
  std::stable_sort(rows.begin(), rows.end(),
                   [](const JudgedRow& a, const JudgedRow& b) { return a.urgency > b.urgency; });
  for (const RecordedFinding& finding : summary.findings) {
    const bool is_told = finding.verdict != Verdict::pass && finding.verdict != Verdict::information &&
                         !finding.reason.empty() && !book.is_silent(finding.check);
    if (is_told)
      flow.item(
          finding.title + ", " + std::string(to_string(finding.verdict)) + ": " + book.with_titles(finding.reason),
          kCompact);
  }
  TableSpec judged = compact({{"check"}, {"value"}, {"limit"}, {"used"}, {"verdict"}, {"page", true}});
  for (JudgedRow& row : rows) judged.rows.push_back(std::move(row.cells));
  set_table(flow, std::move(judged));
  set_table_in_columns(flow, std::move(figures), 2);
  for (const std::string& id : book.silent) flow.paragraph(Book::silence_of(*book.plugin(id)), type::kNote);
}

void write_panel(Book& book, std::size_t index, const PanelNeighbours& neighbours, std::size_t part_bookmark) {
  const Panel& panel = book.project().panels[index];
  const PanelSummary& summary = book.results().panels[index];
  Flow& flow = book.flow;
  const std::string head = "5  Panels: " + summary.mark;
  flow.start_page({head});
  book.pdf.anchor(panel_anchor(summary.global_id), flow.page(), grid::kTop + 10.0);
  book.pdf.named_destination("panel-" + summary.mark, flow.page(), grid::kTop + 10.0);
  book.pdf.bookmark(part_bookmark, summary.mark, flow.page(), grid::kTop + 10.0);
  flow.heading("Panel " + summary.mark, type::kPart);
  const double scale = write_first_page(book, index);
  const bool has_elevation_page = !is_legible(scale);
  if (has_elevation_page) {
    flow.start_page({head});
    flow.heading("Panel " + summary.mark + ": elevation and what is stated", type::kHeading);
    write_large_elevation(book, panel);
    write_records(book, panel, neighbours, summary.hash);
  }
  flow.start_page({head});
  flow.heading("Panel " + summary.mark + ": findings, records, evidence", type::kHeading);
  write_findings(book, index, summary);
  if (!has_elevation_page) write_records(book, panel, neighbours, summary.hash);
  write_history(book, panel);
}

}  // namespace

namespace {

/// Titles of what is open of a panel, the most urgent first.
std::string open_checks(const Book& book, const PanelSummary& summary) {
  std::vector<const RecordedFinding*> open;
  for (const RecordedFinding& finding : summary.findings) {
    if (is_open(finding.verdict) && !book.is_silent(finding.check)) open.push_back(&finding);
  }
  std::stable_sort(open.begin(), open.end(), [](const RecordedFinding* a, const RecordedFinding* b) {
    return urgency(a->verdict) > urgency(b->verdict);
  });
  std::vector<std::string> titles;
  titles.reserve(open.size());
  for (const RecordedFinding* finding : open) titles.push_back(finding->title);
  return joined(titles, "; ");
}

/// Which of the panels a reader has to look at first; part 10 tells the causes.
void write_open_panels(Book& book, const std::vector<std::size_t>& panels) {
  constexpr std::size_t kMostRows = 40;
  TableSpec table;
  table.columns = {{"panel"}, {"type"}, {"verdict"}, {"what is open"}, {"page", true}};
  std::size_t open = 0;
  for (const std::size_t panel : panels) {
    const PanelSummary& summary = book.results().panels[panel];
    const std::string titles = open_checks(book, summary);
    if (titles.empty() || ++open > kMostRows) continue;
    const std::string anchor = panel_anchor(summary.global_id);
    table.rows.push_back({link_cell(summary.mark, anchor), summary.type, verdict_cell(worst_verdict(summary.findings)),
                          titles, page_cell(anchor)});
  }
  if (open == 0) {
    book.flow.paragraph("Of none of these panels a check fails or is open.");
    return;
  }
  book.flow.heading("Panels of which something fails or is open");
  set_table(book.flow, std::move(table));
  if (open > kMostRows)
    book.flow.paragraph("And " + in_number(open - kMostRows, "more panel") + "; part 10 names them by cause.",
                        type::kNote);
}

}  // namespace

void write_panels(Book& book, const std::vector<std::size_t>& panels, const DossierTick& tick) {
  const std::size_t bookmark = book.begin_part(DossierPart::panels, book.joined_cautions());
  Flow& flow = book.flow;
  flow.paragraph(
      "Two pages a panel, in the order of the marks. The first: what it is, what it weighs, how it performs, where its "
      "studs, openings, brackets and lifting points are, and where not to drill. The second: every finding in one "
      "line, "
      "those that are open first, with the share of the limit that is used and the page of its derivation in the "
      "annex; "
      "then what is stated and recorded of the panel, and its neighbours.");
  flow.paragraph(
      "The QR code holds the panel's GlobalId as text (panel-dossier:GLOBALID): it stays the same from build to build, "
      "so that a panel on site can be matched with this dossier without a network.");
  write_open_panels(book, panels);
  const std::vector<PanelNeighbours> neighbours = neighbours_of_panels(book.project());
  for (const std::size_t panel : panels) {
    write_panel(book, panel, neighbours.at(panel), bookmark);
    tick();
  }
}

void write_volumes(Book& book) {
  book.begin_part(DossierPart::panels, book.joined_cautions());
  book.flow.paragraph(
      "The panels, two pages each, and the calculations stand in volumes of their own, files beside this one. Each is "
      "signed; the hash of each is stated here and attached to this file, and their pages bear the same root of the "
      "hash "
      "tree. Pages of a volume are named by its letter.");
  TableSpec table;
  table.columns = {{"file"}, {"what"}, {"pages", true}, {"SHA-256"}};
  table.style = type::kFine;
  for (const DossierVolume& volume : book.volumes) {
    HexDigest digest = volume.sha256;
    if (digest.size() == 64) digest.insert(32, " ");
    table.rows.push_back({volume.file, volume.title, std::to_string(volume.pages), digest});
  }
  set_table(book.flow, std::move(table));
}

}  // namespace panel_dossier
