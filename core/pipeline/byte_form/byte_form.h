// A compact form of plain data for the way between processes and into the store: written and read by one list of
// members, every length and word checked when it is read.
#pragma once

#include <array>
#include <bit>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/support/shared_text.h"
#include "core/pipeline/byte_form/line_numbers.h"
#include "core/pipeline/byte_form/property_names.h"

namespace panel_dossier {

/// Either `Of` or `const Of`: one `fields` serves writing and reading.
template <typename T, typename Of>
concept EitherOf = std::same_as<std::remove_const_t<T>, Of>;

/// The greatest enumerator of an enumeration that begins at 0; one specialisation for each that is written.
template <typename Enum>
inline constexpr Enum kLastOf = Enum{};

/// Appends values to a text of bytes; beside each type that is written stands `fields(archive, value)`, which calls
/// `archive(member, …)` with all members in order. A SharedText that was written before is written as its number.
class ByteWriter {
 public:
  /// With `lines`, lines of the export are written by their numbers there; with `properties`, of an entity's properties
  /// those alone. Both must outlive the writer.
  explicit ByteWriter(LineNumbers* lines = nullptr, const PropertyNames* properties = nullptr)
      : lines_(lines), properties_(properties) {}

  /// A line of the export.
  void line(std::uint32_t line) { put(lines_ == nullptr ? line : lines_->number_of(line)); }

  /// Whether a property of that name is to be written.
  bool takes_property(std::string_view name) const { return properties_ == nullptr || properties_->holds(name); }

  template <typename... T>
  void operator()(const T&... values) {
    (put(values), ...);
  }

  const std::string& bytes() const { return bytes_; }
  std::string take() { return std::move(bytes_); }
  /// Forgets the bytes, so that a long row need not be held at once; what follows goes on from there.
  void clear() { bytes_.clear(); }

 private:
  LineNumbers* lines_;
  const PropertyNames* properties_;
  std::string bytes_;
  std::unordered_map<std::string_view, std::uint64_t> texts_;  ///< views of texts that the caller keeps

  void put_size(std::uint64_t size) {
    while (size >= 0x80) {
      bytes_.push_back(static_cast<char>((size & 0x7F) | 0x80));
      size >>= 7;
    }
    bytes_.push_back(static_cast<char>(size));
  }

  void put(const std::string& text) {
    put_size(text.size());
    bytes_ += text;
  }

  void put(const SharedText& text) {
    const auto [known, is_new] = texts_.emplace(text.str(), texts_.size());
    put_size(known->second);
    if (is_new) put(text.str());
  }

  void put(double value) {
    const auto bits = std::bit_cast<std::uint64_t>(value);
    char raw[sizeof bits];
    std::memcpy(raw, &bits, sizeof bits);
    bytes_.append(raw, sizeof bits);
  }

  void put(bool value) { bytes_.push_back(value ? '\1' : '\0'); }
  void put(std::monostate /*nothing*/) {}

  template <std::integral T>
  void put(T value) {
    // Zigzag: small negative numbers stay short.
    const auto wide = static_cast<std::int64_t>(value);
    put_size((static_cast<std::uint64_t>(wide) << 1) ^ static_cast<std::uint64_t>(wide >> 63));
  }

  template <typename T>
  requires std::is_enum_v<T>
  void put(T value) { bytes_.push_back(static_cast<char>(value)); }

  template <typename T>
  void put(const std::optional<T>& value) {
    put(value.has_value());
    if (value) put(*value);
  }

  template <typename... T>
  void put(const std::variant<T...>& value) {
    bytes_.push_back(static_cast<char>(value.index()));
    std::visit([this](const auto& held) { put(held); }, value);
  }

  template <typename T>
  void put(const std::vector<T>& values) {
    put_size(values.size());
    for (const T& value : values) put(value);
  }

  template <typename First, typename Second>
  void put(const std::pair<First, Second>& pair) {
    (*this)(pair.first, pair.second);
  }

  template <typename Key, typename T, typename Less>
  void put(const std::map<Key, T, Less>& values) {
    put_size(values.size());
    for (const auto& pair : values) put(pair);
  }

  template <typename Key, typename T>
  void put(const std::multimap<Key, T>& values) {
    put_size(values.size());
    for (const auto& pair : values) put(pair);
  }

  template <std::size_t count>
  void put(const std::array<std::uint8_t, count>& bytes) {
    bytes_.append(reinterpret_cast<const char*>(bytes.data()), count);
  }

