#include "core/pipeline/gaps.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>

#include "core/api/finding/check_declaration.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

bool is_open(const RecordedFinding& finding) {
  return finding.verdict == Verdict::evidence_needed || finding.verdict == Verdict::not_assessed;
}

/// The discipline of `discipline.name`.
std::string discipline_of_check(const std::string& check) {
  return check.substr(0, check.find('.'));
}

/// The statements of a reason, which the builder of findings puts one behind the other.
std::vector<std::string_view> statements_of(std::string_view reason) {
  constexpr std::string_view kBetween = "; ";
  std::vector<std::string_view> statements;
  for (;;) {
    const std::size_t end = reason.find(kBetween);
    statements.push_back(reason.substr(0, end));
    if (end == std::string_view::npos) return statements;
    reason.remove_prefix(end + kBetween.size());
  }
}

/// Words that may be names of inputs: letters, digits and underscores with a dot somewhere inside.
std::vector<std::string> dotted_words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const auto take = [&] {
    while (!word.empty() && word.back() == '.') word.pop_back();
    if (word.find('.') != std::string::npos) words.push_back(word);
    word.clear();
  };
  for (const char c : text) {
    const bool inside = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.';
    if (inside) {
      word += c;
    } else {
      take();
    }
  }
  take();
  return words;
}

/// Texts between single quotes. A name may hold an apostrophe of its own, so every pair of quotes counts.
bool names_in_quotes(std::string_view text, const std::string& name) {
  return !name.empty() && text.find("'" + name + "'") != std::string_view::npos;
}

bool holds(const Properties& properties, const PropertyRow& row) {
  return properties.find(row.set, row.property) != nullptr;
}

class Gathering {
 public:
  Gathering(const Project& project, const Settings& settings, const Results& results,
            const std::vector<PropertyRow>& rows)
      : project_(project), settings_(settings) {
    for (const PropertyRow& row : rows) rows_.emplace(row.set + "." + row.property, &row);
    for (const PluginRecord& plugin : results.plugins) {
      for (const CheckDeclaration& check : plugin.checks) declare(check);
    }
  }

  void take(const RecordedFinding& finding, std::optional<std::size_t> panel) {
    if (!is_open(finding)) return;
    for (const std::string_view statement : statements_of(finding.reason)) {
      for (const std::string& word : dotted_words_of(statement)) {
        if (is_absent_setting(word)) {
          note(gap(Gap::Source::setting, word, nullptr), finding, panel);
        } else if (properties_.contains(word)) {
          take_property(word, statement, finding, panel);
        }
      }
    }
  }

  std::vector<Gap> sorted() {
    std::vector<Gap> gaps;
    for (auto& [key, found] : gaps_) gaps.push_back(std::move(found));
    return gaps;
  }

 private:
  const Project& project_;
  const Settings& settings_;
  std::multimap<std::string, const PropertyRow*> rows_;  ///< by full name; one may hang on several entities
  std::set<std::string> properties_;                     ///< that some check declares to read
  std::set<std::string> declared_settings_;
  std::map<std::tuple<Gap::Source, std::string, std::string>, Gap> gaps_;

  void declare(const CheckDeclaration& check) {
    for (const CheckInput& input : check.inputs) {
      if (input.source == CheckInput::Source::property) properties_.insert(input.name);
      if (input.source == CheckInput::Source::setting) declared_settings_.insert(input.name);
    }
  }

  bool is_absent_setting(const std::string& word) const {
    if (settings_.all().contains(word)) return false;
    return std::any_of(declared_settings_.begin(), declared_settings_.end(),
                       [&](const std::string& declared) { return declared == word || names_input(declared, word); });
  }

  Gap& gap(Gap::Source source, const std::string& name, const PropertyRow* row) {
    Gap& found = gaps_[{source, name, row == nullptr ? std::string() : row->on}];
    found.source = source;
    found.name = name;
    found.property = row;
    return found;
  }

  static void note(Gap& gap, const RecordedFinding& finding, std::optional<std::size_t> panel) {
    gap.disciplines.insert(discipline_of_check(finding.check));
    if (panel) {
      gap.panels.insert(*panel);
    } else {
      gap.whole_project = true;
    }
  }

