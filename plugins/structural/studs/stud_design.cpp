#include "plugins/structural/studs/stud_design.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "plugins/structural/studs/composite_reader.h"

namespace panel_dossier::structural {

namespace {

void keep_new(std::vector<std::string>& all, const std::vector<std::string>& more) {
  for (const std::string& what : more) {
    if (std::find(all.begin(), all.end(), what) == all.end()) all.push_back(what);
  }
}

void read_materials(StudDesign& design, const Panel& panel, const Project& project, const Settings& settings,
                    const Tables& tables) {
  std::map<std::optional<std::size_t>, std::optional<MemberMaterial>> known;
  for (const VerticalMember& member : design.framing.members) {
    if (!known.contains(member.material)) {
      const std::string& name = panel.parts[member.parts.front()].name;
      std::vector<std::string> missing;
      known[member.material] =
          member_material(material_at(project, member.material), name, settings, tables, design.basis.annex, missing);
      keep_new(design.missing, missing);
    }
    if (const auto& material = known[member.material]) design.materials.push_back(*material);
  }
}

Resistance resistance_of(const StudDesign& design, std::size_t index, double modification_factor) {
  const MemberMaterial& material = design.materials[index];
  Resistance resistance;
  resistance.bending_pa = material.timber.bending_pa.value;
  resistance.tension_parallel_pa = material.timber.tension_parallel_pa.value;
  resistance.compression_parallel_pa = material.timber.compression_parallel_pa.value;
  resistance.shear_pa = material.timber.shear_pa.value;
  resistance.modulus_fifth_pa = material.timber.modulus_fifth_pa.value;
  resistance.modification_factor = modification_factor;
  resistance.partial_factor = material.partial_factor.value;
  resistance.depth_factor = section_depth_factor(design.section(index), material.timber.family);
  resistance.system_factor = design.framing.members[index].shares_load ? 1.1 : 1.0;
  resistance.crack_factor = design.basis.crack_factor;
  resistance.straightness_factor = straightness_factor(material.timber.family);
  resistance.notch_factor = notch_factor(material.timber.family);
  return resistance;
}

/// The section of annex B takes the bending in place of the stud alone.
void work_with_sheets(const StudDesign& design, StudCase& result) {
  const CompositeStud* stud = design.composite.of(result.member);
  if (stud == nullptr || result.forces.moment_nm == 0.0) return;
  std::vector<CompositeFaceStrength> strengths;
  for (const CompositeFace& face : stud->faces) {
    strengths.push_back(face_strength(face, result.modification_factor.value, result.combination.duration));
  }
  const CombinationFactors& factors = design.basis.factors;
  const double creep = std::max(result.combination.wind_factor > 0.0 ? factors.wind_psi2 : 0.0,
                                result.combination.barrier_n > 0.0 ? factors.barrier_psi2 : 0.0);
  result.composite = verify_composite(*stud, strengths, result.resistance.bending_design_pa(),
                                      result.resistance.tension_design_pa(), result.forces, creep);
  result.bending.utilisation = result.composite->stud_utilisation;
  result.bending.stress_pa = result.bending.utilisation * result.bending.strength_pa;
}

void verify(StudDesign& design, std::size_t index, const Combination& combination, const Tables& tables) {
  const MemberMaterial& material = design.materials[index];
  const auto modification = modification_factor(tables, material, combination.duration);
  if (!modification) {
    keep_new(design.missing, {"no modification factor for load duration " + combination.duration});
    return;
  }
  StudCase result;
  result.member = index;
  result.combination = combination;
  result.modification_factor = *modification;
  result.resistance = resistance_of(design, index, modification->value);
  result.forces.axial_n = combination.axial_n;
  if (combination.barrier_n == 0.0) {
    result.forces.moment_nm = combination.line_load_n_per_m * design.unit_effects[index].moment_nm;
    result.forces.shear_n = combination.line_load_n_per_m * design.unit_effects[index].shear_n;
  } else {
    const StudEffects effects = stud_effects(design.systems[index], combination.line_load_n_per_m,
                                             design.barrier(index, combination.barrier_n));
    result.forces.moment_nm = effects.moment_nm;
    result.forces.shear_n = effects.shear_n;
  }
  const Section section = design.section(index);
  result.bending = verify_bending(section, result.resistance, result.forces);
  work_with_sheets(design, result);
  result.shear = verify_shear(section, result.resistance, result.forces);
  result.stability = verify_stability(section, result.resistance, design.restraint(index), result.forces);
  design.cases.push_back(std::move(result));
}

SpanDeflection deflection_under(const StudDesign& design, std::size_t index, const ServiceabilityCombination& loads) {
  return span_deflection(design.systems[index], loads.line_load_n_per_m, design.barrier(index, loads.barrier_n),
                         design.bending_stiffness_nm2(index), design.shear_stiffness_n(index));
}

StudDeflection deflection_of(const StudDesign& design, std::size_t index) {
  StudDeflection worst;
  worst.member = index;
  const Actions actions = actions_on(design.framing.members[index], design.basis);
  for (const ServiceabilityCombination& loads : serviceability_combinations(actions, design.basis.factors)) {
    const bool creeps = loads.kind == Serviceability::quasi_permanent;
    if (creeps && loads.line_load_n_per_m == 0.0 && loads.barrier_n == 0.0) continue;
    StudDeflection candidate = worst;
    (creeps ? candidate.quasi_permanent : candidate.combination) = loads;
    (creeps ? candidate.lasting : candidate.span) = deflection_under(design, index, loads);
    const auto share = [&](const StudDeflection& d) { return std::max(design.span_ratio(d), design.tip_ratio(d)); };
    if (creeps || worst.combination.name.empty() || share(candidate) > share(worst)) worst = candidate;
  }
  return worst;
}

std::string splice_doubt(const Panel& panel, std::size_t lower, std::size_t upper, double height_m) {
  return "the splice of '" + panel.parts[lower].name + "' and '" + panel.parts[upper].name + "' " +
         fixed_text(height_m, 3) + " m above the foot of the panel, where no support holds the member";
}

/// Pieces that meet between two supports are a hinge there, whatever their section.
void doubt_splices(VerticalMember& member, const StudSystem& system, const Panel& panel) {
  for (std::size_t i = 0; i < member.joints_m.size(); ++i) {
    if (system.held_at(member.joints_m[i])) continue;
    member.doubts.push_back(splice_doubt(panel, member.parts[i], member.parts[i + 1], member.joints_m[i]));
  }
}

/// Members of another section or timber that stand on one another end to end are no support of each other, though each
/// is verified over its own length.
void doubt_stacks(StudDesign& design, const Panel& panel) {
  for (VerticalMember& lower : design.framing.members) {
    for (const VerticalMember& upper : design.framing.members) {
      if (&lower == &upper || !stands_on(upper, lower)) continue;
      const double height_m = (lower.top_m + upper.bottom_m) / 2.0;
      if (panel_held_at(design.basis, height_m)) continue;
      lower.doubts.push_back(splice_doubt(panel, lower.parts.back(), upper.parts.front(), height_m));
    }
  }
}

}  // namespace

Actions actions_on(const VerticalMember& member, const DesignBasis& basis) {
  Actions actions;
  actions.permanent_n = (basis.self_weight_n_per_m + basis.permanent_n_per_m) * member.tributary_width_m;
  actions.variable_n = basis.variable_n_per_m * member.tributary_width_m;
  actions.wind_n_per_m = basis.wind_pressure_pa * member.tributary_width_m;
  if (basis.balustrade && member.bottom_m < basis.balustrade->height_m) {
    actions.barrier_n = basis.balustrade->n_per_m * member.tributary_width_m;
  }
  return actions;
}

std::vector<PointLoad> StudDesign::barrier(std::size_t member, double barrier_n) const {
  if (barrier_n == 0.0) return {};
  // A cripple stud that ends below the load has it at its top.
  const double height_m = std::min(basis.balustrade->height_m, framing.members[member].top_m);
  return {{height_m - systems[member].foot_m, barrier_n}};
}

double StudDesign::final_m(const StudDeflection& deflection) const {
  return deflection.span.total_m() + creep_factor(deflection.member) * deflection.lasting.total_m();
}

Section StudDesign::section(std::size_t member) const {
  Section section = framing.members[member].section;
  section.width_m = framing.members[member].width_m;
  section.depth_m = framing.members[member].depth_m;
  return section;
}

std::vector<std::string> StudDesign::doubts() const {
  std::vector<std::string> all;
  for (const VerticalMember& member : framing.members) keep_new(all, member.doubts);
  return all;
}

Restraint StudDesign::restraint(std::size_t member) const {
  const VerticalMember& stud = framing.members[member];
  const double length_m = std::max(systems[member].longest_span_m(), 2.0 * systems[member].projection_m());
  return {length_m, length_m, stud.restrained_along_wall(), stud.restrained_on_both_faces()};
}

double StudDesign::creep_factor(std::size_t member) const {
  const CompositeStud* stud = composite.of(member);
  return stud != nullptr ? stud->creep_factor() : materials[member].deformation_factor.value;
}

double StudDesign::bending_stiffness_nm2(std::size_t member) const {
  if (const CompositeStud* stud = composite.of(member)) return stud->section(1.0, 0.0).stiffness_nm2;
  return materials[member].timber.modulus_mean_pa.value * section(member).second_moment_m4();
}

double StudDesign::shear_stiffness_n(std::size_t member) const {
  const double modulus_pa = materials[member].timber.shear_modulus_mean_pa.value;
  const Section own = section(member);
  // Holes and notches are short; of another outline the part that shear is spread over counts, on the safe side.
  if (own.outline) return modulus_pa * own.outline->shear_area_m2 / 1.5;
  return modulus_pa * own.width_m * own.depth_m / 1.2;
}

double StudDesign::span_ratio(const StudDeflection& deflection) const {
  return deflection.span.span_m > 0.0 ? deflection.span.total_m() / deflection.span.span_m : 0.0;
}

double StudDesign::tip_ratio(const StudDeflection& deflection) const {
  const double over_m = systems[deflection.member].projection_m();
  return over_m > 0.0 ? deflection.span.tip_m / (2.0 * over_m) : 0.0;
}

StudDesign design_studs(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                        const PartsPressure& wind) {
  StudDesign design;
  design.basis = read_design_basis(panel, project, settings, tables, wind);
  design.framing = read_framing(panel, project);
  keep_new(design.missing, design.framing.problems);
  keep_new(design.missing, design.basis.missing);
  read_materials(design, panel, project, settings, tables);
  if (!design.missing.empty()) return design;
  for (VerticalMember& member : design.framing.members) {
    design.systems.push_back(stud_system(member, design.basis));
    doubt_splices(member, design.systems.back(), panel);
  }
  doubt_stacks(design, panel);
  design.composite = read_composite(panel, project, settings, tables, design);
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    const VerticalMember& member = design.framing.members[i];
    design.unit_effects.push_back(stud_effects(design.systems[i], 1.0, {}));
    for (const Combination& combination : combinations(actions_on(member, design.basis), design.basis.factors)) {
      verify(design, i, combination, tables);
    }
    design.deflections.push_back(deflection_of(design, i));
  }
  return design;
}

