#include "plugins/fire/stud_in_fire.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "core/api/units.h"
#include "plugins/fire/charring.h"

namespace panel_dossier::fire {

namespace {

constexpr double kFullLength = 0.95;  ///< share of the longest stud's length that counts as full
constexpr double kPaPerNPerMm2 = 1e6;

struct FireMaterial {
  double rate_mm_per_min = 0.0;  ///< βn
  double compression_n_per_mm2 = 0.0;
  double modulus_fifth_n_per_mm2 = 0.0;
  double k_fi = 0.0;
  double straightness_factor = 0.0;
};

void note_once(std::vector<std::string>& missing, std::string what) {
  if (std::find(missing.begin(), missing.end(), what) == missing.end()) missing.push_back(std::move(what));
}

bool read_strength(const Material& material, const Tables& tables, FireMaterial& result,
                   std::vector<std::string>& missing) {
  const auto grade = material.strength_class();
  if (!grade) {
    note_once(missing, "material '" + material.name + "' has no strength class (Pset_MaterialWood.StrengthGrade)");
    return false;
  }
  std::string name = grade->value;
  std::erase(name, ' ');
  const auto compression = tables.timber_in_fire.number(name, "compression_parallel");
  const auto modulus = tables.timber_in_fire.number(name, "modulus_fifth");
  const auto k_fi = tables.timber_in_fire.number(name, "k_fi");
  const auto family = tables.timber_in_fire.text(name, "family");
  if (!compression || !modulus || !k_fi || !family) {
    note_once(missing, "strength class '" + grade->value + "' of material '" + material.name + "' is unknown");
    return false;
  }
  result.compression_n_per_mm2 = compression->value;
  result.modulus_fifth_n_per_mm2 = modulus->value;
  result.k_fi = k_fi->value;
  result.straightness_factor = family->value == "glulam" ? 0.1 : 0.2;
  return true;
}

std::optional<FireMaterial> read_material(const Material* material, const Part& part, const Tables& tables,
                                          bool with_resistance, std::vector<std::string>& missing) {
  if (material == nullptr) {
    note_once(missing, "'" + part.name + "' has no material");
    return std::nullopt;
  }
  FireMaterial result;
  const auto charring = material->properties.text("Panel_Fire", "CharringClass");
  const auto rate = charring ? tables.charring_rates.number(charring->value, "notional_mm_per_min")
                             : std::optional<Sourced<double>>{};
  if (!rate) {
    note_once(missing,
              "material '" + material->name + "': Panel_Fire.CharringClass (SOFTWOOD, GLULAM, LVL or HARDWOOD)");
    return std::nullopt;
  }
  result.rate_mm_per_min = rate->value;
  if (with_resistance && !read_strength(*material, tables, result, missing)) return std::nullopt;
  return result;
}

/// kc of EN 1995-1-1 (6.21) and (6.25) to (6.29) for buckling in the direction of `depth_mm`.
double buckling_factor(double length_m, double depth_mm, const FireMaterial& material) {
  const double slenderness = units::millimetres_from_metres(length_m) / (depth_mm / std::sqrt(12.0));
  const double relative =
      slenderness / std::numbers::pi * std::sqrt(material.compression_n_per_mm2 / material.modulus_fifth_n_per_mm2);
  if (relative <= 0.3) return 1.0;
  const double k = 0.5 * (1.0 + material.straightness_factor * (relative - 0.3) + relative * relative);
  return 1.0 / (k + std::sqrt(k * k - relative * relative));
}

RemainingStud remaining(const Part& part, const StudCharring& charring, const FireMaterial& material,
                        bool with_resistance) {
  const Vec3 size = part.bounds->size();
  RemainingStud stud;
  stud.name = part.name;
  stud.width_mm = units::millimetres_from_metres(size.x);
  stud.depth_mm = units::millimetres_from_metres(size.y);
  stud.length_m = size.z;
  const double sides = charring.sides_protected ? 0.0 : 2.0;
  stud.remaining_width_mm = std::max(0.0, stud.width_mm - sides * charring.effective_depth_mm);
  stud.remaining_depth_mm = std::max(0.0, stud.depth_mm - charring.effective_depth_mm);
  if (!with_resistance || stud.remaining_width_mm <= 0.0 || stud.remaining_depth_mm <= 0.0) return stud;
  stud.buckling_factor = buckling_factor(stud.length_m, stud.remaining_depth_mm, material);
  if (!charring.restrained_along_wall) {
    stud.buckling_factor =
        std::min(stud.buckling_factor, buckling_factor(stud.length_m, stud.remaining_width_mm, material));
  }
  const double area_m2 = stud.remaining_width_mm * stud.remaining_depth_mm * 1e-6;
  stud.resistance_n = stud.buckling_factor * material.k_fi * material.compression_n_per_mm2 * kPaPerNPerMm2 * area_m2;
  return stud;
}

std::vector<const Part*> full_length_studs(const Panel& panel, std::vector<std::string>& missing) {
  std::vector<const Part*> studs;
  double longest_m = 0.0;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::stud && part.kind != PartKind::post) continue;
    const Vec3 size = part.bounds ? part.bounds->size() : Vec3{};
    if (!(size.x > 0.0) || !(size.y > 0.0) || !(size.z > 0.0)) {
      missing.push_back("'" + part.name + "' has no geometry or a zero size");
      continue;
    }
    studs.push_back(&part);
    longest_m = std::max(longest_m, size.z);
  }
  std::erase_if(studs, [&](const Part* part) { return part->bounds->size().z < kFullLength * longest_m; });
  std::sort(studs.begin(), studs.end(),
            [](const Part* a, const Part* b) { return a->bounds->centre().x < b->bounds->centre().x; });
  if (studs.empty() && missing.empty())
    missing.emplace_back("the panel has no studs or posts (IfcMember STUD or POST)");
  return studs;
}

