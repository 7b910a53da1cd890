#include "core/dossier/guidance/advice.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/panel/panel_facts.h"

namespace panel_dossier {

namespace {

std::string field_of(const RecordedFinding& finding, const FindingFact& fact) {
  if (fact.is_named_value) {
    for (const NamedValue& value : finding.derivation->values) {
      if (value.id == fact.field) return format_value(value.value, value.unit, finding.derivation->decimals);
    }
    return {};
  }
  if (fact.field == "verdict") return std::string(to_string(finding.verdict));
  if (fact.field == "value") return format_value(finding.value, finding.unit, finding.derivation->decimals);
  if (fact.field == "limit") return format_limit(finding);
  if (fact.field == "basis") return std::string(to_string(finding.basis));
  if (fact.field == "clause") return finding.clause;
  return finding.reason;
}

/// `25` or `25 years`; none of a text in another unit, or beyond what a calendar can hold.
std::optional<double> years_in(std::string_view text) {
  constexpr std::string_view kYears = " years";
  if (text.ends_with(kYears)) text.remove_suffix(kYears.size());
  const auto years = parse_decimal(text);
  return years && is_interval_years(*years) ? years : std::nullopt;
}

std::string setting_text(const Settings::Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return format_significant(*number);
  if (const auto* logical = std::get_if<bool>(&value)) return *logical ? "yes" : "no";
  return std::get<std::string>(value);
}

void add_panels(std::vector<std::size_t>& panels, const std::vector<std::size_t>& more) {
  std::vector<std::size_t> all;
  std::set_union(panels.begin(), panels.end(), more.begin(), more.end(), std::back_inserter(all));
  panels = std::move(all);
}

}  // namespace

std::vector<std::string> FactSource::of_finding(const Subject& subject, std::string_view key) const {
  const auto fact = parse_finding_fact(key);
  if (!fact) return {};
  const std::vector<RecordedFinding>* findings = nullptr;
  if (subject.kind == SubjectKind::project) findings = &results_.project_findings;
  if (subject.kind == SubjectKind::panel && !subject.panels.empty())
    findings = &results_.panels[subject.panels.front()].findings;
  if (findings == nullptr) return {};
  const RecordedFinding* finding = nullptr;
  if (key.starts_with("role:")) {
    finding = finding_of_role(results_.build, *findings, fact->name);
  } else {
    const auto found = std::find_if(findings->begin(), findings->end(),
                                    [&](const RecordedFinding& one) { return one.check == fact->name; });
    if (found != findings->end()) finding = &*found;
  }
  if (finding == nullptr) return {};
  std::string text = field_of(*finding, *fact);
  if (text.empty()) return {};
  return {std::move(text)};
}

std::vector<std::string> FactSource::of_property(const Subject& subject, std::string_view key) const {
  const std::size_t point = key.find('.');
  if (point == std::string_view::npos) return {};
  const auto text_in = [&key, point](const Properties& properties) {
    const Property* property = properties.find(key.substr(0, point), key.substr(point + 1));
    return property == nullptr ? std::string() : property_text(*property);
  };
  std::string farther;
  for (std::size_t i = 1; i < subject.properties.size() && farther.empty(); ++i)
    farther = text_in(*subject.properties[i]);
  // What one of many does not state is not given of all of them.
  std::vector<std::string> texts;
  const auto take = [&](const Properties& nearest) {
    std::string text = text_in(nearest);
    if (text.empty()) text = farther;
    if (text.empty()) return false;
    if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(std::move(text));
    return true;
  };
  if (subject.properties.empty() || !take(*subject.properties.front())) return {};
  const auto& others = subject.properties_of_others;
  const bool all_state_it =
      std::all_of(others.begin(), others.end(), [&take](const Properties* other) { return take(*other); });
  return all_state_it ? texts : std::vector<std::string>();
}

std::vector<std::string> FactSource::values(const Subject& subject, std::string_view key) const {
  const auto fact = subject.facts.find(key);
  if (fact != subject.facts.end()) return fact->second;
  constexpr std::string_view kSetting = "setting:";
  if (key.starts_with(kSetting)) {
    const auto setting = settings_.all().find(key.substr(kSetting.size()));
    if (setting == settings_.all().end()) return {};
    return {setting_text(setting->second)};
  }
  if (key.starts_with("role:") || key.starts_with("check:")) return of_finding(subject, key);
  return of_property(subject, key);
}

bool FactSource::holds(const GuidanceTerm& term, const Subject& subject) const {
  using Test = GuidanceTerm::Test;
  const std::vector<std::string> given = values(subject, term.key);
  const auto is_word = [&term](const std::string& value) {
    return std::find(term.words.begin(), term.words.end(), lower_case(value)) != term.words.end();
  };
  // What is said of a number holds of no text and of nothing that is not given.
  const auto compares = [&](const auto& compare) {
    return std::any_of(given.begin(), given.end(), [&](const std::string& value) {
      const auto number = parse_decimal(value.substr(0, value.find(' ')));
      return number && compare(*number);
    });
  };
  switch (term.test) {
    case Test::given: return !given.empty();
    case Test::absent: return given.empty();
    case Test::is: return std::any_of(given.begin(), given.end(), is_word);
    case Test::is_not: return std::none_of(given.begin(), given.end(), is_word);
    case Test::more_than: return compares([&](double value) { return value > term.number; });
    case Test::less_than: return compares([&](double value) { return value < term.number; });
  }
  return false;
}

bool FactSource::holds(const GuidanceAlternatives& terms, const Subject& subject) const {
  return std::any_of(terms.begin(), terms.end(), [&](const GuidanceTerm& term) { return holds(term, subject); });
}

bool FactSource::holds(const GuidanceCondition& condition, const Subject& subject) const {
  return std::all_of(condition.begin(), condition.end(),
                     [&](const GuidanceAlternatives& terms) { return holds(terms, subject); });
}

std::string filled(std::string_view text, const Subject& subject, const FactSource& facts,
                   std::vector<std::string>& missing) {
  std::string result;
  std::size_t at = 0;
  for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{', at)) {
    const std::size_t close = text.find('}', open);
    result += text.substr(at, open - at);
    const std::string key(text.substr(open + 1, close - open - 1));
    const std::vector<std::string> values = facts.values(subject, key);
    if (values.empty() && std::find(missing.begin(), missing.end(), key) == missing.end()) missing.push_back(key);
    result += joined(values);
    at = close + 1;
  }
  return result += text.substr(at);
}

std::string missing_in_words(const std::vector<std::string>& keys) {
  std::vector<std::string> needs;
  for (const std::string& key : keys) {
    const FactNeed need = need_of(key);
    needs.push_back(need.what + " (can be supplied by: " + need.who + ")");
  }
  return "Not stated: " + joined(needs, "; ") + ".";
}

namespace {

/// What the sentence is about, where it begins with that and a colon: `Compartment lines. `; else nothing.
std::string lead_of(std::string_view text) {
  const std::string_view lead = trimmed(text.substr(0, text.find('{')));
  if (!lead.ends_with(':')) return {};
  return std::string(lead.substr(0, lead.size() - 1)) + ". ";
}

}  // namespace

std::vector<Advice> advice_on(const std::vector<GuidanceRow>& rows, const std::vector<Subject>& subjects,
                              const FactSource& facts) {
  std::vector<Advice> all;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    std::map<std::pair<std::string, std::string>, std::size_t> known;  // by text and interval
    for (std::size_t i = 0; i < subjects.size(); ++i) {
      const Subject& subject = subjects[i];
      if (subject.kind != rows[row].of || !facts.holds(rows[row].when, subject)) continue;
      Advice advice;
      advice.row = row;
      advice.text = filled(rows[row].text, subject, facts, advice.missing);
      const std::string interval = filled(rows[row].interval_years, subject, facts, advice.missing);
      advice.interval_years = years_in(interval);
      if (!advice.interval_years && advice.missing.empty()) advice.unread_interval = interval;
      if (!advice.missing.empty()) advice.text = lead_of(rows[row].text) + missing_in_words(advice.missing);
      const auto [found, is_new] = known.try_emplace({advice.text, interval}, all.size());
      if (is_new) all.push_back(std::move(advice));
      all[found->second].subjects.push_back(i);
      add_panels(all[found->second].panels, subject.panels);
    }
  }
  return all;
}

}  // namespace panel_dossier
