#include "core/intake/tables/workbook_package.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "core/intake/tables/table_limits.h"

namespace panel_dossier {

namespace {

constexpr const char* kSaveAgain = "save the workbook again as .xlsx, without a password";
constexpr ZipLimits kPartLimits{kLargestWorkbookPart_bytes, kLargestPackingRatio, kSmallestPartOfRatio_bytes};

std::string words_of(const ZipEntry& entry) {
  switch (*entry.fault) {
    case ZipFault::locked: return "cannot be read: " + entry.words;
    case ZipFault::damaged: return "is damaged or cut off";
    case ZipFault::too_large: return "unpacks to more than 64 MiB";
    case ZipFault::too_dense: break;
  }
  return "unpacks to more than " + std::to_string(kLargestPackingRatio) + " times its size";
}

}  // namespace

WorkbookPackage::WorkbookPackage(std::string_view bytes, Reporter& report) : report_(report) {
  constexpr std::string_view kZip = "PK\x03\x04";
  constexpr std::string_view kCompoundFile = "\xD0\xCF\x11\xE0";
  if (bytes.starts_with(kCompoundFile)) {
    report_.file_error(0, 0, "this is a workbook of the older form .xls, or one under a password", kSaveAgain);
  } else if (!bytes.starts_with(kZip)) {
    report_.file_error(0, 0, "this is no .xlsx workbook but another file under that name", kSaveAgain);
  } else {
    open(bytes);
  }
}

void WorkbookPackage::open(std::string_view bytes) {
  ZipArchive archive(bytes);
  if (!archive.fault().empty()) {
    report_.file_error(0, 0, "the workbook cannot be opened: " + archive.fault(),
                       "it may be cut off: copy it again, or save it again as .xlsx");
    return;
  }
  if (archive.size() > kMostWorkbookEntries) {
    report_.file_error(0, 0, "the workbook holds more than " + std::to_string(kMostWorkbookEntries) + " entries",
                       kSaveAgain);
    return;
  }
  const std::vector<std::string> names = archive.names();
  for (std::size_t i = 0; i < names.size(); ++i) entries_.emplace(names[i], i);
  if (entries_.size() != names.size()) {
    report_.file_error(0, 0, "the workbook holds two entries of one name", kSaveAgain);
    return;
  }
  archive_.emplace(std::move(archive));
}

std::optional<std::string> WorkbookPackage::part(const std::string& name) const {
  const auto refuse = [&](const std::string& what) {
    report_.file_error(0, 0, "'" + name + "' of the workbook " + what, kSaveAgain);
    return std::nullopt;
  };
  const auto found = entries_.find(name);
  if (!archive_ || found == entries_.end()) return refuse("is missing");
  ZipEntry entry = archive_->read(found->second, kPartLimits);
  if (entry.fault) return refuse(words_of(entry));
  const auto nodes = std::count_if(entry.bytes.begin(), entry.bytes.end(), [](char c) { return c == '<' || c == '='; });
  if (static_cast<std::size_t>(nodes) > kMostWorkbookNodes) {
    return refuse("holds more than " + std::to_string(kMostWorkbookNodes) + " tags and attributes");
  }
  return std::move(entry.bytes);
}

}  // namespace panel_dossier
