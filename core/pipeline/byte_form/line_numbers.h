// Lines of an export by number, so that what was written of one export holds for the next, where all lines have moved.
#pragma once

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <unordered_map>
#include <vector>

namespace panel_dossier {

/// Numbers each line that is written from 1 in the order of its first use; line 0, which is none, stays 0. Two exports
/// that give the same numbers differ in their lines alone.
class LineNumbers {
 public:
  /// Goes on behind the numbers of `shared`, which must not change any more and must outlive this.
  explicit LineNumbers(const LineNumbers* shared = nullptr) : shared_(shared) {}

  std::uint32_t number_of(std::uint32_t line) {
    if (line == 0) return 0;
    if (const std::uint32_t known = known_number_of(line); known != 0) return known;
    if (is_closed_) {
      is_missed_ = true;
      return 0;
    }
    lines_.push_back(line);
    const auto number = static_cast<std::uint32_t>(shared_count() + lines_.size());
    numbers_.emplace(line, number);
    return number;
  }

  /// Throws std::runtime_error when there is none of that number.
  std::uint32_t line_of(std::uint32_t number) const {
    if (number == 0) return 0;
    if (number <= shared_count()) return shared_->line_of(number);
    const std::size_t own = number - shared_count() - 1;
    if (own >= lines_.size()) throw std::runtime_error("a line has a number that none was given");
    return lines_[own];
  }

  /// From now on a line without a number gets none.
  void close() { is_closed_ = true; }
  /// Whether one was asked for since then.
  bool is_missed() const { return is_missed_; }

  const LineNumbers* shared() const { return shared_; }

 private:
  const LineNumbers* shared_;
  std::vector<std::uint32_t> lines_;
  std::unordered_map<std::uint32_t, std::uint32_t> numbers_;
  bool is_closed_ = false;
  bool is_missed_ = false;

  std::size_t shared_count() const { return shared_ == nullptr ? 0 : shared_->shared_count() + shared_->lines_.size(); }

  std::uint32_t known_number_of(std::uint32_t line) const {
    if (const auto own = numbers_.find(line); own != numbers_.end()) return own->second;
    return shared_ == nullptr ? 0 : shared_->known_number_of(line);
  }
};

}  // namespace panel_dossier
