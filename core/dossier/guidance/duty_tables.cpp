#include "core/dossier/guidance/duty_tables.h"

#include <algorithm>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

void require_cell(const std::string& cell, const char* column) {
  if (cell.empty()) throw std::runtime_error(std::string("the row has no ") + column);
}

std::vector<std::string> lower_words(std::string_view text) {
  std::vector<std::string> words;
  for (const std::string& word : split(text, '|')) words.push_back(lower_case(word));
  return words;
}

DutyRow duty_from(const std::vector<std::string>& cells, const std::vector<std::string>& columns) {
  DutyRow duty;
  duty.id = cells[0];
  duty.expectation = cells[2];
  duty.is_left_out = duty.expectation == kRowGone;
  if (duty.is_left_out) return duty;
  for (const std::size_t needed : {1U, 2U, 3U, 5U, 7U, 8U, 9U}) require_cell(cells[needed], columns[needed].c_str());
  duty.jurisdictions = lower_words(cells[1]);
  duty.regulation = cells[3];
  duty.applies = parse_condition(cells[4], SubjectKind::project);
  duty.part = cells[5];
  duty.when = parse_condition(cells[6], SubjectKind::project);
  duty.unmet = cells[7];
  duty.who = cells[8];
  duty.source = cells[9];
  if (std::find(part_words().begin(), part_words().end(), duty.part) == part_words().end())
    throw std::runtime_error("'" + duty.part + "' is no part of the dossier; they are " + joined(part_words()));
  if (duty.when.empty()) throw std::runtime_error("the row does not say when the duty is met");
  return duty;
}

template <class Row, class Key>
void replace_or_add(std::vector<Row>& rows, std::vector<Row> own, const Key& key) {
  for (Row& row : own) {
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const Row& other) { return key(other) == key(row); });
    if (row.is_left_out) {
      // What nobody looks for anyway needs no word.
      if (same != rows.end()) same->is_left_out = true;
    } else if (same == rows.end()) {
      rows.push_back(std::move(row));
    } else {
      *same = std::move(row);
    }
  }
}

}  // namespace

const std::vector<std::string>& part_words() {
  static const std::vector<std::string> words{"introduction", "outcome",     "building",    "types",
                                              "panels",       "maintenance", "safety_file", "fire_information",
                                              "evidence",     "open_points", "changes",     "verification"};
  return words;
}

std::vector<NeededParty> parse_parties(std::string_view bytes, const std::string& file) {
  std::vector<NeededParty> parties;
  std::set<std::string> roles;
  const std::vector<std::string> columns{"role", "also", "why", "need", "who"};
  read_guidance_table(bytes, file, columns, [&](const std::vector<std::string>& cells, std::size_t /*line*/) {
    NeededParty party{lower_case(cells[0]), lower_words(cells[1]), cells[2], cells[3] == "must", cells[4]};
    party.is_left_out = cells[3] == kRowGone;
    require_cell(party.role, "role");
    if (!party.is_left_out) {
      require_cell(party.who, "who");
      if (cells[3] != "must" && cells[3] != "may")
        throw std::runtime_error("need '" + cells[3] + "' is not must, may or none");
    }
    if (!roles.insert(party.role).second) throw std::runtime_error("the role '" + party.role + "' stands twice");
    parties.push_back(std::move(party));
  });
  return parties;
}

std::vector<DutyRow> parse_duties(std::string_view bytes, const std::string& file) {
  std::vector<DutyRow> duties;
  std::set<std::string> ids;
  const std::vector<std::string> columns{"id",   "jurisdictions", "expectation", "regulation", "applies",
                                         "part", "when",          "unmet",       "who",        "source"};
  read_guidance_table(bytes, file, columns, [&](const std::vector<std::string>& cells, std::size_t /*line*/) {
    require_cell(cells[0], "id");
    duties.push_back(duty_from(cells, columns));
    if (!ids.insert(cells[0]).second) throw std::runtime_error("the id '" + cells[0] + "' stands twice");
  });
  return duties;
}

GuidanceTables read_guidance_folder(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".csv") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  GuidanceTables tables;
  std::set<std::string> ids;
  for (const std::filesystem::path& file : files) {
    const std::string name = file.filename().string();
    if (name == "parties.csv") {
      tables.parties = parse_parties(read_file(file), file.string());
    } else if (name.starts_with("duties-")) {
      for (DutyRow& duty : parse_duties(read_file(file), file.string())) tables.duties.push_back(std::move(duty));
    } else {
      for (GuidanceRow& row : read_guidance(file)) {
        if (!ids.insert(row.id).second) {
          throw GuidanceFault(row.file, row.line, "the id '" + row.id + "' stands in another table of the folder too");
        }
        tables.rows.push_back(std::move(row));
      }
    }
  }
  return tables;
}

void put_over(GuidanceTables& tables, GuidanceTables own) {
  put_over(tables.rows, std::move(own.rows));
  replace_or_add(tables.parties, std::move(own.parties), [](const NeededParty& party) { return party.role; });
  replace_or_add(tables.duties, std::move(own.duties), [](const DutyRow& duty) { return duty.id; });
}

}  // namespace panel_dossier
