#include "core/seal/pages/appended_objects.h"

#include <algorithm>
#include <cerrno>
#include <cstddef>
#include <cstring>
#include <iterator>
#include <qpdf/Pl_Flate.hh>
#include <qpdf/Pl_String.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>
#include <qpdf/QPDFXRefEntry.hh>
#include <stdexcept>

namespace panel_dossier {

namespace {

constexpr std::size_t kObjectsPerStream = 200;
constexpr int kMostObjects = 8388607;  // ISO 19005-3:2012, 6.1.13
constexpr unsigned kIndexBytes = 2;
constexpr int kPlain = 1;

std::string deflated(std::string_view bytes) {
  std::string packed;
  Pl_String kept("packed", nullptr, packed);
  Pl_Flate deflate("deflate", &kept, Pl_Flate::a_deflate);
  deflate.write(reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  deflate.finish();
  return packed;
}

std::string stream_object(int number, const std::string& keys, std::string_view bytes) {
  const std::string packed = deflated(bytes);
  return std::to_string(number) + " 0 obj\n<< " + keys + " /Filter /FlateDecode /Length " +
         std::to_string(packed.size()) + " >>\nstream\n" + packed + "\nendstream\nendobj\n";
}

std::string from_offset(const std::filesystem::path& file, std::uint64_t offset) {
  std::ifstream stream(file, std::ios::binary);
  stream.seekg(static_cast<std::streamoff>(offset));
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Of the cross-reference stream that begins `object`.
std::string trailer_keys(const std::string& object, int number) {
  const std::string head = std::to_string(number) + " 0 obj\n";
  const std::size_t end = object.find("stream\n");
  if (object.compare(0, head.size(), head) != 0 || end == std::string::npos) {
    throw std::runtime_error("its last object is not the table of its objects");
  }
  QPDF any;
  any.emptyPDF();
  QPDFObjectHandle dictionary = QPDFObjectHandle::parse(&any, object.substr(head.size(), end - head.size()));
  std::string keys;
  for (const char* key : {"/Root", "/Info", "/ID"}) {
    if (dictionary.hasKey(key)) keys += std::string(key) + " " + dictionary.getKey(key).unparse() + " ";
  }
  return keys;
}

void append_number(std::string& bytes, std::uint64_t number, unsigned width) {
  for (unsigned left = width; left-- > 0;) bytes += static_cast<char>((number >> (8 * left)) & 0xffU);
}

unsigned bytes_of(std::uint64_t number) {
  unsigned width = 1;
  while ((number >>= 8U) != 0) ++width;
  return width;
}

}  // namespace

AppendedObjects::AppendedObjects(const std::filesystem::path& file, QPDFWriter& writer) : file_(file) {
  int last = 0;
  for (const auto& [object, entry] : writer.getWrittenXRefTable()) {
    const auto number = static_cast<std::size_t>(object.getObj());
    if (entries_.size() <= number) entries_.resize(number + 1);
    if (entry.getType() == kPlain) {
      entries_[number] = {1, 0, static_cast<std::uint64_t>(entry.getOffset())};
      if (entries_[number].place > offset_) {
        offset_ = entries_[number].place;
        last = object.getObj();
      }
    } else {
      entries_[number] = {2, static_cast<std::uint16_t>(entry.getObjStreamIndex()),
                          static_cast<std::uint64_t>(entry.getObjStreamNumber())};
    }
  }
  trailer_ = trailer_keys(from_offset(file_, offset_), last);
  entries_.at(static_cast<std::size_t>(last)) = {};
  if (entries_.size() == static_cast<std::size_t>(last) + 1) entries_.pop_back();
  std::filesystem::resize_file(file_, offset_);
  stream_.open(file_, std::ios::binary | std::ios::app);
}

int AppendedObjects::reserve(int count) {
  const auto first = static_cast<int>(entries_.size());
  if (count > kMostObjects - first) {
    throw std::runtime_error("'" + file_.string() + "' would hold more objects than a file may; lower the setting " +
                             "dossier.volume_panels");
  }
  entries_.resize(entries_.size() + static_cast<std::size_t>(count));
  return first;
}

void AppendedObjects::add(int number, std::string_view text) {
  waiting_.emplace_back(number, texts_.size());
  texts_ += text;
  texts_ += '\n';
  if (waiting_.size() == kObjectsPerStream) write_waiting();
}

void AppendedObjects::write_waiting() {
  if (waiting_.empty()) return;
  const int own = reserve(1);
  std::string head;
  std::uint16_t index = 0;
  for (const auto& [number, begin] : waiting_) {
    head += std::to_string(number) + " " + std::to_string(begin) + " ";
    entries_.at(static_cast<std::size_t>(number)) = {2, index++, static_cast<std::uint64_t>(own)};
  }
  entries_[static_cast<std::size_t>(own)] = {1, 0, offset_};
  write(stream_object(own,
                      "/Type /ObjStm /N " + std::to_string(waiting_.size()) + " /First " + std::to_string(head.size()),
                      head + texts_));
  waiting_.clear();
  texts_.clear();
}

void AppendedObjects::finish() {
  write_waiting();
  const int own = reserve(1);
  entries_[static_cast<std::size_t>(own)] = {1, 0, offset_};
  const unsigned width = std::max(bytes_of(offset_), bytes_of(entries_.size()));
  const std::uint64_t table = offset_;
  write(stream_object(own,
                      "/Type /XRef /Size " + std::to_string(entries_.size()) + " /W [1 " + std::to_string(width) + " " +
                          std::to_string(kIndexBytes) + "] " + trailer_ + "/DecodeParms << /Predictor 12 /Columns " +
                          std::to_string(1 + width + kIndexBytes) + " >>",
                      rows(width)));
  write("startxref\n" + std::to_string(table) + "\n%%EOF\n");
  stream_.close();
  if (!stream_) throw std::runtime_error("'" + file_.string() + "' cannot be written: " + std::strerror(errno));
}

std::string AppendedObjects::rows(unsigned width) const {
  constexpr char kUp = 2;
  std::string differences;
  differences.reserve(entries_.size() * (2 + width + kIndexBytes));
  std::string above(1 + width + kIndexBytes, '\0');
  std::string row;
  for (const Entry& entry : entries_) {
    row.clear();
    append_number(row, entry.type, 1);
    append_number(row, entry.place, width);
    append_number(row, entry.index, kIndexBytes);
    differences += kUp;
    for (std::size_t i = 0; i < row.size(); ++i) differences += static_cast<char>(row[i] - above[i]);
    std::swap(row, above);
  }
  return differences;
}

void AppendedObjects::write(std::string_view bytes) {
  errno = 0;
  stream_.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!stream_) throw std::runtime_error("'" + file_.string() + "' cannot be written: " + std::strerror(errno));
  offset_ += bytes.size();
}

}  // namespace panel_dossier
