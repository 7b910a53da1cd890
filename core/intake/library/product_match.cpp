#include "core/intake/library/product_match.h"

#include <map>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

bool is_same_text(std::string_view a, std::string_view b) {
  return lower_case(trimmed(a)) == lower_case(trimmed(b));
}

bool differ(std::string_view a, std::string_view b) {
  return !a.empty() && !b.empty() && !is_same_text(a, b);
}

}  // namespace

std::string_view to_string(MatchRule rule) {
  switch (rule) {
    case MatchRule::article_number: return "article number";
    case MatchRule::classification: return "classification";
    case MatchRule::name: return "name";
    case MatchRule::pattern: break;
  }
  return "name pattern";
}

std::optional<MatchRule> match_rule(const LibraryProduct& product, const MatchSubject& subject) {
  if (differ(product.article_number, subject.article_number)) return std::nullopt;
  if (!product.article_number.empty() && !subject.article_number.empty()) return MatchRule::article_number;
  if (differ(product.classification, subject.classification)) return std::nullopt;
  if (!product.classification.empty() && !subject.classification.empty()) return MatchRule::classification;
  if (!product.name.empty() && is_same_text(product.name, subject.name)) return MatchRule::name;
  if (!product.pattern.empty() && matches_pattern(subject.name, product.pattern)) return MatchRule::pattern;
  return std::nullopt;
}

std::optional<ProductMatch> best_match(const std::vector<LibraryProduct>& products,
                                       const std::vector<std::size_t>& candidates, const MatchSubject& subject) {
  std::map<std::size_t, ProductMatch> by_library;
  for (const std::size_t index : candidates) {
    const auto rule = match_rule(products[index], subject);
    if (!rule) continue;
    const auto [best, is_first] =
        by_library.try_emplace(products[index].in_library, ProductMatch{index, *rule, {}, {}});
    if (is_first || *rule > best->second.rule) continue;
    if (*rule == best->second.rule) {
      if (!best->second.rival) best->second.rival = index;
    } else {
      best->second = {index, *rule, {}, {}};
    }
  }
  if (by_library.empty()) return std::nullopt;
  ProductMatch last = by_library.rbegin()->second;
  by_library.erase(std::prev(by_library.end()));
  for (const auto& [library, match] : by_library) last.passed_over.push_back(match.product);
  return last;
}

}  // namespace panel_dossier
