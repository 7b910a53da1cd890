#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "plugins/structural/members/cross_member.h"
#include "plugins/structural/members/members_checks.h"
#include "plugins/structural/studs/stud_checks.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

/// One member at one opening under one combination.
struct LintelCase {
  std::size_t opening = 0;  ///< index into Panel::openings
  CrossMember member;
  double span_m = 0.0;
  double vertical_share = 0.0;  ///< of the load above the opening; lintels side by side share it
  double wind_share = 0.0;      ///< of the wind on the strip at this side of the opening
  double wind_strip_m = 0.0;    ///< height of that strip
  Combination combination;      ///< vertical in N/m as `axial_n`, wind in N/m as `line_load_n_per_m`; before the shares
  Sourced<double> modification_factor;
  LateralBuckling lateral;
  CrossForces forces;
  CrossVerification verification;
  double creeping_n_per_m = 0.0;       ///< vertical load above the opening, characteristic and kdef of what lasts
  double vertical_deflection_m = 0.0;  ///< final, characteristic loads and creep
  double wind_deflection_m = 0.0;      ///< instantaneous: ψ2 of wind is 0

  double utilisation() const;  ///< of bending and shear
};

struct LintelDesign {
  std::vector<LintelCase> cases;
  std::vector<std::string> missing;  ///< not empty: the cases are not complete
};

constexpr double kLintelZone_m = 0.5;  ///< a lintel lies within this above the opening

bool spans(const Part& part, const Opening& opening) {
  return part.bounds->min.x <= opening.x_min_m + tolerance::kSameLine_m &&
         part.bounds->max.x >= opening.x_max_m - tolerance::kSameLine_m;
}

struct FoundMembers {
  std::vector<std::size_t> lintels;
  std::vector<std::size_t> head_trimmers;
  std::vector<std::size_t> sill_trimmers;
  std::vector<std::size_t> pieces;  ///< members in these places that span only a part of the opening
};

/// On what the panel stands on, which carries it all along.
bool lies_on_foot(const Part& part) {
  return part.bounds->min.z < tolerance::kSameLine_m;
}

FoundMembers members_at(const Panel& panel, const Opening& opening) {
  FoundMembers found;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (!part.bounds || !lies_along_wall(part)) continue;
    const double above_m = part.bounds->min.z - opening.z_max_m;
    const bool trimmer = part.kind != PartKind::lintel;
    const bool lintel = !trimmer && above_m > -tolerance::kSameLine_m && above_m < kLintelZone_m;
    const bool at_head = trimmer && std::abs(above_m) < tolerance::kSameLine_m;
    const bool at_sill = trimmer && std::abs(part.bounds->max.z - opening.z_min_m) < tolerance::kSameLine_m;
    if (!lintel && !at_head && !at_sill) continue;
    if (!spans(part, opening)) {
      const double shared_m = overlap_m(along_wall(*part.bounds), {opening.x_min_m, opening.x_max_m});
      if (shared_m > tolerance::kSameLine_m && !lies_on_foot(part)) found.pieces.push_back(i);
      continue;
    }
    if (lintel) found.lintels.push_back(i);
    if (at_head) found.head_trimmers.push_back(i);
    if (at_sill) found.sill_trimmers.push_back(i);
  }
  return found;
}

/// Distance from an edge of the opening to the next support of the panel beyond it.
double beyond_m(const Panel& panel, const DesignBasis& basis, double edge_m, bool upwards) {
  const double spacing_m = basis.support_spacing_m.value_or(panel.height_m.value);
  const double level = edge_m / spacing_m;
  const double next_m = (upwards ? std::ceil(level) : std::floor(level)) * spacing_m;
  return std::abs(std::min(next_m, panel.height_m.value) - edge_m);
}

