#include "core/trace/hash_tree.h"

#include <bit>
#include <span>
#include <stdexcept>
#include <string>

namespace panel_dossier {

namespace {

void append(std::string& bytes, const Digest& digest) {
  bytes.append(digest.begin(), digest.end());
}

Digest node_hash(const Digest& left, const Digest& right) {
  std::string bytes(1, '\x01');
  append(bytes, left);
  append(bytes, right);
  return sha256(bytes);
}

/// The largest power of two smaller than `count`, which is at least 2.
std::size_t split(std::size_t count) {
  return std::bit_floor(count - 1);
}

Digest root_of(std::span<const Digest> leaves) {
  if (leaves.size() == 1) return leaves.front();
  const std::size_t left = split(leaves.size());
  return node_hash(root_of(leaves.first(left)), root_of(leaves.subspan(left)));
}

void append_path(std::span<const Digest> leaves, std::size_t index, std::vector<Digest>& path) {
  if (leaves.size() == 1) return;
  const std::size_t left = split(leaves.size());
  const auto left_leaves = leaves.first(left);
  const auto right_leaves = leaves.subspan(left);
  if (index < left) {
    append_path(left_leaves, index, path);
    path.push_back(root_of(right_leaves));
  } else {
    append_path(right_leaves, index - left, path);
    path.push_back(root_of(left_leaves));
  }
}

}  // namespace

Digest leaf_hash(std::string_view data) {
  std::string bytes(1, '\0');
  bytes += data;
  return sha256(bytes);
}

Digest panel_leaf(const Digest& data, const Digest& findings) {
  std::string bytes;
  append(bytes, data);
  append(bytes, findings);
  return leaf_hash(bytes);
}

Digest project_leaf(const Digest& findings) {
  std::string bytes = "project findings";
  append(bytes, findings);
  return leaf_hash(bytes);
}

Digest tree_root(const std::vector<Digest>& leaves) {
  return leaves.empty() ? sha256({}) : root_of(leaves);
}

std::vector<Digest> inclusion_path(const std::vector<Digest>& leaves, std::size_t index) {
  if (index >= leaves.size()) {
    throw std::out_of_range("no leaf " + std::to_string(index) + " in a hash tree of " + std::to_string(leaves.size()));
  }
  std::vector<Digest> path;
  append_path(leaves, index, path);
  return path;
}

bool leads_to_root(const Digest& leaf, std::size_t index, std::size_t leaf_count, const std::vector<Digest>& path,
                   const Digest& root) {
  if (index >= leaf_count) return false;
  Digest hash = leaf;
  std::size_t node = index;
  std::size_t last_node = leaf_count - 1;
  for (const Digest& sibling : path) {
    if (last_node == 0) return false;
    if (node % 2 == 1 || node == last_node) {
      hash = node_hash(sibling, hash);
      // A last node without a right sibling is carried up unchanged until it becomes a right child.
      while (node % 2 == 0 && node != 0) {
        node /= 2;
        last_node /= 2;
      }
    } else {
      hash = node_hash(hash, sibling);
    }
    node /= 2;
    last_node /= 2;
  }
  return last_node == 0 && hash == root;
}

}  // namespace panel_dossier
