#include "plugins/fire/facade/external_wall_check.h"

#include <algorithm>
#include <iterator>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/fire/evidence/documents.h"
#include "plugins/fire/facade/heights_and_boundary.h"
#include "plugins/fire/facade/reaction_class.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kNotTheWholeWall =
    "Large-scale tests of whole wall systems, cavity barriers and other rules on external walls are not judged.";

std::vector<CheckInput> external_wall_inputs() {
  std::vector<CheckInput> inputs{data_table("external_walls.csv"),
                                 data_table("uses.csv"),
                                 optional_property("Panel_Construction.OuterLeafReactionToFire"),
                                 property("Panel_Fire.ReactionToFire"),
                                 optional_property("Panel_FireRequirement.BoundaryDistance"),
                                 optional_property("Panel_FireRequirement.ReactionToFire"),
                                 property("Pset_WallCommon.IsExternal"),
                                 optional_property("Panel_Identity.Arrangement"),
                                 optional_property("Panel_Structure.DesignWindPressure"),
                                 optional_property("Pset_DoorCommon.IsExternal"),
                                 optional_property("Pset_WindowCommon.IsExternal"),
                                 optional_setting("building.boundary_distance_m"),
                                 optional_setting("building.ground_level_m"),
                                 optional_setting("building.top_storey_height_m"),
                                 optional_setting("fire.external_wall_class"),
                                 setting("project.jurisdiction"),
                                 setting("project.use")};
  for (CheckInput& input : class_document_inputs()) inputs.push_back(std::move(input));
  return inputs;
}

}  // namespace

const CheckDeclaration kExternalWallMaterialCheck{
    .id = "fire.external_wall_material",
    .title = "Materials of the external wall",
    .project_title = "",
    .sentence =
        "The materials that the rule of the jurisdiction covers at this use, height and distance to the boundary are "
        "of "
        "the class that it asks for, and a document that serves stands behind their classes.",
    .clause = "national rules on external walls; see the table row among the inputs",
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::classification,
    .scope = CheckScope::panels,
    .inputs = with_model(external_wall_inputs()),
    .limits =
        {kNotTheWholeWall, "An outer leaf by others counts with the class that the export states for it, if any.",
         "Small items such as seals, fixings and thermal breaks, which rules often leave out, are not told apart."},
    .role = ""};

namespace {

constexpr double kNear_m = 1.0;  ///< rules are stricter nearer than this to the relevant boundary

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
                                                        std::optional<std::pair<double, double>> foot_and_top_m) {
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
    const bool stands_below = !foot_and_top_m || foot_and_top_m->first < zone_m->value;
    const bool stands_above = !foot_and_top_m || foot_and_top_m->second > zone_m->value;
    const std::string far = stands_below && stands_above ? stricter(lower, upper) : stands_above ? upper : lower;
    return ExternalWallRule{
        scope->value, cell(table, key, "near"), far, cell(table, key, "insulation"), cell(table, key, "membranes"),
        scope->origin};
  }
  return std::nullopt;
}

