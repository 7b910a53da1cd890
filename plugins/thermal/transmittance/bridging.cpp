#include "plugins/thermal/transmittance/bridging.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/tolerances.h"

namespace panel_dossier::thermal {

namespace {

constexpr int kNobody = -1;
constexpr int kOpening = -2;

/// Exports carry noise below this; without snapping it would give slivers that are sections of their own.
double snapped(double value_m) {
  constexpr double kStepsPerMetre = 1e5;
  return std::round(value_m * kStepsPerMetre) / kStepsPerMetre;
}

std::vector<double> grid_lines(double end, std::vector<double> lines) {
  lines.push_back(0.0);
  lines.push_back(end);
  for (double& line : lines) line = snapped(std::clamp(line, 0.0, end));
  std::sort(lines.begin(), lines.end());
  lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
  return lines;
}

/// A grid through every edge of every rectangle, so that a cell is either wholly covered or not at all.
class FaceGrid {
 public:
  FaceGrid(double width_m, double height_m, const std::vector<Rectangle>& openings, const std::vector<Cover>& covers)
      : width_m_(width_m), height_m_(height_m) {
    std::vector<double> x;
    std::vector<double> z;
    const auto add = [&](const Rectangle& face) {
      x.insert(x.end(), {face.x_min, face.x_max});
      z.insert(z.end(), {face.z_min, face.z_max});
    };
    for (const Rectangle& opening : openings) add(opening);
    for (const Cover& cover : covers) add(cover.face);
    x_ = grid_lines(width_m, std::move(x));
    z_ = grid_lines(height_m, std::move(z));
  }

  std::size_t cell_count() const { return columns() * (z_.size() - 1); }
  double cell_area_m2(std::size_t cell) const {
    const std::size_t column = cell % columns();
    const std::size_t row = cell / columns();
    return (x_[column + 1] - x_[column]) * (z_[row + 1] - z_[row]);
  }

  /// Gives the free cells under `face` to `owner`.
  void paint(std::vector<int>& cells, const Rectangle& face, int owner) const {
    const std::size_t first_column = index(x_, face.x_min, width_m_);
    const std::size_t last_column = index(x_, face.x_max, width_m_);
    const std::size_t last_row = index(z_, face.z_max, height_m_);
    for (std::size_t row = index(z_, face.z_min, height_m_); row < last_row; ++row) {
      for (std::size_t column = first_column; column < last_column; ++column) {
        int& cell = cells[row * columns() + column];
        if (cell == kNobody) cell = owner;
      }
    }
  }

 private:
  double width_m_;
  double height_m_;
  std::vector<double> x_;
  std::vector<double> z_;

  std::size_t columns() const { return x_.size() - 1; }

