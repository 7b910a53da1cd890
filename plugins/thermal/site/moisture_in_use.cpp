#include "plugins/thermal/site/moisture_in_use.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

const CheckDeclaration kMoistureInUseCheck{
    .id = "thermal.moisture_in_use",
    .title = "Moisture of wood, read in use",
    .project_title = {},
    .sentence =
        "The highest of the newest readings of wood moisture in the panel, one for each place, is at most what keeps "
        "fungi from it; every newest reading of moisture, temperature and humidity is one that a meter can give, and "
        "no "
        "two of one place and day differ.",
    .clause = "common practice",
    .units = {"%"},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = with_records({data_table("in_use_limits.csv")}, {"in_use"}),
    .limits = {"How long a reading has held, and what it was before: the history stands in the panel's part of the "
               "dossier.",
               "The species of the wood and the temperature for which a meter was set.", "Places that nobody reads."},
    .role = {}};

namespace {

/// One kind of reading: its column in the records, and its row in the table.
struct ReadingKind {
  const char* column;
  const char* row;
  const char* unit;  ///< as printed
  double scale;      ///< from the record to that
};

constexpr std::array<ReadingKind, 3> kReadings{
    {{"moisture content", "wood moisture content", "%", units::kPercentPerWhole},
     {"temperature", "temperature", "°C", 1.0},
     {"relative humidity", "relative humidity", "%", units::kPercentPerWhole}}};

struct Reading {
  const PanelRecord* record = nullptr;
  Sourced<double> value;
  bool is_contradicted = false;  ///< another of that place and day differs
};

std::string place_in_record(const PanelRecord& record) {
  const std::string place = record.words("place");
  return place.empty() ? "no stated place" : "'" + place + "'";
}

/// The newest by place; the records stand in the order of their days.
std::map<std::string, Reading> newest_readings(const Panel& panel, const ReadingKind& kind) {
  std::map<std::string, Reading> newest;
  for (const PanelRecord& record : panel.records) {
    if (record.table != "in_use") continue;
    const auto value = record.number(kind.column);
    if (!value) continue;
    Reading& reading = newest[record.words("place")];
    const bool is_same_day = reading.record != nullptr && reading.record->day == record.day;
    const bool differs = is_same_day && reading.value.value != value->value;
    reading = {&record, *value, differs || (is_same_day && reading.is_contradicted)};
  }
  return newest;
}

std::string reading_in_words(const ReadingKind& kind, const Reading& reading) {
  return std::string(kind.column) + " " +
         with_unit(std::round(reading.value.value * kind.scale * 1e4) / 1e4, kind.unit) + " at " +
         place_in_record(*reading.record) + " on " + reading.record->day + " (" + reading.record->origin.table +
         ", row " + reading.record->origin.row + ")";
}

/// What of the newest readings cannot be believed.
std::vector<std::string> doubtful_readings(const Panel& panel, const DataTable& limits) {
  std::vector<std::string> doubts;
  for (const ReadingKind& kind : kReadings) {
    const auto least = limits.number(kind.row, "least");
    const auto most = limits.number(kind.row, "most");
    for (const auto& [place, reading] : newest_readings(panel, kind)) {
      if (reading.is_contradicted) {
        doubts.push_back(reading_in_words(kind, reading) +
                         " is not the only reading of that place and day; correct one");
      } else if (!least || !most || reading.value.value < least->value || reading.value.value > most->value) {
        doubts.push_back(reading_in_words(kind, reading) + " is none that can be; read again");
      }
    }
  }
  return doubts;
}

bool has_readings(const Panel& panel) {
  return std::any_of(kReadings.begin(), kReadings.end(),
                     [&](const ReadingKind& kind) { return !newest_readings(panel, kind).empty(); });
}

Finding judge_readings(const Panel& panel, const Tables& tables) {
  FindingBuilder builder(kMoistureInUseCheck, panel.global_id);
  builder.basis(Basis::declared).decimals(1);
  const ReadingKind& moisture = kReadings.front();
  const auto readings = newest_readings(panel, moisture);
  const Reading* highest = nullptr;
  for (const auto& [place, reading] : readings) {
    builder.number("moisture content at " + place_in_record(*reading.record) + " on " + reading.record->day, "u", "",
                   reading.value, {});
    if (highest == nullptr || reading.value.value > highest->value.value) highest = &reading;
  }
  const auto limit = builder.positive("most that wood may hold for long", "u_max", "",
                                      tables.in_use_limits.number(moisture.row, "limit"),
                                      "in_use_limits.csv gives no limit of wood moisture");
  const std::string doubts = joined(doubtful_readings(panel, tables.in_use_limits), "; ");
  if (highest == nullptr || !limit) {
    return doubts.empty() ? builder.inform_text("no reading of wood moisture") : builder.needs_evidence(doubts);
  }
  const double value = highest->value.value * moisture.scale;
  Finding finding =
      builder.judge(value, "%", Relation::at_most, *limit * moisture.scale,
                    reading_in_words(moisture, *highest) +
                        " is more than wood may hold for long; find where the water comes from, dry and read again");
  if (doubts.empty()) return finding;
  if (finding.verdict == Verdict::pass) finding.verdict = Verdict::evidence_needed;
  finding.reason += (finding.reason.empty() ? "" : "; ") + doubts;
  return finding;
}

}  // namespace

CheckOutcome check_moisture_in_use(const Panel& panel, const Tables& tables) {
  if (has_readings(panel)) return {{judge_readings(panel, tables)}};
  return {{}, {{kMoistureInUseCheck.id, "there is no reading of moisture, temperature or humidity in use"}}};
}

}  // namespace panel_dossier::thermal
