#include "core/trace/hash_tree.h"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

using namespace panel_dossier;

namespace {

std::vector<Digest> leaves_of(std::size_t count) {
  std::vector<Digest> leaves;
  for (std::size_t i = 0; i < count; ++i) leaves.push_back(leaf_hash(std::to_string(i)));
  return leaves;
}

}  // namespace

TEST_CASE("Every leaf's path leads to the root and to no other") {
  for (std::size_t count = 1; count <= 40; ++count) {
    const auto leaves = leaves_of(count);
    const Digest root = tree_root(leaves);
    for (std::size_t i = 0; i < count; ++i) {
      const auto path = inclusion_path(leaves, i);
      CHECK(leads_to_root(leaves[i], i, count, path, root));
      CHECK_FALSE(leads_to_root(leaf_hash("another"), i, count, path, root));
      CHECK_FALSE(leads_to_root(leaves[i], i, count, path, leaf_hash("another root")));
      CHECK_FALSE(leads_to_root(leaves[i], i + count, count, path, root));
    }
  }
}

TEST_CASE("A path that is cut or lengthened leads nowhere") {
  const auto leaves = leaves_of(7);
  const Digest root = tree_root(leaves);
  auto path = inclusion_path(leaves, 3);
  path.push_back(root);
  CHECK_FALSE(leads_to_root(leaves[3], 3, 7, path, root));
  path.resize(path.size() - 2);
  CHECK_FALSE(leads_to_root(leaves[3], 3, 7, path, root));
}

TEST_CASE("Changing, moving or dropping a leaf changes the root") {
  const auto leaves = leaves_of(6);
  const Digest root = tree_root(leaves);
  auto changed = leaves;
  changed[4] = leaf_hash("changed");
  CHECK(tree_root(changed) != root);
  auto moved = leaves;
  std::swap(moved[0], moved[5]);
  CHECK(tree_root(moved) != root);
  auto dropped = leaves;
  dropped.pop_back();
  CHECK(tree_root(dropped) != root);
}

TEST_CASE("A leaf that does not exist has no path") {
  CHECK_THROWS_AS(inclusion_path(leaves_of(3), 3), std::out_of_range);
  CHECK_THROWS_AS(inclusion_path({}, 0), std::out_of_range);
}
