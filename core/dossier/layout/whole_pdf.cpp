#include "core/dossier/layout/whole_pdf.h"

#include <algorithm>
#include <fstream>
#include <ios>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>

namespace panel_dossier {

void require_whole_pdf(const std::filesystem::path& file) {
  constexpr std::string_view kEnd = "%%EOF";
  constexpr std::streamoff kTail = 8;  // the mark and a line break
  std::ifstream stream(file, std::ios::binary | std::ios::ate);
  stream.seekg(-std::min<std::streamoff>(kTail, stream.tellg()), std::ios::end);
  const std::string tail{std::istreambuf_iterator<char>(stream), {}};
  if (tail.find(kEnd) != std::string::npos) return;
  throw std::runtime_error(
      "'" + file.string() +
      "' was not written to its end: the disk is full, or a limit of the size of files is reached");
}

}  // namespace panel_dossier
