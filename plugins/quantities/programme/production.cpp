#include "plugins/quantities/programme/production.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::quantities {

namespace {

bool is_number(const std::string& text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::optional<int> erection_order(const Panel& panel) {
  const auto order = panel.properties.number("Panel_Identity", "ErectionOrder");
  if (!order || !(order->value >= 1.0) || order->value > 1.0e9) return std::nullopt;
  return static_cast<int>(std::lround(order->value));
}

std::string batch_of(const Panel& panel, const Settings& settings) {
  const auto stated = panel.properties.text("Panel_Identity", "Batch");
  if (stated && !stated->value.empty()) return stated->value;
  const auto order = erection_order(panel);
  const auto size = settings.number("quantities.panels_per_batch");
  if (!order || !size || !(size->value >= 1.0) || size->value > 1.0e9) return {};
  return std::to_string(1 + (*order - 1) / static_cast<int>(size->value));
}

bool batch_before(const std::string& a, const std::string& b) {
  if (is_number(a) != is_number(b)) return is_number(a);
  if (is_number(a) && a.size() != b.size()) return a.size() < b.size();
  return a < b;
}

}  // namespace panel_dossier::quantities
