// The parts of an .xlsx workbook: a zip archive (ISO/IEC 29500-2) read from memory.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "core/intake/document/diagnostics.h"
#include "core/intake/document/zip_archive.h"

namespace panel_dossier {

/// The bytes and the reporter must outlive it. Belongs to one thread.
class WorkbookPackage {
 public:
  /// Reports bytes that are no archive, and one with too many or ambiguous entries.
  WorkbookPackage(std::string_view bytes, Reporter& report);

  bool is_open() const { return archive_.has_value(); }

  /// The part, unpacked; none when it cannot be read or is larger than a part may be, which is reported.
  std::optional<std::string> part(const std::string& name) const;

 private:
  Reporter& report_;
  std::optional<ZipArchive> archive_;
  std::map<std::string, std::size_t> entries_;

  void open(std::string_view bytes);
};

}  // namespace panel_dossier
