#include "core/pipeline/guidance/guidance_table.h"

#include <algorithm>
#include <array>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/csv_reader.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

constexpr std::array<std::string_view, 8> kGuidanceColumns{"id",  "topic",          "of",    "when", "text",
                                                           "who", "interval_years", "source"};

/// Places in parts 6, 7 and 8 where sentences stand.
constexpr std::array<std::string_view, 21> kGuidanceTopics{
    "operation.function",     "operation.loss",        "operation.repair",     "operation.puncture",
    "operation.inspect",      "operation.clean",       "operation.fixing",     "operation.replace",
    "operation.alter",        "safety.risk",           "safety.treatment",     "safety.dust",
    "safety.lifting",         "safety.dismantling",    "safety.reuse",         "safety.disposal",
    "fire_safety.required",   "fire_safety.installed", "fire_safety.evidence", "fire_safety.keep",
    "fire_safety.responsible"};

constexpr std::string_view kGone = "none";

[[noreturn]] void refuse_row(const std::string& what) {
  throw std::runtime_error(what);
}

GuidanceTerm comparison(std::string_view key, std::string_view number, GuidanceTerm::Test test) {
  GuidanceTerm term;
  term.key = std::string(trimmed(key));
  term.test = test;
  const auto value = parse_decimal(number);
  if (!value) refuse_row("'" + std::string(trimmed(number)) + "' behind '" + term.key + "' is no number");
  term.number = *value;
  return term;
}

GuidanceTerm equality(std::string_view key, std::string_view words, GuidanceTerm::Test test) {
  GuidanceTerm term;
  term.key = std::string(trimmed(key));
  term.test = test;
  for (const std::string& word : split(words, '|')) {
    if (word.empty()) refuse_row("an empty word is compared with '" + term.key + "'");
    term.words.push_back(lower_case(word));
  }
  if (term.words.empty()) refuse_row("nothing is compared with '" + term.key + "'");
  return term;
}

GuidanceTerm parse_term(std::string_view text) {
  using Test = GuidanceTerm::Test;
  if (const std::size_t at = text.find("!="); at != std::string_view::npos && at > 0)
    return equality(text.substr(0, at), text.substr(at + 2), Test::is_not);
  if (const std::size_t at = text.find('='); at != std::string_view::npos)
    return equality(text.substr(0, at), text.substr(at + 1), Test::is);
  if (const std::size_t at = text.find('>'); at != std::string_view::npos)
    return comparison(text.substr(0, at), text.substr(at + 1), Test::more_than);
  if (const std::size_t at = text.find('<'); at != std::string_view::npos)
    return comparison(text.substr(0, at), text.substr(at + 1), Test::less_than);
  const bool is_absent = text.starts_with('!');
  if (is_absent) text.remove_prefix(1);
  GuidanceTerm term;
  term.key = std::string(trimmed(text));
  term.test = is_absent ? Test::absent : Test::given;
  return term;
}

void require_fact(SubjectKind of, const std::string& key) {
  if (is_fact_of(of, key)) return;
  refuse_row("'" + key + "' is no fact of what the row speaks of; schemas/guidance.md lists them");
}

/// Throws where a brace is left open, closed twice or empty.
void check_placeholders(std::string_view text, SubjectKind of) {
  std::size_t open = std::string_view::npos;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '{') {
      if (open != std::string_view::npos) refuse_row("a brace is opened within another");
      open = i;
    } else if (text[i] == '}') {
      if (open == std::string_view::npos) refuse_row("a brace is closed that is not open");
      require_fact(of, std::string(text.substr(open + 1, i - open - 1)));
      open = std::string_view::npos;
    }
  }
  if (open != std::string_view::npos) refuse_row("a brace is not closed");
}

void check_interval(const GuidanceRow& row) {
  if (row.interval_years.empty()) return;
  if (row.interval_years.starts_with('{')) {
    check_placeholders(row.interval_years, row.of);
    return;
  }
  constexpr double kShortest_years = 1.0 / 12.0;
  constexpr double kLongest_years = 200.0;
  const auto years = parse_decimal(row.interval_years);
  if (!years || *years < kShortest_years - 1e-9 || *years > kLongest_years) {
    refuse_row("the interval '" + row.interval_years + "' is no number of years from a month to 200 years");
  }
}

