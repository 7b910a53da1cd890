// Cover and contents, and head and foot of every page.

#include "core/api/support/words.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/upkeep/lifting_table.h"
#include "core/dossier/parts/upkeep/people_and_status.h"

namespace panel_dossier {

namespace {

constexpr TextStyle kCoverTitle{Face::bold, 30.0, 36.0, kAccent};
constexpr TextStyle kProjectName{Face::bold, 16.0, 21.0, kInk};
constexpr TextStyle kHash{Face::bold, 8.5, 12.0, kInk};

void row(Flow& flow, const std::string& name, const std::string& value) {
  if (value.empty()) return;
  constexpr double kNameWidth = 110.0;
  flow.need(type::kBody.leading);
  {
    const Tagged tagged(flow.pdf(), Tag::paragraph);
    flow.pdf().text(flow.page(), {grid::kLeft, flow.y() - 9.0}, name,
                    {Face::regular, type::kBody.size, type::kBody.leading, kMidGrey});
  }
  flow.paragraph(value, type::kBody, kNameWidth);
}

std::string revision_and_status(const InformationStatus& status) {
  if (status.revision.empty() || status.status_code.empty()) return status.revision + status.status_code;
  return status.revision + ", " + status.status_code;
}

VerdictCounts all_verdicts(const ResultsDocument& results) {
  VerdictCounts counts{};
  for (const PanelSummary& panel : results.panels) count_verdicts(panel.findings, counts);
  count_verdicts(results.project_findings, counts);
  return counts;
}

void write_counts(Flow& flow, const ResultsDocument& results) {
  TableSpec table;
  table.columns = {{"verdict"}, {"findings", true}, {"what it means"}};
  const VerdictCounts counts = all_verdicts(results);
  const auto add = [&](Verdict verdict, const char* meaning) {
    table.rows.push_back({verdict_cell(verdict), std::to_string(counts[static_cast<std::size_t>(verdict)]), meaning});
  };
  add(Verdict::fail, "the limit is not kept");
  add(Verdict::evidence_needed, "the claim rests on a document that is missing or does not cover the panel");
  add(Verdict::not_assessed, "an input is missing; the finding names it");
  add(Verdict::pass, "the limit is kept");
  add(Verdict::information, "a value without a limit");
  set_table(flow, std::move(table));
}

void write_statement(Flow& flow, const BuildSummary& build) {
  const std::string state =
      build.signed_for_issue
          ? "Signed for issue. The signature covers every byte of this file; part 12 tells how to check it."
          : "Not signed for issue. This file was signed with a demonstration key, or is not signed yet: it shows "
            "what the dossier will hold and must not be handed over.";
  flow.heading(build.signed_for_issue ? "Signed for issue" : "Not signed for issue");
  flow.paragraph(state);
  if (!build.incomplete) return;
  flow.heading("Incomplete build");
  flow.paragraph("Part of the checks could not be run. What could be built is built; what failed is listed here.");
  for (const std::string& failure : build.failures) flow.item(failure);
}

}  // namespace

void write_cover(Book& book) {
  Flow& flow = book.flow;
  const ResultsDocument& results = book.results();
  flow.start_page({"Cover", "", true});
  book.pdf.bookmark(std::nullopt, "Cover", 0, grid::kPageHeight);
  flow.skip(40.0);
  book.pdf.rectangle(0, {grid::kLeft, flow.y(), grid::kLeft + 72.0, flow.y() + 5.0}, kAccent, std::nullopt);
  flow.skip(10.0);
  flow.heading("Panel dossier", kCoverTitle);
  flow.paragraph(results.project.name.empty() ? "(project without a name)" : results.project.name, kProjectName);
  flow.paragraph(results.project.description);
  flow.skip(18.0);
  constexpr std::size_t kBuildingsNamed = 6;
  row(flow, "building", list_some(results.project.buildings, kBuildingsNamed));
  row(flow, "site", results.project.site);
  row(flow, "phase", results.project.phase);
  row(flow, "issue", issue_text(results.build.issue));
  row(flow, "identifier", book.guidance().information.identifier);
  row(flow, "revision, status", revision_and_status(book.guidance().information));
  row(flow, "purpose", book.guidance().information.purpose);
  row(flow, "panels", std::to_string(results.panels.size()));
  row(flow, "built", results.build.time_utc + " by panel-dossier " + results.build.program_version);
  row(flow, "read from", results.build.export_name + " (" + results.build.export_schema + ")");
  flow.skip(6.0);
  flow.paragraph("Root of the hash tree over all panels", type::kNote);
  flow.paragraph(results.build.hash_tree_root, kHash);
  flow.skip(8.0);
  write_statement(flow, results.build);
  flow.skip(8.0);
  write_counts(flow, results);
  flow.paragraph(
      "This dossier describes the factory-made insulated timber cassette panels of the project: what each panel is, "
      "what it is made of, how it performs and on which evidence that rests. It supports competent persons and "
      "replaces none; local codes, the project's engineers and licensed practice come first.");
}

void write_workshop_front(Book& book) {
  Flow& flow = book.flow;
  const ResultsDocument& results = book.results();
  flow.start_page({"Workshop", book.joined_cautions()});
  flow.heading("Workshop file", type::kPart);
  flow.paragraph(results.project.name, kProjectName);
  row(flow, "issue", issue_text(results.build.issue));
  row(flow, "panels", std::to_string(results.panels.size()));
  row(flow, "built", results.build.time_utc + " by panel-dossier " + results.build.program_version);
  flow.paragraph(
      "For the practice's own people: what the workshop cuts, nests and assembles, what the vehicles carry, when and "
      "in "
      "which order panels go up, and what it costs. It belongs to the dossier of the same root of the hash tree and is "
      "not part of what the client receives.");
  write_lifting_table(book);
}

void write_contents(Book& book) {
  Flow& flow = book.flow;
  PdfDocument& pdf = book.pdf;
  flow.start_page({"Contents", "", true});
  pdf.anchor("contents", flow.page(), grid::kTop + 10.0);
  pdf.bookmark(std::nullopt, "Contents", flow.page(), grid::kTop + 10.0);
  flow.heading("Contents", type::kPart);
  flow.skip(8.0);
  const auto entry = [&](const std::string& title, const std::string& anchor, const TextStyle& style, double indent) {
    flow.need(2.0 * style.leading);
    const double top = flow.y();
    const std::size_t page = flow.page();
    flow.paragraph(title, style, indent);
    const double line = flow.y() + 1.5;
    pdf.line(page, {grid::kLeft, line}, {grid::kRight, line}, {0.3, kRule, 0, 0});
    const Tagged tagged(pdf, pdf.continued_element(Tag::paragraph));
    pdf.page_reference(page, {grid::kRight, top - 9.0}, anchor, style);
    pdf.link(page, {grid::kLeft, flow.y(), grid::kRight, top}, anchor);
    flow.skip(2.0);
  };
  constexpr TextStyle kEntry{Face::bold, 9.5, 12.6, kInk};
  for (const DossierPart part : kParts) {
    entry(numbered_title(part), part_anchor(part), kEntry, 0.0);
    if (part != DossierPart::annex) continue;
    for (const PluginSummary& plugin : book.results().build.plugins)
      entry(plugin.title, discipline_anchor(plugin.id), type::kBody, 14.0);
  }
}

namespace {

constexpr TextStyle kHead{Face::regular, 8.0, 10.0, kMidGrey};
constexpr TextStyle kFoot{Face::regular, 8.0, 9.8, kMidGrey};
constexpr TextStyle kFootStrong{Face::bold, 8.0, 9.8, kInk};
constexpr std::size_t kShortRoot = 16;  // hexadecimal digits; the cover prints the whole root

class Furniture {
 public:
  explicit Furniture(Book& book) : book_(book), pdf_(book.pdf) {}

