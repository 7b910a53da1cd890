#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/annex/references.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/upkeep/people_and_status.h"
#include "core/trace/open_points.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kMarksInRow = 24;

std::map<std::size_t, std::vector<std::string>> marks_by_evidence(const Project& project) {
  std::map<std::size_t, std::vector<std::string>> marks;
  for (const Panel& panel : project.panels) {
    for (const std::size_t evidence : panel.evidence) marks[evidence].push_back(panel.mark);
  }
  return marks;
}

std::map<std::string, std::vector<std::string>> materials_by_document(const Project& project) {
  std::map<std::string, std::vector<std::string>> materials;
  for (const Material& material : project.materials) {
    for (const std::string& id : document_ids(material, project)) materials[id].push_back(material.name);
  }
  return materials;
}

/// What refers to a document, in texts of a row each.
std::vector<std::string> uses(const std::vector<std::string>& marks, const std::vector<std::string>& materials,
                              std::size_t panels) {
  std::vector<std::string> texts = in_groups(marks, kMarksInRow);
  if (!marks.empty() && marks.size() == panels) texts = {"all panels"};
  for (const std::string& group : in_groups(materials, kMarksInRow)) texts.push_back("by material: " + group);
  if (texts.empty()) texts.emplace_back("not referred to");
  return texts;
}

template <class Map>
std::vector<std::string> names_of(const Map& names, const typename Map::key_type& key) {
  const auto found = names.find(key);
  return found == names.end() ? std::vector<std::string>() : found->second;
}

using FilesById = std::map<std::string_view, std::vector<const HashedFile*>>;

FilesById files_by_id(const std::vector<HashedFile>& files) {
  FilesById found;
  for (const HashedFile& file : files) found[file.id].push_back(&file);
  return found;
}

/// Of the file of that id at that place, else of the first of that id.
HexDigest digest_of(const FilesById& files, const Evidence& evidence) {
  const auto of_id = files.find(evidence.id);
  if (of_id == files.end()) return {};
  const auto& candidates = of_id->second;
  const auto at_place = std::find_if(candidates.begin(), candidates.end(), [&](const HashedFile* file) {
    return file->name == evidence.location || evidence.location.empty();
  });
  return at_place == candidates.end() ? candidates.front()->sha256 : (*at_place)->sha256;
}

struct Assumption {
  std::string value;
  std::vector<std::string> names;
  std::vector<std::string> checks;
};

void add_once(std::vector<std::string>& list, const std::string& text) {
  if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
}

void collect_assumptions(const BuildSummary& build, const std::vector<RecordedFinding>& findings,
                         std::map<std::string, Assumption>& assumptions) {
  for (const RecordedFinding& finding : findings) {
    // Rates and crews stand in workshop.pdf with what rests on them.
    if (finding.verdict == Verdict::information && is_for_workshop(build, finding.check)) continue;
    // Settings always stand with the derivation.
    for (const DerivationInput& input : finding.derivation->inputs) {
      if (!input.origin || input.origin->kind != OriginKind::setting) continue;
      Assumption& assumption = assumptions[input.origin->key];
      const auto* number = std::get_if<double>(&input.value);
      assumption.value = number != nullptr && is_short_length(*number, input.unit)
                             ? format_millimetres(*number) + " mm"
                             : format_value(input.value, input.unit);
      add_once(assumption.names, input.name);
      add_once(assumption.checks, finding.check);
    }
  }
}

/// `structural: bearing, deflection; thermal: u_value` for the ids of checks.
std::string by_discipline(const std::vector<std::string>& checks) {
  std::map<std::string_view, std::vector<std::string>> names;
  for (const std::string& check : checks) {
    const std::string_view discipline = discipline_of(check);
    names[discipline].push_back(check.substr(std::min(check.size(), discipline.size() + 1)));
  }
  std::vector<std::string> texts;
  texts.reserve(names.size());
  for (const auto& [discipline, of_discipline] : names)
    texts.push_back(std::string(discipline) + ": " + joined(of_discipline));
  return joined(texts, "; ");
}