namespace {

double barrier_share(const StudDesign& design, std::size_t member) {
  if (!design.basis.balustrade) return 0.0;
  const StudEffects effects = stud_effects(design.systems[member], 0.0, design.barrier(member, 1.0));
  double largest = 0.0;
  for (const double reaction : effects.loaded.reactions_n) largest = std::max(largest, std::abs(reaction));
  return largest;
}

}  // namespace

StudReaction hardest_stud(const StudDesign& design) {
  StudReaction hardest;
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    const std::vector<double>& reactions = design.unit_effects[i].loaded.reactions_n;
    const double largest = *std::max_element(reactions.begin(), reactions.end());
    const VerticalMember& stud = design.framing.members[i];
    if (largest * stud.tributary_width_m <= hardest.per_line_load_m * hardest.width_m) continue;
    const double left_m = stud.left_spacing_m.value_or(0.0);
    const double right_m = stud.right_spacing_m.value_or(0.0);
    const double nearer_m = left_m > 0.0 && right_m > 0.0 ? std::min(left_m, right_m) : std::max(left_m, right_m);
    hardest = {i, largest, stud.tributary_width_m, nearer_m, 0.0};
  }
  hardest.barrier_share = barrier_share(design, hardest.member);
  return hardest;
}

}  // namespace panel_dossier::structural
