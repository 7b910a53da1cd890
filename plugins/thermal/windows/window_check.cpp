#include "plugins/thermal/windows/window_check.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"
#include "plugins/thermal/project_limits.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kWindowSet = "Panel_Window";
constexpr const char* kWindowUnit = "W/(m²·K)";
constexpr const char* kDoorEntity = "IfcDoor";
// Of all windows, or all doors, of a panel: named values of its finding.
constexpr const char* kArea = "area";
constexpr const char* kHeat = "heat";

/// The declared U-value that the export gives, by the kind of filling.
std::string declared_set(const Opening& opening) {
  return opening.filling_entity == kDoorEntity ? "Pset_DoorCommon" : "Pset_WindowCommon";
}

/// Sizes at which U is declared (EN 14351-1:2006+A2:2016, 4.12, from memory), m.
struct TestSize {
  double width_m;
  double height_m;
};
constexpr TestSize kWindowSizes[] = {{1.23, 1.48}, {1.48, 2.18}};
constexpr TestSize kDoorSizes[] = {{1.23, 2.18}, {2.00, 2.18}};

/// Notes in `builder` where a declared value lies outside of what frame, glazing and edge give in the size of the
/// opening and the sizes of the declaration.
void compare_with_declared(const Opening& opening, double frame_width_m, const WindowParts& own,
                           FindingBuilder& builder) {
  // Declared to two digits, and the frame of the declaration may have another gasket or sash (common practice).
  constexpr double kTolerance_w_per_m2k = 0.1;
  const std::string set = declared_set(opening);
  const auto declared = opening.filling_properties.number(set, "ThermalTransmittance");
  if (!declared) return;
  double least = window_transmittance(own);
  double greatest = least;
  for (const TestSize& size : opening.filling_entity == kDoorEntity ? kDoorSizes : kWindowSizes) {
    if (2.0 * frame_width_m >= size.width_m) continue;
    WindowParts parts = single_pane_window(size.width_m, size.height_m, frame_width_m);
    parts.glass_u_w_per_m2k = own.glass_u_w_per_m2k;
    parts.frame_u_w_per_m2k = own.frame_u_w_per_m2k;
    parts.edge_psi_w_per_mk = own.edge_psi_w_per_mk;
    least = std::min(least, window_transmittance(parts));
    greatest = std::max(greatest, window_transmittance(parts));
  }
  if (declared->value >= least - kTolerance_w_per_m2k && declared->value <= greatest + kTolerance_w_per_m2k) return;
  const auto glass = opening.filling_properties.number(kWindowSet, "GlassTransmittance");
  builder.missing("the declared U-value of '" + filling_label(opening) + "' of " + fixed_text(declared->value, 2) +
                  " W/(m²·K) (" + describe(declared->origin) + ") and the " + fixed_text(least, 2) + " to " +
                  fixed_text(greatest, 2) + " worked out from its " + kWindowSet + " values (" +
                  describe(glass ? glass->origin : opening.origin) +
                  ") in its own and the declaration's sizes differ by more than 0.1: one of them is wrong");
}

bool has_window_values(const Opening& opening) {
  const auto has = [&](const char* name) { return opening.filling_properties.find(kWindowSet, name) != nullptr; };
  return has("GlassTransmittance") || has("FrameTransmittance") || has("EdgeTransmittance") || has("FrameWidth");
}