  void draw(std::size_t page, const PageFurniture& furniture) {
    draw_head(page, furniture);
    draw_caution(page, furniture.caution);
    draw_foot(page, furniture.front_matter);
  }

 private:
  Book& book_;
  PdfDocument& pdf_;

  double width(std::string_view text, const TextStyle& style) const {
    return pdf_.text_width(text, style.face, style.size);
  }

  std::string fitted(std::string_view text, double room, const TextStyle& style) const {
    return shorten(text, room, [&](std::string_view piece) { return width(piece, style); });
  }

  void draw_head(std::size_t page, const PageFurniture& furniture) {
    constexpr double kBaselineHeight = grid::kTop + 21.0;
    const std::string part = fitted(furniture.part, grid::kWidth * 0.55, kHead);
    const double part_width = width(part, kHead);
    const std::string project = fitted(book_.results().project.name, grid::kWidth - part_width - 20.0, kHead);
    pdf_.text(page, {grid::kLeft, kBaselineHeight}, project, kHead);
    pdf_.text(page, {grid::kRight - part_width, kBaselineHeight}, part, kHead);
    pdf_.line(page, {grid::kLeft, kBaselineHeight - 5.0}, {grid::kRight, kBaselineHeight - 5.0}, {0.4, kRule, 0, 0});
  }

