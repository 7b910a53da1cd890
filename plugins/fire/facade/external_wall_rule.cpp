#include "plugins/fire/facade/external_wall_rule.h"

#include "plugins/fire/facade/reaction_class.h"

namespace panel_dossier::fire {

namespace {

/// The one that asks more; `none` asks nothing.
std::string stricter(const std::string& a, const std::string& b) {
  const auto class_a = parse_reaction_class(a);
  const auto class_b = parse_reaction_class(b);
  if (!class_a || !class_b) return class_a ? a : b;
  return class_a->meets(*class_b) ? a : b;
}

std::string cell(const DataTable& table, const std::string& key, const char* column) {
  const auto text = table.text(key, column);
  return text ? text->value : std::string();
}

}  // namespace

std::optional<ExternalWallRule> find_external_wall_rule(const Tables& tables, const std::string& jurisdiction,
                                                        const std::string& group, double top_storey_m,
                                                        std::optional<double> panel_top_m) {
  const DataTable& table = tables.external_walls;
  for (const std::string& key : table.keys()) {
    const auto from_m = table.number(key, "from_height_m");
    const auto below_m = table.number(key, "below_height_m");
    const auto zone_m = table.number(key, "zone_height_m");
    const auto scope = table.text(key, "scope");
    if (!from_m || !below_m || !zone_m || !scope) continue;
    if (cell(table, key, "jurisdiction") != jurisdiction || cell(table, key, "group") != group) continue;
    if (top_storey_m < from_m->value || top_storey_m >= below_m->value) continue;
    const std::string lower = cell(table, key, "far_lower");
    const std::string upper = cell(table, key, "far_upper");
    const std::string far = !panel_top_m ? stricter(lower, upper) : *panel_top_m > zone_m->value ? upper : lower;
    return ExternalWallRule{
        scope->value, cell(table, key, "near"), far, cell(table, key, "insulation"), cell(table, key, "membranes"),
        scope->origin};
  }
  return std::nullopt;
}

}  // namespace panel_dossier::fire
