#include "plugins/thermal/project_limits.h"

#include <string>

#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

struct Situation {
  std::string jurisdiction;
  std::string date;
  bool dwelling = false;
};

std::optional<Situation> read_situation(const Settings& settings, FindingBuilder& builder) {
  const auto jurisdiction = builder.text("jurisdiction", settings.text("project.jurisdiction"),
                                         "setting 'project.jurisdiction' is missing, so no limit is known");
  const auto use = builder.text("use of the building", settings.text("project.use"),
                                "setting 'project.use' is missing, so no limit is known");
  const auto date = builder.text("day of assessment", settings.text("project.assessment_date"),
                                 "setting 'project.assessment_date' is missing, so no limit is known");
  if (!jurisdiction || !use || !date) return std::nullopt;
  if (!is_iso_date(*date)) {
    builder.missing("setting 'project.assessment_date' is not a date YYYY-MM-DD but '" + *date + "'");
    return std::nullopt;
  }
  return Situation{*jurisdiction, *date, *use == "dwellings"};
}

bool holds(const DataTable& limits, const std::string& row, const Situation& situation) {
  const auto cell = [&](const char* column) {
    const auto found = limits.text(row, column);
    return found ? found->value : std::string();
  };
  const std::string until = cell("valid_until");
  return cell("jurisdiction") == situation.jurisdiction && (cell("dwelling") == "yes") == situation.dwelling &&
         cell("valid_from") <= situation.date && (until.empty() || situation.date <= until);
}

}  // namespace

std::optional<double> find_limit(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                 FindingBuilder& builder) {
  const auto situation = read_situation(settings, builder);
  if (!situation) return std::nullopt;
  for (const std::string& row : limits.keys()) {
    if (!holds(limits, row, *situation)) continue;
    return builder.positive(kind.name, kind.symbol, kind.unit, limits.number(row, kind.column),
                            std::string(kind.table) + " row '" + row + "' has no number in " + kind.column);
  }
  builder.missing(std::string(kind.table) + " holds no limit for " +
                  (situation->dwelling ? "dwellings" : "buildings other than dwellings") + " in '" +
                  situation->jurisdiction + "' on " + situation->date +
                  " (settings project.jurisdiction, project.use, project.assessment_date)");
  return std::nullopt;
}

Finding judge_wall(double u_w_per_m2k, const std::string& what, const DataTable& limits, const Settings& settings,
                   FindingBuilder& builder) {
  const auto limit = find_limit(limits, kWallLimit, settings, builder);
  if (!limit || builder.incomplete()) {
    Finding finding = builder.not_assessed();
    finding.value = u_w_per_m2k;
    finding.unit = kWallLimit.unit;
    return finding;
  }
  return builder.judge(u_w_per_m2k, kWallLimit.unit, Relation::at_most, *limit,
                       what + " of " + fixed_text(u_w_per_m2k, 4) + " W/(m²·K) is above the limit of " +
                           fixed_text(*limit, 2) + "; more insulation or less framing is needed");
}

}  // namespace panel_dossier::thermal