  void draw_caution(std::size_t page, const std::string& caution) {
    const auto lines = caution_lines(pdf_, caution);
    if (lines.empty()) return;
    const double height = caution_height(lines.size());
    const Rect box{grid::kLeft, grid::kBottom, grid::kRight, grid::kBottom + height - 5.0};
    pdf_.rectangle(page, box, kPale, std::nullopt);
    pdf_.line(page, {box.left, box.bottom}, {box.left, box.top}, {1.6, kAccent, 0, 0});
    double y = box.top - type::kNote.leading - 1.0;
    for (const std::string& line : lines) {
      pdf_.text(page, {box.left + 6.0, y}, line, {Face::italic, type::kNote.size, type::kNote.leading, kInk});
      y -= type::kNote.leading;
    }
  }

  std::string status() const {
    const BuildSummary& build = book_.results().build;
    std::string text;
    if (!build.signed_for_issue) text = "NOT SIGNED FOR ISSUE";
    if (build.incomplete) text += text.empty() ? "INCOMPLETE BUILD" : " · INCOMPLETE BUILD";
    return text;
  }

  void draw_foot(std::size_t page, bool front_matter) {
    constexpr double kRuleHeight = grid::kBottom - 14.0;
    constexpr double kFirstLine = kRuleHeight - 9.5;
    const BuildSummary& build = book_.results().build;
    pdf_.line(page, {grid::kLeft, kRuleHeight}, {grid::kRight, kRuleHeight}, {0.4, kRule, 0, 0});
    const auto [label, last] = pdf_.page_label(page);
    const std::string number = "page " + label + " of " + last;
    pdf_.text(page, {grid::kRight - width(number, kFoot), kFirstLine}, number, kFoot);
    const std::string built =
        "built " + build.time_utc + "  ·  hash tree root " + build.hash_tree_root.substr(0, kShortRoot) + "…";
    pdf_.text(page, {grid::kLeft, kFirstLine}, built, kFoot);
    pdf_.text(page, {grid::kLeft, kFirstLine - kFoot.leading}, status(), kFootStrong);
    if (front_matter) return;
    std::string caution = book_.caution_line();
    // Beside a long status there is room for its last sentence alone: where the cautions stand.
    constexpr double kGap = 12.0;
    const double room = grid::kWidth - width(status(), kFootStrong) - kGap;
    if (width(caution, kFoot) > room) caution.erase(0, caution.find(". ") + 2);
    pdf_.text(page, {grid::kRight - width(caution, kFoot), kFirstLine - kFoot.leading}, caution, kFoot);
  }
};

}  // namespace

void write_furniture(Book& book) {
  Furniture furniture(book);
  const auto& pages = book.flow.furniture();
  for (std::size_t page = 0; page < pages.size(); ++page) furniture.draw(page, pages[page]);
}

}  // namespace panel_dossier
