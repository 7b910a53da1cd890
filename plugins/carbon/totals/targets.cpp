#include "plugins/carbon/totals/targets.h"

#include <cmath>
#include <optional>
#include <utility>

#include "core/api/model/settings_row.h"
#include "core/api/support/iso_date.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kTable = "carbon.targets";

struct ModulesWord {
  std::string_view written;
  TargetModules modules;
  std::string_view printed;
};

constexpr std::array<ModulesWord, 3> kWords{{{"A1-A3", TargetModules::a1_a3, "A1–A3 less biogenic"},
                                             {"A1-A5", TargetModules::a1_a5, "A1–A5 less biogenic"},
                                             {"A-C", TargetModules::a_c, "A–C, GWP-total"}}};

std::optional<TargetModules> modules_of(const std::optional<Sourced<std::string>>& written) {
  for (const ModulesWord& word : kWords) {
    if (written && written->value == word.written) return word.modules;
  }
  return std::nullopt;
}

std::string text_of(const Settings& settings, const std::string& key) {
  const auto text = settings.text(key);
  return text ? text->value : std::string();
}

bool is_date_or_empty(const std::string& text) {
  return text.empty() || is_iso_date(text);
}

bool has_row(const Settings& settings, const std::string& row) {
  const std::string prefix = row + ".";
  const auto first = settings.all().lower_bound(prefix);
  return first != settings.all().end() && first->first.starts_with(prefix);
}

/// Why the target is not in force on that day; empty when it is.
std::string why_not_in_force(const std::string& from, const std::string& until, const std::string& day) {
  if (!from.empty() && day < from) return "it counts from " + from + " only";
  if (!until.empty() && until < day) return "it ran out on " + until;
  return {};
}

}  // namespace

std::string_view printed(TargetModules modules) {
  return kWords.at(static_cast<std::size_t>(modules)).printed;
}

std::vector<Target> read_targets(const Settings& settings, FindingBuilder& finding) {
  std::vector<Target> targets;
  const std::string day = text_of(settings, "project.assessment_date");
  for (std::size_t i = 0;; ++i) {
    const std::string row = std::string(kTable) + "." + std::to_string(i);
    if (!has_row(settings, row)) break;
    const std::string name = text_of(settings, row + ".name");
    const auto modules = modules_of(settings.text(row + ".modules"));
    const std::string applies_to = text_of(settings, row + ".applies_to");
    const auto limit = settings.number(row + ".limit_kgco2e_per_m2");
    const std::string from = text_of(settings, row + ".valid_from");
    const std::string until = text_of(settings, row + ".valid_until");
    const std::string source = text_of(settings, row + ".source");
    if (name.empty() || !modules || applies_to.empty() || !limit || !std::isfinite(limit->value) ||
        limit->value <= 0.0 || !is_date_or_empty(from) || !is_date_or_empty(until) || source.empty()) {
      finding.missing(
          "setting '" + row +
          "' needs a name, modules (A1-A3, A1-A5 or A-C), applies_to, a limit above 0, dates YYYY-MM-DD where it "
          "has any, and a source");
      continue;
    }
    if (!is_iso_date(day) && !(from.empty() && until.empty())) {
      finding.missing("setting 'project.assessment_date' is missing or not a date YYYY-MM-DD");
      continue;
    }
    const Origin origin = settings_row_origin(settings, kTable, i, "limit_kgco2e_per_m2");
    targets.push_back({name, *modules, applies_to, {limit->value, origin}, source, why_not_in_force(from, until, day)});
  }
  return targets;
}

}  // namespace panel_dossier::carbon
