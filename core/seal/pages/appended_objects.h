// Objects behind those that the PDF library has written, for what a file holds hundreds of thousands of. Private to the
// seal stage.
#pragma once

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

class QPDFWriter;

namespace panel_dossier {

/// Writes dictionaries and arrays into streams of objects (ISO 32000-2:2020, 7.5.7) behind the last object of a file,
/// and then the table of all objects anew, so that the file is one revision. Holds 16 bytes an object, and the text of
/// one stream. Every member throws std::runtime_error naming the file when it cannot be read or written.
class AppendedObjects {
 public:
  /// `writer` has written the file, unencrypted and with streams of objects. Its table of objects is taken off: until
  /// `finish` the file is none.
  AppendedObjects(const std::filesystem::path& file, QPDFWriter& writer);

  /// The first of so many numbers that no object has.
  int reserve(int count);
  /// The object of a reserved number, or of one in whose place it comes. `text` is what stands between `obj` and
  /// `endobj`, and no stream.
  void add(int number, std::string_view text);
  void finish();

 private:
  struct Entry {
    std::uint8_t type = 0;    ///< as in the table: 0 none, 1 at an offset, 2 in a stream of objects
    std::uint16_t index = 0;  ///< within the stream
    std::uint64_t place = 0;  ///< offset, or number of the stream
  };

  std::filesystem::path file_;
  std::ofstream stream_;
  std::uint64_t offset_ = 0;
  std::string trailer_;  ///< its keys /Root, /Info and /ID
  std::vector<Entry> entries_;
  std::vector<std::pair<int, std::size_t>> waiting_;  ///< numbers and where their texts begin
  std::string texts_;

  void write(std::string_view bytes);
  void write_waiting();
  /// Rows of the table, each as the difference from the one before (the predictor Up of 7.4.4.4). `width` is that of
  /// the places in bytes.
  std::string rows(unsigned width) const;
};

}  // namespace panel_dossier
