#include <algorithm>

#include "core/api/support/units.h"
#include "plugins/structural/studs/stud_checks.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

void add_loads(FindingBuilder& builder, const StudDesign& design, const StudDeflection& governing) {
  const ServiceabilityCombination& loads = governing.combination;
  builder.step_text("governing combination, EN 1990:2002 6.5.3", loads.name + ": " + loads.expression)
      .step("wind on the member in it", "W", loads.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "W = " + sum_of({factored(loads.symbols.wind, "w_k · b_t")}));
  if (loads.barrier_n == 0.0) return;
  builder.step("persons leaning on the member in it", "F_b", loads.barrier_n / units::kNewtonPerKilonewton, "kN",
               "F_b = " + barrier_term(design.basis, loads.symbols.barrier));
}

/// Deflection from shear, in symbols, of a member whose shear force has this integral.
std::string shear_part(const StudDesign& design, std::size_t member, const std::string& integral) {
  return design.section(member).outline ? "1.5 · " + integral + " / (G_mean · A_v)"
                                        : "1.2 · " + integral + " / (G_mean · b · h)";
}

/// A simple span under wind alone can be redone by hand; other systems are those of the beam that is drawn.
void add_span(FindingBuilder& builder, const StudDesign& design, const StudDeflection& governing) {
  const bool composite = design.composite.of(governing.member) != nullptr;
  const bool leaning = governing.combination.barrier_n > 0.0;
  const bool simple = design.systems[governing.member].single_span() && !leaning;
  // Without persons leaning, and with the wind as it stands, what lasts is that share of it.
  const bool share_of_wind =
      governing.combination.symbols.wind == "1" && !leaning && governing.quasi_permanent.barrier_n == 0.0;
  const SpanDeflection& span = governing.span;
  builder.step("span whose deflection is the largest share of it", "l_u", span.span_m, "m")
      .step(simple ? "deflection from bending" : "deflection from bending of the beam on the supports drawn", "u_m",
            millimetres_from_metres(span.bending_m), "mm",
            simple ? "u_m = 5 · W · l⁴ / (384 · " + std::string(composite ? "EI_ef" : "E_0,mean · I_y") + ")" : "")
      .step(simple ? "deflection from shear" : "deflection from shear of the same beam", "u_v",
            millimetres_from_metres(span.shear_m), "mm",
            simple ? "u_v = " + shear_part(design, governing.member, "W · l² / 8") : "")
      .step("instantaneous deflection", "u_inst", millimetres_from_metres(span.total_m()), "mm", "u_inst = u_m + u_v")
      .step("deflection under the quasi-permanent combination, 2.2.3(3)", "u_qp",
            millimetres_from_metres(governing.lasting.total_m()), "mm", share_of_wind ? "u_qp = ψ_2,W · u_inst" : "")
      .step("final deflection, 2.2.3(5)", "u_fin", millimetres_from_metres(design.final_m(governing)), "mm",
            composite ? "u_fin = u_inst + k_def,ef · u_qp" : "u_fin = u_inst + k_def · u_qp");
}

void add_overhang(FindingBuilder& builder, const StudDesign& design, const StudDeflection& governing, double ratio) {
  const StudSystem& system = design.systems[governing.member];
  const std::string a = overhang_symbol(design, governing.member);
  const bool composite = design.composite.of(governing.member) != nullptr;
  const bool cantilever = system.clamped_foot && !composite;
  const std::string name = "deflection of the top under wind on the part above the highest support alone";
  builder
      .step(cantilever ? name : name + ", of the beam on the supports drawn", "u_a",
            millimetres_from_metres(governing.span.tip_m), "mm",
            cantilever ? "u_a = W · " + a + "⁴ / (8 · E_0,mean · I_y) + " +
                             shear_part(design, governing.member, "W · " + a + "² / 2")
                       : "")
      .step("limit of that, for a cantilever", "u_a,lim", millimetres_from_metres(2.0 * system.projection_m() / ratio),
            "mm", "u_a,lim = 2 · " + a + " / r");
}

