#include "plugins/fire/calculation/stud_in_fire.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"

namespace panel_dossier::fire {

namespace {

constexpr double kFullLength = 0.95;  ///< share of the longest stud's length that counts as full
constexpr double kStocky = 0.3;       ///< largest λrel at which a member does not buckle, EN 1995-1-1 6.3.2(2)

struct FireMaterial {
  double notional_mm_per_min = 0.0;         ///< βn
  double one_dimensional_mm_per_min = 0.0;  ///< β0
  std::optional<StrengthInFire> strength;
};

void note_once(std::vector<std::string>& missing, std::string what) {
  if (std::find(missing.begin(), missing.end(), what) == missing.end()) missing.push_back(std::move(what));
}

std::optional<StrengthInFire> read_strength(const Material& material, const Tables& tables,
                                            std::vector<std::string>& missing) {
  const auto grade = material.strength_class();
  if (!grade) {
    note_once(missing, "material '" + material.name + "' has no strength class (Pset_MaterialWood.StrengthGrade)");
    return std::nullopt;
  }
  std::string name = grade->value;
  std::erase(name, ' ');
  const auto compression = tables.timber_in_fire.number(name, "compression_parallel");
  const auto modulus = tables.timber_in_fire.number(name, "modulus_fifth");
  const auto k_fi = tables.timber_in_fire.number(name, "k_fi");
  const auto family = tables.timber_in_fire.text(name, "family");
  if (!compression || !modulus || !k_fi || !family) {
    note_once(missing, "strength class '" + grade->value + "' of material '" + material.name + "' is unknown");
    return std::nullopt;
  }
  return StrengthInFire{*compression, *modulus, *k_fi, family->value == "glulam" ? 0.1 : 0.2};
}

std::optional<FireMaterial> read_material(const Material* material, const Part& part, const Tables& tables,
                                          bool with_resistance, std::vector<std::string>& missing) {
  if (material == nullptr) {
    note_once(missing, "'" + part.name + "' has no material");
    return std::nullopt;
  }
  FireMaterial result;
  const auto charring = material->properties.text("Panel_Fire", "CharringClass");
  const std::string row = charring ? charring->value : std::string();
  const auto notional = tables.charring_rates.number(row, "notional_mm_per_min");
  const auto one_dimensional = tables.charring_rates.number(row, "one_dimensional_mm_per_min");
  if (!notional || !one_dimensional) {
    note_once(missing,
              "material '" + material->name + "': Panel_Fire.CharringClass (SOFTWOOD, GLULAM, LVL or HARDWOOD)");
    return std::nullopt;
  }
  result.notional_mm_per_min = notional->value;
  result.one_dimensional_mm_per_min = one_dimensional->value;
  if (!with_resistance) return result;
  result.strength = read_strength(*material, tables, missing);
  return result.strength ? std::optional(result) : std::nullopt;
}

void resist(RemainingStud& stud, const StrengthInFire& strength, bool restrained_along_wall) {
  stud.strength = strength;
  if (stud.remaining_width_mm <= 0.0 || stud.remaining_depth_mm <= 0.0) return;
  stud.across_wall = buckling_of(stud.length_m, stud.remaining_depth_mm, strength);
  stud.buckling_factor = stud.across_wall->factor;
  if (!restrained_along_wall) {
    stud.along_wall = buckling_of(stud.length_m, stud.remaining_width_mm, strength);
    stud.buckling_factor = std::min(stud.buckling_factor, stud.along_wall->factor);
  }
  const double area_m2 = stud.remaining_width_mm * stud.remaining_depth_mm * 1e-6;
  stud.resistance_n = stud.buckling_factor * strength.k_fi.value * strength.compression_n_per_mm2.value *
                      units::kPascalPerNewtonPerMm2 * area_m2;
}

RemainingStud remaining(const Part& part, const StudCharring& charring, const FireMaterial& material) {
  const Vec3 size = part.bounds->size();
  RemainingStud stud;
  stud.name = part.name;
  stud.origin = part.origin;
  stud.width_mm = units::millimetres_from_metres(size.x);
  stud.depth_mm = units::millimetres_from_metres(size.y);
  stud.length_m = size.z;
  if (!charring.failed) {
    const double sides = charring.rule == CharringRule::three_faces ? 2.0 : 0.0;
    stud.remaining_width_mm = std::max(0.0, stud.width_mm - sides * charring.effective_depth_mm);
    stud.remaining_depth_mm = std::max(0.0, stud.depth_mm - charring.effective_depth_mm);
  }
  if (material.strength) resist(stud, *material.strength, charring.restrained_along_wall);
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
  std::sort(missing.begin(), missing.end());
  std::sort(studs.begin(), studs.end(), [](const Part* a, const Part* b) {
    return std::pair(a->bounds->centre().x, a->name) < std::pair(b->bounds->centre().x, b->name);
  });
  if (studs.empty() && missing.empty())
    missing.emplace_back("the panel has no studs or posts (IfcMember STUD or POST)");
  return studs;
}

/// Widths of wall that the member at `index` carries, to the middle of its neighbours; pieces that stand on one another
/// are no neighbours: each carries all that comes to their line.
void carry(RemainingStud& stud, const std::vector<std::pair<const Part*, FireMaterial>>& studs, std::size_t index,
           double panel_width_m) {
  const auto x_m = [&](std::size_t i) { return studs[i].first->bounds->centre().x; };
  const double own_m = x_m(index);
  std::optional<double> left_m;
  std::optional<double> right_m;
  for (std::size_t i = 0; i < studs.size(); ++i) {
    const double apart_m = x_m(i) - own_m;
    if (apart_m < -tolerance::kSameLine_m) left_m = std::max(left_m.value_or(apart_m), apart_m);
    if (apart_m > tolerance::kSameLine_m) right_m = std::min(right_m.value_or(apart_m), apart_m);
  }
  stud.carried_left_m = left_m ? -*left_m / 2.0 : std::max(0.0, own_m);
  stud.carried_right_m = right_m ? *right_m / 2.0 : std::max(0.0, panel_width_m - own_m);
}

bool is_restraint(const CassetteBoard& board, const Tables& tables) {
  return is_wood_panel(board, tables) && board.joints.known && board.fixings.spacing_m;
}

/// Charring of this member; takes the place of the one held so far when it is deeper at `time_min`.
void keep_fastest(StudCharring& charring, const Part& part, const FireMaterial& material, const CassetteBoard& board,
                  const Tables& tables, double time_min, std::vector<std::string>& missing) {
  const bool insulated = charring.rule != CharringRule::three_faces;
  const double width_mm = units::millimetres_from_metres(part.bounds->size().x);
  const auto section = insulated ? stud_section_factor(width_mm, tables) : std::optional<double>{1.0};
  if (!section) {
    note_once(missing, "'" + part.name + "' is narrower than EN 1995-1-2 table C1 covers (38 mm)");
    return;
  }
  const double slow = insulated ? insulated_slow_factor(board.thickness_mm) : slow_factor(board.thickness_mm);
  // A joint of the board over the stud is taken for all studs.
  const double pull_out_rate =
      insulated ? *section * kInsulatedSectionFactor * slow * kJointOverStud * material.one_dimensional_mm_per_min
                : slow * material.notional_mm_per_min;
  for (const BoardTimes& times : board_times(board, tables, pull_out_rate)) {
    const CharringPhases phases =
        insulated
            ? insulated_stud(times.start_min, times.fall_off_min, material.one_dimensional_mm_per_min, *section, slow)
            : protected_member(times.start_min, times.fall_off_min, material.notional_mm_per_min, slow);
    const bool first = charring.phases.plain_mm_per_min <= 0.0;
    const double back_min = charring.rule == CharringRule::glass_wool
                                ? times.fall_off_min
                                : phases.time_min(units::millimetres_from_metres(part.bounds->size().y));
    charring.back_min = first ? back_min : std::min(charring.back_min, back_min);
    const double depth_mm = phases.depth_mm(time_min);
    // Both pairs of times of a board often give the same depth; rounding must not choose between them.
    constexpr double kSameDepth_mm = 1e-9;
    const bool worse = charring.rule == CharringRule::glass_wool ? times.fall_off_min < charring.board.fall_off_min
                                                                 : depth_mm > charring.char_depth_mm + kSameDepth_mm;
    if (!first && !worse) continue;
    charring.board = times;
    charring.phases = phases;
    charring.rate_mm_per_min = insulated ? material.one_dimensional_mm_per_min : material.notional_mm_per_min;
    charring.section_factor = *section;
    charring.slow_factor = slow;
    charring.pull_out_rate_mm_per_min = pull_out_rate;
    charring.char_depth_mm = depth_mm;
  }
}

CharringRule rule_for(const Cassette& cassette) {
  if (!cassette.filling) return CharringRule::three_faces;
  return cassette.filling->key == "STONE_WOOL" ? CharringRule::insulated_stud : CharringRule::glass_wool;
}

}  // namespace

std::optional<double> stud_section_factor(double width_mm, const Tables& tables) {
  Points points;
  for (const std::string& key : tables.stud_section.keys()) {
    const auto width = tables.stud_section.number(key, "width_mm");
    const auto factor = tables.stud_section.number(key, "section_factor");
    if (width && factor) points.emplace_back(width->value, factor->value);
  }
  return interpolated(points, width_mm);
}

Buckling buckling_of(double length_m, double depth_mm, const StrengthInFire& strength) {
  Buckling result;
  result.slenderness = units::millimetres_from_metres(length_m) / (depth_mm / std::sqrt(12.0));
  result.relative_slenderness =
      result.slenderness / std::numbers::pi *
      std::sqrt(strength.compression_n_per_mm2.value / strength.modulus_fifth_n_per_mm2.value);
  const double relative = result.relative_slenderness;
  if (relative <= kStocky) return result;
  const double k = 0.5 * (1.0 + strength.straightness_factor * (relative - kStocky) + relative * relative);
  result.k = k;
  result.factor = 1.0 / (k + std::sqrt(k * k - relative * relative));
  return result;
}

StudsInFire studs_in_fire(const Panel& panel, const Project& project, const Cassette& cassette, const Tables& tables,
                          double time_min, bool fire_inside, bool with_resistance) {
  StudsInFire result;
  StudCharring& charring = result.charring;
  charring.fire_inside = fire_inside;
  result.missing = cassette.missing;
  if (time_min > kAnnexesCAndDLimit_min) {
    result.missing.push_back("the period is " + std::to_string(std::lround(time_min)) +
                             " min; EN 1995-1-2 annexes C and D end at 60 min");
  }
  if (!result.missing.empty()) return result;
  const CassetteBoard& exposed = cassette.exposed(fire_inside);
  charring.rule = rule_for(cassette);
  charring.restrained_along_wall = is_restraint(cassette.unexposed(fire_inside), tables);
  std::vector<std::pair<const Part*, FireMaterial>> studs;
  for (const Part* part : full_length_studs(panel, result.missing)) {
    const auto material =
        read_material(material_at(project, part->material), *part, tables, with_resistance, result.missing);
    if (!material) continue;
    keep_fastest(charring, *part, *material, exposed, tables, time_min, result.missing);
    studs.emplace_back(part, *material);
  }
  if (!result.missing.empty()) return result;
  const double start_min = charring.phases.start_min;
  charring.failed = charring.rule == CharringRule::glass_wool && time_min >= charring.back_min;
  charring.zero_strength_factor = zero_strength_factor(time_min, start_min);
  charring.effective_depth_mm = charring.char_depth_mm + charring.zero_strength_factor * kZeroStrengthLayer_mm;
  charring.fall_off_depth_mm = charring.phases.depth_mm(charring.phases.fall_off_min);
  charring.required_fastener_mm = required_fastener_length_mm(exposed.thickness_mm, charring.fall_off_depth_mm);
  for (std::size_t i = 0; i < studs.size(); ++i) {
    result.studs.push_back(remaining(*studs[i].first, charring, studs[i].second));
    carry(result.studs.back(), studs, i, panel.width_m.value);
  }
  return result;
}

}  // namespace panel_dossier::fire