std::optional<FillingTransmittance> calculated_transmittance(const Panel& panel, std::size_t index,
                                                             FindingBuilder& builder) {
  const Opening& opening = panel.openings[index];
  const std::string label = "'" + filling_label(opening) + "'";
  const auto symbol = [&](const char* of_one) { return numbered_symbol(of_one, index, panel.openings.size()); };
  const auto read = [&](const char* name, const char* words, const char* of_one, const char* unit) {
    return builder.positive(std::string(words) + " of " + label, symbol(of_one), unit,
                            opening.filling_properties.number(kWindowSet, name),
                            label + " has no " + kWindowSet + "." + name);
  };
  const auto glass = read("GlassTransmittance", "U-value of the glazing", "U_g", "W/(m²·K)");
  const auto frame = read("FrameTransmittance", "U-value of the frame", "U_f", "W/(m²·K)");
  const auto edge = builder.number("linear transmittance of the glazing edge of " + label, symbol("Ψ_g"), "W/(m·K)",
                                   opening.filling_properties.number(kWindowSet, "EdgeTransmittance"),
                                   label + " has no Panel_Window.EdgeTransmittance");
  const auto frame_width = read("FrameWidth", "visible width of the frame", "b_f", "m");
  if (edge && *edge < 0.0) builder.missing("Panel_Window.EdgeTransmittance of " + label + " must not be below 0");
  if (!glass || !frame || !edge || !frame_width || *edge < 0.0) return std::nullopt;
  if (2.0 * *frame_width >= std::min(opening.width_m(), opening.height_m())) {
    builder.missing("Panel_Window.FrameWidth of " + label + " leaves no glazing");
    return std::nullopt;
  }
  const std::string frame_symbol = symbol("b_f");
  const std::string result_symbol = symbol(opening.filling_entity == kDoorEntity ? "U_D" : "U_w");
  const std::string width = symbol("b_w");
  const std::string height = symbol("h_w");
  builder.positive("width of the opening of " + label, width, "m", Sourced<double>{opening.width_m(), opening.origin},
                   {});
  builder.positive("height of the opening of " + label, height, "m",
                   Sourced<double>{opening.height_m(), opening.origin}, {});
  WindowParts parts = single_pane_window(opening.width_m(), opening.height_m(), *frame_width);
  parts.glass_u_w_per_m2k = *glass;
  parts.frame_u_w_per_m2k = *frame;
  parts.edge_psi_w_per_mk = *edge;
  const double u = window_transmittance(parts);
  compare_with_declared(opening, *frame_width, parts, builder);
  const std::string glass_width = "(" + width + " − 2 · " + frame_symbol + ")";
  const std::string glass_height = "(" + height + " − 2 · " + frame_symbol + ")";
  builder.step("area of the glazing of " + label, symbol("A_g"), parts.glass_area_m2, "m²",
               symbol("A_g") + " = " + glass_width + " · " + glass_height);
  builder.step("area of the frame of " + label, symbol("A_f"), parts.frame_area_m2, "m²",
               symbol("A_f") + " = " + width + " · " + height + " − " + symbol("A_g"));
  builder.step("length of the glazing edge of " + label, symbol("l_g"), parts.edge_length_m, "m",
               symbol("l_g") + " = 2 · (" + glass_width + " + " + glass_height + ")");
  builder.step("U-value of " + label + " (EN ISO 10077-1:2017)", result_symbol, u, kWindowUnit,
               result_symbol + " = (" + symbol("A_g") + " · " + symbol("U_g") + " + " + symbol("A_f") + " · " +
                   symbol("U_f") + " + " + symbol("l_g") + " · " + symbol("Ψ_g") + ") / (" + symbol("A_g") + " + " +
                   symbol("A_f") + ")");
  return FillingTransmittance{u, result_symbol};
}

/// Windows or doors, and the limit that they have.
struct FillingKind {
  const char* entity;
  const char* noun;
  LimitKind limit;
  const DataTable& limits;
};

bool has_filling(const Panel& panel, std::string_view entity) {
  return std::any_of(panel.openings.begin(), panel.openings.end(),
                     [&](const Opening& opening) { return opening.filling_entity == entity; });
}

/// The highest U-value of the fillings of one kind against their limit; the panel has at least one.
Finding judge_fillings(const Panel& panel, const FillingKind& kind, const Settings& settings, FindingBuilder& builder) {
  double highest = 0.0;
  const std::string noun(kind.noun);
  Table table{"U-values", {{noun, ""}, {"width", "m"}, {"height", "m"}, {"U", "W/(m²·K)"}}, {}};
  double count = 0.0;
  double area = 0.0;
  double heat = 0.0;
  for (std::size_t i = 0; i < panel.openings.size(); ++i) {
    const Opening& opening = panel.openings[i];
    if (opening.filling_entity != kind.entity) continue;
    count += 1.0;
    const auto u = filling_transmittance(panel, i, builder);
    if (!u) continue;
    highest = std::max(highest, u->value_w_per_m2k);
    area += opening.area_m2();
    heat += u->value_w_per_m2k * opening.area_m2();
    table.rows.push_back({filling_label(opening), opening.width_m(), opening.height_m(), u->value_w_per_m2k});
  }
  builder.number(noun + "s in the panel", "n", "", Sourced<double>{count, panel.origin}, {});
  if (builder.incomplete()) return builder.not_assessed();
  builder.step("highest U-value", "U_max", highest, kWindowUnit, "U_max = max(U)");
  builder.table(std::move(table));
  builder.value(kArea, area, "m²");
  builder.value(kHeat, heat, "W/K");
  const auto rule = find_rule(kind.limits, kind.limit, settings, builder);
  if (!rule || builder.incomplete()) return builder.not_assessed();
  const bool of_each = rule->scope == LimitScope::element;
  const std::optional<double> limit = of_each ? rule->value : rule->single;
  if (!of_each) {
    builder.note("The rule puts its limit of " + fixed_text(rule->value, 2) +
                 " W/(m²·K) on an average, which stands under thermal.window_u_value of the whole project" +
                 (limit ? "; of a single " + noun + " it asks " + fixed_text(*limit, 2) + " W/(m²·K)."
                        : "; the table has no limit on a single " + noun + "."));
  }
  if (!limit) return builder.inform(highest, kWindowUnit);
  return builder.judge(highest, kWindowUnit, Relation::at_most, *limit,
                       "U of " + fixed_text(highest, 3) + " W/(m²·K) is above the limit of " + fixed_text(*limit, 2) +
                           (of_each ? "; a better " : " on a single one; a better ") + noun + " is needed");
}