GuidanceRow row_from(const CsvRecord& record, const std::string& file) {
  if (record.fields.size() != kGuidanceColumns.size()) {
    refuse_row("the row has " + std::to_string(record.fields.size()) + " fields, the head " +
               std::to_string(kGuidanceColumns.size()) + "; quote a text that holds a comma");
  }
  std::vector<std::string> cells;
  cells.reserve(record.fields.size());
  for (const std::string& field : record.fields) cells.emplace_back(trimmed(field));
  GuidanceRow row;
  row.id = cells[0];
  row.topic = cells[1];
  row.text = cells[4];
  row.who = cells[5];
  row.interval_years = cells[6];
  row.source = cells[7];
  row.file = file;
  row.line = record.line;
  if (row.id.empty()) refuse_row("the row has no id");
  if (std::find(kGuidanceTopics.begin(), kGuidanceTopics.end(), row.topic) == kGuidanceTopics.end()) {
    refuse_row("'" + row.topic + "' is no topic; they are " +
               joined(std::vector<std::string>(kGuidanceTopics.begin(), kGuidanceTopics.end())));
  }
  const auto kind = parse_subject_kind(cells[2]);
  if (!kind) {
    refuse_row("'" + cells[2] + "' is nothing to speak of: panel, layer, product, fixing, lifting, opening or project");
  }
  row.of = *kind;
  row.when = parse_condition(cells[3], row.of);
  if (row.text.empty()) refuse_row("the row has no text");
  check_placeholders(row.text, row.of);
  check_interval(row);
  if (row.source.empty()) refuse_row("the row has no source; write 'common practice' where there is none");
  return row;
}

}  // namespace

std::vector<std::string> placeholders_in(std::string_view text) {
  std::vector<std::string> keys;
  for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{', open + 1)) {
    keys.emplace_back(text.substr(open + 1, text.find('}', open) - open - 1));
  }
  return keys;
}

std::vector<GuidanceTerm> parse_condition(std::string_view text, SubjectKind of) {
  std::vector<GuidanceTerm> terms;
  for (const std::string& piece : split(text, ';')) {
    if (piece.empty()) refuse_row("the condition has an empty term");
    terms.push_back(parse_term(piece));
    require_fact(of, terms.back().key);
  }
  return terms;
}

std::vector<GuidanceRow> parse_guidance(std::string_view bytes, const std::string& file) {
  if (const auto encoding = encoding_fault(bytes)) throw GuidanceFault(file, 1, encoding->message);
  const std::vector<std::string> columns(kGuidanceColumns.begin(), kGuidanceColumns.end());
  CsvReader reader(bytes);
  CsvRecord record;
  std::vector<GuidanceRow> rows;
  std::set<std::string> ids;
  bool is_head = true;
  try {
    while (reader.next(record)) {
      if (!is_head) {
        rows.push_back(row_from(record, file));
        if (!ids.insert(rows.back().id).second) refuse_row("the id '" + rows.back().id + "' stands twice");
      } else if (record.fields != columns) {
        refuse_row("the columns are not " + joined(columns));
      }
      is_head = false;
    }
  } catch (const CsvFault& broken) {
    throw GuidanceFault(file, broken.line(), broken.what());
  } catch (const std::runtime_error& error) {
    throw GuidanceFault(file, record.line, error.what());
  }
  if (is_head) throw GuidanceFault(file, 1, "the table is empty");
  return rows;
}

std::vector<GuidanceRow> read_guidance(const std::filesystem::path& file) {
  return parse_guidance(read_file(file), file.string());
}

void put_over(std::vector<GuidanceRow>& rows, std::vector<GuidanceRow> own) {
  for (GuidanceRow& row : own) {
    const auto same =
        std::find_if(rows.begin(), rows.end(), [&](const GuidanceRow& other) { return other.id == row.id; });
    if (same == rows.end()) {
      if (row.text != kGone) rows.push_back(std::move(row));
    } else if (row.text == kGone) {
      rows.erase(same);
    } else {
      *same = std::move(row);
    }
  }
}

}  // namespace panel_dossier