/// A rail or blocking on the top of a member, or sheets on one of its faces up to its top, over its whole length.
bool top_held(const Panel& panel, const Project& project, std::size_t index) {
  const Box3& member = *panel.parts[index].bounds;
  double inside_m = 0.0;
  double outside_m = 0.0;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (i == index || !part.bounds) continue;
    const Box3& box = *part.bounds;
    const double shared_m = overlap_m(along_wall(box), along_wall(member));
    const bool whole = shared_m > member.size().x - tolerance::kSameLine_m;
    const bool across = part.kind == PartKind::rail || part.kind == PartKind::blocking;
    const bool meets = box.min.y < member.max.y && box.max.y > member.min.y;
    if (across && whole && meets && std::abs(box.min.z - member.max.z) < tolerance::kSameLine_m) return true;
    const bool at_top =
        box.min.z < member.max.z - tolerance::kSameLine_m && box.max.z > member.max.z - tolerance::kSameLine_m;
    if (part.kind != PartKind::sheet || is_gypsum(project, part) || shared_m <= 0.0 || !at_top) continue;
    if (std::abs(box.max.y - member.min.y) < tolerance::kSameLine_m) inside_m += shared_m;
    if (std::abs(box.min.y - member.max.y) < tolerance::kSameLine_m) outside_m += shared_m;
  }
  return std::max(inside_m, outside_m) > member.size().x - tolerance::kSameLine_m;
}

/// Weight of the panel over an opening in N/m.
double weight_above_n_per_m(const Panel& panel, const Opening& opening, const DesignBasis& basis) {
  const double per_area_pa = basis.self_weight_n_per_m / basis.self_weight_share / panel.height_m.value;
  return per_area_pa * std::max(0.0, panel.height_m.value - opening.z_max_m);
}

/// What G is multiplied with for deflection from shear, without holes and notches, which are short.
double sheared_m2(const CrossMember& member) {
  if (member.section.outline) return member.section.outline->shear_area_m2 / 1.5;
  return member.height_m * member.depth_m / 1.2;
}

/// Whether an upright, whatever the export calls it, carries a member on that side of an opening: the member lies on it
/// or butts against it at its end or between its end and the opening.
bool is_carried(const Panel& panel, std::size_t index, const Opening& opening, bool right) {
  const Box3& member = *panel.parts[index].bounds;
  const Stretch beside = right ? Stretch{opening.x_max_m, member.max.x} : Stretch{member.min.x, opening.x_min_m};
  return std::any_of(panel.parts.begin(), panel.parts.end(), [&](const Part& part) {
    if (!part.bounds || !stands_upright(part)) return false;
    const Box3& box = *part.bounds;
    const bool meets_end =
        box.min.x <= beside.to_m + tolerance::kSameLine_m && box.max.x >= beside.from_m - tolerance::kSameLine_m;
    const bool deep =
        box.min.y < member.max.y - tolerance::kModelling_m && box.max.y > member.min.y + tolerance::kModelling_m;
    // It reaches from below at least to the foot of the member, and begins below it.
    const bool from_below =
        box.min.z < member.min.z - tolerance::kModelling_m && box.max.z > member.min.z - tolerance::kSameLine_m;
    return meets_end && deep && from_below;
  });
}

class LintelDesigner {
 public:
  LintelDesigner(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                 const StudDesign& design)
      : panel_(panel), project_(project), settings_(settings), tables_(tables), design_(design) {}

  LintelDesign run() {
    for (std::size_t i = 0; i < panel_.openings.size(); ++i) at_opening(i);
    return std::move(result_);
  }

 private:
  const Panel& panel_;
  const Project& project_;
  const Settings& settings_;
  const Tables& tables_;
  const StudDesign& design_;
  LintelDesign result_;

  void at_opening(std::size_t index) {
    const Opening& opening = panel_.openings[index];
    const FoundMembers found = members_at(panel_, opening);
    for (const std::size_t piece : found.pieces) {
      result_.missing.push_back("'" + panel_.parts[piece].name + "' ends within opening '" + opening.name +
                                "', and no splice there is verified");
    }
    if (found.lintels.empty() && (design_.basis.load_bearing || found.head_trimmers.empty())) {
      result_.missing.push_back("no lintel spans opening '" + opening.name +
                                "' (IfcMember LINTEL over its whole width)");
      return;
    }
    const bool trimmed = !found.head_trimmers.empty();
    const auto share = [](const std::vector<std::size_t>& members) {
      return members.empty() ? 0.0 : 1.0 / static_cast<double>(members.size());
    };
    const double half_m = opening.height_m() / 2.0;
    const double above_m = half_m + beyond_m(panel_, design_.basis, opening.z_max_m, true) / 2.0;
    const double below_m = half_m + beyond_m(panel_, design_.basis, opening.z_min_m, false) / 2.0;
    for (const std::size_t part : found.lintels) {
      add(index, part, share(found.lintels), trimmed ? 0.0 : share(found.lintels), above_m);
    }
    for (const std::size_t part : found.head_trimmers) {
      add(index, part, found.lintels.empty() ? share(found.head_trimmers) : 0.0, share(found.head_trimmers), above_m);
    }
    for (const std::size_t part : found.sill_trimmers) add(index, part, 0.0, share(found.sill_trimmers), below_m);
  }

