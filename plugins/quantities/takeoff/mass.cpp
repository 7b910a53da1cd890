// Mass, centre of gravity and self-weight: three checks on one take-off.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/geometry.h"
#include "core/api/support/take_off.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

namespace {

/// What `take_off` reads; one of weight quantity and density is enough.
std::vector<CheckInput> read_by_take_off() {
  return {optional_property("Pset_MaterialCommon.MassDensity"),
          optional_property("Panel_FastenerQuantities.NetWeight"),
          optional_property("Panel_FastenerQuantities.GrossWeight"),
          optional_property("Qto_MemberBaseQuantities.NetWeight"),
          optional_property("Qto_MemberBaseQuantities.GrossWeight"),
          optional_property("Qto_PlateBaseQuantities.NetWeight"),
          optional_property("Qto_PlateBaseQuantities.GrossWeight"),
          optional_property("Qto_WallBaseQuantities.NetWeight"),
          optional_property("Qto_WallBaseQuantities.GrossWeight"),
          optional_property("Panel_Filling.FactoryFitted"),
          optional_property("Panel_Filling.Mass")};
}

/// By which a stated weight and density times volume of one thing may differ: water, and density about its mean (common
/// practice).
constexpr double kWeightMayDiffer = 0.15;

bool weighs_as(double stated_kg, double expected_kg) {
  return std::abs(stated_kg / expected_kg - 1.0) <= kWeightMayDiffer;
}

/// Compares the weight of the wall, without the windows and doors that it holds. Its gross weight leaves openings and
/// cut-outs out of account, so it may be any amount more.
void add_weight_of_panel(const Panel& panel, const TakeOff& measured, Table& table) {
  if (!measured.mass_kg()) return;
  double wall_kg = 0.0;
  for (const TakeOffItem& item : measured.items) wall_kg += item.opening ? 0.0 : *item.mass_kg;
  if (!(wall_kg > 0.0)) return;
  for (const bool is_net : {true, false}) {
    const std::string quantity = is_net ? "NetWeight" : "GrossWeight";
    const auto stated = panel.properties.number("Qto_WallBaseQuantities", quantity);
    if (!stated || weighs_as(stated->value, wall_kg) || (!is_net && stated->value > wall_kg)) continue;
    table.rows.push_back(
        {"the panel, Qto_WallBaseQuantities." + quantity, stated->value, describe(stated->origin), wall_kg});
  }
}

/// Weights of the export that are not those of volume and density, where both are known: items, then the whole panel.
Table weights_in_doubt(const Panel& panel, const Project& project, const TakeOff& measured) {
  Table table{"Stated weights beside volume times density",
              {{"of", ""}, {"stated", "kg"}, {"stands", ""}, {"volume times density", "kg"}},
              {}};
  for (const TakeOffItem& item : measured.items) {
    const Material* material = material_at(project, item.material);
    const auto density = material != nullptr ? material->density_kg_per_m3() : std::nullopt;
    if (!item.declared_mass_kg || !density || !(density->value > 0.0) || !(item.volume_m3 > 0.0)) continue;
    const double expected_kg = density->value * item.volume_m3;
    if (weighs_as(item.declared_mass_kg->value, expected_kg)) continue;
    table.rows.push_back(
        {item.name, item.declared_mass_kg->value, describe(item.declared_mass_kg->origin), expected_kg});
  }
  add_weight_of_panel(panel, measured, table);
  return table;
}

/// What the take-off lacks, and where a stated weight contradicts volume and density; the first few of these by name
/// and all of them in a table.
void note_missing(FindingBuilder& finding, const Panel& panel, const Project& project, const TakeOff& measured) {
  constexpr std::size_t kNamed = 3;
  for (const std::string& what : measured.missing) finding.missing(what);
  Table doubtful = weights_in_doubt(panel, project, measured);
  const std::size_t count = doubtful.rows.size();
  if (count == 0) return;
  for (std::size_t i = 0; i < std::min(count, kNamed); ++i) {
    const std::vector<Value>& row = doubtful.rows[i];
    finding.missing("'" + std::get<std::string>(row[0]) + "' is stated to weigh " +
                    fixed_text(std::get<double>(row[1]), 2) + " kg (" + std::get<std::string>(row[2]) +
                    "), but its volume times density is " + fixed_text(std::get<double>(row[3]), 2) +
                    " kg, more than 15 % apart: correct one of them");
  }
  if (count > kNamed) {
    finding.missing(std::to_string(count - kNamed) + " more weights, all in the table '" + doubtful.title + "'");
  }
  finding.table(std::move(doubtful));
}

}  // namespace