void write_assumptions(Book& book) {
  std::map<std::string, Assumption> assumptions;
  collect_assumptions(book.results().build, book.results().project_findings, assumptions);
  for (const PanelSummary& panel : book.results().panels)
    collect_assumptions(book.results().build, panel.findings, assumptions);
  book.flow.heading("Assumptions");
  if (assumptions.empty()) {
    book.flow.paragraph("No finding rests on a project setting.");
    return;
  }
  book.flow.paragraph(
      "Values that come from the project settings and not from the model. Whoever issues the dossier "
      "answers for them.");
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"setting"}, {"value"}, {"used as"}, {"in the checks"}};
  for (const auto& [key, assumption] : assumptions) {
    table.rows.push_back(
        {key, assumption.value, book.with_titles(list_some(assumption.names, 3)), by_discipline(assumption.checks)});
  }
  set_table(book.flow, std::move(table));
}

/// So many marks stand in the table; the file open-points.csv holds all of any number.
constexpr std::size_t kMarksOfCause = 200;

void write_causes_of(Book& book, const std::vector<OpenPoint>& points, Verdict verdict, const char* title,
                     const char* none) {
  book.flow.heading(title);
  if (count_of(points, verdict) == 0) {
    book.flow.paragraph(none);
    return;
  }
  TableSpec table;
  table.columns = {{"check"}, {"why, and what to do"}, {"who can close it"}, {"count", true}, {"panels"}};
  for (const OpenPoint& point : points) {
    if (point.verdict != verdict) continue;
    table.rows.push_back({point.title + " (" + point.check + ")", book.with_titles(point.what), point.who,
                          std::to_string(std::max<std::size_t>(point.marks.size(), 1)),
                          point.marks.empty() ? "project" : list_some(point.marks, kMarksOfCause)});
  }
  set_table(book.flow, std::move(table));
}

void write_withheld(Book& book) {
  book.flow.heading("Claims withheld");
  const std::vector<std::string>& withheld = book.results().build.withheld;
  if (withheld.empty()) {
    book.flow.paragraph(
        "No value of the export, the settings or the library is implausible or contradicted by another source.");
    return;
  }
  book.flow.paragraph(
      "Values of the export, the settings or the library that no check may use, because they are implausible or "
      "another source "
      "says otherwise. No check that would read one of them passes.");
  for (const std::string& claim : withheld) book.flow.item(claim);
}

void write_confirmed(Book& book) {
  const std::vector<std::string>& confirmed = book.results().build.confirmed;
  if (confirmed.empty()) return;
  book.flow.heading("Claims confirmed");
  book.flow.paragraph(
      "Values that the settings confirm by name, so that they count although they may be unusual or another source "
      "says otherwise. Whoever issues the dossier answers for them.");
  for (const std::string& claim : confirmed) book.flow.item(claim);
}

/// `climates.csv rows 'London 01', 'London 02': …`: rows of a table with the same behind the colon in one text.
std::vector<std::string> rows_of_one_source(const std::vector<std::string>& rows) {
  constexpr std::string_view kRow = " row '";
  constexpr std::string_view kEnd = "': ";
  std::vector<std::pair<std::string, std::string>> sources;  // table and what stands behind the rows
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> names;
  for (const std::string& row : rows) {
    const std::size_t begin = row.find(kRow);
    const std::size_t end = begin == std::string::npos ? begin : row.find(kEnd, begin + kRow.size());
    std::pair<std::string, std::string> source{row, ""};
    std::string name;
    if (end != std::string::npos) {
      source = {row.substr(0, begin), row.substr(end + kEnd.size())};
      name = row.substr(begin + kRow.size() - 1, end - begin - kRow.size() + 2);
    }
    std::vector<std::string>& of_source = names[source];
    if (of_source.empty()) sources.push_back(source);
    of_source.push_back(std::move(name));
  }
  std::vector<std::string> texts;
  texts.reserve(sources.size());
  for (const auto& source : sources) {
    const std::vector<std::string>& of_source = names[source];
    const auto& [table, rest] = source;
    std::string text = table;
    if (!rest.empty()) {
      text.append(of_source.size() == 1 ? " row " : " rows ").append(joined(of_source)).append(": ").append(rest);
    }
    texts.push_back(std::move(text));
  }
  return texts;
}

