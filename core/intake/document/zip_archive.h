// The entries of a zip archive in memory, with limits against archives that were made to harm.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct zip;

namespace panel_dossier {

/// How far an entry may unpack.
struct ZipLimits {
  std::size_t most_bytes = 0;
  std::size_t most_ratio = 0;          ///< unpacked to packed
  std::size_t ratio_counts_bytes = 0;  ///< below this size the ratio says nothing
};

enum class ZipFault { locked, damaged, too_large, too_dense };

/// What came of reading an entry: its bytes, or the fault in words of the library.
struct ZipEntry {
  std::string bytes;
  std::optional<ZipFault> fault = {};
  std::string words = {};
};

/// Nothing is ever written out of the archive, and no name inside is used as a path. The bytes must outlive it. Belongs
/// to one thread.
class ZipArchive {
 public:
  explicit ZipArchive(std::string_view bytes);

  /// Why the bytes are no archive, in words of the library; empty when they are one.
  const std::string& fault() const { return fault_; }
  /// Of an archive that is read.
  std::size_t size() const;
  /// In their order, so that an index stands for an entry; empty for a name that cannot be read.
  std::vector<std::string> names() const;

  /// The sizes that the archive states are claims; what comes out is counted.
  ZipEntry read(std::size_t index, const ZipLimits& limits) const;

 private:
  struct Closer {
    void operator()(zip* archive) const;
  };
  std::unique_ptr<zip, Closer> archive_;
  std::string fault_;
};

}  // namespace panel_dossier
