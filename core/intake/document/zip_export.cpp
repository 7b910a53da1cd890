#include "core/intake/document/zip_export.h"

#include <zip.h>

#include <algorithm>
#include <array>
#include <memory>
#include <utility>
#include <vector>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kZipBlock = 1U << 16U;

struct ZipCloser {
  void operator()(zip_t* archive) const { zip_discard(archive); }
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};

using OpenZip = std::unique_ptr<zip_t, ZipCloser>;
using OpenZipFile = std::unique_ptr<zip_file_t, ZipCloser>;

std::string words_of_zip(zip_error_t& error) {
  std::string text = zip_error_strerror(&error);
  zip_error_fini(&error);
  return text;
}

OpenZip open_zip(std::string_view bytes, Reporter& report) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  zip_t* archive = source == nullptr ? nullptr : zip_open_from_source(source, ZIP_RDONLY, &error);
  if (archive == nullptr) {
    if (source != nullptr) zip_source_free(source);
    report.file_error(0, 0, "the zip archive cannot be read: " + words_of_zip(error), "pack or export it again");
  } else {
    zip_error_fini(&error);
  }
  return OpenZip(archive);
}

bool is_export_name(std::string_view name) {
  const std::string lower = lower_case(name);
  return lower.ends_with(".ifc") || lower.ends_with(".ifcxml") || lower.ends_with(".xml");
}

std::optional<zip_uint64_t> single_export(zip_t* archive, Reporter& report) {
  const zip_int64_t count = zip_get_num_entries(archive, 0);
  if (count > static_cast<zip_int64_t>(kMostZipEntries)) {
    report.file_error(0, 0, "the zip archive holds more than " + std::to_string(kMostZipEntries) + " entries",
                      "pack the export alone");
    return std::nullopt;
  }
  std::vector<zip_uint64_t> found;
  for (zip_uint64_t i = 0; i < static_cast<zip_uint64_t>(std::max<zip_int64_t>(count, 0)); ++i) {
    const char* name = zip_get_name(archive, i, 0);
    if (name != nullptr && is_export_name(name)) found.push_back(i);
  }
  if (found.size() == 1) return found.front();
  report.file_error(0, 0,
                    found.empty() ? "the zip archive holds no .ifc and no .ifcxml"
                                  : "the zip archive holds " + std::to_string(found.size()) + " exports",
                    "pack one .ifc or .ifcxml");
  return std::nullopt;
}

bool is_within_limits(std::size_t unpacked, std::size_t packed, Reporter& report) {
  if (unpacked > kLargestUnpacked_bytes) {
    report.file_error(0, 0, "the export in the zip archive is larger than 2 GiB", "export the building in parts");
    return false;
  }
  if (unpacked > kRatioCounts_bytes && unpacked / kLargestZipRatio > packed) {
    report.file_error(0, 0,
                      "the zip archive unpacks to more than " + std::to_string(kLargestZipRatio) + " times its size",
                      "no export shrinks so far: check where the archive is from");
    return false;
  }
  return true;
}

}  // namespace

std::optional<std::string> unpack_export(std::string_view bytes, Reporter& report) {
  const OpenZip archive = open_zip(bytes, report);
  const auto index = archive ? single_export(archive.get(), report) : std::nullopt;
  if (!index) return std::nullopt;
  const OpenZipFile file(zip_fopen_index(archive.get(), *index, 0));
  if (!file) {
    report.file_error(0, 0,
                      std::string("the export in the zip archive cannot be opened: ") + zip_strerror(archive.get()),
                      "pack it without a password");
    return std::nullopt;
  }
  // The sizes that the archive states are claims; what comes out is counted.
  std::string text;
  std::array<char, kZipBlock> block{};
  while (true) {
    const zip_int64_t got = zip_fread(file.get(), block.data(), block.size());
    if (got < 0) {
      report.file_error(0, 0, std::string("the export in the zip archive is damaged: ") + zip_file_strerror(file.get()),
                        "pack or export it again");
      return std::nullopt;
    }
    if (got == 0) return text;
    text.append(block.data(), static_cast<std::size_t>(got));
    if (!is_within_limits(text.size(), bytes.size(), report)) return std::nullopt;
  }
}

}  // namespace panel_dossier
