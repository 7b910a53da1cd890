// The Merkle hash tree of RFC 6962 (2013), section 2.1, over SHA-256.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "core/intake/document/sha256.h"

namespace panel_dossier {

/// Hash of a leaf: SHA-256 over the byte 0x00 and the leaf's data.
Digest leaf_hash(std::string_view data);

/// Leaf of a panel: its data is the digest of the canonical data followed by the digest of the findings.
Digest panel_leaf(const Digest& data, const Digest& findings);

/// Leaf of the findings of the project as a whole: its data is the text `project findings` and their digest.
Digest project_leaf(const Digest& findings);

/// Root over leaf hashes; SHA-256 of the empty string when there are none.
Digest tree_root(const std::vector<Digest>& leaves);

/// The audit path of leaf `index`, from the leaf upwards. Throws std::out_of_range when there is no such leaf.
std::vector<Digest> inclusion_path(const std::vector<Digest>& leaves, std::size_t index);

/// Whether `path` leads from `leaf`, the leaf at `index` of `leaf_count`, to `root` (RFC 9162 (2021), 2.1.3.2).
bool leads_to_root(const Digest& leaf, std::size_t index, std::size_t leaf_count, const std::vector<Digest>& path,
                   const Digest& root);

}  // namespace panel_dossier
