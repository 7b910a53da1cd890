// Regular expressions of XML Schema, held against texts within limits.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

/// A pattern ready to be tried (XML Schema part 2, appendix F), which matches a text as a whole. Copies share it; one
/// thread at a time may use them.
class IdsPattern {
 public:
  // A pattern that somebody wrote for marks or names is a line at most; a longer or deeper one is there to make its
  // reader work.
  static constexpr std::size_t kLongest_bytes = 512;
  static constexpr int kDeepest = 16;        ///< brackets inside brackets
  static constexpr int kMostRepeats = 1000;  ///< of `{n,m}`, nested ones multiplied

  /// The pattern, or in `fault` why it is none. Never throws.
  static std::optional<IdsPattern> make(const std::string& expression, std::string& fault);

  enum class Result { matches, differs, too_hard };

  /// Texts longer than a property ever is are too hard, and so is what the matcher gives up.
  Result match(const std::string& text) const;

  const std::string& expression() const { return expression_; }

 private:
  struct Compiled;

  std::string expression_;
  std::shared_ptr<const Compiled> compiled_;
};

/// Time that all patterns of one check may take together; a file that needs more is hostile.
class IdsPatternClock {
 public:
  static constexpr std::chrono::seconds kLongest{30};

  void add(std::chrono::steady_clock::duration spent) { spent_ += spent; }
  bool is_over() const { return spent_ > kLongest; }

 private:
  std::chrono::steady_clock::duration spent_{};
};

}  // namespace panel_dossier
