#include "core/dossier/parts/upkeep/people_and_status.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// The part that a table of duties names.
DossierPart part_of_word(const std::string& word) {
  const auto& words = part_words();
  const auto found = std::find(words.begin(), words.end(), word);
  return kParts[static_cast<std::size_t>(found - words.begin())];
}

Cell or_open(const std::string& text) {
  return text.empty() ? Cell("not stated") : Cell(text);
}

std::string state_in_words(DutyState state) {
  switch (state) {
    case DutyState::met: return "met";
    case DutyState::unmet: return "OPEN";
    case DutyState::not_applicable: return "does not apply";
    case DutyState::left_out: return "LEFT OUT";
  }
  return {};
}

}  // namespace

std::string issue_text(const IssueMark& issue) {
  if (!issue.is_issue()) return "none: a working build";
  return issue.status.empty() ? issue.id : issue.id + ", " + issue.status;
}

void write_parties(Book& book) {
  book.flow.heading("Who made it, and whom to call");
  book.flow.anchor(kPartiesAnchor);
  if (book.guidance().parties.empty()) {
    book.flow.paragraph(
        "Nobody is named: the library table 'people' names maker, designer, responsible engineers and contact.");
    return;
  }
  TableSpec table;
  table.columns = {{"role"}, {"name"}, {"organisation"}, {"address"}, {"contact"}, {"answers for"}};
  for (const PartyLine& line : book.guidance().parties) {
    if (line.parties.empty()) table.rows.push_back({line.role, "not named", "–", "–", "–", line.why});
    for (const Party& party : line.parties) {
      table.rows.push_back({party.role, party.name.empty() ? "–" : party.name,
                            party.organisation.empty() ? "–" : party.organisation,
                            party.address.empty() ? "–" : party.address, or_open(party.contact), line.why});
    }
  }
  set_table(book.flow, std::move(table));
  const std::vector<std::string>& left_out = book.guidance().roles_left_out;
  if (!left_out.empty())
    book.flow.paragraph("Not looked for, by the practice's own table of parties: " + joined(left_out) + ".",
                        type::kNote);
  book.flow.paragraph("The makers of the products in the panels, and their contacts, stand in part 6.", type::kNote);
}

void write_status(Book& book) {
  const InformationStatus& status = book.guidance().information;
  book.flow.heading("Issue, status and approvals");
  TableSpec table;
  table.columns = {{"what"}, {"value"}};
  table.rows = {{"identifier (ISO 19650-2)", or_open(status.identifier)},
                {"issue", issue_text(book.results().build.issue)},
                {"revision", or_open(status.revision)},
                {"status code", or_open(status.status_code)},
                {"purpose", or_open(status.purpose)},
                {"built", book.results().build.time_utc}};
  set_table(book.flow, std::move(table));
  if (status.approvals.empty()) {
    book.flow.paragraph("Nobody has approved it (setting information.approvals).");
    return;
  }
  TableSpec approvals;
  approvals.columns = {{"approval by"}, {"name"}, {"decision"}, {"day"}, {"revision"}, {"counts"}};
  for (const ApprovalLine& line : status.approvals) {
    approvals.rows.push_back({line.role, line.by.empty() ? "–" : line.by, line.decision, line.day, line.revision,
                              line.counts() ? "yes" : "no: " + line.why_not});
  }
  set_table(book.flow, std::move(approvals));
}

void write_duties(Book& book) {
  const Guidance& guidance = book.guidance();
  constexpr double kNoteAndFirstRow = 110.0;
  book.flow.heading("What is expected of a handover, and where it stands", type::kHeading, kNoteAndFirstRow);
  if (guidance.duties.empty()) {
    book.flow.paragraph(guidance.jurisdiction.empty()
                            ? "The settings name no jurisdiction, so it cannot be told which duties apply."
                            : "There is no table of duties for " + guidance.jurisdiction +
                                  ": the practice can add one (schemas/guidance.md).");
    return;
  }
  book.flow.paragraph("For " + guidance.jurisdiction +
                          ", as the table of duties has it; its references are for checking by competent persons.",
                      type::kNote);
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"expectation"}, {"regulation"}, {"part"},
                   {"page"},        {"state"},      {"what is missing, and who can supply it"}};
  for (const DutyLine& line : guidance.duties) {
    const DossierPart part = part_of_word(line.duty.part);
    Cell page;
    page.page_of = part_anchor(part);
    page.link = part_anchor(part);
    std::string missing = book.with_titles(line.what);
    if (line.state == DutyState::unmet) missing += " (" + line.duty.who + ")";
    table.rows.push_back({line.duty.expectation, line.duty.regulation + " (" + line.duty.source + ")",
                          std::to_string(static_cast<int>(part)), page, state_in_words(line.state),
                          missing.empty() ? "–" : missing});
  }
  set_table(book.flow, std::move(table));
}

void write_guidance_gaps(Book& book) {
  const std::vector<OpenPoint>& points = book.guidance().open_points;
  book.flow.heading("Not stated for the handover");
  if (points.empty()) {
    book.flow.paragraph("Parts 1 and 6 to 8 lack nothing that they ask for.");
    return;
  }
  TableSpec table;
  table.columns = {{"of"}, {"what is missing"}, {"who can supply it"}, {"panels"}};
  for (const OpenPoint& point : points)
    table.rows.push_back(
        {point.title, book.with_titles(point.what), point.who, point.marks.empty() ? "–" : joined(point.marks)});
  set_table(book.flow, std::move(table));
}

}  // namespace panel_dossier