/// Of the member at `index` of members in order from left to right.
double tributary_width_m(const std::vector<std::pair<const Part*, FireMaterial>>& studs, std::size_t index,
                         double panel_width_m) {
  const auto x_m = [&](std::size_t i) { return studs[i].first->bounds->centre().x; };
  const double left_m = index > 0 ? (x_m(index) - x_m(index - 1)) / 2.0 : std::max(0.0, x_m(index));
  const double right_m =
      index + 1 < studs.size() ? (x_m(index + 1) - x_m(index)) / 2.0 : std::max(0.0, panel_width_m - x_m(index));
  return left_m + right_m;
}

}  // namespace

double charring_start_min(const CassetteBoard& board, const Tables& tables) {
  const auto rate = tables.boards.number(board.key, "charring_mm_per_min");
  if (!rate) return gypsum_charring_start_min(board.thickness_mm);
  return wood_panel_charring_start_min(board.thickness_mm, rate->value, board.density_kg_per_m3);
}

StudsInFire studs_in_fire(const Panel& panel, const Project& project, const Cassette& cassette, const Tables& tables,
                          double time_min, bool fire_inside, bool with_resistance) {
  StudsInFire result;
  result.missing = cassette.missing;
  if (!result.missing.empty()) return result;
  StudCharring& charring = result.charring;
  charring.fire_inside = fire_inside;
  charring.charring_start_min = charring_start_min(fire_inside ? *cassette.inside : *cassette.outside, tables);
  charring.zero_strength_factor = zero_strength_factor(time_min, charring.charring_start_min);
  charring.sides_protected = cassette.filling->key == "STONE_WOOL";
  const CassetteBoard& away = fire_inside ? *cassette.outside : *cassette.inside;
  charring.restrained_along_wall = tables.boards.number(away.key, "charring_mm_per_min").has_value();
  double fastest_mm_per_min = 0.0;
  std::vector<std::pair<const Part*, FireMaterial>> studs;
  for (const Part* part : full_length_studs(panel, result.missing)) {
    const auto material =
        read_material(material_at(project, part->material), *part, tables, with_resistance, result.missing);
    if (!material) continue;
    fastest_mm_per_min = std::max(fastest_mm_per_min, material->rate_mm_per_min);
    studs.emplace_back(part, *material);
  }
  if (!result.missing.empty()) return result;
  // One char depth for all members, that of the fastest charring material: safe for the others.
  charring.char_depth_mm = char_depth_mm(time_min, charring.charring_start_min, fastest_mm_per_min);
  charring.effective_depth_mm = effective_char_depth_mm(time_min, charring.charring_start_min, fastest_mm_per_min);
  for (std::size_t i = 0; i < studs.size(); ++i) {
    result.studs.push_back(remaining(*studs[i].first, charring, studs[i].second, with_resistance));
    result.studs.back().tributary_width_m = tributary_width_m(studs, i, panel.width_m.value);
  }
  return result;
}

}  // namespace panel_dossier::fire
