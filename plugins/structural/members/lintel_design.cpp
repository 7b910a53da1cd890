#include "plugins/structural/members/lintel_design.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/tolerances.h"

namespace panel_dossier::structural {

namespace {

constexpr double kLintelZone_m = 0.5;  ///< a lintel lies within this above the opening

bool spans(const Part& part, const Opening& opening) {
  return part.bounds && part.bounds->min.x <= opening.x_min_m + tolerance::kSameLine_m &&
         part.bounds->max.x >= opening.x_max_m - tolerance::kSameLine_m;
}

struct FoundMembers {
  std::vector<std::size_t> lintels;
  std::vector<std::size_t> head_trimmers;
  std::vector<std::size_t> sill_trimmers;
};

FoundMembers members_at(const Panel& panel, const Opening& opening) {
  FoundMembers found;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (!spans(part, opening)) continue;
    const double above_m = part.bounds->min.z - opening.z_max_m;
    if (part.kind == PartKind::lintel && above_m > -tolerance::kSameLine_m && above_m < kLintelZone_m)
      found.lintels.push_back(i);
    const bool trimmer = part.kind == PartKind::blocking || part.kind == PartKind::rail;
    if (trimmer && std::abs(above_m) < tolerance::kSameLine_m) found.head_trimmers.push_back(i);
    if (trimmer && std::abs(part.bounds->max.z - opening.z_min_m) < tolerance::kSameLine_m)
      found.sill_trimmers.push_back(i);
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

class Designer {
 public:
  Designer(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
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

  void add_deflections(LintelCase& found, const Actions& actions) const {
    const CrossMember& m = found.member;
    const double modulus_pa = m.material.timber.modulus_mean_pa.value;
    const double shear_stiffness_n = m.material.timber.shear_modulus_mean_pa.value * m.area_m2() / 1.2;
    const auto under = [&](double n_per_m, double section_modulus_m3, double height_m) {
      const double stiffness_nm2 = modulus_pa * section_modulus_m3 * height_m / 2.0;
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
    found.vertical_deflection_m =
        under(found.vertical_share * found.creeping_n_per_m, m.upright_modulus_m3(), m.height_m);
    found.wind_deflection_m = under(found.wind_share * actions.wind_n_per_m, m.across_modulus_m3(), m.depth_m);
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

}  // namespace

double LintelCase::utilisation() const {
  return std::max(verification.bending, verification.shear);
}

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

double weight_above_n_per_m(const Panel& panel, const Opening& opening, const DesignBasis& basis) {
  const double per_area_pa = basis.self_weight_n_per_m / basis.self_weight_share / panel.height_m.value;
  return per_area_pa * std::max(0.0, panel.height_m.value - opening.z_max_m);
}

LintelDesign design_lintels(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                            const StudDesign& design) {
  return Designer(panel, project, settings, tables, design).run();
}

}  // namespace panel_dossier::structural