/// Area and heat of all fillings of one kind in the project.
struct FillingSum {
  std::size_t panels = 0;
  ExactSum area_m2;
  ExactSum heat_w_per_k;

  void add(const std::vector<PanelFindings>& all, const CheckDeclaration& check, FindingBuilder& builder) {
    std::string without;
    for (const PanelFindings& panel : all) {
      for (const Finding& finding : panel.findings) {
        if (finding.check != check.id) continue;
        ++panels;
        const auto area = find_value(finding, kArea, "m²");
        const auto heat = find_value(finding, kHeat, "W/K");
        if (!area || !heat) {
          without += (without.empty() ? "" : ", ") + panel.panel->mark;
          continue;
        }
        area_m2.add(*area);
        heat_w_per_k.add(*heat);
      }
    }
    if (!without.empty()) builder.missing(check.id + " has no value for: " + without);
  }
};

}  // namespace

WindowParts single_pane_window(double width_m, double height_m, double frame_width_m) {
  const double glass_width_m = width_m - 2.0 * frame_width_m;
  const double glass_height_m = height_m - 2.0 * frame_width_m;
  WindowParts parts;
  parts.glass_area_m2 = glass_width_m * glass_height_m;
  parts.frame_area_m2 = width_m * height_m - parts.glass_area_m2;
  parts.edge_length_m = 2.0 * (glass_width_m + glass_height_m);
  return parts;
}

double window_transmittance(const WindowParts& parts) {
  const double heat_flow_w_per_k = parts.glass_area_m2 * parts.glass_u_w_per_m2k +
                                   parts.frame_area_m2 * parts.frame_u_w_per_m2k +
                                   parts.edge_length_m * parts.edge_psi_w_per_mk;
  return heat_flow_w_per_k / parts.area_m2();
}

std::string filling_label(const Opening& opening) {
  return opening.filling_name.empty() ? opening.name : opening.filling_name;
}

std::optional<FillingTransmittance> filling_transmittance(const Panel& panel, std::size_t index,
                                                          FindingBuilder& builder) {
  const Opening& opening = panel.openings[index];
  const std::string label = "'" + filling_label(opening) + "'";
  if (opening.filling_entity.empty()) {
    builder.missing("opening " + label + " has neither a window nor a door");
    return std::nullopt;
  }
  const bool is_door = opening.filling_entity == kDoorEntity;
  if (has_window_values(opening)) return calculated_transmittance(panel, index, builder);
  const std::string set = declared_set(opening);
  std::string symbol = numbered_symbol(is_door ? "U_D" : "U_w", index, panel.openings.size());
  const auto declared = builder.positive("declared U-value of " + label, symbol, kWindowUnit,
                                         opening.filling_properties.number(set, "ThermalTransmittance"),
                                         label + " has no " + set + ".ThermalTransmittance");
  if (!declared) return std::nullopt;
  return FillingTransmittance{*declared, std::move(symbol)};
}

const CheckDeclaration kWindowUValueCheck{
    .id = "thermal.window_u_value",
    .title = "Highest U-value of the windows of the panel",
    .project_title = "Average U-value of the windows and doors of all panels",
    .sentence =
        "The highest U_w of the panel's windows, calculated from glazing, frame and edge and borne out by the declared "
        "value, or else declared, is at most what the rule of the jurisdiction asks of a single window on the day of "
        "assessment; where the rule limits the average, that of all windows and doors, weighted by area, keeps it.",
    .clause = "EN ISO 10077-1:2017, 6.4.1",
    .units = {kWindowUnit},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels_and_project,
    .inputs = {optional_property("Panel_Window.GlassTransmittance"),
               optional_property("Panel_Window.FrameTransmittance"),
               optional_property("Panel_Window.EdgeTransmittance"), optional_property("Panel_Window.FrameWidth"),
               optional_property("Pset_WindowCommon.ThermalTransmittance"),
               optional_property("Pset_DoorCommon.ThermalTransmittance"), setting("project.jurisdiction"),
               setting("project.use"), setting("project.assessment_date"), data_table("window_limits.csv")},
    .limits = {
        "A window counts as one pane with a frame of one width all round and of the size of its opening; "
        "mullions and glazing bars are not seen.",
        "Rooflights and what is glazed outside of the panels belong in the average of some rules and are not seen.",
        "A declared U-value by itself is not checked against the window's size."}};