  template <typename T>
  requires std::is_class_v<T>
  void put(const T& value) { fields(*this, value); }
};

/// Reads what a ByteWriter wrote. Throws std::runtime_error when the bytes end too early or hold what no writer writes.
class ByteReader {
 public:
  /// The bytes must outlive the reader, and so must the lines, which are those of the writer or stand for them.
  explicit ByteReader(std::string_view bytes, const LineNumbers* lines = nullptr) : rest_(bytes), lines_(lines) {}

  void line(std::uint32_t& line) {
    get(line);
    if (lines_ != nullptr) line = lines_->line_of(line);
  }

  template <typename... T>
  void operator()(T&... values) {
    (get(values), ...);
  }

  /// Throws std::runtime_error when bytes are left.
  void end() const {
    if (!rest_.empty()) broken("it goes on after its end");
  }

 private:
  std::string_view rest_;
  const LineNumbers* lines_;
  std::vector<SharedText> texts_;

  [[noreturn]] static void broken(const char* why) {
    throw std::runtime_error(std::string("the compact form is broken: ") + why);
  }

  std::string_view next(std::size_t count) {
    if (count > rest_.size()) broken("it ends too early");
    const std::string_view taken = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return taken;
  }

  std::uint8_t next_byte() { return static_cast<std::uint8_t>(next(1).front()); }

  std::uint64_t get_size() {
    std::uint64_t size = 0;
    for (unsigned shift = 0; shift < 64; shift += 7) {
      const std::uint8_t byte = next_byte();
      size |= static_cast<std::uint64_t>(byte & 0x7F) << shift;
      if (byte < 0x80) return size;
    }
    broken("a number is too long");
  }

  void get(std::string& text) { text = next(get_size()); }

  void get(SharedText& text) {
    const std::uint64_t number = get_size();
    if (number > texts_.size()) broken("a text has a number that none was given");
    if (number == texts_.size()) texts_.emplace_back(next(get_size()));
    text = texts_[number];
  }

  void get(double& value) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, next(sizeof bits).data(), sizeof bits);
    value = std::bit_cast<double>(bits);
  }

  void get(bool& value) {
    const std::uint8_t byte = next_byte();
    if (byte > 1) broken("a yes or no is neither");
    value = byte == 1;
  }

  void get(std::monostate& /*nothing*/) {}

  template <std::integral T>
  void get(T& value) {
    const std::uint64_t coded = get_size();
    const auto wide = static_cast<std::int64_t>((coded >> 1) ^ (~(coded & 1) + 1));
    if (!std::in_range<T>(wide)) broken("a number is out of its range");
    value = static_cast<T>(wide);
  }

  template <typename T>
  requires std::is_enum_v<T>
  void get(T& value) {
    const std::uint8_t byte = next_byte();
    if (byte > static_cast<std::uint8_t>(kLastOf<T>)) broken("a word is none of its list");
    value = static_cast<T>(byte);
  }

  template <typename T>
  void get(std::optional<T>& value) {
    bool held = false;
    get(held);
    if (!held) {
      value.reset();
      return;
    }
    get(value.emplace());
  }

  template <typename... T>
  void get(std::variant<T...>& value) {
    const std::size_t index = next_byte();
    if (index >= sizeof...(T)) broken("a value is of no kind");
    get_alternative(value, index, std::index_sequence_for<T...>{});
  }

  template <typename Variant, std::size_t... all>
  void get_alternative(Variant& value, std::size_t index, std::index_sequence<all...> /*alternatives*/) {
    ((index == all ? get(value.template emplace<all>()) : void()), ...);
  }

  template <typename T>
  void get(std::vector<T>& values) {
    const std::uint64_t count = get_size();
    // Nothing takes less than a byte, so that a wrong count cannot ask for more memory than there are bytes.
    if (count > rest_.size()) broken("a list is longer than what is left");
    values.clear();
    values.reserve(count);
    for (std::uint64_t i = 0; i < count; ++i) get(values.emplace_back());
  }

  template <typename First, typename Second>
  void get(std::pair<First, Second>& pair) {
    (*this)(pair.first, pair.second);
  }

  template <typename Key, typename T>
  void get(std::map<Key, T>& values) {
    std::vector<std::pair<Key, T>> pairs;
    get(pairs);
    values = {pairs.begin(), pairs.end()};
  }

  template <typename T>
  requires std::is_class_v<T>
  void get(T& value) { fields(*this, value); }
};

}  // namespace panel_dossier