  static std::size_t index(const std::vector<double>& lines, double value, double end) {
    const auto found = std::lower_bound(lines.begin(), lines.end(), snapped(std::clamp(value, 0.0, end)));
    return static_cast<std::size_t>(found - lines.begin());
  }
};

std::vector<std::vector<int>> owners_by_layer(const FaceGrid& grid, const std::vector<Rectangle>& openings,
                                              const std::vector<Cover>& covers, std::size_t layer_count) {
  std::vector<int> free(grid.cell_count(), kNobody);
  for (const Rectangle& opening : openings) grid.paint(free, opening, kOpening);
  std::vector<std::vector<int>> owners(layer_count, free);
  for (std::size_t i = 0; i < covers.size(); ++i) {
    grid.paint(owners[covers[i].layer], covers[i].face, static_cast<int>(i));
  }
  return owners;
}

}  // namespace

FaceMeasure measure_face(double width_m, double height_m, const std::vector<Rectangle>& openings,
                         const std::vector<Cover>& covers, std::size_t layer_count) {
  FaceMeasure result;
  result.cover_areas_m2.assign(covers.size(), 0.0);
  const FaceGrid grid(width_m, height_m, openings, covers);
  const auto owners = owners_by_layer(grid, openings, covers, layer_count);
  std::map<std::vector<std::size_t>, double> areas;
  // Neighbouring cells mostly have the same materials, so the last entry is tried before the map.
  auto last = areas.end();
  std::vector<std::size_t> slots(layer_count, 0);
  for (std::size_t cell = 0; cell < grid.cell_count(); ++cell) {
    if (layer_count == 0 || owners.front()[cell] == kOpening) continue;
    const double area = grid.cell_area_m2(cell);
    for (std::size_t layer = 0; layer < layer_count; ++layer) {
      const int owner = owners[layer][cell];
      slots[layer] = owner == kNobody ? 0 : covers[static_cast<std::size_t>(owner)].slot;
      if (owner != kNobody) result.cover_areas_m2[static_cast<std::size_t>(owner)] += area;
    }
    if (last == areas.end() || last->first != slots) last = areas.try_emplace(slots, 0.0).first;
    last->second += area;
    result.net_area_m2 += area;
  }
  for (auto& [key, area] : areas) result.sections.push_back({key, area});
  std::stable_sort(result.sections.begin(), result.sections.end(),
                   [](const SectionArea& a, const SectionArea& b) { return a.area_m2 > b.area_m2; });
  return result;
}

namespace {

double depth_inside(const Part& part, double y_inside_m, double y_outside_m) {
  return std::min(part.bounds->max.y, y_outside_m) - std::max(part.bounds->min.y, y_inside_m);
}

bool may_bridge(const Part& part, const Layer& layer) {
  if (part.kind == PartKind::fastener || part.kind == PartKind::membrane) return false;
  if (!part.material && !is_framing(part.kind)) return false;
  return !part.material || part.material != layer.material;
}

bool has_shape(const Part& part) {
  return part.bounds && std::isfinite(length(part.bounds->min)) && std::isfinite(length(part.bounds->max));
}

/// Framing first: where a slab is modelled through a stud, the stud is there.
std::vector<const Part*> bridging_parts(const Panel& panel, const PlainLayer& plain) {
  const Layer& layer = *plain.layer;
  const double least_depth = std::min(tolerance::kModelling_m, plain.thickness_m / 2.0);
  std::vector<const Part*> parts;
  for (const Part& part : panel.parts) {
    if (!has_shape(part) || !may_bridge(part, layer)) continue;
    if (depth_inside(part, layer.y_inside_m, layer.y_outside_m) > least_depth) parts.push_back(&part);
  }
  std::stable_partition(parts.begin(), parts.end(), [](const Part* part) { return is_framing(part->kind); });
  return parts;
}

/// Depths at which the layer changes because a part ends inside it. An air layer stays whole: its resistance does not
/// follow its thickness.
std::vector<double> depth_limits(const PlainLayer& plain, const std::vector<const Part*>& parts) {
  const double inside = plain.layer->y_inside_m;
  const double outside = plain.layer->y_outside_m;
  std::vector<double> ends;
  for (const Part* part : parts) {
    for (const double y : {part->bounds->min.y, part->bounds->max.y}) {
      if (!plain.is_air && y > inside + tolerance::kModelling_m && y < outside - tolerance::kModelling_m)
        ends.push_back(y);
    }
  }
  std::sort(ends.begin(), ends.end());
  std::vector<double> limits{inside};
  for (const double y : ends) {
    if (y - limits.back() > tolerance::kModelling_m) limits.push_back(y);
  }
  limits.push_back(outside);
  return limits;
}

/// Timber that is there for an opening: lintels, and members whose face lies within the fitting gap of one.
bool stands_at_opening(const Panel& panel, const Part& part) {
  if (part.kind == PartKind::lintel) return true;
  if (part.kind != PartKind::stud && part.kind != PartKind::post && part.kind != PartKind::blocking) return false;
  return std::any_of(panel.openings.begin(), panel.openings.end(), [&](const Opening& opening) {
    return part.bounds->min.x < opening.x_max_m + kFittingGap_m &&
           part.bounds->max.x > opening.x_min_m - kFittingGap_m &&
           part.bounds->min.z < opening.z_max_m + kFittingGap_m && part.bounds->max.z > opening.z_min_m - kFittingGap_m;
  });
}

/// The face of a part is measured by its box, so the part must nearly fill it.
bool fills_its_box(const Part& part) {
  constexpr double kLeastShare = 0.9;
  if (!part.solid) return true;
  const Vec3 size = part.bounds->size();
  return part.solid->volume_m3() >= kLeastShare * size.x * size.y * size.z;
}

/// Gathers covers layer by layer, then measures them all at once.
class BridgingReader {
 public:
  BridgingReader(const Panel& panel, const Project& project, ConductivityReader& conductivities,
                 FindingBuilder& builder)
      : panel_(panel), project_(project), conductivities_(conductivities), builder_(builder) {}