const CheckDeclaration kDoorUValueCheck{
    .id = "thermal.door_u_value",
    .title = "Highest U-value of the doors of the panel",
    .sentence =
        "The highest U_D of the panel's doors, declared or calculated from glazing, frame and edge and then borne out "
        "by the declared value, is at most what the rule of the jurisdiction asks of a single door on the day of "
        "assessment.",
    .clause = "EN 14351-1:2006+A2:2016, 4.12",
    .units = {kWindowUnit},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = {optional_property("Pset_DoorCommon.ThermalTransmittance"),
               optional_property("Panel_Window.GlassTransmittance"),
               optional_property("Panel_Window.FrameTransmittance"),
               optional_property("Panel_Window.EdgeTransmittance"), optional_property("Panel_Window.FrameWidth"),
               setting("project.jurisdiction"), setting("project.use"), setting("project.assessment_date"),
               data_table("door_limits.csv")},
    .limits = {"The declared value is taken as it is; the declaration of performance is not read.",
               "Where the rule limits the average, doors count with the windows under thermal.window_u_value of the "
               "project."}};

CheckOutcome check_windows(const Panel& panel, const Settings& settings, const Tables& tables) {
  if (!has_filling(panel, "IfcWindow")) return {{}, {{kWindowUValueCheck.id, "the panel has no window"}}};
  FindingBuilder builder(kWindowUValueCheck, panel.global_id);
  builder.note(
      "Areas are those of the opening; a window without values for glazing, frame and edge counts with its declared "
      "U-value.");
  return {{judge_fillings(panel, {"IfcWindow", "window", kWindowLimit, tables.window_limits}, settings, builder)}};
}

CheckOutcome check_doors(const Panel& panel, const Settings& settings, const Tables& tables) {
  if (!has_filling(panel, kDoorEntity)) return {{}, {{kDoorUValueCheck.id, "the panel has no door"}}};
  FindingBuilder builder(kDoorUValueCheck, panel.global_id);
  const bool calculated = std::any_of(panel.openings.begin(), panel.openings.end(), [](const Opening& opening) {
    return opening.filling_entity == kDoorEntity && has_window_values(opening);
  });
  if (!calculated) builder.basis(Basis::declared);
  builder.note("The declared U-value of the door with its frame; its declaration of performance is to be kept.");
  return {{judge_fillings(panel, {kDoorEntity, "door", kDoorLimit, tables.door_limits}, settings, builder)}};
}

CheckOutcome average_fillings(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kWindowUValueCheck, "");
  FillingSum sum;
  sum.add(panels, kWindowUValueCheck, builder);
  sum.add(panels, kDoorUValueCheck, builder);
  if (sum.panels == 0) return {{}, {{kWindowUValueCheck.id, "no panel has a window or door"}}};
  builder.number("panels with windows, and panels with doors", "n", "",
                 Sourced<double>{static_cast<double>(sum.panels), project.origin}, {});
  const auto rule = find_rule(tables.window_limits, kWindowLimit, settings, builder);
  if (builder.incomplete() || !rule) return {{builder.not_assessed()}};
  builder.step("area of their windows and doors", "A_w", sum.area_m2.total(), "m²");
  builder.step("U times area of each, added up", "H_w", sum.heat_w_per_k.total(), "W/K");
  const double average = sum.heat_w_per_k.total() / sum.area_m2.total();
  builder.step("average", "U_m", average, kWindowUnit, "U_m = H_w / A_w");
  builder.note("Rooflights and what is glazed outside of the panels are not seen.");
  switch (rule->scope) {
    case LimitScope::element:
      builder.note("The rule limits each window and each door, not their average.");
      return {{builder.inform(average, kWindowUnit)}};
    case LimitScope::envelope:
      return {{builder.not_assessed("the rule puts its limit of " + fixed_text(rule->value, 2) +
                                    " W/(m²·K) on the mean of all transparent outer parts, of which the export holds "
                                    "the windows and doors of the panels alone; their average is " +
                                    fixed_text(average, 3))}};
    case LimitScope::average: break;
  }
  return {{builder.judge(average, kWindowUnit, Relation::at_most, rule->value,
                         "the average U of " + fixed_text(average, 3) + " W/(m²·K) is above the limit of " +
                             fixed_text(rule->value, 2) + "; better windows or doors are needed")}};
}

}  // namespace panel_dossier::thermal
