#include "core/intake/library/product_match.h"

#include <catch2/catch.hpp>
#include <string>

using namespace panel_dossier;

namespace {

LibraryProduct product_of(std::size_t library, const std::string& name, const std::string& pattern = {},
                          const std::string& classification = {}, const std::string& article_number = {}) {
  LibraryProduct product;
  product.in_library = library;
  product.product = "a product";
  product.name = name;
  product.pattern = pattern;
  product.classification = classification;
  product.article_number = article_number;
  return product;
}

std::optional<ProductMatch> match(const std::vector<LibraryProduct>& products, const MatchSubject& subject) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < products.size(); ++i) all.push_back(i);
  return best_match(products, all, subject);
}

}  // namespace

TEST_CASE("the more exact rule wins, whatever the order of the rows") {
  const MatchSubject subject{"Board 12", "Ss_20", "4711", {}};
  const LibraryProduct by_pattern = product_of(0, {}, "Board*");
  const LibraryProduct by_name = product_of(0, "board 12");
  const LibraryProduct by_class = product_of(0, {}, {}, "Ss_20");
  const LibraryProduct by_article = product_of(0, {}, {}, {}, "4711");
  CHECK(match({by_pattern, by_name, by_class, by_article}, subject)->product == 3);
  CHECK(match({by_class, by_name, by_pattern}, subject)->product == 0);
  CHECK(match({by_pattern, by_name}, subject)->product == 1);
  CHECK(match({by_pattern}, subject)->rule == MatchRule::pattern);
  CHECK_FALSE(match({by_article}, {"Board 12", {}, {}, {}}));
}

TEST_CASE("two rows of one rule are rivals, a more exact one settles it") {
  const MatchSubject subject{"Board 12", {}, {}, {}};
  const LibraryProduct one = product_of(0, {}, "Board*");
  const LibraryProduct other = product_of(0, {}, "*12");
  REQUIRE(match({one, other}, subject));
  CHECK(match({one, other}, subject)->rival == 1U);
  CHECK_FALSE(match({one, other, product_of(0, "Board 12")}, subject)->rival);
}

TEST_CASE("a row of another article number or classification is another product, whatever its name") {
  const MatchSubject subject{"Board 12", "Ss_20", "4711", {}};
  CHECK_FALSE(match({product_of(0, "Board 12", {}, {}, "4712")}, subject));
  CHECK_FALSE(match({product_of(0, "Board 12", {}, "Ss_25")}, subject));
}

TEST_CASE("the last library with a match goes before the earlier ones") {
  const MatchSubject subject{"Board 12", {}, {}, {}};
  const auto found = match({product_of(0, "Board 12"), product_of(1, {}, "Board*"), product_of(2, "Slab")}, subject);
  REQUIRE(found);
  CHECK(found->product == 1);
  CHECK(found->passed_over == std::vector<std::size_t>{0});
}