  /// The statement may speak of any entity that the property hangs on; where it names one, of that.
  void take_property(const std::string& name, std::string_view statement, const RecordedFinding& finding,
                     std::optional<std::size_t> panel) {
    const auto [first, last] = rows_.equal_range(name);
    for (auto at = first; at != last; ++at) {
      const PropertyRow& row = *at->second;
      std::set<std::string> subjects;
      bool lacks = false;
      for (const std::string& entity : entities_with(row))
        lacks |= add_subjects(entity, row, statement, panel, subjects);
      if (!lacks) continue;
      Gap& found = gap(Gap::Source::property, name, &row);
      found.subjects.insert(subjects.begin(), subjects.end());
      note(found, finding, panel);
    }
  }

  /// Whether one of that kind that the statement speaks of lacks the property; those that have names are added.
  bool add_subjects(const std::string& entity, const PropertyRow& row, std::string_view statement,
                    std::optional<std::size_t> panel, std::set<std::string>& subjects) const {
    if (entity == "material") return add_materials(row, statement, subjects);
    if (entity == "panel") return panel && add_panel(project_.panels[*panel], row, subjects);
    if (entity == "part") return panel && add_parts(project_.panels[*panel], row, statement, subjects);
    if (entity == "filling") return panel && add_fillings(project_.panels[*panel], row, statement, subjects);
    return !holds(project_.properties, row);  // project, site, building
  }

  bool add_materials(const PropertyRow& row, std::string_view statement, std::set<std::string>& subjects) const {
    bool found = false;
    for (const Material& material : project_.materials) {
      if (!names_in_quotes(statement, material.name) || holds(material.properties, row)) continue;
      subjects.insert(material.name);
      found = true;
    }
    return found;
  }

  static bool add_panel(const Panel& panel, const PropertyRow& row, std::set<std::string>& subjects) {
    if (holds(panel.properties, row)) return false;
    subjects.insert(panel.mark);
    return true;
  }

  static bool add_parts(const Panel& panel, const PropertyRow& row, std::string_view statement,
                        std::set<std::string>& subjects) {
    bool found = false;
    for (const Part& part : panel.parts) {
      if (!names_in_quotes(statement, part.name) || holds(part.properties, row)) continue;
      subjects.insert(part.name);
      found = true;
    }
    return found;
  }

  static bool add_fillings(const Panel& panel, const PropertyRow& row, std::string_view statement,
                           std::set<std::string>& subjects) {
    bool found = false;
    for (const Opening& opening : panel.openings) {
      if (!names_in_quotes(statement, opening.filling_name) || holds(opening.filling_properties, row)) continue;
      subjects.insert(opening.filling_name);
      found = true;
    }
    return found;
  }
};

void count(const std::vector<RecordedFinding>& findings, std::vector<DisciplineState>& states) {
  for (const RecordedFinding& finding : findings) {
    const std::string id = discipline_of_check(finding.check);
    const auto state = std::find_if(states.begin(), states.end(), [&](const auto& entry) { return entry.id == id; });
    if (state == states.end()) continue;
    ++state->findings;
    if (is_open(finding)) ++state->open;
    if (!std::holds_alternative<std::monostate>(finding.value)) ++state->figures;
  }
}

}  // namespace

std::vector<Gap> gaps_of(const Project& project, const Settings& settings, const Results& results,
                         const std::vector<PropertyRow>& rows) {
  Gathering gathering(project, settings, results, rows);
  for (std::size_t i = 0; i < results.panel_findings.size(); ++i) {
    for (const RecordedFinding& finding : results.panel_findings[i]) gathering.take(finding, i);
  }
  for (const RecordedFinding& finding : results.project_findings) gathering.take(finding, std::nullopt);
  return gathering.sorted();
}

std::vector<DisciplineState> discipline_states(const Results& results) {
  std::vector<DisciplineState> states;
  for (const PluginRecord& plugin : results.plugins) states.push_back({plugin.info.id, plugin.info.title});
  for (const std::vector<RecordedFinding>& findings : results.panel_findings) count(findings, states);
  count(results.project_findings, states);
  return states;
}

}  // namespace panel_dossier
