#include "core/intake/document/zip_export.h"

#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/document/zip_archive.h"

namespace panel_dossier {

namespace {

constexpr ZipLimits kExportLimits{kLargestUnpacked_bytes, kLargestZipRatio, kRatioCounts_bytes};

bool is_export_name(std::string_view name) {
  const std::string lower = lower_case(name);
  return lower.ends_with(".ifc") || lower.ends_with(".ifcxml") || lower.ends_with(".xml");
}

std::optional<std::size_t> single_export(const ZipArchive& archive, Reporter& report) {
  if (archive.size() > kMostZipEntries) {
    report.file_error(0, 0, "the zip archive holds more than " + std::to_string(kMostZipEntries) + " entries",
                      "pack the export alone");
    return std::nullopt;
  }
  std::vector<std::size_t> found;
  const std::vector<std::string> names = archive.names();
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (is_export_name(names[i])) found.push_back(i);
  }
  if (found.size() == 1) return found.front();
  report.file_error(0, 0,
                    found.empty() ? "the zip archive holds no .ifc and no .ifcxml"
                                  : "the zip archive holds " + std::to_string(found.size()) + " exports",
                    "pack one .ifc or .ifcxml");
  return std::nullopt;
}

void report_fault(ZipFault fault, const std::string& words, Reporter& report) {
  switch (fault) {
    case ZipFault::locked:
      report.file_error(0, 0, "the export in the zip archive cannot be opened: " + words, "pack it without a password");
      break;
    case ZipFault::damaged:
      report.file_error(0, 0, "the export in the zip archive is damaged: " + words, "pack or export it again");
      break;
    case ZipFault::too_large:
      report.file_error(0, 0, "the export in the zip archive is larger than 2 GiB", "export the building in parts");
      break;
    case ZipFault::too_dense:
      report.file_error(0, 0,
                        "the zip archive unpacks to more than " + std::to_string(kLargestZipRatio) + " times its size",
                        "no export shrinks so far: check where the archive is from");
      break;
  }
}

}  // namespace

std::optional<std::string> unpack_export(std::string_view bytes, Reporter& report) {
  const ZipArchive archive(bytes);
  if (!archive.fault().empty()) {
    report.file_error(0, 0, "the zip archive cannot be read: " + archive.fault(), "pack or export it again");
    return std::nullopt;
  }
  const auto index = single_export(archive, report);
  if (!index) return std::nullopt;
  ZipEntry entry = archive.read(*index, kExportLimits);
  if (!entry.fault) return std::move(entry.bytes);
  report_fault(*entry.fault, entry.words, report);
  return std::nullopt;
}

}  // namespace panel_dossier
