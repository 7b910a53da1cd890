#include "plugins/structural/studs/stud_report.h"

#include "core/api/support/units.h"

namespace panel_dossier::structural {

Finding not_assessed_studs(FindingBuilder& builder, const StudDesign& design) {
  add_inputs(builder, design.basis.inputs);
  for (const std::string& what : design.missing) builder.missing(what);
  return builder.not_assessed();
}

std::string member_name(const Panel& panel, const VerticalMember& member) {
  std::string name = panel.parts[member.parts.front()].name;
  if (member.parts.size() > 1) name += " and " + std::to_string(member.parts.size() - 1) + " stacked on it";
  return name;
}

void add_member(FindingBuilder& builder, const Panel& panel, const StudDesign& design, std::size_t member) {
  const VerticalMember& stud = design.framing.members[member];
  const Part& part = panel.parts[stud.parts.front()];
  Origin origin = part.origin;
  origin.property = part.solid ? "Body" : "Box";
  const auto size = [&](const char* name, const char* symbol, double value_m) {
    builder.number(name, symbol, "mm", Sourced<double>{units::millimetres_from_metres(value_m), origin}, {});
  };
  builder.text("governing member", Sourced<std::string>{member_name(panel, stud), part.origin}, {});
  size("section width along the wall", "b", stud.width_m);
  size("section depth through the wall", "h", stud.depth_m);
  size("length of the member", "L", stud.length_m());
  add_inputs(builder, design.materials[member].inputs);
}

void add_strength(FindingBuilder& builder, const char* name, const char* symbol, const Sourced<double>& value_pa) {
  builder.number(name, symbol, "N/mm²",
                 Sourced<double>{value_pa.value / units::kPascalPerNewtonPerMm2, value_pa.origin}, {});
}

void add_factors(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  builder.number("modification factor", "k_mod", "", result.modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", design.materials[result.member].partial_factor, {});
}

void add_width_and_span(FindingBuilder& builder, const StudDesign& design, std::size_t member) {
  const VerticalMember& stud = design.framing.members[member];
  const auto side = [&](const char* where, const char* symbol, const std::optional<double>& spacing_m) {
    if (spacing_m) {
      builder.step(std::string("spacing to the member on the ") + where, symbol, *spacing_m, "m");
    } else {
      builder.step_text(std::string("spacing to the member on the ") + where, "none: the edge of the panel");
    }
  };
  side("left", "s_l", stud.left_spacing_m);
  side("right", "s_r", stud.right_spacing_m);
  builder
      .step("width of wall carried", "b_t", stud.tributary_width_m, "m",
            "b_t = s_l / 2 + s_r / 2; at an edge the whole distance to it")
      .step("longest span", "l", design.systems[member].longest_span_m(), "m",
            "l = L, or between supports of the panel");
  if (design.systems[member].projection_m() == 0.0) return;
  builder.step("height of the panel above its highest support", "a", design.systems[member].projection_m(), "m",
               design.basis.projection_derived ? "a = H − n · l_s, n whole spans" : "as given");
}

void add_actions(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const double width_m = design.framing.members[result.member].tributary_width_m;
  const DesignBasis& basis = design.basis;
  const double permanent_n = (basis.self_weight_n_per_m + basis.permanent_n_per_m) * width_m;
  add_width_and_span(builder, design, result.member);
  builder
      .step("share of the panel above the middle of its lowest span", "ρ_g", basis.self_weight_share, "",
            "ρ_g = 1 − l_s / (2 · H); 0.5 without supports between foot and head")
      .step("self-weight of that share", "g", basis.self_weight_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "g = ρ_g · m · 9.80665 m/s² / B")
      .step("permanent load on the member", "G", permanent_n / units::kNewtonPerKilonewton, "kN", "G = (g + G_k) · b_t")
      .step("variable load on the member", "Q", basis.variable_n_per_m * width_m / units::kNewtonPerKilonewton, "kN",
            "Q = Q_k · b_t")
      .step("wind on the member", "W", basis.wind_pressure_pa * width_m / units::kNewtonPerKilonewton, "kN/m",
            "W = w_k · b_t")
      .step_text("governing combination, EN 1990:2002 (6.10)", result.combination.name + ": " +
                                                                   result.combination.expression + "; load duration " +
                                                                   result.combination.duration)
      .step("design axial load", "N_d", result.forces.axial_n / units::kNewtonPerKilonewton, "kN",
            "from the combination")
      .step("design wind", "w_d", result.combination.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "from the combination");
  if (result.racking_n > 0.0) {
    builder.step("part of N_d that is compression from racking (9.23), factored as wind", "F_i,c,Ed",
                 result.racking_n / units::kNewtonPerKilonewton, "kN",
                 "F_i,v,Ed · h / b_i of structural.racking, where strips meet net");
  }
  if (result.combination.barrier_n > 0.0) {
    builder.step("design load of persons leaning, at its height", "F_b,d",
                 result.combination.barrier_n / units::kNewtonPerKilonewton, "kN", "from the combination");
  }
}

namespace {

const char* moment_formula(const StudDesign& design, std::size_t member) {
  const StudSystem& system = design.systems[member];
  if (system.clamped_foot) return "M_y,d = w_d · a² / 2";
  if (system.single_span() && design.basis.balustrade == std::nullopt) return "M_y,d = w_d · l² / 8";
  return system.spliced ? "larger of the continuous beam and w_d · l² / 8" : "largest of the beam on its supports";
}

}  // namespace

void add_bending(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const bool glulam = design.materials[result.member].timber.family == TimberFamily::glulam;
  const BendingVerification alone = verify_bending(design.section(result.member), result.resistance, result.forces);
  builder
      .step("design moment", "M_y,d", result.forces.moment_nm / units::kNewtonPerKilonewton, "kNm",
            moment_formula(design, result.member))
      .step("section modulus", "W_y", design.section(result.member).section_modulus_m3() * 1e9, "mm³",
            "W_y = b · h² / 6")
      .step("bending stress", "σ_m,y,d", alone.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,y,d = M_y,d / W_y")
      .step("depth factor, 3.2(3) or 3.3(3)", "k_h", result.resistance.depth_factor, "",
            glulam ? "1 ≤ k_h = (600 mm / h)^0.1 ≤ 1.1" : "1 ≤ k_h = (150 mm / h)^0.2 ≤ 1.3")
      .step("system factor, 6.6", "k_sys", result.resistance.system_factor, "")
      .step("bending strength", "f_m,y,d", alone.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_m,y,d = k_h · k_sys · k_mod · f_m,k / γ_M");
}

namespace {

std::string composite_note(const StudDesign& design, std::size_t member) {
  if (design.composite.of(member) != nullptr) {
    return "Bending and deflection count the sheets on the member by annex B, see structural.composite_action.";
  }
  if (!design.composite.asked) return "Composite action with the sheathing is neglected.";
  return "Composite action with the sheathing is neglected here, see structural.composite_action.";
}

}  // namespace

void add_member_notes(FindingBuilder& builder, const StudDesign& design, std::size_t member) {
  const VerticalMember& stud = design.framing.members[member];
  const StudSystem& system = design.systems[member];
  if (!design.basis.annex_note.empty()) builder.note(design.basis.annex_note);
  builder.note("Supports do not yield; wind uniform, axial load without eccentricity. " +
               composite_note(design, member) +
               " Members side by side are not counted on to share load. The panel is taken to stand on "
               "its foot: supports further up hold it against wind, not its weight.");
  if (system.spliced) {
    builder.note(
        "The member is stacked from pieces. Bending and deflection are the worse of a continuous member and of pieces "
        "hinged at the supports; shear is that of a continuous one. The splices are not checked here.");
  }
  if (system.projection_m() > 0.0) {
    builder.note(
        "The part above the highest support is a cantilever under the same wind as the rest" +
        std::string(system.clamped_foot || system.spliced
                        ? "; its moment must pass the splice or, where nothing stands below it, the sheathing"
                        : "") +
        ". Where it stands above a roof the wind zones of parapets and corners, EN 1991-1-4:2005 7.2 and 7.4, press "
        "harder: they are not calculated here.");
  }
  if (design.basis.projection_derived) {
    builder.note(
        "How far the panel stands above its highest support is not given (Panel_Structure.TopProjection, 0 where the "
        "head is held): supports are counted from the foot at l_s.");
  }
  if (!stud.shares_load) return;
  builder.note(
      "k_sys = 1.1: at least four equal members at equal spacing up to 610 mm (common practice) under continuous "
      "sheathing; the sheathing's own strength for this is not checked here.");
}

}  // namespace panel_dossier::structural
