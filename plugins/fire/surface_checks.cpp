#include "plugins/fire/surface_checks.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "core/api/finding_builder.h"
#include "plugins/fire/layer_classes.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kOutsideUnknown =
    "which face is outside is not known (Panel_Construction.FirstLayerFace or setting intake.layer_order)";

Table class_table(const std::vector<LayerClass>& layers) {
  Table table{"Reaction to fire from inside to outside", {{"layer", ""}, {"material", ""}, {"class", ""}}, {}};
  for (const LayerClass& layer : layers) {
    table.rows.push_back({layer.name, layer.material, layer.parsed ? layer.parsed->text() : std::string("not given")});
  }
  return table;
}

/// Notes what is missing and returns none when the layer has no usable class.
std::optional<ReactionClass> surface(FindingBuilder& builder, const char* where, const LayerClass& layer) {
  if (!layer.parsed) {
    builder.missing(missing_class(layer));
    return std::nullopt;
  }
  builder.text(std::string(where) + ": '" + layer.name + "'", layer.stated, {});
  return layer.parsed;
}

struct Rule {
  std::string scope;  ///< `all materials` or `external surface`
  std::string near;
  std::string far;
  Origin origin;
};

/// Top of the panel above the lowest storey, in m; the world's zero when no storey says where it is.
double panel_top_m(const Panel& panel, const Project& project) {
  const bool known = !project.storeys.empty() && project.storeys.front().elevation_m.has_value();
  const double ground_m = known ? project.storeys.front().elevation_m->value : 0.0;
  return panel.frame.origin.z + panel.height_m.value - ground_m;
}

std::optional<Rule> find_rule(const Tables& tables, const std::string& jurisdiction, const std::string& group,
                              double top_storey_m, double panel_top_m) {
  constexpr double kUpperZone_m = 18.0;
  const DataTable& table = tables.external_walls;
  for (const std::string& key : table.keys()) {
    const auto from_m = table.number(key, "from_height_m");
    const auto below_m = table.number(key, "below_height_m");
    const auto scope = table.text(key, "scope");
    const auto near = table.text(key, "near");
    const auto far = table.text(key, panel_top_m > kUpperZone_m ? "far_above_18_m" : "far_up_to_18_m");
    const bool complete = from_m && below_m && scope && near && far;
    if (!complete || table.text(key, "jurisdiction")->value != jurisdiction) continue;
    if (table.text(key, "group")->value != group || top_storey_m < from_m->value || top_storey_m >= below_m->value) {
      continue;
    }
    return Rule{scope->value, near->value, far->value, scope->origin};
  }
  return std::nullopt;
}

