#include "core/pipeline/guidance/guidance_table.h"

#include <algorithm>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

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

/// The terms with ` or ` between.
std::vector<std::string> alternatives_in(std::string_view text) {
  constexpr std::string_view kOr = " or ";
  std::vector<std::string> terms;
  std::size_t at = 0;
  for (std::size_t end = text.find(kOr); end != std::string_view::npos; end = text.find(kOr, at)) {
    terms.emplace_back(trimmed(text.substr(at, end - at)));
    at = end + kOr.size();
  }
  terms.emplace_back(trimmed(text.substr(at)));
  return terms;
}

void require_fact(SubjectKind of, const std::string& key) {
  if (const std::string fault = fact_fault(of, key); !fault.empty()) refuse_row(fault);
}

/// Sentences come before what is worked out of them: a condition such as `!lacking:TOPIC` would hold of every project.
void refuse_fact_of_duties(const std::string& key) {
  if (is_for_duties_alone(key))
    refuse_row("'" + key + "' is known to duties alone, for it is worked out after sentences");
}

/// Throws where a brace is left open, closed twice or empty, or holds no fact.
void check_placeholders(std::string_view text, SubjectKind of) {
  bool is_open = false;
  for (const char c : text) {
    if (c != '{' && c != '}') continue;
    if (c == '{' && is_open) refuse_row("a brace is opened within another");
    if (c == '}' && !is_open) refuse_row("a brace is closed that is not open");
    is_open = c == '{';
  }
  if (is_open) refuse_row("a brace is not closed");
  for (const std::string& key : placeholders_in(text)) {
    require_fact(of, key);
    refuse_fact_of_duties(key);
  }
}

void check_interval(const GuidanceRow& row) {
  if (row.interval_years.empty()) return;
  if (row.interval_years.starts_with('{')) {
    check_placeholders(row.interval_years, row.of);
    return;
  }
  const auto years = parse_decimal(row.interval_years);
  if (!years || !is_interval_years(*years)) {
    refuse_row("the interval '" + row.interval_years + "' is no number of years from a month to 200 years");
  }
}

GuidanceRow row_from(const std::vector<std::string>& cells, const std::string& file, std::size_t line) {
  GuidanceRow row;
  row.id = cells[0];
  row.topic = cells[1];
  row.text = cells[4];
  row.who = cells[5];
  row.interval_years = cells[6];
  row.source = cells[7];
  row.file = file;
  row.line = line;
  if (row.id.empty()) refuse_row("the row has no id");
  const std::vector<std::string>& topics = guidance_topics();
  if (std::find(topics.begin(), topics.end(), row.topic) == topics.end()) {
    refuse_row("'" + row.topic + "' is no topic; they are " + joined(topics));
  }
  const auto kind = parse_subject_kind(cells[2]);
  if (!kind) {
    refuse_row("'" + cells[2] + "' is nothing to speak of: panel, layer, product, fixing, lifting, opening or project");
  }
  row.of = *kind;
  row.when = parse_condition(cells[3], row.of);
  for (const GuidanceAlternatives& terms : row.when) {
    for (const GuidanceTerm& term : terms) refuse_fact_of_duties(term.key);
  }
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

GuidanceCondition parse_condition(std::string_view text, SubjectKind of) {
  GuidanceCondition condition;
  for (const std::string& piece : split(text, ';')) {
    GuidanceAlternatives terms;
    for (const std::string& term : alternatives_in(piece)) {
      if (term.empty()) refuse_row("the condition has an empty term");
      terms.push_back(parse_term(term));
      require_fact(of, terms.back().key);
    }
    condition.push_back(std::move(terms));
  }
  return condition;
}

bool is_interval_years(double years) {
  constexpr double kShortest_years = 1.0 / 12.0;
  constexpr double kLongest_years = 200.0;
  constexpr double kRounding_years = 1e-9;
  return years >= kShortest_years - kRounding_years && years <= kLongest_years;
}

std::vector<GuidanceRow> parse_guidance(std::string_view bytes, const std::string& file) {
  const std::vector<std::string> columns{"id", "topic", "of", "when", "text", "who", "interval_years", "source"};
  std::vector<GuidanceRow> rows;
  std::set<std::string> ids;
  read_guidance_table(bytes, file, columns, [&](const std::vector<std::string>& cells, std::size_t line) {
    rows.push_back(row_from(cells, file, line));
    if (!ids.insert(rows.back().id).second) refuse_row("the id '" + rows.back().id + "' stands twice");
  });
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
      if (row.text != kRowGone) rows.push_back(std::move(row));
    } else if (row.text == kRowGone) {
      rows.erase(same);
    } else {
      *same = std::move(row);
    }
  }
}

}  // namespace panel_dossier
