// A STEP file as it lies in memory: its schema, and where each instance stands. No tree: values are parsed when asked
// for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/element.h"
#include "core/intake/step/step_schema.h"
#include "core/intake/step/step_string.h"

namespace panel_dossier {

inline constexpr std::uint32_t kNoStepInstance = std::numeric_limits<std::uint32_t>::max();

/// `#12=IFCWALL(…);`
struct StepInstance {
  std::uint64_t number = 0;
  std::uint32_t offset = 0;  ///< of the `#` in the text
  std::uint16_t entity = kNoStepEntity;
  std::uint8_t arguments =
      0;                  ///< bytes from the `#` to behind the opening bracket; 0: further than that, or not simple
  bool is_simple = true;  ///< false for `#12=(A(…)B(…));` and `#12=!NAME(…);`
};

/// Header and index of a file. Immutable once read; the text must outlive it.
class StepFile {
 public:
  /// Offsets are kept in 32 bits; a file of this size would need 16 GiB to be read.
  static constexpr std::size_t kLargest_bytes = std::numeric_limits<std::uint32_t>::max();

  explicit StepFile(std::string_view text) : text_(text) {}
  StepFile(const StepFile&) = delete;
  StepFile& operator=(const StepFile&) = delete;

  /// Reads header and index. False, reported once, when the text is no STEP file of a known schema.
  bool read(const std::filesystem::path& schema_dir, Reporter& report);

  /// Where the index could not be carried on; none when the file was seen to its end. The cause may stand before, for a
  /// string that is not closed takes the next one with it.
  struct BreakOff {
    std::size_t offset;
    std::string message;
  };
  const std::optional<BreakOff>& break_off() const { return break_off_; }

  std::string_view text() const { return text_; }
  const char* begin() const { return text_.data(); }
  const char* end() const { return text_.data() + text_.size(); }
  const StepSchema& schema() const { return *schema_; }
  StepBytes bytes() const { return bytes_; }

  const std::vector<StepInstance>& instances() const { return instances_; }
  /// Index of the instance of that number; kNoStepInstance when there is none.
  std::uint32_t find(std::uint64_t number) const;
  /// Null for an instance of a type that the schema does not have.
  const StepEntity* entity_of(std::uint32_t instance) const;
  /// The first character of the keyword, or the bracket or exclamation mark of an instance that is not simple.
  const char* keyword_of(std::uint32_t instance) const;
  /// Behind the bracket that opens the arguments of a simple instance.
  const char* arguments_of(std::uint32_t instance) const;
  /// A handle of a whole instance.
  Element element(std::uint32_t instance) const;

 private:
  class Indexer;

  std::string_view text_;
  const StepSchema* schema_ = nullptr;
  StepBytes bytes_ = StepBytes::ascii;
  std::optional<BreakOff> break_off_;
  std::vector<StepInstance> instances_;
  std::vector<std::uint32_t> by_number_;                         ///< where numbers are dense: instance + 1; 0: none
  std::vector<std::pair<std::uint64_t, std::uint32_t>> sorted_;  ///< else: number and instance, by number

  void index_numbers(Reporter& report);
};

}  // namespace panel_dossier
