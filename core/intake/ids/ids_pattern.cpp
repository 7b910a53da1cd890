#include "core/intake/ids/ids_pattern.h"

#include <libxml/xmlerror.h>
#include <libxml/xmlregexp.h>

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

namespace {

constexpr std::size_t kLongestMatched_bytes = 4096;

const xmlChar* regexp_text(const std::string& text) {
  return reinterpret_cast<const xmlChar*>(text.c_str());
}

struct RegexpDeleter {
  void operator()(xmlRegexp* regexp) const { xmlRegFreeRegexp(regexp); }
};

void ignore_error(void* /*context*/, xmlError* /*error*/) {}

/// What is wrong with a pattern is told by us, with its line; libxml2 would print it as well.
class SilentErrors {
 public:
  SilentErrors() : before_(xmlStructuredError), context_(xmlStructuredErrorContext) {
    xmlSetStructuredErrorFunc(nullptr, ignore_error);
  }
  ~SilentErrors() { xmlSetStructuredErrorFunc(context_, before_); }
  SilentErrors(const SilentErrors&) = delete;
  SilentErrors& operator=(const SilentErrors&) = delete;

 private:
  xmlStructuredErrorFunc before_;
  void* context_;
};

/// Repeats that `{n}`, `{n,}` or `{n,m}` asks for; 1 for a form that the compiler will refuse.
int repeats_of(std::string_view quantifier) {
  int most = 1;
  while (!quantifier.empty()) {
    int number = 0;
    const auto [end, status] = std::from_chars(quantifier.data(), quantifier.data() + quantifier.size(), number);
    if (status == std::errc::result_out_of_range) return IdsPattern::kMostRepeats + 1;
    if (status != std::errc()) return most;
    most = std::max(most, number);
    quantifier.remove_prefix(static_cast<std::size_t>(end - quantifier.data()));
    if (!quantifier.empty()) quantifier.remove_prefix(1);
  }
  return most;
}

/// Measures a pattern without running it: how deep its brackets lie, and how many repeats nested quantifiers ask for.
class PatternSize {
 public:
  explicit PatternSize(std::string_view pattern) : pattern_(pattern) {}

  std::string fault() {
    open_.push_back({});
    for (std::size_t at = 0; at < pattern_.size(); ++at) {
      const char c = pattern_[at];
      if (c == '\\') {
        ++at;
        last_ = 1;
      } else if (c == '[') {
        at = behind_class(at);
        last_ = 1;
      } else if (c == '(') {
        open_.push_back({});
        if (static_cast<int>(open_.size()) > IdsPattern::kDeepest + 1) return "nests its brackets too deep";
      } else if (c == ')' && open_.size() > 1) {
        last_ = open_.back();
        open_.pop_back();
        note(last_);
      } else if (c == '{') {
        const std::size_t end = std::min(pattern_.find('}', at), pattern_.size());
        const long long repeats = static_cast<long long>(last_) * repeats_of(pattern_.substr(at + 1, end - at - 1));
        if (repeats > IdsPattern::kMostRepeats)
          return "repeats more than " + std::to_string(IdsPattern::kMostRepeats) + " times";
        note(static_cast<int>(repeats));
        at = end;
      } else if (c != '*' && c != '+' && c != '?') {
        last_ = 1;
      }
    }
    return {};
  }

 private:
  std::string_view pattern_;
  std::vector<int> open_;  ///< most repeats inside of each open bracket
  int last_ = 1;           ///< of what a quantifier would repeat

  void note(int repeats) { open_.back() = std::max({open_.back(), repeats, 1}); }

  /// Position of the bracket that closes a class, which may hold another one behind a minus.
  std::size_t behind_class(std::size_t at) const {
    int depth = 0;
    for (; at < pattern_.size(); ++at) {
      if (pattern_[at] == '\\') {
        ++at;
      } else if (pattern_[at] == '[') {
        ++depth;
      } else if (pattern_[at] == ']' && --depth == 0) {
        return at;
      }
    }
    return pattern_.size();
  }
};

}  // namespace

struct IdsPattern::Compiled {
  std::unique_ptr<xmlRegexp, RegexpDeleter> regexp;
};

std::optional<IdsPattern> IdsPattern::make(const std::string& expression, std::string& fault) {
  if (expression.size() > kLongest_bytes) {
    fault = "is longer than " + std::to_string(kLongest_bytes) + " bytes";
    return std::nullopt;
  }
  fault = PatternSize(expression).fault();
  if (!fault.empty()) return std::nullopt;
  const SilentErrors silent;
  auto compiled = std::make_shared<Compiled>();
  compiled->regexp.reset(xmlRegexpCompile(regexp_text(expression)));
  if (!compiled->regexp) {
    fault = "is no regular expression of XML Schema";
    return std::nullopt;
  }
  IdsPattern pattern;
  pattern.expression_ = expression;
  pattern.compiled_ = std::move(compiled);
  return pattern;
}

IdsPattern::Result IdsPattern::match(const std::string& text) const {
  if (text.size() > kLongestMatched_bytes || text.find('\0') != std::string::npos) return Result::too_hard;
  const SilentErrors silent;
  const int result = xmlRegexpExec(compiled_->regexp.get(), regexp_text(text));
  if (result < 0) return Result::too_hard;
  return result == 1 ? Result::matches : Result::differs;
}

}  // namespace panel_dossier
