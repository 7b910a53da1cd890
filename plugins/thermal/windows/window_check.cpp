#include "plugins/thermal/windows/window_check.h"

#include <algorithm>
#include <utility>

#include "core/api/support/fixed_text.h"
#include "plugins/thermal/transmittance/u_value_limit.h"
#include "plugins/thermal/windows/window_transmittance.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kWindowSet = "Panel_Window";

bool has_window_values(const Opening& opening) {
  const auto has = [&](const char* name) { return opening.filling_properties.find(kWindowSet, name) != nullptr; };
  return has("GlassTransmittance") || has("FrameTransmittance") || has("EdgeTransmittance") || has("FrameWidth");
}

std::optional<double> calculated_transmittance(const Opening& opening, FindingBuilder& builder) {
  const std::string label = "'" + filling_label(opening) + "'";
  const auto read = [&](const char* name, const char* words, const char* symbol, const char* unit) {
    return builder.positive(std::string(words) + " of " + label, symbol, unit,
                            opening.filling_properties.number(kWindowSet, name),
                            label + " has no " + kWindowSet + "." + name);
  };
  const auto glass = read("GlassTransmittance", "U-value of the glazing", "U_g", "W/(m²·K)");
  const auto frame = read("FrameTransmittance", "U-value of the frame", "U_f", "W/(m²·K)");
  const auto edge = builder.number("linear transmittance of the glazing edge of " + label, "Ψ_g", "W/(m·K)",
                                   opening.filling_properties.number(kWindowSet, "EdgeTransmittance"),
                                   label + " has no Panel_Window.EdgeTransmittance");
  const auto frame_width = read("FrameWidth", "visible width of the frame", "b_f", "m");
  if (edge && *edge < 0.0) builder.missing("Panel_Window.EdgeTransmittance of " + label + " must not be below 0");
  if (!glass || !frame || !edge || !frame_width || *edge < 0.0) return std::nullopt;
  if (2.0 * *frame_width >= std::min(opening.width_m(), opening.height_m())) {
    builder.missing("Panel_Window.FrameWidth of " + label + " leaves no glazing");
    return std::nullopt;
  }
  WindowParts parts = single_pane_window(opening.width_m(), opening.height_m(), *frame_width);
  parts.glass_u_w_per_m2k = *glass;
  parts.frame_u_w_per_m2k = *frame;
  parts.edge_psi_w_per_mk = *edge;
  const double u = window_transmittance(parts);
  builder.step("area of the glazing of " + label, "A_g", parts.glass_area_m2, "m²", "(b − 2 b_f) · (h − 2 b_f)");
  builder.step("area of the frame of " + label, "A_f", parts.frame_area_m2, "m²", "b · h − A_g");
  builder.step("length of the glazing edge of " + label, "l_g", parts.edge_length_m, "m");
  builder.step("U-value of " + label + " (EN ISO 10077-1:2017)", "U_w", u, "W/(m²·K)",
               "(A_g · U_g + A_f · U_f + l_g · Ψ_g) / (A_g + A_f)");
  return u;
}

/// Windows or doors, and the limit that they have.
struct FillingKind {
  const char* entity;
  const char* noun;
  LimitKind limit;
  const DataTable& limits;
};

/// The highest U-value of the fillings of one kind against their limit; the panel has at least one.
Finding judge_fillings(const Panel& panel, const FillingKind& kind, const Settings& settings, FindingBuilder& builder) {
  double highest = 0.0;
  const std::string noun(kind.noun);
  Table table{"U-values", {{noun, ""}, {"width", "m"}, {"height", "m"}, {"U", "W/(m²·K)"}}, {}};
  double count = 0.0;
  for (const Opening& opening : panel.openings) {
    if (opening.filling_entity != kind.entity) continue;
    count += 1.0;
    const auto u = filling_transmittance(opening, builder);
    if (!u) continue;
    highest = std::max(highest, *u);
    table.rows.push_back({filling_label(opening), opening.width_m(), opening.height_m(), *u});
  }
  builder.number(noun + "s in the panel", "n", "", Sourced<double>{count, panel.origin}, {});
  if (builder.incomplete()) return builder.not_assessed();
  builder.step("highest U-value", "U_max", highest, "W/(m²·K)");
  builder.table(std::move(table));
  const auto limit = find_limit(kind.limits, kind.limit, settings, builder);
  if (!limit) return builder.not_assessed();
  return builder.judge(highest, "W/(m²·K)", Relation::at_most, *limit,
                       "U of " + fixed_text(highest, 3) + " W/(m²·K) is above the limit of " + fixed_text(*limit, 2) +
                           "; a better " + noun + " is needed");
}

}  // namespace

std::string filling_label(const Opening& opening) {
  return opening.filling_name.empty() ? opening.name : opening.filling_name;
}

bool has_filling(const Panel& panel, std::string_view entity) {
  return std::any_of(panel.openings.begin(), panel.openings.end(),
                     [&](const Opening& opening) { return opening.filling_entity == entity; });
}

std::optional<double> filling_transmittance(const Opening& opening, FindingBuilder& builder) {
  const std::string label = "'" + filling_label(opening) + "'";
  if (opening.filling_entity.empty()) {
    builder.missing("opening " + label + " has neither a window nor a door");
    return std::nullopt;
  }
  const bool is_door = opening.filling_entity == "IfcDoor";
  if (!is_door && has_window_values(opening)) return calculated_transmittance(opening, builder);
  const std::string set = is_door ? "Pset_DoorCommon" : "Pset_WindowCommon";
  return builder.positive("declared U-value of " + label, is_door ? "U_D" : "U_w", "W/(m²·K)",
                          opening.filling_properties.number(set, "ThermalTransmittance"),
                          label + " has no " + set + ".ThermalTransmittance");
}

Finding check_windows(const Panel& panel, const Settings& settings, const Tables& tables) {
  FindingBuilder builder("thermal.window_u_value", "Highest U-value of the windows of the panel", panel.global_id,
                         "EN ISO 10077-1:2017, 6.4.1");
  builder.note(
      "Areas are those of the opening; a window without values for glazing, frame and edge counts with its declared "
      "U-value.");
  if (!has_filling(panel, "IfcWindow")) {
    builder.number("windows in the panel", "n", "", Sourced<double>{0.0, panel.origin}, {});
    builder.step_text("windows", "none");
    return builder.inform_text("no window");
  }
  return judge_fillings(panel, {"IfcWindow", "window", kWindowLimit, tables.window_limits}, settings, builder);
}

Finding check_doors(const Panel& panel, const Settings& settings, const Tables& tables) {
  FindingBuilder builder("thermal.door_u_value", "Highest U-value of the doors of the panel", panel.global_id,
                         "EN 14351-1:2006+A2:2016, 4.12");
  builder.basis(Basis::declared);
  builder.note("The declared U-value of the door with its frame; its declaration of performance is to be kept.");
  return judge_fillings(panel, {"IfcDoor", "door", kDoorLimit, tables.door_limits}, settings, builder);
}

}  // namespace panel_dossier::thermal
