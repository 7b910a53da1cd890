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

/// The key of the row for this project; none, with the reason noted, when there is none.
std::optional<std::string> row_of(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                  FindingBuilder& builder) {
  const auto situation = read_situation(settings, builder);
  if (!situation) return std::nullopt;
  for (const std::string& row : limits.keys()) {
    if (holds(limits, row, *situation)) return row;
  }
  builder.missing(std::string(kind.table) + " holds no limit for " +
                  (situation->dwelling ? "dwellings" : "buildings other than dwellings") + " in '" +
                  situation->jurisdiction + "' on " + situation->date +
                  " (settings project.jurisdiction, project.use, project.assessment_date)");
  return std::nullopt;
}

std::optional<double> limit_in(const DataTable& limits, const LimitKind& kind, const std::string& row,
                               FindingBuilder& builder) {
  return builder.positive(kind.name, kind.symbol, kind.unit, limits.number(row, kind.column),
                          std::string(kind.table) + " row '" + row + "' has no number in " + kind.column);
}

std::optional<LimitScope> scope_in(const DataTable& limits, const LimitKind& kind, const std::string& row,
                                   FindingBuilder& builder) {
  const auto word = limits.text(row, "scope");
  if (!word || word->value == "element") return LimitScope::element;
  if (word->value == "average") return LimitScope::average;
  if (word->value == "envelope") return LimitScope::envelope;
  builder.missing(std::string(kind.table) + " row '" + row + "' has the unknown scope '" + word->value + "'");
  return std::nullopt;
}

/// Not assessed with its value, which is sound.
Finding without_verdict(double u_w_per_m2k, const std::string& reason, FindingBuilder& builder) {
  Finding finding = builder.not_assessed(reason);
  finding.value = u_w_per_m2k;
  finding.unit = kWallLimit.unit;
  return finding;
}

/// A limit and where it comes from, for the reason of a failure.
struct PanelLimit {
  double value = 0.0;
  std::string words;  ///< `the limit of`
};

void take_lower(std::optional<PanelLimit>& limit, const std::optional<double>& value, const char* words) {
  if (value && (!limit || *value < limit->value)) limit = PanelLimit{*value, words};
}

}  // namespace

std::optional<RuleLimit> find_rule(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                   FindingBuilder& builder) {
  const auto row = row_of(limits, kind, settings, builder);
  if (!row) return std::nullopt;
  const auto value = limit_in(limits, kind, *row, builder);
  const auto scope = scope_in(limits, kind, *row, builder);
  if (!value || !scope) return std::nullopt;
  RuleLimit rule{*value, *scope, std::nullopt};
  if (const auto single = limits.number(*row, "single_limit")) {
    rule.single = builder.positive(std::string(kind.name) + " by itself, beside the limit on the average",
                                   std::string(kind.symbol) + ",1", kind.unit, single, {});
  }
  return rule;
}

std::optional<double> find_limit(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                 FindingBuilder& builder) {
  const auto row = row_of(limits, kind, settings, builder);
  return row ? limit_in(limits, kind, *row, builder) : std::nullopt;
}

Finding judge_panel(double u_w_per_m2k, const DataTable& limits, const Settings& settings, FindingBuilder& builder) {
  const auto rule = find_rule(limits, kWallLimit, settings, builder);
  const auto asked = settings.number("thermal.design_u_w_per_m2k");
  const auto design =
      asked ? builder.positive("U-value that the design asks of each panel", "U_d", kWallLimit.unit, asked, {})
            : std::nullopt;
  if (!rule || builder.incomplete()) return without_verdict(u_w_per_m2k, {}, builder);
  std::optional<PanelLimit> limit;
  if (rule->scope == LimitScope::element) take_lower(limit, rule->value, "the limit of ");
  take_lower(limit, rule->single, "the limit on a single wall of ");
  take_lower(limit, design, "what the design asks of each panel, ");
  if (rule->scope != LimitScope::element) {
    builder.note("The rule puts its limit of " + fixed_text(rule->value, 2) + " W/(m²·K) on " +
                 (rule->scope == LimitScope::average ? "the average of all external walls weighted by area, which is "
                                                       "judged under this check of the whole project"
                                                     : "the mean of all opaque outer parts of the building") +
                 (rule->single ? "; of a single wall it asks " + fixed_text(*rule->single, 2) + " W/(m²·K)."
                               : "; the table has no limit on a single wall."));
  }
  if (!limit) return builder.inform(u_w_per_m2k, kWallLimit.unit);
  return builder.judge(u_w_per_m2k, kWallLimit.unit, Relation::at_most, limit->value,
                       "U of " + fixed_text(u_w_per_m2k, 4) + " W/(m²·K) is above " + limit->words +
                           fixed_text(limit->value, 2) + "; more insulation or less framing is needed");
}

Finding judge_average(double u_w_per_m2k, const DataTable& limits, const Settings& settings, FindingBuilder& builder) {
  const auto rule = find_rule(limits, kWallLimit, settings, builder);
  if (!rule || builder.incomplete()) return without_verdict(u_w_per_m2k, {}, builder);
  if (rule->scope == LimitScope::envelope) {
    return without_verdict(u_w_per_m2k,
                           "the rule puts its limit of " + fixed_text(rule->value, 2) +
                               " W/(m²·K) on the mean of all opaque outer parts, roof and ground floor among them, and "
                               "the export holds the panels alone, whose average is " +
                               fixed_text(u_w_per_m2k, 4) + "; hold the mean of the whole envelope against it",
                           builder);
  }
  return builder.judge(u_w_per_m2k, kWallLimit.unit, Relation::at_most, rule->value,
                       "the average U of " + fixed_text(u_w_per_m2k, 4) + " W/(m²·K) is above the limit of " +
                           fixed_text(rule->value, 2) + "; more insulation or less framing is needed");
}

Finding unless_contradicted(Finding finding, const std::string& why) {
  if (why.empty()) return finding;
  finding.reason += (finding.reason.empty() ? "" : "; ") + why;
  if (finding.verdict != Verdict::pass && finding.verdict != Verdict::information) return finding;
  finding.verdict = Verdict::not_assessed;
  finding.value = {};
  finding.limit = {};
  finding.relation = Relation::none;
  finding.utilisation.reset();
  finding.values.clear();
  return finding;
}

}  // namespace panel_dossier::thermal
