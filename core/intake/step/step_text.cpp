#include "core/intake/step/step_text.h"

#include <cstring>

namespace panel_dossier {

namespace {

bool is_step_blank(char c) {
  return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f';
}

/// Behind the comment that starts at `at`; `end` when it is not closed.
const char* after_step_comment(const char* at, const char* end) {
  constexpr std::string_view kClose = "*/";
  const std::string_view rest(at + 2, static_cast<std::size_t>(end - at - 2));
  const std::size_t close = rest.find(kClose);
  return close == std::string_view::npos ? end : rest.data() + close + kClose.size();
}

/// True for an apostrophe just after `\S\`, whose one character is data whatever it is. Of a run of backslashes before
/// the S each two are one of the text, so the last opens the directive only when their number is odd.
bool is_data_of_page(const char* opening, const char* quote) {
  if (quote - opening < 4 || quote[-1] != '\\' || quote[-2] != 'S') return false;
  int run = 0;
  for (const char* at = quote - 3; at > opening && *at == '\\'; --at) ++run;
  return run % 2 == 1;
}

}  // namespace

const char* after_step_blanks(const char* at, const char* end) {
  while (at < end) {
    if (is_step_blank(*at)) {
      ++at;
    } else if (*at == '/' && end - at > 1 && at[1] == '*') {
      at = after_step_comment(at, end);
    } else {
      break;
    }
  }
  return at;
}

const char* after_step_string(const char* at, const char* end) {
  for (const char* from = at + 1; from < end;) {
    const auto* quote = static_cast<const char*>(std::memchr(from, '\'', static_cast<std::size_t>(end - from)));
    if (quote == nullptr) return nullptr;
    if (is_data_of_page(at, quote)) {
      from = quote + 1;
    } else if (quote + 1 < end && quote[1] == '\'') {
      from = quote + 2;
    } else {
      return quote + 1;
    }
  }
  return nullptr;
}

const char* after_step_word(const char* at, const char* end) {
  while (at < end && (is_step_letter(*at) || is_step_digit(*at))) ++at;
  return at;
}

const char* after_step_list(const char* at, const char* end) {
  int depth = 0;
  while (at < end) {
    switch (*at) {
      case '(': ++depth; break;
      case ')':
        if (--depth == 0) return at + 1;
        break;
      case '\'':
        at = after_step_string(at, end);
        if (at == nullptr) return end;
        continue;
      case '/':
        if (end - at > 1 && at[1] == '*') {
          at = after_step_comment(at, end);
          continue;
        }
        break;
      default: break;
    }
    ++at;
  }
  return end;
}

const char* after_step_value(const char* at, const char* end) {
  while (at < end && *at != ',' && *at != ')') {
    if (*at == '(') {
      at = after_step_list(at, end);
    } else if (*at == '\'') {
      at = after_step_string(at, end);
      if (at == nullptr) return end;
    } else if (*at == '/' && end - at > 1 && at[1] == '*') {
      at = after_step_comment(at, end);
    } else {
      ++at;
    }
  }
  return at;
}

}  // namespace panel_dossier
