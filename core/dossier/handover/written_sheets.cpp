#include "core/dossier/handover/written_sheets.h"

#include <zip.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace panel_dossier {

namespace {

/// Counts a piece of text in bytes that come block by block.
class Occurrences {
 public:
  explicit Occurrences(std::string_view wanted) : wanted_(wanted) {}

  void look_through(std::string_view block) {
    rest_ += block;
    std::size_t from = 0;
    for (std::size_t at = rest_.find(wanted_); at != std::string::npos; at = rest_.find(wanted_, from)) {
      ++count_;
      from = at + wanted_.size();
    }
    // What may be the beginning of one more.
    const std::size_t kept = std::min(rest_.size() - from, wanted_.size() - 1);
    rest_.erase(0, rest_.size() - kept);
  }
  std::size_t count() const { return count_; }

 private:
  std::string_view wanted_;
  std::string rest_;
  std::size_t count_ = 0;
};

using Archive = std::unique_ptr<zip_t, void (*)(zip_t*)>;
using ArchivedFile = std::unique_ptr<zip_file_t, void (*)(zip_file_t*)>;

/// None of its rows where the part is not there or cannot be read.
SheetCounts counts_of(zip_t* archive, const std::string& part) {
  const ArchivedFile file(zip_fopen(archive, part.c_str(), 0), [](zip_file_t* opened) { zip_fclose(opened); });
  if (file == nullptr) return {};
  Occurrences rows("</row>");
  Occurrences cells("</c>");
  std::array<char, 65536> block{};
  zip_int64_t read = 0;
  while ((read = zip_fread(file.get(), block.data(), block.size())) > 0) {
    const std::string_view bytes(block.data(), static_cast<std::size_t>(read));
    rows.look_through(bytes);
    cells.look_through(bytes);
  }
  return read < 0 ? SheetCounts{} : SheetCounts{rows.count(), cells.count()};
}

}  // namespace

void require_written(const std::filesystem::path& file, const std::vector<SheetCounts>& written) {
  const auto fail = [&file](const std::string& why) {
    throw std::runtime_error("cannot write '" + file.string() + "': " + why + "; is the disk full?");
  };
  int error = 0;
  const Archive archive(zip_open(file.c_str(), ZIP_RDONLY, &error), [](zip_t* opened) { zip_discard(opened); });
  if (archive == nullptr) {
    fail("it cannot be read back");
    return;
  }
  for (std::size_t i = 0; i < written.size(); ++i) {
    const std::string number = std::to_string(i + 1);
    const SheetCounts found = counts_of(archive.get(), "xl/worksheets/sheet" + number + ".xml");
    if (found.rows == written[i].rows && found.cells == written[i].cells) continue;
    fail("sheet " + number + " came out with " + std::to_string(found.rows) + " rows and " +
         std::to_string(found.cells) + " cells for the " + std::to_string(written[i].rows) + " and " +
         std::to_string(written[i].cells) + " that were written");
  }
}

}  // namespace panel_dossier
