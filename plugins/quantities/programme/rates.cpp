#include "plugins/quantities/programme/rates.h"

#include <cmath>
#include <set>
#include <string_view>

#include "core/api/model/settings_row.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kTable = "quantities.rates";
constexpr std::string_view kPrefix = "quantities.rates.";

bool is_unit(const std::string& unit) {
  return unit == "m3" || unit == "m2" || unit == "m" || unit == "kg" || unit == "piece";
}

}  // namespace

bool rates_given(const Settings& settings) {
  const auto first = settings.all().lower_bound(kPrefix);
  return first != settings.all().end() && first->first.starts_with(kPrefix);
}

std::vector<Rate> read_rates(FindingBuilder& finding, const Settings& settings) {
  std::vector<Rate> rates;
  std::set<std::string> materials;
  for (std::size_t i = 0;; ++i) {
    const std::string row = std::string(kPrefix) + std::to_string(i);
    const auto material = settings.text(row + ".material");
    if (!material) break;
    const auto unit = settings.text(row + ".unit");
    const auto rate = settings.number(row + ".rate");
    const auto currency = settings.text(row + ".currency");
    const auto source = settings.text(row + ".source");
    if (!unit || !is_unit(unit->value) || !rate || !std::isfinite(rate->value) || rate->value < 0.0 || !currency ||
        currency->value.empty() || !source) {
      finding.missing("setting '" + row +
                      "' needs a unit (m3, m2, m, kg or piece), a rate of at least 0, a currency and a source");
      continue;
    }
    if (!materials.insert(material->value).second) {
      finding.missing("setting '" + row + "' names material '" + material->value + "' again; keep one rate");
    }
    const Origin origin = settings_row_origin(settings, kTable, i, "rate");
    rates.push_back({material->value, unit->value, {rate->value, origin}, currency->value, source->value});
  }
  std::set<std::string> currencies;
  for (const Rate& rate : rates) currencies.insert(rate.currency);
  if (currencies.size() > 1) {
    std::string names;
    for (const std::string& currency : currencies) names += (names.empty() ? "" : ", ") + currency;
    finding.missing("settings 'quantities.rates' mix currencies (" + names + "); give all rates in one");
  }
  if (rates.empty() && !finding.incomplete()) {
    finding.missing("settings 'quantities.rates' give no usable rate; number them from 0, each with a material");
  }
  return rates;
}

}  // namespace panel_dossier::quantities
