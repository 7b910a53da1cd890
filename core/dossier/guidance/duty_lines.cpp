#include "core/dossier/guidance/duty_lines.h"

#include <vector>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// The first fact that is compared and not given; empty where all are.
std::string first_blank(const GuidanceAlternatives& terms, const Subject& project, const FactSource& facts) {
  using Test = GuidanceTerm::Test;
  for (const GuidanceTerm& term : terms) {
    const bool asks_whether = term.test == Test::given || term.test == Test::absent;
    if (!asks_whether && facts.values(project, term.key).empty()) return term.key;
  }
  return {};
}

std::string stated_or_not(const std::string& text) {
  return text.empty() ? "not stated" : text;
}

/// The facts by which the duty does not apply: `number of storeys: 3`.
std::string why_not_asked(const GuidanceCondition& applies, const Subject& project, const FactSource& facts) {
  std::vector<std::string> texts;
  for (const GuidanceAlternatives& terms : applies) {
    if (facts.holds(terms, project)) continue;
    for (const GuidanceTerm& term : terms)
      texts.push_back(need_of(term.key).what + ": " + stated_or_not(joined(facts.values(project, term.key))));
  }
  return joined(texts, "; ");
}

/// `fire safety: evidence` for the topic `fire_safety.evidence`.
std::string topic_in_words(const std::string& topic) {
  std::string words;
  for (const char letter : topic) {
    if (letter == '.') words += ':';
    words += letter == '.' || letter == '_' ? ' ' : letter;
  }
  return words;
}

/// Of a term that does not hold, in words: `not named: principal designer`.
std::string what_is_missing(const GuidanceTerm& term, const Subject& project, const FactSource& facts,
                            const BuildSummary& build) {
  const std::string stated = joined(facts.values(project, term.key));
  const std::string name = term.key.substr(term.key.find(':') + 1);
  if (term.key.starts_with("open:")) {
    const CheckDeclaration* check = check_of_role(build, name);
    const std::string of = check == nullptr || check->title.empty() ? name : check->title;
    return "panels without a proved result of '" + of + "': " + stated;
  }
  if (term.key.starts_with("lacking:"))
    return "sentences of '" + topic_in_words(name) + "' that lack facts (part 10): " + stated;
  if (term.key.starts_with("advice:")) return "nothing can be said of '" + topic_in_words(name) + "'";
  if (term.key.starts_with("party:")) return "not named: " + name;
  return need_of(term.key).what + ": " + stated_or_not(stated);
}

}  // namespace

DutyLine duty_line(const DutyRow& duty, const Subject& project, const FactSource& facts, const BuildSummary& build) {
  if (duty.is_left_out) return {duty, DutyState::left_out, "left out by the practice's table of duties"};
  for (const GuidanceAlternatives& terms : duty.applies) {
    if (facts.holds(terms, project)) continue;
    const std::string blank = first_blank(terms, project, facts);
    if (!blank.empty())
      return {duty, DutyState::unmet, "whether it applies cannot be told: " + need_of(blank).what + " is blank"};
  }
  if (!facts.holds(duty.applies, project))
    return {duty, DutyState::not_applicable, why_not_asked(duty.applies, project, facts)};
  std::vector<std::string> faults;
  for (const GuidanceAlternatives& terms : duty.when) {
    if (!facts.holds(terms, project)) faults.push_back(what_is_missing(terms.front(), project, facts, build));
  }
  if (faults.empty()) return {duty, DutyState::met, {}};
  return {duty, DutyState::unmet, duty.unmet + ": " + joined(faults, "; ")};
}

}  // namespace panel_dossier
