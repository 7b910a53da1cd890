// Sentences on use, safety and fire as data: what they speak of, when they hold, and where they come from.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/pipeline/guidance/guidance_csv.h"
#include "core/pipeline/guidance/guidance_facts.h"

namespace panel_dossier {

/// One term of a condition.
struct GuidanceTerm {
  enum class Test { given, absent, is, is_not, more_than, less_than };
  std::string key;
  Test test = Test::given;
  std::vector<std::string> words;  ///< of `is` and `is_not`, in lower case
  double number = 0.0;             ///< of `more_than` and `less_than`
};

/// Terms of which one must hold.
using GuidanceAlternatives = std::vector<GuidanceTerm>;

/// Groups of terms that must all hold; empty: always.
using GuidanceCondition = std::vector<GuidanceAlternatives>;

/// One row of a table of guidance; schemas/guidance.md tells what the columns mean.
struct GuidanceRow {
  std::string id;
  std::string topic;  ///< `operation.inspect`: part of the dossier and place in it
  SubjectKind of = SubjectKind::project;
  GuidanceCondition when;
  std::string text;  ///< with `{key}` for facts
  std::string who;   ///< does it; may be empty
  /// Of what comes again: years, or the key of a fact that holds them; empty otherwise.
  std::string interval_years;
  std::string source;
  std::string file;  ///< name of the table
  std::size_t line = 0;
};

/// The keys between braces in the text, in their order. Precondition: the braces are whole, as in every row that was
/// read.
std::vector<std::string> placeholders_in(std::string_view text);

/// A condition by itself: terms with `;` between, each of which may be several with ` or ` between. Throws
/// std::runtime_error saying what is wrong with it.
GuidanceCondition parse_condition(std::string_view text, SubjectKind of);

/// Whether that is an interval of the calendar: from a month to 200 years.
bool is_interval_years(double years);

/// Reads the bytes of a table. Throws GuidanceFault for one that is not as
/// schemas/guidance.md says: columns, an id that stands twice, an unknown topic, subject or fact, a fact that duties
/// alone know, a broken condition or placeholder, an interval that is none, a row without text or source.
std::vector<GuidanceRow> parse_guidance(std::string_view bytes, const std::string& file);
/// The same of a file; also throws when it cannot be read.
std::vector<GuidanceRow> read_guidance(const std::filesystem::path& file);

/// Puts each row of `own` in place of the one of `rows` with its id, or behind them. A row whose text is `none` takes
/// the sentence of that id away.
void put_over(std::vector<GuidanceRow>& rows, std::vector<GuidanceRow> own);

}  // namespace panel_dossier
