// The form that all tables of guidance share: a head, rows of as many fields, and faults told with file and line.
#pragma once

#include <cstddef>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

/// What is wrong with a table, and where: `FILE:LINE: what is wrong`.
class GuidanceFault : public std::runtime_error {
 public:
  GuidanceFault(std::string file, std::size_t line, std::string message)
      : std::runtime_error(file + ":" + std::to_string(line) + ": " + message),
        file_(std::move(file)),
        line_(line),
        message_(std::move(message)) {}

  const std::string& file() const { return file_; }
  std::size_t line() const { return line_; }
  const std::string& message() const { return message_; }

 private:
  std::string file_;
  std::size_t line_;
  std::string message_;
};

/// The word by which a practice takes a row of the program away.
inline constexpr std::string_view kRowGone = "none";

/// Calls `take` with the trimmed cells of each row behind the head and the line on which it begins. Throws
/// GuidanceFault for bytes that are no CSV of UTF-8, another head, a row of fewer or more fields, and for what `take`
/// throws (std::runtime_error saying what is wrong with the row).
void read_guidance_table(std::string_view bytes, const std::string& file, const std::vector<std::string>& columns,
                         const std::function<void(const std::vector<std::string>& cells, std::size_t line)>& take);

}  // namespace panel_dossier