void add_deflection_steps(FindingBuilder& builder, const StudDesign& design, const StudDeflection& governing,
                          double ratio) {
  add_loads(builder, design, governing);
  if (const CompositeStud* stud = design.composite.of(governing.member)) {
    add_composite_stiffness(builder, *stud);
  } else {
    const Section section = design.section(governing.member);
    builder.step("second moment of area", "I_y", section.second_moment_m4() * 1e12, "mm⁴",
                 section.outline ? "" : "I_y = b · h³ / 12");
  }
  if (governing.span.span_m > 0.0) {
    add_span(builder, design, governing);
    builder.step("limit", "u_lim", millimetres_from_metres(governing.span.span_m / ratio), "mm", "u_lim = l_u / r");
  }
  if (design.systems[governing.member].projection_m() > 0.0) add_overhang(builder, design, governing, ratio);
}

}  // namespace

const CheckDeclaration kDeflectionCheck{
    .id = "structural.deflection",
    .title = "Deflection of studs and posts under wind",
    .project_title = {},
    .sentence =
        "Of all studs and posts, the final deflection across the wall that is the largest share of its span, or "
        "of twice its overhang, is at most that length divided by the limit of the project.",
    .clause = "EN 1995-1-1:2004+A1:2008 2.2.3, 7.2; EN 1990:2002 (6.14b)",
    .units = {"mm"},
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis(
        {optional_setting("structural.deflection_limit_ratio"), optional_setting("structural.deflection_finish"),
         optional_setting("structural.composite_sheathing"), data_table("deflection_limits.csv")})),
    .limits = {"Bending from axial load on the deflected member is left out of the serviceability value.",
               "Supports do not yield.", "Vibration (7.3) is not looked at in a wall."}};

Finding deflection(const Panel& panel, const StudDesign& design, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kDeflectionCheck, panel.global_id);
  builder.decimals(1);
  const auto ratio = deflection_ratio(builder, settings, tables);
  if (!design.missing.empty() || builder.incomplete()) return not_assessed_studs(builder, design);
  // The slenderest member in the sense of the limit, which is a share of its own span.
  const auto share = [&](const StudDeflection& d) { return std::max(design.span_ratio(d), design.tip_ratio(d)); };
  const auto governing =
      std::max_element(design.deflections.begin(), design.deflections.end(),
                       [&](const StudDeflection& a, const StudDeflection& b) { return share(a) < share(b); });
  const std::size_t member = governing->member;
  const StudSystem& system = design.systems[member];
  const TimberClass& timber = design.materials[member].timber;
  const bool top_governs = design.tip_ratio(*governing) > design.span_ratio(*governing);
  const double value_m = top_governs ? governing->span.tip_m : design.final_m(*governing);
  const double limit_m = (top_governs ? 2.0 * system.projection_m() : governing->span.span_m) / *ratio;
  add_inputs(builder, design.basis.inputs);
  add_member(builder, panel, design, member);
  add_strength(builder, "mean modulus of elasticity", "E_0,mean", timber.modulus_mean_pa);
  add_strength(builder, "mean shear modulus", "G_mean", timber.shear_modulus_mean_pa);
  builder.number("deformation factor", "k_def", "", design.materials[member].deformation_factor, {});
  add_width_and_span(builder, design, member);
  add_deflection_steps(builder, design, *governing, *ratio);
  builder.series(deflected_shape(system, governing->combination.line_load_n_per_m,
                                 design.barrier(member, governing->combination.barrier_n),
                                 design.bending_stiffness_nm2(member), design.shear_stiffness_n(member), limit_m));
  add_member_notes(builder, design, member);
  builder.note(
      "Additional bending from axial load on the deflected member is not included in the serviceability value. "
      "Vibration, 7.3, is not relevant to a wall.");
  add_doubts(builder, design, value_m / limit_m);
  return builder.judge(millimetres_from_metres(value_m), "mm", Relation::at_most, millimetres_from_metres(limit_m),
                       std::string(top_governs ? "deflection of the top of '" : "deflection of '") +
                           member_name(panel, design.framing.members[member]) + "' exceeds its limit");
}

}  // namespace panel_dossier::structural
