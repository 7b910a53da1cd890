// The one thing plugins return.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/model/origin.h"

namespace panel_dossier {

/// Nothing, a number in the unit stated beside it, or text for a class such as `REI 60`.
using Value = std::variant<std::monostate, double, std::string>;

enum class Verdict { pass, fail, evidence_needed, not_assessed, information };
enum class Basis { calculation, test_evidence, declared };
enum class Relation { none, at_most, at_least, equals };

/// The words used on pages and in results.json: `pass`, `fail`, `evidence needed`, `not assessed`, `information`.
std::string_view to_string(Verdict verdict);
/// `calculation`, `test evidence`, `declared`.
std::string_view to_string(Basis basis);
/// `none`, `at most`, `at least`, `equals`.
std::string_view to_string(Relation relation);

/// What a calculation started from.
struct Input {
  std::string name;    ///< in words: `thermal conductivity of mineral wool`
  std::string symbol;  ///< the standard's symbol: `λ`; may be empty
  Value value;
  std::string unit;
  Origin origin;
};

/// One intermediate result, in the order in which a person would work it out.
struct Step {
  std::string name;
  std::string symbol;
  Value value;
  std::string unit;
  std::string formula;  ///< in the standard's symbols: `R = d / λ`; may be empty
};

struct Column {
  std::string name;
  std::string unit;
};

struct Table {
  std::string title;
  std::vector<Column> columns;
  std::vector<std::vector<Value>> rows;  ///< each as long as `columns`
  std::string id = {};                   ///< by which another check or an output asks for it; empty when none does
};

/// A result that another check, an output or the dossier asks for. Never printed beside the steps: those are for
/// people, and their names and symbols may be reworded.
struct NamedValue {
  std::string id;  ///< lower case with underscores, stable: `from_left_edge`
  Value value;
  std::string unit;
};

struct Finding {
  Finding();
  Finding(const Finding&);
  Finding(Finding&&) noexcept;
  Finding& operator=(const Finding&);
  Finding& operator=(Finding&&) noexcept;
  ~Finding();

  std::string check;  ///< stable id, `discipline.name`
  std::string title;
  std::string panel;  ///< GlobalId, or empty for a finding of the whole project
  Value value;
  std::string unit;
  Value limit;
  Relation relation = Relation::none;
  std::optional<double> utilisation;  ///< value / limit or design effect / resistance; at most 1 passes
  int decimals = 2;                   ///< decimals of `value` and `limit` when printed; the value itself is not rounded
  Verdict verdict = Verdict::not_assessed;
  std::string reason;  ///< why it failed, was not assessed or needs evidence, and what to do; else empty
  Basis basis = Basis::calculation;
  std::string clause;  ///< standard, year and clause, as one string
  std::vector<Input> inputs;
  std::vector<Step> steps;
  std::vector<NamedValue> values;  ///< each id once
  std::vector<std::string> notes;  ///< what a reader must know: scope, simplifications, cautions of this check
  std::vector<Table> tables;
  std::vector<Series> series;
  std::vector<BarChart> bar_charts;
  std::vector<Drawing> drawings;
};

/// The finding with what may be asked for: its head, its values, and its tables that have an id; without what only a
/// reader follows. The check of the project holds those of all panels at a time.
Finding result_only(Finding finding);

/// The number of that id. Throws std::runtime_error naming check, panel, id and unit when the finding has none, or has
/// it in another unit or as text: an absent result is never read as zero.
double value_of(const Finding& finding, std::string_view id, std::string_view unit);
/// The text of that id; throws as `value_of`.
const std::string& text_of(const Finding& finding, std::string_view id);
/// As `value_of` where absence is meant: none when the finding has no value of that id; throws when its unit differs.
std::optional<double> find_value(const Finding& finding, std::string_view id, std::string_view unit);
/// The table of that id, or null.
const Table* find_table(const Finding& finding, std::string_view id);

}  // namespace panel_dossier
