#include "core/pipeline/record/json.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

/// Significant digits of a positive number and the place of its decimal point: value = 0.DIGITS · 10^point.
struct Decimal {
  std::string digits;
  int point = 0;
};

Decimal shortest_decimal(double positive) {
  std::array<char, 32> buffer{};
  const auto end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), positive, std::chars_format::scientific).ptr;
  const std::string_view text(buffer.data(), static_cast<std::size_t>(end - buffer.data()));
  const std::size_t mark = text.find('e');
  Decimal decimal;
  std::ranges::copy_if(text.substr(0, mark), std::back_inserter(decimal.digits), [](char c) { return c != '.'; });
  const std::string_view exponent = text.substr(text[mark + 1] == '+' ? mark + 2 : mark + 1);
  std::from_chars(exponent.data(), exponent.data() + exponent.size(), decimal.point);
  ++decimal.point;
  return decimal;
}

std::string with_exponent(const Decimal& decimal) {
  std::string text = decimal.digits.substr(0, 1);
  if (decimal.digits.size() > 1) text += "." + decimal.digits.substr(1);
  const int exponent = decimal.point - 1;
  return text + (exponent < 0 ? "e-" : "e+") + std::to_string(std::abs(exponent));
}

/// ECMA-262, Number::toString, steps 5 to 10; the bounds 21 and -6 are its own.
std::string ecmascript_layout(const Decimal& decimal) {
  const int count = static_cast<int>(decimal.digits.size());
  const int point = decimal.point;
  if (point > 21 || point <= -6) return with_exponent(decimal);
  if (point <= 0) return "0." + std::string(static_cast<std::size_t>(-point), '0') + decimal.digits;
  if (count <= point) return decimal.digits + std::string(static_cast<std::size_t>(point - count), '0');
  const auto whole = static_cast<std::size_t>(point);
  return decimal.digits.substr(0, whole) + "." + decimal.digits.substr(whole);
}

/// Rank of a UTF-8 byte such that comparing ranks orders text by UTF-16 code units: characters beyond U+FFFF (lead
/// bytes F0 to F4) are surrogates there and come before U+E000 to U+FFFF (lead bytes EE and EF).
int utf16_rank(char character) {
  const int byte = static_cast<unsigned char>(character);
  if (byte >= 0xf0) return byte - 2;
  return byte >= 0xee ? byte + 5 : byte;
}

bool before_in_utf16(std::string_view a, std::string_view b) {
  return std::ranges::lexicographical_compare(a, b, {}, utf16_rank, utf16_rank);
}

bool holds_a_list(const ordered_json& value) {
  return value.is_array() || (value.is_object() && std::ranges::any_of(value, holds_a_list));
}

/// A character of ASCII that JSON does not escape.
bool stands_for_itself(char character) {
  return character >= ' ' && character <= '~' && character != '"' && character != '\\';
}

/// A sink gets at least this much at a time, but for the end.
constexpr std::size_t kBlockBytes = std::size_t{1} << 16U;

class Writer {
 public:
  /// No indent means canonical form.
  explicit Writer(std::optional<std::size_t> indent) : indent_(indent) {}

  void write(const ordered_json& value) {
    if (value.is_object()) return write_object(value);
    if (value.is_array()) return write_array(value);
    if (value.is_string()) return write_text(value.get_ref<const std::string&>());
    if (value.is_null()) {
      text_ += "null";
      return;
    }
    text_ += value.is_number() ? shortest_number(value.get<double>()) : value.dump();
  }

  void open(char bracket) {
    text_ += bracket;
    ++depth_;
    first_ = true;
  }

  void close(char bracket, bool one_line) {
    --depth_;
    if (!first_ && !one_line) new_line();
    text_ += bracket;
    first_ = false;
  }

  void separate(bool one_line) {
    if (!first_) text_ += one_line && indent_ ? ", " : ",";
    first_ = false;
    if (!one_line) new_line();
  }

