#include "core/intake/tables/workbook_package.h"

#include <zip.h>

#include <algorithm>
#include <cstddef>
#include <set>

#include "core/intake/tables/table_limits.h"

namespace panel_dossier {

namespace {

constexpr const char* kSaveAgain = "save the workbook again as .xlsx, without a password";

struct EntryCloser {
  void operator()(zip_file_t* entry) const { zip_fclose(entry); }
};

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

WorkbookPackage::~WorkbookPackage() {
  if (archive_ != nullptr) zip_discard(archive_);
}

void WorkbookPackage::open(std::string_view bytes) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source != nullptr) {
    archive_ = zip_open_from_source(source, ZIP_RDONLY, &error);
    if (archive_ == nullptr) zip_source_free(source);
  }
  if (archive_ == nullptr) {
    report_.file_error(0, 0, std::string("the workbook cannot be opened: ") + zip_error_strerror(&error),
                       "it may be cut off: copy it again, or save it again as .xlsx");
  } else if (!check_entries()) {
    zip_discard(archive_);
    archive_ = nullptr;
  }
  zip_error_fini(&error);
}

bool WorkbookPackage::check_entries() {
  const zip_int64_t count = zip_get_num_entries(archive_, 0);
  if (count > kMostWorkbookEntries) {
    report_.file_error(0, 0, "the workbook holds more than " + std::to_string(kMostWorkbookEntries) + " entries",
                       kSaveAgain);
    return false;
  }
  std::set<std::string> names;
  for (zip_int64_t i = 0; i < count; ++i) {
    const char* name = zip_get_name(archive_, static_cast<zip_uint64_t>(i), 0);
    if (name == nullptr || names.insert(name).second) continue;
    report_.file_error(0, 0, "the workbook holds two entries of one name", kSaveAgain);
    return false;
  }
  return true;
}

bool WorkbookPackage::has(const std::string& name) const {
  return archive_ != nullptr && zip_name_locate(archive_, name.c_str(), 0) >= 0;
}

std::optional<std::string> WorkbookPackage::part(const std::string& name) const {
  const auto refuse = [&](const std::string& what) {
    report_.file_error(0, 0, "'" + name + "' of the workbook " + what, kSaveAgain);
    return std::nullopt;
  };
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (archive_ == nullptr || zip_stat(archive_, name.c_str(), 0, &stat) != 0) return refuse("is missing");
  const std::unique_ptr<zip_file_t, EntryCloser> entry(zip_fopen_index(archive_, stat.index, 0));
  if (entry == nullptr) return refuse(std::string("cannot be read: ") + zip_strerror(archive_));
  // What the archive says of an entry's size is a claim too: it is read to its own end, or to the limit.
  std::string bytes;
  constexpr std::size_t kBlock = std::size_t{1} << 16U;
  for (zip_int64_t got = 1; got > 0;) {
    const std::size_t size = bytes.size();
    bytes.resize(size + kBlock);
    got = zip_fread(entry.get(), bytes.data() + size, kBlock);
    if (got < 0) return refuse("is damaged or cut off");
    bytes.resize(size + static_cast<std::size_t>(got));
    if (bytes.size() > kLargestWorkbookPart_bytes) return refuse("unpacks to more than 64 MiB");
    const bool is_bomb = bytes.size() > kSmallestPartOfRatio_bytes &&
                         bytes.size() / kLargestPackingRatio > std::max<std::size_t>(stat.comp_size, 1);
    if (is_bomb) return refuse("unpacks to more than 250 times its size");
  }
  const auto nodes = std::count_if(bytes.begin(), bytes.end(), [](char c) { return c == '<' || c == '='; });
  if (static_cast<std::size_t>(nodes) > kMostWorkbookNodes) {
    return refuse("holds more than " + std::to_string(kMostWorkbookNodes) + " tags and attributes");
  }
  return bytes;
}

}  // namespace panel_dossier