namespace {

/// The leaf fixed over the panel on site, as a layer; none when the export does not give its class.
std::optional<LayerClass> outer_leaf(const Panel& panel) {
  const auto stated = panel.properties.text("Panel_Construction", "OuterLeafReactionToFire");
  if (!stated) return std::nullopt;
  LayerClass leaf;
  leaf.name = "outer leaf fixed on site";
  leaf.material_name = leaf.name;
  leaf.stated = stated;
  leaf.parsed = parse_reaction_class(stated->value);
  return leaf;
}

/// All layers and framing; membranes are judged apart.
std::vector<LayerClass> all_materials(const Panel& panel, const Project& project,
                                      const std::vector<LayerClass>& layers) {
  std::vector<LayerClass> result = layers;
  for (const Part& part : panel.parts) {
    if (!part.material || !is_framing(part.kind)) continue;
    const bool known = std::any_of(result.begin(), result.end(),
                                   [&](const LayerClass& layer) { return layer.material == part.material; });
    if (!known) result.push_back(class_of(project, *part.material, part.name));
  }
  return result;
}

/// Materials that the rule judges for the class of the wall; notes a missing outer leaf.
std::vector<LayerClass> covered(FindingBuilder& builder, const Panel& panel, const Project& project,
                                const std::vector<LayerClass>& layers, bool all) {
  std::vector<LayerClass> result;
  if (all) {
    const auto materials = all_materials(panel, project, layers);
    std::copy_if(materials.begin(), materials.end(), std::back_inserter(result),
                 [](const LayerClass& layer) { return !layer.membrane; });
  }
  if (auto leaf = outer_leaf(panel)) {
    result.push_back(std::move(*leaf));
  } else if (layers.back().membrane) {
    builder.missing("the outermost layer is the membrane '" + layers.back().name +
                    "': class of the outer leaf over it (Panel_Construction.OuterLeafReactionToFire)");
  } else if (!all) {
    result.push_back(layers.back());
  }
  return result;
}

/// Materials that fall short of `required`; `none` asks nothing.
std::vector<std::string> falling_short(const std::vector<LayerClass>& materials, const std::string& required) {
  std::vector<std::string> result;
  const auto asked = parse_reaction_class(required);
  if (!asked) return result;
  for (const LayerClass& layer : materials) {
    if (!layer.parsed->meets(*asked)) result.push_back("'" + layer.name + "' (" + layer.parsed->text() + ")");
  }
  return result;
}

/// With what it is the class of: the leaf by others may be A1 over a wall of class D.
std::string worst_class(const std::vector<LayerClass>& materials) {
  const auto worst = std::max_element(materials.begin(), materials.end(), [](const LayerClass& a, const LayerClass& b) {
    return std::tuple(a.parsed->rank, a.parsed->smoke, a.parsed->droplets) <
           std::tuple(b.parsed->rank, b.parsed->smoke, b.parsed->droplets);
  });
  const std::string name = worst->material ? "'" + worst->name + "'" : worst->name + " by others";
  return worst->parsed->text() + " of " + name;
}

std::string failing_reason(const std::vector<std::string>& short_of) {
  std::string text = "not of the class required:";
  for (const std::string& name : short_of) text += " " + name;
  return text;
}

/// Insulation and membranes that fall short of the classes of their own; records their classes.
std::vector<std::string> side_rules(FindingBuilder& builder, const ExternalWallRule& rule,
                                    const std::vector<LayerClass>& layers) {
  std::vector<LayerClass> insulation;
  std::vector<LayerClass> membranes;
  for (const LayerClass& layer : layers) {
    if (layer.insulation) insulation.push_back(layer);
    if (layer.membrane) membranes.push_back(layer);
  }
  std::vector<std::string> short_of;
  for (const auto& [name, asked, group] :
       {std::tuple{"insulation", rule.insulation, insulation}, {"membrane", rule.membranes, membranes}}) {
    if (!parse_reaction_class(asked)) continue;
    builder.step_text(std::string("asked for of each ") + name, asked);
    for (const LayerClass& layer : group) surface(builder, name, layer);
    if (builder.incomplete()) return {};
    for (std::string& what : falling_short(group, asked)) short_of.push_back(std::move(what));
  }
  return short_of;
}

/// Why the classes rest on nothing; empty when documents that serve stand behind them.
std::string without_documents(const Panel& panel, const Project& project, const Settings& settings,
                              const std::vector<LayerClass>& materials) {
  std::vector<std::optional<std::size_t>> judged;
  judged.reserve(materials.size());
  for (const LayerClass& layer : materials) judged.push_back(layer.material);
  return missing_class_documents(panel, project, settings, judged);
}

Finding judge(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
              const ExternalWallRule& rule, const std::vector<LayerClass>& materials,
              std::vector<std::string> short_of) {
  const std::string worst = worst_class(materials);
  const auto boundary_m = boundary_distance_m(panel, settings);
  if (boundary_m && !(boundary_m->value >= 0.0)) {
    builder.missing("the distance to the relevant boundary must not be negative (" + describe(boundary_m->origin) +
                    ")");
    return builder.not_assessed();
  }
  if (boundary_m) builder.number("distance to the relevant boundary", "", "m", boundary_m, {});
  const bool is_near = !boundary_m || boundary_m->value < kNear_m;
  const std::string& asked = is_near ? rule.near : rule.far;
  const auto surface_short = falling_short(materials, asked);
  if (!boundary_m && !surface_short.empty() && rule.near != rule.far) {
    builder.missing("setting building.boundary_distance_m: the class " + rule.near +
                    " asked for within 1 m of the boundary is not met");
    return builder.not_assessed();
  }
  if (!boundary_m && rule.near != rule.far) {
    builder.note("Distance to the boundary is not given; the strictest rule is met.");
  }
  short_of.insert(short_of.begin(), surface_short.begin(), surface_short.end());
  std::string reason = short_of.empty() ? std::string() : failing_reason(short_of);
  Verdict verdict = short_of.empty() ? Verdict::pass : Verdict::fail;
  if (verdict == Verdict::pass) {
    reason = without_documents(panel, project, settings, materials);
    if (!reason.empty()) verdict = Verdict::evidence_needed;
  }
  if (asked == "none") {
    builder.note("No class is asked of the surface at this height and distance.");
    return builder.judge_class(worst, Relation::none, "no class required", verdict, std::move(reason));
  }
  return builder.judge_class(worst, Relation::at_least, asked, verdict, std::move(reason));
}

void add_top(FindingBuilder& builder, const Panel& panel, const std::optional<PanelTop>& top) {
  if (!top) {
    builder.step_text("top of the panel above ground",
                      "not known (building.ground_level_m, storey elevation): the stricter zone is taken");
    return;
  }
  builder.number("elevation of the panel's storey", "z_s", "m", top->floor_m, {});
  builder.number("ground level", "z_g", "m", top->ground_m, {});
  builder.number("height of the panel", "H", "m", panel.height_m, {});
  builder.step("foot of the panel above ground", "z_foot", top->foot_m(), "m", "z_foot = z_s − z_g");
  builder.step("top of the panel above ground", "z_top", top->height_m(), "m", "z_top = z_s − z_g + H");
}

/// The class that the fire engineer gives for this panel, else for the building.
std::optional<Sourced<std::string>> engineers_class(const Panel& panel, const Settings& settings) {
  auto of_panel = panel.properties.text("Panel_FireRequirement", "ReactionToFire");
  return of_panel ? of_panel : settings.text("fire.external_wall_class");
}

/// A class given for the whole building says nothing of a panel that the export puts nearer to the boundary.
void check_distance_of_building_class(FindingBuilder& builder, const Panel& panel, const Settings& settings,
                                      const Sourced<std::string>& given) {
  const auto own_m = panel.properties.number("Panel_FireRequirement", "BoundaryDistance");
  const auto building_m = settings.number("building.boundary_distance_m");
  if (given.origin.kind != OriginKind::setting || !own_m) return;
  if (own_m->value >= (building_m ? building_m->value : kNear_m)) return;
  builder.missing("setting fire.external_wall_class holds " +
                  (building_m ? with_unit(building_m->value, "m") + " from the boundary (building.boundary_distance_m)"
                              : std::string("for the building")) +
                  ", and the panel stands at " + with_unit(own_m->value, "m") +
                  " (Panel_FireRequirement.BoundaryDistance): the fire engineer gives its class by "
                  "Panel_FireRequirement.ReactionToFire");
}

/// The rule of the table, else the class that the fire engineer gives; notes what is missing.
std::optional<ExternalWallRule> rule_for(FindingBuilder& builder, const Panel& panel, const Project& project,
                                         const Settings& settings, const Tables& tables, double top_storey_m) {
  const std::string jurisdiction = settings.text("project.jurisdiction")->value;
  const std::string use = settings.text("project.use")->value;
  const std::string use_key = jurisdiction + "/" + use;
  const auto group = tables.uses.text(use_key, "group");
  const auto top = panel_top(panel, project, settings);
  const auto heights_m = top ? std::optional(std::pair(top->foot_m(), top->height_m())) : std::nullopt;
  if (group) {
    if (auto rule = find_external_wall_rule(tables, jurisdiction, group->value, top_storey_m, heights_m)) {
      builder.text("group of the use", group, {});
      builder.text("what the rule covers", Sourced<std::string>{rule->scope, rule->origin}, {});
      if (const auto note = tables.uses.text(use_key, "note")) builder.note("Use '" + use + "': " + note->value);
      add_top(builder, panel, top);
      return rule;
    }
  }
  const auto given = engineers_class(panel, settings);
  if (!given || !parse_reaction_class(given->value)) {
    builder.missing("the tables hold no rule for '" + use + "' at this height in " + jurisdiction +
                    "; the fire engineer gives the class of the external surface by setting fire.external_wall_class "
                    "(EN 13501-1)");
    return std::nullopt;
  }
  builder.text("class given by the fire engineer", given, {});
  check_distance_of_building_class(builder, panel, settings, *given);
  if (builder.incomplete()) return std::nullopt;
  return ExternalWallRule{"external surface", given->value, given->value, "none", "none", given->origin};
}

/// What of an opening says that it leads to the outside; empty when nothing does. A window that says nothing does.
std::string sign_of_opening(const Opening& opening) {
  for (const char* set : {"Pset_WindowCommon", "Pset_DoorCommon"}) {
    const auto external = opening.filling_properties.logical(set, "IsExternal");
    if (external && external->value) return std::string(set) + ".IsExternal of '" + opening.name + "' is yes";
    if (external) return {};
  }
  return opening.filling_entity == "IfcWindow" ? "'" + opening.name + "' holds a window" : std::string();
}

/// What else says that the panel stands in the outer envelope, so that the rules on external walls hold for it whatever
/// Pset_WallCommon.IsExternal states; empty when nothing does.
std::string sign_of_outside(const Panel& panel) {
  for (const Layer& layer : panel.layers) {
    if (layer.is_ventilated.value_or(false)) return "layer '" + layer.name + "' is ventilated";
    if (layer.category == "cladding") return "layer '" + layer.name + "' is cladding";
  }
  for (const Opening& opening : panel.openings) {
    if (std::string sign = sign_of_opening(opening); !sign.empty()) return sign;
  }
  const auto leaf = panel.properties.text("Panel_Construction", "OuterLeafReactionToFire");
  if (leaf) return "an outer leaf stands over it (Panel_Construction.OuterLeafReactionToFire)";
  const auto wind_pa = panel.properties.number("Panel_Structure", "DesignWindPressure");
  if (wind_pa && wind_pa->value != 0.0) {
    return "Panel_Structure.DesignWindPressure is " + with_unit(wind_pa->value, "Pa");
  }
  const auto arrangement = panel.properties.text("Panel_Identity", "Arrangement");
  if (arrangement && arrangement->value == "OVERSAIL") return "Panel_Identity.Arrangement is OVERSAIL";
  const auto boundary_m = panel.properties.number("Panel_FireRequirement", "BoundaryDistance");
  if (boundary_m) return "Panel_FireRequirement.BoundaryDistance is " + with_unit(boundary_m->value, "m");
  return {};
}

}  // namespace

