// Byte offsets of a text -> line and column.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// Built once for a text; independent of it afterwards, since the XML parser rewrites its buffer. Immutable.
class LineTable {
 public:
  struct Position {
    std::uint32_t line = 0;    ///< from 1
    std::uint32_t column = 0;  ///< in bytes, from 1
  };

  LineTable() = default;
  explicit LineTable(std::string_view text);

  Position at(std::size_t offset) const;

 private:
  std::vector<std::size_t> line_starts_{0};
};

}  // namespace panel_dossier
