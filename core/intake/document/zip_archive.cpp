#include "core/intake/document/zip_archive.h"

#include <zip.h>

#include <algorithm>

namespace panel_dossier {

namespace {

struct ZipEntryCloser {
  void operator()(zip_file_t* entry) const { zip_fclose(entry); }
};

std::optional<ZipFault> passed_limit(std::size_t unpacked, std::size_t packed, const ZipLimits& limits) {
  if (unpacked > limits.most_bytes) return ZipFault::too_large;
  const bool is_dense = unpacked > limits.ratio_counts_bytes && unpacked / limits.most_ratio > packed;
  return is_dense ? std::optional(ZipFault::too_dense) : std::nullopt;
}

}  // namespace

void ZipArchive::Closer::operator()(zip* archive) const {
  zip_discard(archive);
}

ZipArchive::ZipArchive(std::string_view bytes) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source != nullptr) {
    archive_.reset(zip_open_from_source(source, ZIP_RDONLY, &error));
    if (!archive_) zip_source_free(source);
  }
  if (!archive_) fault_ = zip_error_strerror(&error);
  zip_error_fini(&error);
}

std::size_t ZipArchive::size() const {
  const zip_int64_t count = archive_ ? zip_get_num_entries(archive_.get(), 0) : 0;
  return static_cast<std::size_t>(std::max<zip_int64_t>(count, 0));
}

std::vector<std::string> ZipArchive::names() const {
  std::vector<std::string> names(size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (const char* name = zip_get_name(archive_.get(), i, 0)) names[i] = name;
  }
  return names;
}

ZipEntry ZipArchive::read(std::size_t index, const ZipLimits& limits) const {
  zip_stat_t stat;
  zip_stat_init(&stat);
  const bool has_stat = archive_ && zip_stat_index(archive_.get(), index, 0, &stat) == 0;
  const std::unique_ptr<zip_file_t, ZipEntryCloser> file(has_stat ? zip_fopen_index(archive_.get(), index, 0)
                                                                  : nullptr);
  if (!file) return {{}, ZipFault::locked, archive_ ? zip_strerror(archive_.get()) : fault_};
  constexpr std::size_t kBlock = std::size_t{1} << 16U;
  ZipEntry entry;
  for (;;) {
    const std::size_t size = entry.bytes.size();
    entry.bytes.resize(size + kBlock);
    const zip_int64_t got = zip_fread(file.get(), entry.bytes.data() + size, kBlock);
    if (got < 0) return {{}, ZipFault::damaged, zip_file_strerror(file.get())};
    entry.bytes.resize(size + static_cast<std::size_t>(got));
    if (got == 0) return entry;
    if (const auto fault = passed_limit(entry.bytes.size(), stat.comp_size, limits)) return {{}, fault, {}};
  }
}

}  // namespace panel_dossier