Finding external_wall_material(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables) {
  FindingBuilder builder(kExternalWallMaterialCheck, panel.global_id);
  builder.basis(Basis::declared);
  const auto external = builder.logical("external", panel.properties.logical("Pset_WallCommon", "IsExternal"),
                                        "Pset_WallCommon.IsExternal");
  if (external && !*external) {
    const std::string sign = sign_of_outside(panel);
    if (sign.empty()) return builder.step_text("rule on external walls", "none").inform_text("not external");
    builder.missing("Pset_WallCommon.IsExternal is no, and " + sign + ": one of them is wrong");
    return builder.not_assessed();
  }
  builder.text("jurisdiction", settings.text("project.jurisdiction"), "setting project.jurisdiction");
  builder.text("use of the building", settings.text("project.use"), "setting project.use");
  const auto top_storey_m = builder.number("height of the top storey above ground", "", "m",
                                           top_storey_height_m(project, settings), kTopStoreyMissing);
  const auto layers = layer_classes(panel, project);
  if (!panel.outside_known) builder.missing(kOutsideUnknown);
  if (panel.outside_known && layers.empty()) builder.missing("the panel has no material layers (IfcMaterialLayerSet)");
  if (top_storey_m && *top_storey_m < 0.0) builder.missing("the height of the top storey must not be negative");
  if (builder.incomplete()) return builder.not_assessed();
  builder.table(class_table(layers));
  const auto rule = rule_for(builder, panel, project, settings, tables, *top_storey_m);
  if (!rule) return builder.not_assessed();
  const auto materials = covered(builder, panel, project, layers, rule->scope == "all materials");
  for (const LayerClass& layer : materials) surface(builder, "class", layer);
  if (builder.incomplete()) return builder.not_assessed();
  builder.step_text("asked for within 1 m of the boundary", rule->near)
      .step_text("asked for at 1 m and more", rule->far)
      .note(kNotTheWholeWall);
  auto short_of = side_rules(builder, *rule, layers);
  if (builder.incomplete()) return builder.not_assessed();
  if (!materials.front().material) {
    builder.note("The class is that of the outer leaf by others alone; the panel's own layers are in the table.");
  }
  return judge(builder, panel, project, settings, *rule, materials, std::move(short_of));
}

}  // namespace panel_dossier::fire
