// What the check of a STEP file finds, and how it is told.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/step/step_file.h"

namespace panel_dossier {

/// A breach of grammar or schema.
struct StepFault {
  std::uint32_t instance = 0;
  const char* at = nullptr;
  bool is_syntax = false;
  std::string message;
  std::string advice;
};

/// Ways of writing that are not the standard's and are read all the same.
struct StepRemark {
  std::uint32_t count = 0;
  std::uint32_t first = kNoStepInstance;

  void add(std::uint32_t instance, std::uint32_t times = 1) {
    if (count == 0) first = instance;
    count += times;
  }
  void add(const StepRemark& other) {
    if (count == 0) first = other.first;
    count += other.count;
  }
};

/// What is met in files of other programs often enough to be read.
enum class StepHabit : std::size_t {
  star_for_absent,
  integer_for_real,
  type_where_none_is_due,
  directive,
  character,
  line_break,
  not_simple,
};
inline constexpr std::size_t kStepHabitCount = 7;

/// What one thread found in its instances, in their order.
struct StepFindings {
  std::vector<StepFault> faults;
  std::size_t unlisted = 0;
  bool has_syntax_fault = false;
  std::map<std::uint16_t, StepRemark> unread;  ///< breaches in entities that are not read
  std::map<std::uint16_t, std::string> first_unread;
  std::array<StepRemark, kStepHabitCount> habits;
};

void report_fault(const StepFile& file, const StepFault& fault, Reporter& report);

/// Reports everything: faults one by one; breaches in entities that are not read, and habits, once a kind with their
/// number. False where the grammar was broken.
bool report_findings(const StepFile& file, const std::vector<StepFindings>& all, Reporter& report);

}  // namespace panel_dossier
