#include "core/cli/build/output/kept_export.h"

#include <string_view>
#include <system_error>

#include "core/intake/document/export_form.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/document/sha256.h"

namespace panel_dossier {

namespace {

/// p21 is the STEP form.
std::string media_type_of(std::string_view bytes) {
  switch (form_of_export(bytes)) {
    case ExportForm::step: return "application/p21";
    case ExportForm::zip: return "application/zip";
    default: return "application/xml";
  }
}

}  // namespace

KeptExport::KeptExport(std::string& bytes, const std::filesystem::path& folder)
    : file_(folder / kKeptExport), sha256_(to_hex(panel_dossier::sha256(bytes))), media_type_(media_type_of(bytes)) {
  write_file(file_, bytes);
  bytes = {};
  bytes.shrink_to_fit();
}

KeptExport::~KeptExport() {
  std::error_code ignored;
  std::filesystem::remove(file_, ignored);
}

std::string KeptExport::bytes() const {
  return read_file(file_);
}

}  // namespace panel_dossier