const CheckDeclaration kMassCheck{
    .id = "quantities.mass",
    .title = "Mass of the panel",
    .project_title = "Mass of all panels",
    .sentence =
        "The mass of the panel is the sum of the masses of its parts, each its weight in the export or else "
        "its volume times the density of its material, which agree within 15 % where both are known, and of the "
        "windows "
        "and doors that the factory fits; the project's is the sum of its panels.",
    .clause = "EN 1991-1-1:2002, section 5: nominal dimensions and densities (from memory)",
    .other_clauses = {kSumOverPanels},
    .units = {"kg"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(read_by_take_off()),
    .limits = {"Lifting gear, temporary bracing, packaging, snow and water taken up.",
               "Tapes, glue and other parts that the export does not show.",
               "How far real densities lie from nominal ones.", "Of a panel without parts: framing inside a layer."},
    .role = std::string(role::kMass)};

namespace {

MaterialKey row_of(const Project& project, const TakeOffItem& item) {
  if (item.opening) return {kFillings, {}};
  return item.material ? material_key(project, item.material) : MaterialKey{"no material, weighed", {}};
}

struct MaterialTotal {
  int items = 0;
  double volume_m3 = 0.0;
  ExactSum mass_kg;
};

/// Items, volume in m³, mass in kg.
Rows<MaterialKey> mass_by_material(const Project& project, const TakeOff& measured) {
  std::map<MaterialKey, MaterialTotal> totals;
  for (const TakeOffItem& item : measured.items) {
    MaterialTotal& total = totals[row_of(project, item)];
    ++total.items;
    total.volume_m3 += item.volume_m3;
    total.mass_kg.add(*item.mass_kg);
  }
  Rows<MaterialKey> rows;
  for (const auto& [material, total] : totals) {
    rows[material] = {static_cast<double>(total.items), rounded_to_millionth(total.volume_m3), total.mass_kg.total()};
  }
  return rows;
}

Table mass_table(const Project& project, const Rows<MaterialKey>& rows) {
  Table table{"Mass by material", {{"material", ""}, {"items", ""}, {"volume", "m³"}, {"mass", "kg"}}, {}};
  for (const auto& [material, numbers] : rows) {
    table.rows.push_back({printed_name(project, material), numbers[0], numbers[1], numbers[2]});
  }
  return table;
}

/// Items of one kind and material that weigh ρ·V.
struct VolumeGroup {
  std::size_t items = 0;
  double volume_m3 = 0.0;
  Origin first;
  std::uint32_t last_line = 0;
};

std::pair<std::string, const Origin*> kind_and_origin(const Panel& panel, const TakeOffItem& item) {
  if (item.layer) return {"layer", &panel.layers[*item.layer].origin};
  const Part& part = panel.parts[*item.part];
  return {std::string(to_string(part.kind)), &part.origin};
}

void record_volumes(FindingBuilder& finding, const Panel& panel, const Project& project, const TakeOff& measured) {
  std::map<std::pair<MaterialKey, std::string>, VolumeGroup> groups;
  for (const TakeOffItem& item : measured.items) {
    if (item.declared_mass_kg) continue;
    const auto [kind, origin] = kind_and_origin(panel, item);
    VolumeGroup& group = groups[{row_of(project, item), kind}];
    if (group.items == 0) group.first = *origin;
    ++group.items;
    group.volume_m3 += item.volume_m3;
    group.last_line = std::max(group.last_line, origin->line);
  }
  for (auto& [key, group] : groups) {
    const auto& [material, kind] = key;
    group.first.property =
        "shape, first of " + std::to_string(group.items) + ", last at line " + std::to_string(group.last_line);
    const Sourced<double> volume{rounded_to_millionth(group.volume_m3), group.first};
    std::string name = "volume of ";
    name.append(printed_name(project, material))
        .append(", ")
        .append(kind)
        .append(" × ")
        .append(std::to_string(group.items));
    finding.number(std::move(name), "V", "m³", volume, "");
  }
}

/// Each density once, each declared weight where it is used.
void record_densities_and_weights(FindingBuilder& finding, const Project& project, const TakeOff& measured) {
  std::set<std::size_t> recorded;
  for (const TakeOffItem& item : measured.items) {
    if (item.declared_mass_kg) {
      finding.positive("mass of " + item.name, "m_i", "kg", item.declared_mass_kg, "no mass");
    } else if (recorded.insert(*item.material).second) {
      const std::string name = printed_name(project, material_key(project, item.material));
      finding.positive("density of " + name, "ρ", "kg/m³", project.materials[*item.material].density_kg_per_m3(),
                       "no density");
    }
  }
}

}  // namespace

Finding mass(const Panel& panel, const Project& project) {
  FindingBuilder finding(kMassCheck, panel.global_id);
  finding.decimals(1);
  const TakeOff measured = take_off(panel, project);
  note_missing(finding, panel, project, measured);
  const auto total_kg = measured.mass_kg();
  if (finding.incomplete() || !total_kg) return finding.not_assessed();

  record_densities_and_weights(finding, project, measured);
  record_volumes(finding, panel, project, measured);
  finding.step("number of items measured", "n", static_cast<double>(measured.items.size()), "");
  finding.step("mass of the panel", "m", *total_kg, "kg", "m = sum(mass)");
  finding.step("gross area, see quantities.area", "A_gross", panel.gross_area_m2(), "m²");
  finding.step("mass by gross area", "m_A", *total_kg / panel.gross_area_m2(), "kg/m²", "m_A = m / A_gross");
  finding.table(mass_table(project, mass_by_material(project, measured)));
  if (panel.parts.empty()) {
    finding.note(
        "Measured from the material layers over the net area: the export gives no parts, so framing inside a "
        "layer is not weighed. Do not lift on this figure.");
  }
  finding.note(
      "Nominal mass at the stated densities, without lifting gear, temporary bracing, packaging, snow or "
      "water taken up. Weigh the first panel of each type before lifting.");
  finding.note(
      "Each item is taken to the whole milligram and then added exactly, so items add up to the panel and "
      "panels to the project.");
  return finding.inform(*total_kg, "kg");
}

Finding project_mass(const Project& project, const std::vector<PanelFindings>& panels) {
  return project_total({kMassCheck, "kg", 0}, project, panels, [&] {
    RowSums<MaterialKey> sums;
    for (const PanelFindings& panel : panels) {
      add_rows(sums, mass_by_material(project, take_off(*panel.panel, project)));
    }
    return mass_table(project, totals_of(sums));
  });
}

const CheckDeclaration kCentreOfGravityCheck{
    .id = "quantities.centre_of_gravity",
    .title = "Centre of gravity from the middle of the width",
    .project_title = {},
    .sentence =
        "The centre of gravity lies where the moments of the masses of all items about the panel's axes balance, "
        "each item at the centroid of its shape; the value is its distance from the middle of the width, "
        "positive to the right, seen from inside.",
    .clause = "Mechanics: first moment of mass about the panel's axes (common practice)",
    .units = {"m"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_model(read_by_take_off()),
    .limits = {"Lifting gear, temporary bracing and packaging.",
               "Where the mass of a window or door lies: it counts at the centre of its opening and of the panel's "
               "thickness.",
               "Whether a lift at given points hangs level: make a trial lift."},
    .role = std::string(role::kCentreOfGravity)};

namespace {

/// Elevation seen from inside with the vertical through the centre of gravity.
Drawing elevation(const Panel& panel, const Vec3& centre) {
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  Drawing drawing;
  drawing.title = "Centre of gravity, seen from inside";
  drawing.polygons.push_back({rectangle(0.0, 0.0, width_m, height_m), Hatch::none, LineStyle::heavy, ""});
  for (const Opening& opening : panel.openings) {
    drawing.polygons.push_back({rectangle(opening.x_min_m, opening.z_min_m, opening.x_max_m, opening.z_max_m),
                                Hatch::none, LineStyle::normal, "opening"});
  }
  drawing.lines.push_back({{centre.x, 0.0}, {centre.x, height_m}, LineStyle::centre});
  drawing.lines.push_back({{0.0, centre.z}, {width_m, centre.z}, LineStyle::centre});
  drawing.texts.push_back({{centre.x, centre.z}, "G"});
  drawing.dimensions.push_back({{centre.x, 0.0}, {0.0, 0.0}, 0.2, ""});
  drawing.dimensions.push_back({{0.0, 0.0}, {0.0, centre.z}, 0.2, ""});
  return drawing;
}

void note_items_without_position(FindingBuilder& finding, const TakeOff& measured) {
  for (const TakeOffItem& item : measured.items) {
    if (!item.centroid_m) finding.missing("'" + item.name + "' has no shape, so where its mass lies is not known");
  }
}

}  // namespace

Finding centre_of_gravity(const Panel& panel, const Project& project) {
  FindingBuilder finding(kCentreOfGravityCheck, panel.global_id);
  finding.decimals(3);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const TakeOff measured = take_off(panel, project);
  note_missing(finding, panel, project, measured);
  note_items_without_position(finding, measured);
  const auto centre = measured.centre_of_gravity_m();
  if (finding.incomplete() || !centre) return finding.not_assessed();

  const double eccentricity_m = rounded_to_millionth(centre->x - *width_m / 2.0);
  finding.step("mass, see quantities.mass", "m", *measured.mass_kg(), "kg");
  finding.step("from the left edge, seen from inside", "x_G", centre->x, "m");
  finding.step("from the inner face", "y_G", centre->y, "m");
  finding.step("from the foot", "z_G", centre->z, "m");
  finding.step("from the middle of the width", "e_x", eccentricity_m, "m", "e_x = x_G − b/2");
  finding.step("share of the width", "ε_x", eccentricity_m / *width_m, "", "ε_x = e_x / b");
  finding.value("from_left_edge", centre->x, "m")
      .value("from_inner_face", centre->y, "m")
      .value("from_foot", centre->z, "m");
  finding.drawing(elevation(panel, *centre));
  finding.note(
      "Along each axis: the sum over all items of mass times distance of the item's centroid, over the mass of all, to "
      "the micrometre.");
  finding.note(
      "Positive: right of the middle, seen from inside. Two lifting points at equal distance from the middle "
      "carry unequal loads unless the value is near zero.");
  finding.note(
      "Items count at the centroid of their shape; a window or door at the centre of its opening. The lifting "
      "plan is the lifting supervisor's; make a trial lift.");
  return finding.inform(eccentricity_m, "m");
}

const CheckDeclaration kLoadsCheck{
    .id = "quantities.loads",
    .title = "Self-weight of the panel on its support",
    .project_title = "Self-weight of all panels",
    .sentence =
        "The self-weight is the mass of the panel times the standard acceleration of free fall; the project's "
        "is the sum of its panels.",
    .clause = "EN 1991-1-1:2002, section 5 (from memory)",
    .other_clauses = {kSumOverPanels},
    .units = {"kN"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(read_by_take_off()),
    .limits =
        {"What is fixed to the panel on site.",
         "Loads from above the panel, and how the weight is shared between supports: it is spread evenly over the "
         "width.",
         "Partial factors and combinations of actions."},
    .role = {}};

Finding loads(const Panel& panel, const Project& project) {
  FindingBuilder finding(kLoadsCheck, panel.global_id);
  finding.decimals(2);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const TakeOff measured = take_off(panel, project);
  note_missing(finding, panel, project, measured);
  const auto mass_kg = measured.mass_kg();
  if (finding.incomplete() || !mass_kg) return finding.not_assessed();

  const double weight_kn =
      rounded_to_millionth(*mass_kg * units::kStandardGravity_m_per_s2 / units::kNewtonPerKilonewton);
  finding.step("mass, see quantities.mass", "m", *mass_kg, "kg");
  finding.step("standard acceleration of free fall, ISO 80000-3:2019", "g", units::kStandardGravity_m_per_s2, "m/s²");
  finding.step("self-weight", "G_k", weight_kn, "kN", "G_k = m · g");
  finding.step("self-weight by metre of support", "g_k", weight_kn / *width_m, "kN/m", "g_k = G_k / b");
  finding.note(
      "Characteristic permanent action of what the export gives as the panel, spread evenly over its width. "
      "What is fixed to it on site adds to this. The structural engineer takes the load down.");
  return finding.inform(weight_kn, "kN");
}

}  // namespace panel_dossier::quantities