  void add(std::size_t opening, std::size_t part, double vertical_share, double wind_share, double wind_strip_m) {
    const auto member = cross_member(panel_, part, project_, settings_, tables_, design_.basis.annex, result_.missing);
    if (!member) return;
    if (!lies_on_foot(panel_.parts[part])) look_for_seats(part, panel_.openings[opening]);
    if (member->section.outline && !top_held(panel_, project_, part)) {
      result_.missing.push_back("lateral torsional buckling of '" + panel_.parts[part].name +
                                "' (EN 1995-1-1 6.3.3), whose expressions are those of a rectangle");
    }
    LintelCase found;
    found.opening = opening;
    found.member = *member;
    found.span_m = member->length_m;
    found.vertical_share = vertical_share;
    found.wind_share = wind_share;
    found.wind_strip_m = wind_strip_m;
    found.lateral = lateral_buckling(*member, found.span_m, top_held(panel_, project_, part));
    Actions actions;
    actions.permanent_n =
        design_.basis.permanent_n_per_m + weight_above_n_per_m(panel_, panel_.openings[opening], design_.basis);
    actions.variable_n = design_.basis.variable_n_per_m;
    actions.wind_n_per_m = design_.basis.wind_pressure_pa * wind_strip_m;
    add_deflections(found, actions);
    for (const Combination& combination : combinations(actions, design_.basis.factors)) add_case(found, combination);
  }

  void look_for_seats(std::size_t part, const Opening& opening) {
    for (const bool right : {false, true}) {
      if (is_carried(panel_, part, opening, right)) continue;
      result_.missing.push_back("no stud or post carries the " + std::string(right ? "right" : "left") + " end of '" +
                                panel_.parts[part].name + "'");
    }
  }

  void add_deflections(LintelCase& found, const Actions& actions) const {
    const CrossMember& m = found.member;
    const double modulus_pa = m.material.timber.modulus_mean_pa.value;
    const double shear_stiffness_n = m.material.timber.shear_modulus_mean_pa.value * sheared_m2(m);
    const auto under = [&](double n_per_m, double second_moment_m4) {
      const double stiffness_nm2 = modulus_pa * second_moment_m4;
      return n_per_m * (5.0 * std::pow(found.span_m, 4) / (384.0 * stiffness_nm2) +
                        found.span_m * found.span_m / (8.0 * shear_stiffness_n));
    };
    double characteristic_n_per_m = 0.0;
    double lasting_n_per_m = 0.0;
    for (const auto& loads : serviceability_combinations(actions, design_.basis.factors)) {
      double& target = loads.kind == Serviceability::characteristic ? characteristic_n_per_m : lasting_n_per_m;
      target = std::max(target, loads.axial_n);
    }
    found.creeping_n_per_m = characteristic_n_per_m + m.material.deformation_factor.value * lasting_n_per_m;
    found.vertical_deflection_m = under(found.vertical_share * found.creeping_n_per_m, m.upright_second_moment_m4());
    found.wind_deflection_m = under(found.wind_share * actions.wind_n_per_m, m.across_second_moment_m4());
  }