  void add_layer(const PlainLayer& plain) {
    const auto parts = bridging_parts(panel_, plain);
    for (const Part* part : parts) check(*part);
    const auto limits = depth_limits(plain, parts);
    const std::size_t count = limits.size() - 1;
    for (std::size_t i = 0; i < count; ++i) {
      const double share = count == 1 ? 1.0 : (limits[i + 1] - limits[i]) / (limits.back() - limits.front());
      ThermalLayer layer;
      layer.panel_layer = plain.index;
      layer.export_name = plain.layer->name;
      layer.name = layer.export_name;
      if (count > 1) layer.name += " (" + std::to_string(i + 1) + " of " + std::to_string(count) + ")";
      layer.thickness_m = rounded_to_millionth(plain.thickness_m * share);
      layer.slots.push_back(
          {plain.material, plain.resistance_m2k_per_w * share, 0.0, 0.0, plain.material_index, plain.is_air});
      layer.is_insulation = plain.is_insulation;
      layer.starts_export_layer = i == 0;
      layer.ventilated_share = plain.ventilated_share;
      result_.layers.push_back(std::move(layer));
      for (const Part* part : parts) {
        if (depth_inside(*part, limits[i], limits[i + 1]) >= (limits[i + 1] - limits[i]) / 2.0) cover(*part);
      }
    }
  }

  BridgedLayers measure() {
    std::vector<Rectangle> openings;
    for (const Opening& o : panel_.openings) openings.push_back({o.x_min_m, o.x_max_m, o.z_min_m, o.z_max_m});
    const FaceMeasure face =
        measure_face(panel_.width_m.value, panel_.height_m.value, openings, covers_, result_.layers.size());
    result_.net_area_m2 = face.net_area_m2;
    result_.sections = face.sections;
    for (std::size_t i = 0; i < covers_.size(); ++i) {
      const double share = face.net_area_m2 > 0.0 ? face.cover_areas_m2[i] / face.net_area_m2 : 0.0;
      LayerSlot& slot = result_.layers[covers_[i].layer].slots[covers_[i].slot];
      slot.fraction += share;
      if (stands_at_opening(panel_, *cover_parts_[i])) slot.fraction_at_openings += share;
    }
    record_areas(face.cover_areas_m2);
    for (ThermalLayer& layer : result_.layers) {
      double bridged = 0.0;
      for (const LayerSlot& slot : layer.slots) bridged += slot.fraction;
      layer.slots.front().fraction = std::max(0.0, 1.0 - bridged);
    }
    return std::move(result_);
  }

 private:
  const Panel& panel_;
  const Project& project_;
  ConductivityReader& conductivities_;
  FindingBuilder& builder_;
  BridgedLayers result_;
  std::vector<Cover> covers_;
  std::vector<const Part*> cover_parts_;

  void check(const Part& part) {
    const std::string label = std::string(to_string(part.kind)) + " '" + part.name + "'";
    const Material* material = material_at(project_, part.material);
    if (material == nullptr) {
      builder_.missing(label + " has no material");
    } else if (is_metal(*material)) {
      builder_.missing(label + " is of metal; the combined method is not valid where metal bridges insulation");
    }
    if (!fills_its_box(part)) {
      builder_.missing(label + " is not square to the panel, so its area on the face cannot be measured");
    }
  }

  /// One input for each kind and material in a layer, so that the shares can be traced to the parts.
  void record_areas(const std::vector<double>& areas_m2) {
    struct Group {
      const Part* first = nullptr;
      int count = 0;
      double area_m2 = 0.0;
    };
    std::map<std::tuple<std::size_t, std::size_t, PartKind>, Group> groups;
    for (std::size_t i = 0; i < covers_.size(); ++i) {
      Group& group = groups[{covers_[i].layer, covers_[i].slot, cover_parts_[i]->kind}];
      if (group.first == nullptr) group.first = cover_parts_[i];
      ++group.count;
      group.area_m2 += areas_m2[i];
    }
    std::size_t number = 0;
    for (const auto& [key, group] : groups) {
      ThermalLayer& layer = result_.layers[std::get<0>(key)];
      LayerSlot& slot = layer.slots[std::get<1>(key)];
      const std::string symbol = "A_b" + std::to_string(++number);
      slot.area_terms += (slot.area_terms.empty() ? "" : " + ") + symbol;
      builder_.number("area on the face of " + std::to_string(group.count) + " × " +
                          std::string(to_string(std::get<2>(key))) + " of '" + slot.material + "' in '" + layer.name +
                          "' (origin of '" + group.first->name + "')",
                      symbol, "m²", Sourced<double>{group.area_m2, group.first->origin}, {});
    }
  }

