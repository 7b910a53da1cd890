#include "core/intake/step/step_findings.h"

namespace panel_dossier {

namespace {

struct StepHabitText {
  const char* message;
  const char* advice;
};

constexpr std::array<StepHabitText, kStepHabitCount> kStepHabits{{
    {"absent values are written '*' instead of '$'", "they are read as absent"},
    {"numbers with a point are due where integers stand", "they are read as they stand"},
    {"values are written with a type where the schema wants them bare", "they are read as if they were bare"},
    {"backslashes in strings begin no directive of the standard", "they are read as text"},
    {"codes in strings are no characters", "U+FFFD stands in their place"},
    {"line breaks stand inside strings", "they are left out"},
    {"instances are of several entities or of one that is no part of the standard", "they are not read"},
}};

void report_unread(const StepFile& file, const std::map<std::uint16_t, StepRemark>& unread,
                   const std::map<std::uint16_t, std::string>& first, Reporter& report) {
  for (const auto& [entity, remark] : unread) {
    report.warning(file.element(remark.first),
                   "breaks the schema: " + first.at(entity) +
                       (remark.count > 1 ? "; so do " + std::to_string(remark.count - 1) + " more" : ""),
                   "nothing is read from it");
  }
}

void report_habits(const StepFile& file, const std::array<StepRemark, kStepHabitCount>& habits, Reporter& report) {
  for (std::size_t i = 0; i < habits.size(); ++i) {
    if (habits[i].count == 0) continue;
    report.warning(file.element(habits[i].first),
                   std::to_string(habits[i].count) + " times from here on: " + kStepHabits[i].message,
                   kStepHabits[i].advice);
  }
}

}  // namespace

void report_fault(const StepFile& file, const StepFault& fault, Reporter& report) {
  report.error(Element(file, fault.at, fault.instance, Element::kSingleValue), fault.message, fault.advice);
}

bool report_findings(const StepFile& file, const std::vector<StepFindings>& all, Reporter& report) {
  bool is_sound = true;
  std::map<std::uint16_t, StepRemark> unread;
  std::map<std::uint16_t, std::string> first_unread;
  std::array<StepRemark, kStepHabitCount> habits;
  for (const StepFindings& found : all) {
    is_sound = is_sound && !found.has_syntax_fault;
    for (const StepFault& fault : found.faults) report_fault(file, fault, report);
    if (found.unlisted != 0) report.add_unlisted(found.unlisted);
    for (const auto& [entity, remark] : found.unread) unread[entity].add(remark);
    first_unread.insert(found.first_unread.begin(), found.first_unread.end());
    for (std::size_t i = 0; i < habits.size(); ++i) habits[i].add(found.habits[i]);
  }
  report_unread(file, unread, first_unread, report);
  report_habits(file, habits, report);
  return is_sound;
}

}  // namespace panel_dossier