  void add_case(LintelCase found, const Combination& combination) {
    const auto factor = modification_factor(tables_, found.member.material, combination.duration);
    if (!factor) return result_.missing.push_back("no modification factor for load duration " + combination.duration);
    found.combination = combination;
    found.modification_factor = *factor;
    const double vertical_n_per_m = found.vertical_share * combination.axial_n;
    const double wind_n_per_m = found.wind_share * combination.line_load_n_per_m;
    const double l = found.span_m;
    found.forces = {vertical_n_per_m * l * l / 8.0, wind_n_per_m * l * l / 8.0, vertical_n_per_m * l / 2.0,
                    wind_n_per_m * l / 2.0};
    found.verification = verify_cross_member(found.member, factor->value, design_.basis.crack_factor, found.forces,
                                             found.lateral.factor);
    result_.cases.push_back(std::move(found));
  }
};

double LintelCase::utilisation() const {
  return std::max(verification.bending, verification.shear);
}

/// The members at or below the height at which persons lean on a barrier, which no member here is checked for; empty
/// where the panel is no barrier.
std::vector<std::string> barrier_members(const Panel& panel, const LintelDesign& lintels, const DesignBasis& basis) {
  std::vector<std::string> names;
  if (!basis.balustrade) return names;
  for (const LintelCase& result : lintels.cases) {
    const Part& part = panel.parts[result.member.part];
    if (part.bounds->min.z > basis.balustrade->height_m) continue;
    if (std::find(names.begin(), names.end(), part.name) == names.end()) names.push_back(part.name);
  }
  return names;
}

/// Precondition: `design.missing` is empty. Vertical load: that of the head and the weight of the panel above the
/// opening. Its top edge is held by a member or by sheets of a wood-based panel over its whole length. Wind: half of
/// the opening and half of what lies between it and the next support.
LintelDesign design_lintels(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                            const StudDesign& design) {
  return LintelDesigner(panel, project, settings, tables, design).run();
}

using units::millimetres_from_metres;

double deflection_share(const LintelCase& result, double ratio) {
  return std::max(result.vertical_deflection_m, result.wind_deflection_m) * ratio / result.span_m;
}

/// The governing combination of each member at each opening.
Table lintel_table(const Panel& panel, const std::vector<LintelCase>& cases, double ratio) {
  Table table{"Lintels and trimmers",
              {{"opening", ""},
               {"member", ""},
               {"span", "m"},
               {"M_y,d", "kNm"},
               {"M_z,d", "kNm"},
               {"bending", ""},
               {"shear", ""},
               {"deflection", ""}},
              {}};
  std::map<std::pair<std::size_t, std::size_t>, const LintelCase*> worst;
  for (const LintelCase& result : cases) {
    const LintelCase*& held = worst[{result.opening, result.member.part}];
    if (held == nullptr || held->utilisation() < result.utilisation()) held = &result;
  }
  for (const auto& [key, result] : worst) {
    table.rows.push_back({panel.openings[key.first].name, panel.parts[key.second].name, result->span_m,
                          result->forces.vertical_moment_nm / units::kNewtonPerKilonewton,
                          result->forces.wind_moment_nm / units::kNewtonPerKilonewton, result->verification.bending,
                          result->verification.shear, deflection_share(*result, ratio)});
  }
  return table;
}

void add_lintel_inputs(FindingBuilder& builder, const Panel& panel, const LintelCase& result) {
  const TimberClass& timber = result.member.material.timber;
  const Opening& opening = panel.openings[result.opening];
  add_cross_member(builder, panel, "governing member", result.member, result.modification_factor);
  add_strength(builder, "mean modulus of elasticity", "E_0,mean", timber.modulus_mean_pa);
  add_strength(builder, "fifth percentile modulus of elasticity", "E_0,05", timber.modulus_fifth_pa);
  add_strength(builder, "mean shear modulus", "G_mean", timber.shear_modulus_mean_pa);
  builder.number("deformation factor", "k_def", "", result.member.material.deformation_factor, {});
  builder.number("top of the opening above the foot of the panel", "z_o", "m",
                 Sourced<double>{opening.z_max_m, opening.origin}, {});
}