  void cover(const Part& part) {
    const auto conductivity = part.material ? conductivities_.conductivity_w_per_mk(*part.material) : std::nullopt;
    if (!conductivity) return;
    ThermalLayer& layer = result_.layers.back();
    const std::string& name = project_.materials[*part.material].name;
    // Slot 0 is the main material; a bridge of that material has been left out before.
    auto slot = std::find_if(layer.slots.begin() + 1, layer.slots.end(),
                             [&](const LayerSlot& candidate) { return candidate.material_index == part.material; });
    if (slot == layer.slots.end()) {
      slot = layer.slots.insert(slot, {name, layer.thickness_m / *conductivity, 0.0, 0.0, part.material});
    }
    const auto index = static_cast<std::size_t>(slot - layer.slots.begin());
    const Box3& box = *part.bounds;
    covers_.push_back({result_.layers.size() - 1, index, {box.min.x, box.max.x, box.min.z, box.max.z}});
    cover_parts_.push_back(&part);
  }
};

/// Index of the thickest insulation layer.
std::optional<std::size_t> main_insulation(const PlainLayers& plain) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < plain.layers.size(); ++i) {
    if (!plain.layers[i].is_insulation) continue;
    if (!found || plain.layers[i].thickness_m > plain.layers[*found].thickness_m) found = i;
  }
  return found;
}

}  // namespace

BridgedLayers measure_bridging(const Panel& panel, const Project& project, const PlainLayers& plain,
                               ConductivityReader& conductivities, FindingBuilder& builder) {
  for (const Part& part : panel.parts) {
    if (is_framing(part.kind) && !has_shape(part)) {
      builder.missing(std::string(to_string(part.kind)) + " '" + part.name +
                      "' has no shape, so its area on the face cannot be measured");
    }
  }
  BridgingReader reader(panel, project, conductivities, builder);
  for (const PlainLayer& layer : plain.layers) reader.add_layer(layer);
  return reader.measure();
}

BridgedLayers assume_bridging(const Panel& panel, const Settings& settings, const PlainLayers& plain,
                              FindingBuilder& builder) {
  BridgedLayers result;
  result.net_area_m2 = panel.net_area_m2();
  const auto fraction = builder.number(
      "assumed share of framing", "f", "", settings.number("thermal.assumed_framing_fraction"),
      "the panel has no parts, so its framing is unknown; export its parts or set thermal.assumed_framing_fraction");
  const auto conductivity = builder.positive("assumed thermal conductivity of framing", "λ", "W/(m·K)",
                                             settings.number("thermal.assumed_framing_conductivity_w_per_mk"),
                                             "setting 'thermal.assumed_framing_conductivity_w_per_mk' is missing");
  const auto bridged = main_insulation(plain);
  if (!bridged)
    builder.missing(
        "no insulation layer (by IfcMaterialLayer.Category, IfcMaterial.Category or thermal conductivity) to take the "
        "assumed framing");
  if (!fraction || !conductivity || !bridged) return result;
  if (*fraction < 0.0 || *fraction >= 1.0) {
    builder.missing("setting 'thermal.assumed_framing_fraction' must be at least 0 and below 1");
    return result;
  }
  for (const PlainLayer& layer : plain.layers) {
    result.layers.push_back(
        {layer.layer->name,
         layer.index,
         layer.layer->name,
         layer.thickness_m,
         {{layer.material, layer.resistance_m2k_per_w, 1.0, 0.0, layer.material_index, layer.is_air}},
         layer.is_insulation,
         true,
         layer.ventilated_share});
  }
  std::vector<std::size_t> slots(result.layers.size(), 0);
  result.sections.push_back({slots, (1.0 - *fraction) * result.net_area_m2});
  if (*fraction > 0.0) {
    ThermalLayer& layer = result.layers[*bridged];
    layer.slots.front().fraction = 1.0 - *fraction;
    layer.slots.push_back({"assumed framing", layer.thickness_m / *conductivity, *fraction, 0.0});
    slots[*bridged] = 1;
    result.sections.push_back({slots, *fraction * result.net_area_m2});
  }
  return result;
}

}  // namespace panel_dossier::thermal
