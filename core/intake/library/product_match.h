// Which product of a library a thing of the export is.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/library/library_rows.h"

namespace panel_dossier {

/// What the export says of a material, part or filling that can join it with a product.
struct MatchSubject {
  std::string name;
  std::string classification;
  std::string article_number;
  std::string product;  ///< as its maker calls it
};

/// The rules from the most exact one on.
enum class MatchRule { article_number, classification, name, pattern };

std::string_view to_string(MatchRule rule);

/// The most exact rule by which the product is the subject. None where no rule holds, and where both state an article
/// number or a classification and they differ.
std::optional<MatchRule> match_rule(const LibraryProduct& product, const MatchSubject& subject);

struct ProductMatch {
  std::size_t product = 0;  ///< index into the products
  MatchRule rule = MatchRule::pattern;
  std::optional<std::size_t> rival;      ///< another that matches by the same rule: neither may be taken
  std::vector<std::size_t> passed_over;  ///< best matches of earlier libraries
};

/// The product of the last library that has one, by its most exact rule; `candidates` are indices into `products`.
std::optional<ProductMatch> best_match(const std::vector<LibraryProduct>& products,
                                       const std::vector<std::size_t>& candidates, const MatchSubject& subject);

}  // namespace panel_dossier