void add_loads(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const LintelCase& result) {
  const DesignBasis& basis = design.basis;
  const FactorSymbols& factors = result.combination.symbols;
  const double weight = weight_above_n_per_m(panel, panel.openings[result.opening], basis);
  const std::string variable = basis.load_bearing ? factored(factors.variable, "Q_k") : std::string();
  builder.step("span, the length of the member", "l", result.span_m, "m")
      .step("weight of the panel above the opening", "g_a", weight / units::kNewtonPerKilonewton, "kN/m",
            "g_a = m · 9.80665 / (1000 · B · H) · max(0; H − z_o)")
      .step("permanent load above the opening", "G", (weight + basis.permanent_n_per_m) / units::kNewtonPerKilonewton,
            "kN/m", basis.load_bearing ? "G = g_a + G_k" : "G = g_a")
      .step("share of the vertical load on this member; lintels side by side share it equally", "ρ_v",
            result.vertical_share, "")
      .step(
          "height of wall whose wind comes to this edge of the opening: half of the opening and half of the way to the "
          "next support",
          "h_w", result.wind_strip_m, "m")
      .step("share of that wind on this member", "ρ_w", result.wind_share, "")
      .step_text("governing combination, EN 1990:2002 6.4.3.2",
                 result.combination.name + ": " + result.combination.expression)
      .step("design vertical load on this member", "q_d",
            result.vertical_share * result.combination.axial_n / units::kNewtonPerKilonewton, "kN/m",
            "q_d = ρ_v · (" + sum_of({factored(factors.permanent, "G"), variable}) + ")")
      .step("design wind on this member", "w_d",
            result.wind_share * result.combination.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "w_d = ρ_w · (" + sum_of({factored(factors.wind, "w_k · h_w")}) + ")");
}

void add_lateral_steps(FindingBuilder& builder, const LintelCase& result) {
  const LateralBuckling& lateral = result.lateral;
  if (lateral.held) {
    builder.step_text("top edge, 6.3.3", "held over the whole length by a member or sheathing")
        .step("lateral buckling factor (6.34)", "k_crit", lateral.factor, "", "k_crit = 1");
    return;
  }
  builder
      .step("effective length, table 6.1, load on a compression edge that nothing holds", "l_ef",
            lateral.effective_length_m, "m", "l_ef = 0.9 · l + 2 · h")
      .step("critical bending stress (6.32)", "σ_m,crit", lateral.critical_stress_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²", "σ_m,crit = 0.78 · b² · E_0,05 / (h · l_ef)")
      .step("relative slenderness for bending (6.30)", "λ_rel,m", lateral.relative_slenderness, "",
            "λ_rel,m = √(f_m,k / σ_m,crit)")
      .step("lateral buckling factor (6.34)", "k_crit", lateral.factor, "",
            lateral_factor_formula(lateral.relative_slenderness));
}

void add_forces(FindingBuilder& builder, const LintelCase& result) {
  const auto force = [&](const char* name, const char* symbol, double value, const char* unit, const char* formula) {
    builder.step(name, symbol, value / units::kNewtonPerKilonewton, unit, formula);
  };
  force("moment from vertical load", "M_y,d", result.forces.vertical_moment_nm, "kNm", "M_y,d = q_d · l² / 8");
  force("moment from wind", "M_z,d", result.forces.wind_moment_nm, "kNm", "M_z,d = w_d · l² / 8");
  force("shear force from vertical load", "V_y", result.forces.vertical_shear_n, "kN", "V_y = q_d · l / 2");
  force("shear force from wind", "V_z", result.forces.wind_shear_n, "kN", "V_z = w_d · l / 2");
}

/// Bending and shear of a simple span under a line load, in symbols: what 1 N/m does.
std::string bent_by(const char* second_moment, bool outline) {
  return "(5 · l⁴ / (384 · E_0,mean · " + std::string(second_moment) + ") + " +
         (outline ? "1.5 · l² / (8 · G_mean · A_v)" : "1.2 · l² / (8 · G_mean · b · h)") + ")";
}

void add_deflection(FindingBuilder& builder, const DesignBasis& basis, const LintelCase& result, double ratio) {
  const CrossMember& m = result.member;
  const bool imposed = basis.variable_n_per_m > 0.0;
  const bool outline = m.section.outline.has_value();
  builder
      .step("second moment of area, vertical load", "I_y", m.upright_second_moment_m4() * 1e12, "mm⁴",
            outline ? "" : "I_y = b · h³ / 12")
      .step("second moment of area, wind", "I_z", m.across_second_moment_m4() * 1e12, "mm⁴",
            outline ? "" : "I_z = h · b³ / 12")
      .step("vertical load above the opening with what creeps of it, 2.2.3", "q_c",
            result.creeping_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            imposed ? "q_c = G + Q_k + k_def · (G + ψ_2,Q · Q_k)" : "q_c = G + k_def · G")
      .step("final deflection from vertical load, 2.2.3", "u_fin",
            millimetres_from_metres(result.vertical_deflection_m), "mm",
            "u_fin = ρ_v · q_c · " + bent_by("I_y", outline))
      .step("deflection from wind", "u_w", millimetres_from_metres(result.wind_deflection_m), "mm",
            "u_w = ρ_w · w_k · h_w · " + bent_by("I_z", outline))
      .step("share of the deflection limit", "η_u", deflection_share(result, ratio), "",
            "η_u = max(u_fin; u_w) · r / l");
}

}  // namespace