void write_unconfirmed(Book& book) {
  book.flow.heading("Values not yet confirmed");
  const std::vector<std::string>& unconfirmed = book.results().build.unconfirmed;
  if (unconfirmed.empty()) {
    book.flow.paragraph("No verdict rests on a row of a data table that still has to be confirmed.");
    return;
  }
  book.flow.paragraph(
      "Rows of data tables that were recalled without the text at hand and that a pass or a fail of this build rests "
      "on. Whoever issues the dossier compares them with the standard and enters them in confirmations.csv; "
      "`panel-dossier plugins --tables` prints the form.");
  for (const std::string& rows : rows_of_one_source(unconfirmed)) book.flow.item(rows);
}

/// From a batch to its panels; from a panel to its batches its sheet leads.
void write_batches(Book& book) {
  const Project& project = book.project();
  if (project.batches.empty()) return;
  book.flow.heading("Register of batches");
  book.flow.paragraph(
      "Which panels hold material of which batch, as the model or the records of the workshop say: where material is "
      "called back, these are the panels to go to. `panel-dossier trace DIR BATCH` prints the same.");
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"batch"}, {"material"}, {"parts"}};
  const bool has_deliveries = std::any_of(project.batches.begin(), project.batches.end(),
                                          [](const MaterialBatch& batch) { return !batch.deliveries.empty(); });
  if (has_deliveries) table.columns.push_back({"delivered with"});
  table.columns.insert(table.columns.end(), {{"count", true}, {"panels"}});
  for (const MaterialBatch& batch : project.batches) {
    std::vector<std::string> marks;
    for (const std::size_t panel : batch.panels) marks.push_back(project.panels[panel].mark);
    const std::vector<std::string> groups = in_groups(marks, kMarksInRow);
    std::vector<Cell> cells{batch.reference, batch.material, joined(batch.kinds)};
    if (has_deliveries) cells.emplace_back(joined(batch.deliveries));
    cells.emplace_back(std::to_string(marks.size()));
    cells.emplace_back(groups.front());
    table.rows.push_back(std::move(cells));
    for (std::size_t row = 1; row < groups.size(); ++row) {
      std::vector<Cell> more(table.columns.size());
      more.back() = groups[row];
      table.rows.push_back(std::move(more));
    }
  }
  set_table(book.flow, std::move(table));
}

void write_documents(Book& book) {
  Flow& flow = book.flow;
  const Project& project = book.project();
  if (project.evidence.empty()) {
    flow.paragraph("The export names no evidence documents.");
    return;
  }
  flow.paragraph(
      "Every document that the export or a library names as evidence. The hash identifies the file that was read; a "
      "file "
      "that is missing or refused has none.");
  const auto marks = marks_by_evidence(project);
  const auto materials = materials_by_document(project);
  const FilesById files = files_by_id(book.results().build.evidence);
  TableSpec table;
  table.columns = {{"id"}, {"document"}, {"file"}, {"SHA-256"}, {"status"}, {"used by"}};
  table.style = type::kFine;
  for (std::size_t i = 0; i < project.evidence.size(); ++i) {
    const Evidence& evidence = project.evidence[i];
    const std::vector<std::string> used =
        uses(names_of(marks, i), names_of(materials, evidence.id), project.panels.size());
    HexDigest digest = digest_of(files, evidence);
    // Groups of 16 digits, so that the column stays narrow and the digits can be compared by eye.
    for (std::size_t at = 48; at > 0 && digest.size() >= 64; at -= 16) digest.insert(at, " ");
    table.rows.push_back({evidence.id, evidence.name, evidence.location, digest.empty() ? "–" : digest,
                          std::string(to_string(evidence.status)), used.front()});
    for (std::size_t row = 1; row < used.size(); ++row) table.rows.push_back({"", "", "", "", "", used[row]});
  }
  set_table(flow, std::move(table));
}

}  // namespace

void write_evidence_register(Book& book) {
  book.begin_part(DossierPart::evidence);
  write_documents(book);
  write_batches(book);
}

void write_open_points(Book& book) {
  book.begin_part(DossierPart::open_points);
  const std::vector<OpenPoint> points = in_short(open_points(book.results()), book.results());
  write_causes_of(book, points, Verdict::fail, "Failed checks", "No check fails.");
  write_causes_of(book, points, Verdict::evidence_needed, "Evidence needed", "No check waits for evidence.");
  write_causes_of(book, points, Verdict::not_assessed, "Not assessed", "Every check could be assessed.");
  write_guidance_gaps(book);
  write_withheld(book);
  write_confirmed(book);
  write_unconfirmed(book);
  write_assumptions(book);
}

}  // namespace panel_dossier
