// What a check says of itself before it computes anything, and the page made from that.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// What the verdicts of a check can be.
enum class CheckKind {
  figure,          ///< a value without a limit: `information` or `not assessed`
  limit,           ///< a value against a limit
  classification,  ///< a class or a list of conditions against what is required
  evidence,        ///< documents against what they must show
};

/// Where a check makes findings.
enum class CheckScope {
  panels,
  project,
  panels_and_project,  ///< the project's finding stands under the same id: a total, or the worst of all panels
};

/// The words of pages: `figure`, `limit`, `classification`, `evidence`; `each panel`, `the project`, …
std::string to_string(CheckKind kind);
std::string to_string(CheckScope scope);

/// One named thing that a check reads.
struct CheckInput {
  enum class Source {
    property,  ///< `Pset.Property` of the export
    setting,   ///< dotted key of the settings; elements of a list as `*`: `sound.targets.*.name`
    table,     ///< file of the plugin's data folder, without a folder: `surface_resistances.csv`
    model,     ///< what the panel is made of: `layers`, `parts`; or a table of its records: `inspections`
  };
  Source source = Source::property;
  std::string name;
  /// True when the check can pass without it: another source stands in, or what it describes is not there.
  bool optional = false;
};

CheckInput property(std::string name);
CheckInput optional_property(std::string name);
CheckInput setting(std::string name);
CheckInput optional_setting(std::string name);
CheckInput data_table(std::string name);
/// Those inputs and what the panel is made of: `layers` and `parts`, or `parts` alone. A check that declares to read
/// the layers does not pass where the parts contradict them, one that reads the parts not where they cannot stand
/// together.
std::vector<CheckInput> with_model(std::vector<CheckInput> inputs);
std::vector<CheckInput> with_parts(std::vector<CheckInput> inputs);
/// Those inputs and tables of the panel's records, all optional. A check that declares to read a table does not pass
/// where its rows contradict each other or the export.
std::vector<CheckInput> with_records(std::vector<CheckInput> inputs, const std::vector<std::string>& tables);

/// Whether the declared name means `name`: the same, or the same but for `*` in place of an index or of a name under
/// which an entry stands. A `*` at the end stands for all that follows, dots included.
bool names_input(std::string_view declared, std::string_view name);

/// The one place where id, title, clause and unit of a check are written; findings take them from here, and so do the
/// plugin's README, the chapter of the dossier and `panel-dossier plugins --check ID`.
struct CheckDeclaration {
  std::string id;                  ///< `discipline.name`; never changes once issued
  std::string title;               ///< of a panel's finding; of the project's where the scope is the project
  std::string project_title = {};  ///< of the project's finding of a check of panels and project; else empty
  std::string sentence;            ///< what is found, in one sentence that can be tested
  std::string clause;              ///< standard, year and clause
  std::vector<std::string> other_clauses = {};  ///< of findings that a project's choices put under another clause
  /// A value's unit is one of these; empty: classes in words, or no unit. `currency` stands for any code of three
  /// capital letters (ISO 4217).
  std::vector<std::string> units = {};
  CheckKind kind = CheckKind::figure;
  CheckScope scope = CheckScope::panels;
  std::vector<CheckInput> inputs = {};
  std::vector<std::string> limits = {};  ///< what the check does not see, one sentence each
  /// What the rest of the program may ask for without knowing the discipline: see roles.h; empty for none.
  std::string role = {};
  /// The practice's own people alone need it (cutting, assembly, costs): what it finds without judging stands in
  /// workshop.pdf and not in the dossier.
  bool for_workshop = false;
};

/// The page of a check. Markdown: heading of level 3 with the id, what is found, clause, kind, what is read, what is
/// not seen. Ends with a newline.
std::string check_page(const CheckDeclaration& check);

/// The pages of all checks, one behind the other, with an empty line between them: what stands in a plugin's README.
std::string check_pages(const std::vector<CheckDeclaration>& checks);

/// What of one source the check reads, as `a, b (optional), c`; empty when it reads nothing of it.
std::string inputs_in_words(const CheckDeclaration& check, CheckInput::Source source);

}  // namespace panel_dossier
