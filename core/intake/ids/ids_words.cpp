// Values and facets of a file of requirements as people read them.
#include "core/api/support/words.h"
#include "core/intake/ids/ids_file.h"

namespace panel_dossier {

namespace {

std::string in_quotes(const std::string& text) {
  return "'" + text + "'";
}

void add_bounds(const IdsValue& value, std::vector<std::string>& texts) {
  const auto add = [&](const char* words, const std::optional<double>& bound) {
    if (bound) texts.push_back(words + shortest_text(*bound));
  };
  add("at least ", value.min_inclusive);
  add("above ", value.min_exclusive);
  add("at most ", value.max_inclusive);
  add("below ", value.max_exclusive);
}

void add_lengths(const IdsValue& value, std::vector<std::string>& texts) {
  const auto add = [&](const char* words, const std::optional<std::size_t>& length) {
    if (length) texts.push_back(words + std::to_string(*length) + " characters");
  };
  add("of ", value.length);
  add("of at least ", value.min_length);
  add("of at most ", value.max_length);
}

std::string words_or_any(const std::optional<IdsValue>& value) {
  return value ? to_words(*value) : "any";
}

/// A name of one word needs no quotes.
std::string name_words(const std::optional<IdsValue>& name) {
  if (!name) return "any";
  return name->is_simple ? name->text : to_words(*name);
}

std::string behind(const char* words, const std::optional<IdsValue>& value) {
  return value ? words + to_words(*value) : std::string();
}

}  // namespace

std::string to_words(const IdsValue& value) {
  if (value.is_simple) return in_quotes(value.text);
  std::vector<std::string> texts;
  std::vector<std::string> quoted;
  for (const std::string& text : value.enumeration) quoted.push_back(in_quotes(text));
  if (quoted.size() == 1) texts.push_back(quoted.front());
  if (quoted.size() > 1) texts.push_back("one of " + joined(quoted));
  quoted.clear();
  for (const IdsPattern& pattern : value.patterns) quoted.push_back(in_quotes(pattern.expression()));
  if (!quoted.empty()) texts.push_back("like " + joined(quoted, " or "));
  add_bounds(value, texts);
  add_lengths(value, texts);
  return texts.empty() ? "any value" : joined(texts, " and ");
}

std::string to_words(const IdsFacet& facet) {
  switch (facet.kind) {
    case IdsFacetKind::entity: return "entity " + name_words(facet.name) + behind(" of type ", facet.predefined_type);
    case IdsFacetKind::attribute: return "attribute " + name_words(facet.name) + behind(" ", facet.value);
    case IdsFacetKind::classification:
      return "classification in system " + words_or_any(facet.set) + behind(" as ", facet.value);
    case IdsFacetKind::property:
      return "property " + name_words(facet.set) + "." + name_words(facet.name) +
             (facet.data_type.empty() ? "" : " (" + facet.data_type + ")") + behind(" ", facet.value);
    case IdsFacetKind::material: return "material" + behind(" ", facet.value);
    case IdsFacetKind::part_of: break;
  }
  return "part of " + name_words(facet.name) + behind(" of type ", facet.predefined_type) +
         (facet.relation.empty() ? "" : " by " + facet.relation);
}

}  // namespace panel_dossier
