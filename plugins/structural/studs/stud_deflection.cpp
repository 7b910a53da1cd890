#include "plugins/structural/studs/stud_deflection.h"

#include <algorithm>

#include "core/api/support/units.h"
#include "plugins/structural/studs/composite_report.h"
#include "plugins/structural/studs/stud_diagram.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

void add_deflection_steps(FindingBuilder& builder, const StudDesign& design, const StudDeflection& governing,
                          double ratio) {
  const std::size_t member = governing.member;
  const StudSystem& system = design.systems[member];
  const SpanDeflection& span = governing.span;
  const double inst_mm = millimetres_from_metres(span.total_m());
  builder
      .step_text("governing combination, EN 1990:2002 6.5.3",
                 governing.combination.name + ": " + governing.combination.expression)
      .step("wind on the member in it", "W", governing.combination.line_load_n_per_m / units::kNewtonPerKilonewton,
            "kN/m");
  if (governing.combination.barrier_n > 0.0) {
    builder.step("persons leaning on the member in it", "F_b",
                 governing.combination.barrier_n / units::kNewtonPerKilonewton, "kN");
  }
  if (const CompositeStud* stud = design.composite.of(member)) {
    add_composite_stiffness(builder, *stud);
  } else {
    builder.step("second moment of area", "I_y", design.section(member).second_moment_m4() * 1e12, "mm⁴",
                 "I_y = b · h³ / 12");
  }
  if (span.span_m > 0.0) {
    const std::string stiffness = design.composite.of(member) != nullptr ? "(EI)_ef" : "E_0,mean · I_y";
    const bool simple = system.single_span() && governing.combination.barrier_n == 0.0;
    builder.step("span whose deflection is the largest share of it", "l_u", span.span_m, "m")
        .step("deflection from bending", "u_m", millimetres_from_metres(span.bending_m), "mm",
              simple ? "u_m = 5 · W · l⁴ / (384 · " + stiffness + ")" : "beam on the supports drawn, with " + stiffness)
        .step(
            "deflection from shear", "u_v", millimetres_from_metres(span.shear_m), "mm",
            simple ? "u_v = 1.2 · W · l² / (8 · G_mean · b · h)" : "the same beam with G_mean · b · h / 1.2, less u_m")
        .step("instantaneous deflection", "u_inst", inst_mm, "mm", "u_inst = u_m + u_v")
        .step("deflection under the quasi-permanent combination, 2.2.3(3)", "u_qp",
              millimetres_from_metres(governing.lasting.total_m()), "mm", "ψ_2 of wind and of persons")
        .step("final deflection, 2.2.3(5)", "u_fin", millimetres_from_metres(design.final_m(governing)), "mm",
              design.composite.of(member) != nullptr ? "u_fin = u_inst + k_def,ef · u_qp"
                                                     : "u_fin = u_inst + k_def · u_qp")
        .step("limit", "u_lim", millimetres_from_metres(span.span_m / ratio), "mm", "u_lim = l_u / ratio");
  }
  if (system.projection_m() == 0.0) return;
  builder
      .step("deflection of the top under wind on the part above the highest support alone", "u_a",
            millimetres_from_metres(span.tip_m), "mm",
            design.composite.of(member) != nullptr ? "beam on the supports drawn, with (EI)_ef"
            : system.clamped_foot ? "W · a⁴ / (8 · E_0,mean · I_y) + 1.2 · W · a² / (2 · G_mean · b · h)"
                                  : "beam on the supports drawn; single span below: u_a = W · a³ · (4 · l + 3 · a) / "
                                    "(24 · E_0,mean · I_y) + 1.2 · W · a² · (1 + a / l) / (2 · G_mean · b · h)")
      .step("limit of that, for a cantilever", "u_a,lim", millimetres_from_metres(2.0 * system.projection_m() / ratio),
            "mm", "u_a,lim = 2 · a / ratio");
}

}  // namespace

std::optional<double> deflection_ratio(FindingBuilder& builder, const Settings& settings, const Tables& tables) {
  auto ratio = settings.number("structural.deflection_limit_ratio");
  const auto finish = settings.text("structural.deflection_finish");
  if (!ratio && finish) {
    builder.text("finish that limits deflection", finish, {});
    ratio = tables.deflection_limits.number(finish->value, "ratio");
  }
  return builder.positive("limit of deflection: span divided by", "", "", ratio,
                          finish && !ratio ? "no limit for finish '" + finish->value + "' in deflection_limits.csv"
                                           : "setting structural.deflection_limit_ratio");
}

Finding deflection(const Panel& panel, const StudDesign& design, const Settings& settings, const Tables& tables) {
  FindingBuilder builder("structural.deflection", "Deflection of studs and posts under wind", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 2.2.3, 7.2; EN 1990:2002 (6.14b)");
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
  return builder.judge(millimetres_from_metres(value_m), "mm", Relation::at_most, millimetres_from_metres(limit_m),
                       std::string(top_governs ? "deflection of the top of '" : "deflection of '") +
                           member_name(panel, design.framing.members[member]) + "' exceeds its limit");
}

}  // namespace panel_dossier::structural
