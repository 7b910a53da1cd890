#include "core/intake/settings/intake_settings.h"

namespace panel_dossier {

std::optional<LayerOrder> layer_order_setting(const Settings& settings, Diagnostics& diagnostics) {
  constexpr const char* kKey = "intake.layer_order";
  const auto order = settings.text(kKey);
  if (order && order->value == "inside_to_outside") return LayerOrder::inside_to_outside;
  if (order && order->value == "outside_to_inside") return LayerOrder::outside_to_inside;
  if (settings.all().contains(kKey)) {
    Diagnostic diagnostic;
    diagnostic.file = "settings";
    diagnostic.entity = kKey;
    diagnostic.message = "the order of layers is not one of the known two";
    diagnostic.advice = "write 'inside_to_outside' or 'outside_to_inside', or leave the key out";
    diagnostics.push_back(diagnostic);
  }
  return std::nullopt;
}

}  // namespace panel_dossier