const CheckDeclaration kLintelBendingCheck{
    .id = "structural.lintel_bending",
    .title = "Lintels and trimmers over openings",
    .project_title = {},
    .sentence =
        "Of all lintels and trimmers round the openings of a panel under all combinations of EN 1990, the largest "
        "utilisation in bending, in shear or of the limit of deflection is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.6, 6.1.7, 6.3.3, 7.2",
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis(
        {optional_setting("structural.deflection_limit_ratio"), optional_setting("structural.deflection_finish"),
         optional_property("Panel_Fire.ProtectionRole"), data_table("deflection_limits.csv")})),
    .limits = {
        "Lintels and trimmers are simple spans under uniform load.",
        "Seats are looked for: an upright member under or beside each end; the joints that pass the forces to it are "
        "not checked.",
        "The weight of a window on its sill is left out.",
        "Members at or below the height of a barrier load are not assessed."}};

Finding lintel_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const StudDesign& design) {
  FindingBuilder builder(kLintelBendingCheck, panel.global_id);
  if (panel.openings.empty()) {
    builder.number("openings of the panel", "", "", Sourced<double>{0.0, panel.origin}, {});
    builder.note("A panel without an opening has no lintel to check.");
    return builder.inform_text("no opening");
  }
  const auto ratio = deflection_ratio(builder, settings, tables);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  if (builder.incomplete()) return builder.not_assessed();
  const LintelDesign lintels = design_lintels(panel, project, settings, tables, design);
  for (const std::string& what : lintels.missing) builder.missing(what);
  for (const std::string& name : barrier_members(panel, lintels, design.basis)) {
    builder.missing(
        "'" + name +
        "' under persons leaning on the panel (Panel_Structure.BarrierHeight lies above it): the structural "
        "engineer must check it");
  }
  if (builder.incomplete()) return builder.not_assessed();
  const auto use = [&](const LintelCase& c) { return std::max(c.utilisation(), deflection_share(c, *ratio)); };
  const LintelCase& worst =
      *std::max_element(lintels.cases.begin(), lintels.cases.end(),
                        [&](const LintelCase& a, const LintelCase& b) { return use(a) < use(b); });
  add_inputs(builder, design.basis.inputs);
  add_lintel_inputs(builder, panel, worst);
  add_loads(builder, panel, design, worst);
  add_lateral_steps(builder, worst);
  add_forces(builder, worst);
  add_cross_verification(builder, worst.member, worst.verification, true);
  add_deflection(builder, design.basis, worst, *ratio);
  builder.table(lintel_table(panel, lintels.cases, *ratio))
      .note(
          "Simple spans under uniform load; the studs beside an opening take half of its width in the checks of studs. "
          "A "
          "trimmer takes the wind where there is one, the lintels the vertical load. The joints that pass the ends' "
          "forces to the studs and the weight of a window on its sill are not checked here.");
  return builder.judge(use(worst), "", Relation::at_most, 1.0,
                       "'" + panel.parts[worst.member.part].name + "' at opening '" +
                           panel.openings[worst.opening].name + "' is overloaded or bends too far");
}

}  // namespace panel_dossier::structural
