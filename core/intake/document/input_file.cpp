#include "core/intake/document/input_file.h"

#include <array>
#include <fstream>
#include <system_error>
#include <utility>

#include "core/api/support/text_encoding.h"

namespace panel_dossier {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kBlock = 1U << 16U;

}  // namespace

std::optional<std::string> load_file(const fs::path& file, Reporter& report) {
  std::error_code failed;
  const fs::file_status status = fs::status(file, failed);
  if (status.type() == fs::file_type::not_found) {
    report.file_error(0, 0, "there is no such file", "check the path");
    return std::nullopt;
  }
  if (fs::is_directory(status)) {
    report.file_error(0, 0, "this is a folder, not a file", "name the export inside");
    return std::nullopt;
  }
  std::ifstream stream(file, std::ios::binary);
  std::string text;
  for (std::array<char, kBlock> block{}; stream;) {
    stream.read(block.data(), block.size());
    text.append(block.data(), static_cast<std::size_t>(stream.gcount()));
  }
  if (stream.bad() || !stream.eof()) {
    report.file_error(0, 0, "the file cannot be read", "check its permissions");
    return std::nullopt;
  }
  return text;
}

bool check_encoding(std::string_view text, Reporter& report) {
  auto fault = encoding_fault(text);
  if (!fault) return true;
  if (fault->offset) {
    report.error_at_offset(*fault->offset, std::move(fault->message), "export the file in UTF-8");
  } else {
    report.file_error(0, 0, std::move(fault->message), "export the project again");
  }
  return false;
}

}  // namespace panel_dossier
