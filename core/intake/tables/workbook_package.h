// The parts of an .xlsx workbook: a zip archive (ISO/IEC 29500-2) read from memory, with limits against hostile ones.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "core/intake/document/diagnostics.h"

struct zip;

namespace panel_dossier {

/// Nothing is ever written out of the archive. The bytes and the reporter must outlive it. Belongs to one thread.
class WorkbookPackage {
 public:
  /// Reports bytes that are no archive, and one with too many or ambiguous entries.
  WorkbookPackage(std::string_view bytes, Reporter& report);
  ~WorkbookPackage();
  WorkbookPackage(const WorkbookPackage&) = delete;
  WorkbookPackage& operator=(const WorkbookPackage&) = delete;

  bool is_open() const { return archive_ != nullptr; }

  bool has(const std::string& name) const;
  /// The part, unpacked; none when it cannot be read or is larger than a part may be, which is reported.
  std::optional<std::string> part(const std::string& name) const;

 private:
  Reporter& report_;
  zip* archive_ = nullptr;

  void open(std::string_view bytes);
  bool check_entries();
};

}  // namespace panel_dossier
