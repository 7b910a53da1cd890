#include "core/intake/claims/confirmations.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

// Numbers pass through the export's unit and back, which leaves a few units of the last digit.
constexpr double kSameNumber = 1e-9;

bool same_number(double a, double b) {
  return std::abs(a - b) <= kSameNumber * std::max(std::abs(a), std::abs(b));
}

std::string text_of(const Settings& settings, const std::string& key) {
  const auto text = settings.text(key);
  return text ? text->value : std::string();
}

}  // namespace

Confirmations::Confirmations(const Settings& settings) {
  for (std::size_t i = 0;; ++i) {
    const std::string key = "confirmed_values." + std::to_string(i);
    const std::string name = text_of(settings, key + ".name");
    if (name.empty()) return;
    const auto value = settings.number(key + ".value");
    const std::string reason = text_of(settings, key + ".reason");
    if (!value || reason.empty()) continue;
    entries_.push_back(
        {key, name, text_of(settings, key + ".of"), value->value, reason, text_of(settings, key + ".by"), false, {}});
  }
}

bool Confirmations::confirm(std::string_view name, std::string_view of, double value, std::string_view although) {
  bool confirmed = false;
  for (Entry& entry : entries_) {
    if (entry.name != name || (!entry.of.empty() && entry.of != of) || !same_number(entry.value, value)) continue;
    entry.used = true;
    if (!although.empty()) entry.although = although;
    confirmed = true;
  }
  return confirmed;
}

std::vector<std::string> Confirmations::used() const {
  std::vector<std::string> texts;
  for (const Entry& entry : entries_) {
    if (!entry.used) continue;
    std::string text = entry.name;
    if (!entry.of.empty()) text.append(" of ").append(entry.of);
    text.append(": ").append(shortest_text(entry.value));
    if (!entry.although.empty()) text.append(", although ").append(entry.although);
    text.append(", confirmed by ");
    text.append(entry.by.empty() ? "nobody named" : entry.by).append(": ").append(entry.reason);
    texts.push_back(std::move(text));
  }
  return texts;
}

Diagnostics Confirmations::unused(const std::string& settings_file) const {
  Diagnostics diagnostics;
  for (const Entry& entry : entries_) {
    if (entry.used) continue;
    diagnostics.push_back({Severity::warning,
                           settings_file,
                           0,
                           0,
                           entry.key,
                           {},
                           "confirms a value of '" + entry.name + "' that is not there",
                           "correct name, place and value, in SI units, or remove the entry"});
  }
  return diagnostics;
}

}  // namespace panel_dossier