/// Materials of the wall that the rule covers: all layers and framing, membranes excepted, or the outer surface alone.
std::vector<LayerClass> covered(const Panel& panel, const Project& project, const std::vector<LayerClass>& layers,
                                bool all_materials) {
  if (!all_materials) return {layers.back()};
  std::vector<LayerClass> result;
  std::copy_if(layers.begin(), layers.end(), std::back_inserter(result),
               [](const LayerClass& layer) { return !layer.membrane; });
  for (const Part& part : panel.parts) {
    const Material* material = material_at(project, part.material);
    if (material == nullptr || !is_framing(part.kind)) continue;
    const bool known = std::any_of(result.begin(), result.end(),
                                   [&](const LayerClass& layer) { return layer.material == material->name; });
    if (!known) result.push_back(class_of(*material, part.name, false));
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

std::string worst_class(const std::vector<LayerClass>& materials) {
  const auto worst = std::max_element(materials.begin(), materials.end(), [](const LayerClass& a, const LayerClass& b) {
    return std::tuple(a.parsed->rank, a.parsed->smoke, a.parsed->droplets) <
           std::tuple(b.parsed->rank, b.parsed->smoke, b.parsed->droplets);
  });
  return worst->parsed->text();
}

std::string failing_reason(const std::vector<std::string>& short_of) {
  std::string text = "not of the class required:";
  for (const std::string& name : short_of) text += " " + name;
  return text;
}

Finding judge(FindingBuilder& builder, const Settings& settings, const Rule& rule,
              const std::vector<LayerClass>& materials) {
  const std::string worst = worst_class(materials);
  const auto boundary_m = settings.number("building.boundary_distance_m");
  const auto near_short = falling_short(materials, rule.near);
  if (!boundary_m && rule.near != rule.far) {
    if (near_short.empty()) {
      builder.note("Distance to the boundary is not given; the strictest rule is met.");
      return builder.judge_class(worst, Relation::at_least, rule.near, Verdict::pass, {});
    }
    builder.missing("setting building.boundary_distance_m: the class " + rule.near +
                    " asked for within 1 m of the boundary is not met");
    return builder.not_assessed();
  }
  if (boundary_m) builder.number("distance to the relevant boundary", "", "m", boundary_m, {});
  const std::string& asked = boundary_m && boundary_m->value < 1.0 ? rule.near : rule.far;
  if (asked == "none") {
    builder.note("No class is asked for at this height and distance.");
    return builder.judge_class(worst, Relation::none, "no class required", Verdict::pass, {});
  }
  const auto short_of = falling_short(materials, asked);
  return builder.judge_class(worst, Relation::at_least, asked, short_of.empty() ? Verdict::pass : Verdict::fail,
                             failing_reason(short_of));
}

}  // namespace

Finding reaction_to_fire(const Panel& panel, const Project& project) {
  FindingBuilder builder("fire.reaction_to_fire", "Reaction to fire of the surfaces", panel.global_id,
                         "EN 13501-1:2018 11");
  builder.basis(Basis::declared);
  const auto layers = layer_classes(panel, project);
  if (!panel.outside_known) return builder.not_assessed(kOutsideUnknown);
  if (layers.empty()) return builder.not_assessed("the panel has no material layers (IfcMaterialLayerSet)");
  builder.table(class_table(layers));
  const auto inner = surface(builder, "inner surface", layers.front());
  const auto outer = surface(builder, "outer surface", layers.back());
  if (builder.incomplete()) return builder.not_assessed();
  builder.step_text("inner surface", inner->text()).step_text("outer surface", outer->text());
  builder.note(
      "Classes are those stated for each material in the export; the class of a product in its end use depends "
      "on its fixing, backing and joints and is shown by its declaration of performance or classification report.");
  return builder.inform_text("inner " + inner->text() + "; outer " + outer->text());
}

Finding external_wall_material(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables) {
  FindingBuilder builder("fire.external_wall_material", "Materials of the external wall", panel.global_id,
                         "national rules on external walls; see the table row among the inputs");
  builder.basis(Basis::declared);
  const auto external = builder.logical("external", panel.properties.logical("Pset_WallCommon", "IsExternal"),
                                        "Pset_WallCommon.IsExternal");
  if (external && !*external) return builder.inform_text("not external");
  const auto jurisdiction =
      builder.text("jurisdiction", settings.text("project.jurisdiction"), "setting project.jurisdiction");
  const auto use = builder.text("use of the building", settings.text("project.use"), "setting project.use");
  const auto top_storey_m =
      builder.number("height of the top storey above ground", "", "m", settings.number("building.top_storey_height_m"),
                     "setting building.top_storey_height_m");
  const auto layers = layer_classes(panel, project);
  if (!panel.outside_known) builder.missing(kOutsideUnknown);
  if (panel.outside_known && layers.empty()) builder.missing("the panel has no material layers (IfcMaterialLayerSet)");
  if (top_storey_m && *top_storey_m < 0.0) builder.missing("setting building.top_storey_height_m must not be negative");
  if (builder.incomplete()) return builder.not_assessed();
  builder.table(class_table(layers));

  const std::string use_key = *jurisdiction + "/" + *use;
  const auto group = tables.uses.text(use_key, "group");
  const auto rule = group ? find_rule(tables, *jurisdiction, group->value, *top_storey_m, panel_top_m(panel, project))
                          : std::optional<Rule>{};
  if (!rule) {
    builder.note(
        "The tables hold no rule for this jurisdiction, use and height; the classes are listed for the fire "
        "engineer to judge.");
    return builder.inform_text("no rule held for " + use_key);
  }
  builder.text("group of the use", group, {});
  builder.text("what the rule covers", Sourced<std::string>{rule->scope, rule->origin}, {});
  if (const auto note = tables.uses.text(use_key, "note")) builder.note("Use '" + *use + "': " + note->value);
  const auto materials = covered(panel, project, layers, rule->scope == "all materials");
  for (const LayerClass& layer : materials) surface(builder, "class", layer);
  if (builder.incomplete()) return builder.not_assessed();
  builder.step_text("asked for within 1 m of the boundary", rule->near)
      .step_text("asked for at 1 m and more", rule->far)
      .note(
          "Large-scale tests of whole wall systems, cavity barriers and other rules on external walls are not judged.");
  return judge(builder, settings, *rule, materials);
}

}  // namespace panel_dossier::fire
