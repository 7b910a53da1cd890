// When the panels are looked at, looked after and renewed, day by day over the life of the building.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/guidance/advice.h"

namespace panel_dossier {

struct CalendarEntry {
  std::string day;                  ///< YYYY-MM-DD
  std::string what;                 ///< the sentence
  std::string of;                   ///< what is looked at: names of the subjects
  std::string who;                  ///< does it; may be empty
  std::string source;               ///< of the sentence
  std::vector<std::size_t> panels;  ///< ascending indices into Project::panels
  std::string uid;                  ///< the same in every build as long as day, sentence and subjects are
};

struct Calendar {
  std::string start;                   ///< YYYY-MM-DD; empty where no day can be told
  std::string start_source;            ///< in words; where `start` is empty, what is missing
  std::string start_who;               ///< can supply what is missing
  std::string end;                     ///< last day of the building's life; empty where its length is not set
  std::vector<CalendarEntry> entries;  ///< by day, then in the order of the rows
};

/// The day so many months later; the last of its month where that month has no such day. Precondition: an ISO date.
std::string months_later(std::string_view day, int months);

/// Days of all advice with an interval, from the setting `handover.date`, else from the newest day of installation, to
/// the end of `handover.design_life_years`. Without a length of life the entries of the first ten years. No entries
/// where the start is not known or the setting lies before an installation.
Calendar calendar_of(const std::vector<Advice>& advice, const std::vector<GuidanceRow>& rows,
                     const std::vector<Subject>& subjects, const Project& project, const Settings& settings);

/// The calendar as iCalendar (RFC 5545), one VEVENT a day and sentence, CRLF, folded at 75 octets. `time_utc` is the
/// time of the build, ISO 8601 with `Z`. The same calendar and time, the same bytes.
std::string icalendar(const Calendar& calendar, const Project& project, std::string_view time_utc);

}  // namespace panel_dossier