  void write_name(std::string_view name) {
    write_text(name);
    text_ += indent_ ? ": " : ":";
  }

  std::string take() { return std::move(text_); }
  /// What is written so far and not cleared.
  const std::string& text() const { return text_; }
  void clear() { text_.clear(); }

 private:
  std::string text_;
  std::optional<std::size_t> indent_;
  std::size_t depth_ = 0;
  bool first_ = true;  ///< nothing stands yet in the innermost list or object

  /// The library makes a serializer for each text, which most do not need.
  void write_text(std::string_view text) {
    if (!std::ranges::all_of(text, stands_for_itself)) {
      text_ += ordered_json(text).dump();
      return;
    }
    text_ += '"';
    text_ += text;
    text_ += '"';
  }

  void new_line() {
    if (indent_) text_ += "\n" + std::string(*indent_ * depth_, ' ');
  }

  void write_array(const ordered_json& array) {
    // Points, table rows of numbers and words stay on one line, so that a person can read them.
    const bool one_line = std::ranges::none_of(array, [](const auto& item) { return item.is_structured(); });
    open('[');
    for (const auto& item : array) {
      separate(one_line);
      write(item);
    }
    close(']', one_line);
  }

  void write_object(const ordered_json& object) {
    std::vector<std::pair<std::string_view, const ordered_json*>> members;
    for (const auto& [name, value] : object.items()) members.emplace_back(name, &value);
    if (!indent_) {
      std::ranges::sort(members, before_in_utf16, [](const auto& member) { return member.first; });
    }
    // So do an input with its origin and a step: a million lines fewer in the results of a large project.
    const bool one_line = std::ranges::none_of(object, holds_a_list);
    open('{');
    for (const auto& [name, value] : members) {
      separate(one_line);
      write_name(name);
      write(*value);
    }
    close('}', one_line);
  }
};

}  // namespace

std::string shortest_number(double value) {
  if (!std::isfinite(value)) throw std::runtime_error("a number that is not finite cannot be written as JSON");
  if (value == 0.0) return "0";
  return (value < 0.0 ? "-" : "") + ecmascript_layout(shortest_decimal(std::abs(value)));
}

std::string canonical_json(const ordered_json& value) {
  Writer writer(std::nullopt);
  writer.write(value);
  return writer.take();
}

struct ObjectWriter::State {
  const TextSink& sink;
  Writer writer{2};

  void hand_on(std::size_t from_bytes) {
    if (writer.text().size() < from_bytes) return;
    sink(writer.text());
    writer.clear();
  }
};

ObjectWriter::ObjectWriter(const TextSink& sink) : state_(new State{sink}) {
  state_->writer.open('{');
}

ObjectWriter::~ObjectWriter() = default;

void ObjectWriter::member(std::string_view name, const ordered_json& value) {
  begin(name);
  state_->writer.write(value);
}

void ObjectWriter::list(std::string_view name, std::size_t count,
                        const std::function<ordered_json(std::size_t)>& item) {
  begin(name);
  state_->writer.open('[');
  for (std::size_t i = 0; i < count; ++i) {
    state_->hand_on(kBlockBytes);
    state_->writer.separate(false);
    state_->writer.write(item(i));
  }
  state_->writer.close(']', false);
}

void ObjectWriter::object(std::string_view name, std::size_t count,
                          const std::function<std::pair<std::string, ordered_json>(std::size_t)>& item) {
  begin(name);
  state_->writer.open('{');
  for (std::size_t i = 0; i < count; ++i) {
    const auto [item_name, value] = item(i);
    begin(item_name);
    state_->writer.write(value);
  }
  state_->writer.close('}', false);
}

void ObjectWriter::end() {
  state_->writer.close('}', false);
  state_->hand_on(0);
  state_->sink("\n");
}

void ObjectWriter::begin(std::string_view name) {
  state_->hand_on(kBlockBytes);
  state_->writer.separate(false);
  state_->writer.write_name(name);
}

}  // namespace panel_dossier
