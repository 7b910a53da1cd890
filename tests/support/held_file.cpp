#include "tests/support/held_file.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/intake/document/sha256.h"

namespace panel_dossier::testing {

namespace {

/// Beyond that many a change has moved everything, and more of it tells nothing.
constexpr std::size_t kMostShown = 12;

std::string digest_of(const std::string& text) {
  constexpr std::size_t kDigits = 8;
  return text.empty() ? text : to_hex(sha256(text)).substr(0, kDigits);
}

}  // namespace

HeldFile::HeldFile(std::filesystem::path file, std::vector<std::string> keys, std::vector<std::string> plain,
                   std::vector<std::string> digests)
    : file_(std::move(file)), keys_(keys.size()), plain_(keys.size() + plain.size()), columns_(std::move(keys)) {
  columns_.insert(columns_.end(), plain.begin(), plain.end());
  columns_.insert(columns_.end(), digests.begin(), digests.end());
}

void HeldFile::add(std::vector<std::string> texts) {
  if (texts.size() != columns_.size()) throw std::logic_error("a held line has not one text a column");
  std::vector<std::string> line = texts;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i >= plain_) line[i] = digest_of(line[i]);
    if (line[i].find_first_of("\r\n") != std::string::npos) throw std::logic_error("a held text has several lines");
  }
  lines_.push_back(std::move(line));
  texts_.push_back(std::move(texts));
}

std::string HeldFile::key_of(const std::vector<std::string>& line) const {
  return held_line({line.begin(), line.begin() + static_cast<std::ptrdiff_t>(keys_)});
}

void HeldFile::write() const {
  std::ofstream out(file_, std::ios::binary);
  out << csv_line(columns_);
  for (const auto& line : lines_) out << csv_line(line);
  if (!out.flush()) throw std::runtime_error(file_.string() + " cannot be written");
}

std::vector<std::string> HeldFile::faults(const std::string& name) const {
  std::set<std::string> keys;
  for (const auto& line : lines_) {
    if (!keys.insert(key_of(line)).second) throw std::logic_error("two held lines are named " + key_of(line));
  }
  if (std::getenv("PANEL_DOSSIER_HOLD") != nullptr) {
    write();
    return {};
  }
  if (!std::filesystem::exists(file_)) return {};
  std::map<std::string, std::vector<std::string>> held;
  std::ifstream in(file_, std::ios::binary);
  std::string text;
  std::getline(in, text);
  while (std::getline(in, text)) {
    const std::vector<std::string> fields = csv_fields(text).value_or(std::vector<std::string>());
    if (fields.size() != columns_.size()) throw std::runtime_error(file_.string() + " has a broken line: " + text);
    held.emplace(key_of(fields), fields);
  }
  std::vector<std::string> found;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    const std::string key = key_of(lines_[i]);
    const auto old = held.extract(key);
    if (old.empty()) found.push_back(key + " is new");
    for (std::size_t c = keys_; c < columns_.size() && !old.empty(); ++c) {
      if (old.mapped().at(c) == lines_[i][c]) continue;
      found.push_back(key + ": other " + columns_[c] + " than " + old.mapped().at(c) + ", now " + lines_[i][c] +
                      (c < plain_ ? std::string() : ":\n" + texts_[i][c]));
    }
  }
  for (const auto& [key, line] : held) found.push_back(key + " is no more");
  if (found.empty()) return found;
  const std::size_t all = found.size();
  if (all > kMostShown) found.resize(kMostShown);
  found.push_back(std::to_string(all) + " differences from " + file_.string() + "; where they are wanted: .ci/hold " +
                  name);
  return found;
}

std::string held_number(double value) {
  constexpr double kNothing = 1e-12;
  constexpr int kDigits = 6;
  // A decimal that lies just between two others goes to the same one whatever its last binary digit is.
  constexpr double kAside = 1.0 + 1e-10;
  if (std::abs(value) < kNothing) return "0";
  std::array<char, 64> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value * kAside, std::chars_format::general, kDigits);
  if (error != std::errc{}) throw std::logic_error("a number without a text");
  return {buffer.data(), end};
}

std::string held_value(const Value& value) {
  if (const double* number = std::get_if<double>(&value)) return held_number(*number);
  const auto* text = std::get_if<std::string>(&value);
  return text == nullptr ? std::string() : *text;
}

std::string held_line(const std::vector<std::string>& texts) {
  return joined(texts, " | ");
}

}  // namespace panel_dossier::testing
