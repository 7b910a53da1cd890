#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

namespace {

struct MaterialTotal {
  int items = 0;
  double volume_m3 = 0.0;
  ExactSum mass_kg;
};

std::string row_name(const Project& project, const TakeOffItem& item) {
  if (item.opening) return "windows and doors, factory fitted";
  const Material* material = material_at(project, item.material);
  return material == nullptr ? "no material, weighed" : material->name;
}

Table by_material(const Project& project, const TakeOff& measured) {
  std::map<std::string, MaterialTotal> totals;
  for (const TakeOffItem& item : measured.items) {
    MaterialTotal& total = totals[row_name(project, item)];
    ++total.items;
    total.volume_m3 += item.volume_m3;
    total.mass_kg.add(*item.mass_kg);
  }
  Table table{"Mass by material", {{"material", ""}, {"items", ""}, {"volume", "m³"}, {"mass", "kg"}}, {}};
  for (const auto& [name, total] : totals) {
    table.rows.push_back(
        {name, static_cast<double>(total.items), rounded_to_millionth(total.volume_m3), total.mass_kg.total()});
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
  std::map<std::pair<std::string, std::string>, VolumeGroup> groups;
  for (const TakeOffItem& item : measured.items) {
    if (item.declared_mass_kg) continue;
    const auto [kind, origin] = kind_and_origin(panel, item);
    VolumeGroup& group = groups[{row_name(project, item), kind}];
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
    name.append(material).append(", ").append(kind).append(" × ").append(std::to_string(group.items));
    finding.number(std::move(name), "V", "m³", volume, "");
  }
}

/// Each density once, each declared weight where it is used.
void record_densities_and_weights(FindingBuilder& finding, const Project& project, const TakeOff& measured) {
  std::set<std::size_t> recorded;
  for (const TakeOffItem& item : measured.items) {
    if (item.declared_mass_kg) {
      finding.positive("mass of " + item.name, "m", "kg", item.declared_mass_kg, "no mass");
    } else if (recorded.insert(*item.material).second) {
      const Material& material = project.materials[*item.material];
      finding.positive("density of " + material.name, "ρ", "kg/m³", material.density_kg_per_m3(), "no density");
    }
  }
}

}  // namespace

Finding mass(const Panel& panel, const Project& project) {
  FindingBuilder finding("quantities.mass", "Mass of the panel", panel.global_id,
                         "EN 1991-1-1:2002, section 5: nominal dimensions and densities (from memory)");
  finding.decimals(1);
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) finding.missing(what);
  const auto total_kg = measured.mass_kg();
  if (finding.incomplete() || !total_kg) return finding.not_assessed();

  record_densities_and_weights(finding, project, measured);
  record_volumes(finding, panel, project, measured);
  finding.step("number of items measured", "n", static_cast<double>(measured.items.size()), "");
  finding.step("mass of the panel", "m", *total_kg, "kg", "m = Σ ρ·V + Σ m_declared");
  finding.step("mass by gross area", "m_A", *total_kg / panel.gross_area_m2(), "kg/m²", "m_A = m / A_gross");
  finding.table(by_material(project, measured));
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

}  // namespace panel_dossier::quantities
