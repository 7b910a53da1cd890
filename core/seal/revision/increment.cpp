#include "core/seal/revision/increment.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QUtil.hh>
#include <stdexcept>

namespace panel_dossier {

namespace {

constexpr std::string_view kStart = "startxref\n";
constexpr std::string_view kEnd = "\n%%EOF\n";

/// The number of digits at the position; none where there is no digit, or more than a file's size has.
std::optional<std::size_t> number_at(std::string_view bytes, std::size_t position) {
  constexpr std::size_t kMostDigits = 12;
  std::size_t number = 0;
  std::size_t digits = 0;
  for (; position + digits < bytes.size(); ++digits) {
    const char digit = bytes[position + digits];
    if (digit < '0' || digit > '9') break;
    if (digits == kMostDigits) return std::nullopt;
    number = number * 10 + static_cast<std::size_t>(digit - '0');
  }
  if (digits == 0) return std::nullopt;
  return number;
}

std::string tail_of(std::size_t cross_reference) {
  return std::string(kStart) + std::to_string(cross_reference) + std::string(kEnd);
}

/// Offset of the cross-reference section that the bytes end by naming.
std::optional<std::size_t> last_cross_reference(std::string_view bytes) {
  const std::size_t start = bytes.rfind(kStart);
  if (start == std::string_view::npos) return std::nullopt;
  const auto offset = number_at(bytes, start + kStart.size());
  if (!offset || *offset >= start || bytes.substr(start) != tail_of(*offset)) return std::nullopt;
  return offset;
}

void append_number(std::string& bytes, std::uint64_t number, int width) {
  for (int shift = 8 * (width - 1); shift >= 0; shift -= 8) {
    bytes += static_cast<char>((number >> static_cast<unsigned>(shift)) & 0xffU);
  }
}

/// `[2 1 10 3]`: runs of numbers that follow each other, each with its first and its length.
std::string index_of(const std::map<int, std::size_t>& offsets) {
  std::string text;
  for (auto it = offsets.begin(); it != offsets.end();) {
    const int first = it->first;
    int count = 0;
    for (; it != offsets.end() && it->first == first + count; ++it) ++count;
    text += (text.empty() ? "" : " ") + std::to_string(first) + " " + std::to_string(count);
  }
  return "[" + text + "]";
}

/// ISO 32000-2:2020, 7.5.8; not compressed, for it is small and has to come out the same for ever.
std::string cross_reference_stream(const RevisionEnd& before, int number, const std::map<int, std::size_t>& offsets) {
  constexpr int kOffsetBytes = 5;
  std::string entries;
  for (const auto& [unused, offset] : offsets) {
    entries += '\x01';
    append_number(entries, offset, kOffsetBytes);
    entries += '\0';
  }
  return "<< /Type /XRef /Size " + std::to_string(number + 1) + " /W [1 5 1] /Index " + index_of(offsets) + " /Root " +
         before.root + (before.info.empty() ? "" : " /Info " + before.info) + " /ID " + before.id + " /Prev " +
         std::to_string(before.cross_reference) + " /Length " + std::to_string(entries.size()) + " >>\nstream\n" +
         entries + "\nendstream";
}

}  // namespace

RevisionEnd revision_end(QPDF& pdf, std::string_view bytes) {
  const auto cross_reference = last_cross_reference(bytes);
  if (!cross_reference) throw std::runtime_error("the file does not end as this program's files do");
  RevisionEnd end;
  end.file_size = bytes.size();
  end.cross_reference = *cross_reference;
  QPDFObjectHandle trailer = pdf.getTrailer();
  end.object_count = trailer.getKey("/Size").getIntValueAsInt();
  constexpr int kMostObjects = 8388607;  // ISO 19005-3:2012, 6.1.13
  if (end.object_count < 1 || end.object_count > kMostObjects) {
    throw std::runtime_error("the file states a number of objects that no file has");
  }
  end.root = trailer.getKey("/Root").unparse();
  if (trailer.hasKey("/Info")) end.info = trailer.getKey("/Info").unparse();
  end.id = trailer.getKey("/ID").unparse();
  return end;
}

std::string increment_text(const RevisionEnd& before, const ObjectTexts& objects,
                           std::map<int, std::size_t>* text_offsets) {
  std::string bytes;
  std::map<int, std::size_t> offsets;
  const auto append = [&](int number, const std::string& text) {
    const std::string head = std::to_string(number) + " 0 obj\n";
    if (text_offsets != nullptr) (*text_offsets)[number] = before.file_size + bytes.size() + head.size();
    bytes += head + text + "\nendobj\n";
  };
  for (const auto& [number, text] : objects) {
    offsets[number] = before.file_size + bytes.size();
    append(number, text);
  }
  const int own_number = std::max(before.object_count, objects.empty() ? 0 : objects.rbegin()->first + 1);
  const std::size_t own_offset = before.file_size + bytes.size();
  offsets[own_number] = own_offset;
  append(own_number, cross_reference_stream(before, own_number, offsets));
  return bytes + tail_of(own_offset);
}

QPDFObjectHandle reference_to(QPDF& pdf, int number) {
  return QPDFObjectHandle::parse(&pdf, "[" + std::to_string(number) + " 0 R]").getArrayItem(0);
}

std::string text_string(const std::string& utf8) {
  return "<" + QUtil::hex_encode(QUtil::utf8_to_utf16(utf8)) + ">";
}

std::vector<std::size_t> revision_sizes(std::string_view bytes) {
  constexpr std::size_t kMostRevisions = 64;
  constexpr std::string_view kPrevious = "/Prev ";
  std::vector<std::size_t> sizes;
  std::size_t end = bytes.size();
  for (auto offset = last_cross_reference(bytes); offset && sizes.size() < kMostRevisions;) {
    const std::size_t tail = bytes.find(tail_of(*offset), *offset);
    if (tail == std::string_view::npos || tail >= end) break;
    const std::size_t next = tail + tail_of(*offset).size();
    if (sizes.empty() && next != bytes.size()) break;  // something stands behind the end that it names
    sizes.push_back(next);
    const std::string_view section = bytes.substr(*offset, tail - *offset);
    const std::size_t previous = section.find(kPrevious);
    if (previous == std::string_view::npos) {
      std::reverse(sizes.begin(), sizes.end());
      return sizes;
    }
    const auto before = number_at(section, previous + kPrevious.size());
    // Each lies before the one that names it, so that a chain has an end.
    if (!before || *before >= *offset) break;
    end = *offset;
    offset = before;
  }
  return {bytes.size()};
}

}  // namespace panel_dossier
