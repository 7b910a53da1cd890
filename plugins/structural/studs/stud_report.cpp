#include "plugins/structural/studs/stud_report.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/basis/fall_barrier_check.h"
#include "plugins/structural/studs/stud_checks.h"

namespace panel_dossier::structural {

namespace {

constexpr double kArrow_m = 0.35;  ///< length of a load arrow on the drawing
constexpr double kTip_m = 0.05;
constexpr double kSupport_m = 0.12;
constexpr int kArrows = 8;

Series over_height(std::string title, std::string y_label, std::string y_unit, Curve curve) {
  return {std::move(title),  "height above the lower end", "m", std::move(y_label), std::move(y_unit),
          {std::move(curve)}};
}

void add_load_arrow(Drawing& drawing, double tail_x, double tip_x, double z) {
  drawing.lines.push_back({{tail_x, z}, {tip_x, z}, LineStyle::thin});
  drawing.lines.push_back({{tip_x - kTip_m, z + kTip_m / 2.0}, {tip_x, z}, LineStyle::thin});
  drawing.lines.push_back({{tip_x - kTip_m, z - kTip_m / 2.0}, {tip_x, z}, LineStyle::thin});
}

}  // namespace

Drawing load_diagram(const StudSystem& system, double depth_m, double line_load_n_per_m,
                     const std::vector<PointLoad>& point) {
  Drawing drawing;
  drawing.title = "Governing member: supports and design wind";
  const double head = system.length_m;
  drawing.polygons.push_back(
      {{{0.0, 0.0}, {depth_m, 0.0}, {depth_m, head}, {0.0, head}}, Hatch::timber, LineStyle::normal, {}});
  const double load_x = -kTip_m - kArrow_m;
  drawing.lines.push_back({{load_x, 0.0}, {load_x, head}, LineStyle::thin});
  for (int i = 0; i <= kArrows; ++i) add_load_arrow(drawing, load_x, -kTip_m, head * i / kArrows);
  drawing.texts.push_back(
      {{load_x - kArrow_m, head + kSupport_m}, "w_d = " + fixed_text(line_load_n_per_m / 1e3, 2) + " kN/m"});
  for (const PointLoad& load : point) {
    add_load_arrow(drawing, load_x - kArrow_m, -kTip_m, load.at_m);
    drawing.texts.push_back({{load_x - kArrow_m, load.at_m + kSupport_m}, fixed_text(load.n / 1e3, 2) + " kN"});
  }
  for (const double z : system.supports_m) {
    drawing.polygons.push_back(
        {{{depth_m, z}, {depth_m + kSupport_m, z + kSupport_m / 2.0}, {depth_m + kSupport_m, z - kSupport_m / 2.0}},
         Hatch::none,
         LineStyle::normal,
         {}});
  }
  // Dimensions stand to the left of their direction: drawn downwards they lie right of the supports.
  const double line_x = depth_m + kSupport_m;
  std::vector<double> marks = system.supports_m;
  if (system.projection_m() > 0.0) marks.push_back(head);
  for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
    drawing.dimensions.push_back({{line_x, marks[i + 1]}, {line_x, marks[i]}, 0.25, {}});
  }
  return drawing;
}

Series moment_diagram(const BeamResult& loaded) {
  Curve curve{"design moment", {}};
  for (const BeamPoint& point : loaded.points) {
    curve.points.push_back({point.x_m, point.moment_nm / 1e3});
  }
  return over_height("Bending moment of the governing member", "M_y,d", "kNm", std::move(curve));
}

Series shear_diagram(const BeamResult& loaded) {
  Curve curve{"design shear force", {}};
  for (const BeamPoint& point : loaded.points) {
    curve.points.push_back({point.x_m, point.shear_n / 1e3});
  }
  return over_height("Shear force of the governing member", "V_d", "kN", std::move(curve));
}

Series deflected_shape(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point,
                       double bending_stiffness_nm2, double shear_stiffness_n, double limit_m) {
  const Beam beam{system.length_m, system.supports_m, system.clamped_foot, bending_stiffness_nm2, shear_stiffness_n};
  Curve shape{"deflection", {}};
  for (const BeamPoint& at : solve_beam(beam, {{0.0, system.length_m, line_load_n_per_m}}, point).points) {
    shape.points.push_back({at.x_m, at.deflection_m * 1e3});
  }
  Series series = over_height("Deflected shape of the governing member", "u_inst", "mm", std::move(shape));
  series.curves.push_back({"limit", {{0.0, limit_m * 1e3}, {system.length_m, limit_m * 1e3}}});
  return series;
}

namespace {

constexpr double kSameValue = 1e-9;  ///< relative: lengths that differ by rounding alone

}  // namespace

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

namespace {

/// Of the holes of the first piece that has any.
Origin hole_origin(const Panel& panel, const VerticalMember& stud) {
  for (const std::size_t part : stud.parts) {
    if (const auto holes = panel.parts[part].properties.text("Panel_Member", "Holes")) return holes->origin;
  }
  return panel.parts[stud.parts.front()].origin;
}

}  // namespace

std::string area_symbols(const Section& section) {
  if (section.outline) return "A";
  const std::string b = section.notched_width_m > 0.0 ? "b_ef" : "b";
  const std::string h = section.notched_depth_m > 0.0 ? "h_ef" : "h";
  if (section.depth_hole_m > 0.0) return b + " · (" + h + " − d_o)";
  if (section.width_hole_m > 0.0) return "(" + b + " − d_o) · " + h;
  return b + " · " + h;
}

void add_section_modulus(FindingBuilder& builder, const Section& section) {
  const std::string b = section.notched_width_m > 0.0 ? "b_ef" : "b";
  const std::string h = section.notched_depth_m > 0.0 ? "h_ef" : "h";
  std::string formula = "W_y = " + b + " · " + h + "² / 6";
  if (section.depth_hole_m > 0.0) formula = "W_y = b · (h³ − d_o³) / (6 · h)";
  if (section.width_hole_m > 0.0) formula = "W_y = (b − d_o) · h² / 6";
  if (section.outline) formula.clear();
  builder.step(section.outline   ? "section modulus of the outline, the smaller"
               : section.whole() ? "section modulus"
                                 : "section modulus where the section is weakest",
               "W_y", section.section_modulus_m3() * 1e9, "mm³", formula);
}

void add_doubts(FindingBuilder& builder, const StudDesign& design, double utilisation) {
  if (!(utilisation <= 1.0)) return;
  for (const std::string& what : design.doubts()) builder.missing(what);
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
  const Section section = design.section(member);
  if (const double hole_m = std::max(section.depth_hole_m, section.width_hole_m); hole_m > 0.0) {
    const Sourced<double> hole{units::millimetres_from_metres(hole_m), hole_origin(panel, stud)};
    builder.number("largest hole in the middle of the section (Panel_Member.Holes)", "d_o", "mm", hole, {});
  }
  if (section.notched_depth_m > 0.0) size("depth left at the deepest notch", "h_ef", section.notched_depth_m);
  if (section.notched_width_m > 0.0) size("width left at the deepest notch", "b_ef", section.notched_width_m);
  if (section.end_depth_m > 0.0) {
    size("depth left at a notched end", "h_e", section.end_depth_m);
    size("length of that notch", "x_e", section.end_notch_m);
  }
  if (section.outline) {
    const auto outline = [&](const char* name, const char* symbol, double value, const char* unit) {
      builder.number(name, symbol, unit, Sourced<double>{value, origin}, {});
    };
    outline("area of the outline", "A", section.outline->area_m2 * 1e6, "mm²");
    outline("shear area of the outline, the least of 1.5 · I · b / S", "A_v", section.outline->shear_area_m2 * 1e6,
            "mm²");
    outline("radius of gyration through the wall", "i_y", units::millimetres_from_metres(section.radius_m()), "mm");
    outline("radius of gyration along the wall", "i_z", units::millimetres_from_metres(section.weak_radius_m()), "mm");
  }
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

namespace {

/// Spacing to a neighbour, or the distance to the edge of the panel; gives what of the wall comes to the member from
/// that side, in symbols.
std::string add_side(FindingBuilder& builder, const std::string& side, const std::string& letter,
                     const std::optional<double>& spacing_m, double to_edge_m) {
  if (spacing_m) {
    builder.step("spacing to the member on the " + side, "s_" + letter, *spacing_m, "m");
    return "s_" + letter + " / 2";
  }
  builder.step_text("spacing to the member on the " + side, "none: the edge of the panel");
  builder.step("distance to the " + side + " edge of the panel", "c_" + letter, to_edge_m, "m");
  return "c_" + letter;
}

void add_overhang(FindingBuilder& builder, const StudDesign& design, std::size_t member) {
  const double overhang_m = design.systems[member].projection_m();
  const bool of_panel = std::abs(overhang_m - design.basis.projection_m) < kSameValue * overhang_m;
  if (overhang_m == 0.0 || (of_panel && design.basis.whole_spans == 0)) return;
  if (!of_panel) {
    builder.step("height of the member above the highest support", overhang_symbol(design, member), overhang_m, "m");
    return;
  }
  builder.step("whole spans below the highest support", "n_s", design.basis.whole_spans, "")
      .step("height of the panel above its highest support", "a", overhang_m, "m", "a = H − n_s · l_s");
}

}  // namespace

std::string overhang_symbol(const StudDesign& design, std::size_t member) {
  const double overhang_m = design.systems[member].projection_m();
  return std::abs(overhang_m - design.basis.projection_m) < kSameValue * overhang_m ? "a" : "a_m";
}

void add_width_and_span(FindingBuilder& builder, const StudDesign& design, std::size_t member) {
  const VerticalMember& stud = design.framing.members[member];
  const double right_edge_m = design.basis.width_m - stud.x_m;
  const std::string left = add_side(builder, "left", "l", stud.left_spacing_m, std::max(stud.x_m, 0.0));
  const std::string right = add_side(builder, "right", "r", stud.right_spacing_m, std::max(right_edge_m, 0.0));
  const double span_m = design.systems[member].longest_span_m();
  const bool own_length = std::abs(span_m - stud.length_m()) < kSameValue * span_m;
  builder.step("width of wall carried", "b_t", stud.tributary_width_m, "m", "b_t = " + left + " + " + right)
      .step(own_length ? "longest span" : "longest span, between supports of the panel", "l", span_m, "m",
            own_length ? "l = L" : "");
  add_overhang(builder, design, member);
}

namespace {

void add_self_weight(FindingBuilder& builder, const DesignBasis& basis) {
  const bool supported = basis.support_spacing_m && *basis.support_spacing_m < basis.height_m;
  builder
      .step(supported ? "share of the panel above the middle of its lowest span"
                      : "share of the panel above the middle of its height, all of which the studs span",
            "ρ_g", basis.self_weight_share, "", supported ? "ρ_g = 1 − l_s / (2 · H)" : "ρ_g = 1 / 2")
      .step("self-weight of that share", "g", basis.self_weight_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "g = ρ_g · m · 9.80665 / (1000 · B)");
}

}  // namespace

std::string barrier_term(const DesignBasis& basis, const std::string& factor) {
  return basis.balustrade ? factored(factor, "q_k · b_t") : std::string();
}

void add_actions(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const double width_m = design.framing.members[result.member].tributary_width_m;
  const DesignBasis& basis = design.basis;
  const FactorSymbols& factors = result.combination.symbols;
  const double permanent_n = (basis.self_weight_n_per_m + basis.permanent_n_per_m) * width_m;
  add_width_and_span(builder, design, result.member);
  add_self_weight(builder, basis);
  builder
      .step("permanent load on the member", "G", permanent_n / units::kNewtonPerKilonewton, "kN",
            basis.load_bearing ? "G = (g + G_k) · b_t" : "G = g · b_t")
      .step("variable load on the member", "Q", basis.variable_n_per_m * width_m / units::kNewtonPerKilonewton, "kN",
            basis.load_bearing ? "Q = Q_k · b_t" : "Q = 0")
      .step("wind on the member", "W", basis.wind_pressure_pa * width_m / units::kNewtonPerKilonewton, "kN/m",
            "W = w_k · b_t")
      .step_text("governing combination, EN 1990:2002 (6.10)", result.combination.name + ": " +
                                                                   result.combination.expression + "; load duration " +
                                                                   result.combination.duration);
  if (result.racking_n > 0.0) {
    builder.step(
        "part of N_d that is compression from racking (9.23), factored as wind, where "
        "strips meet net",
        "F_i,c,Ed", result.racking_n / units::kNewtonPerKilonewton, "kN");
  }
  builder
      .step("design axial load", "N_d", result.forces.axial_n / units::kNewtonPerKilonewton, "kN",
            "N_d = " + sum_of({factored(factors.permanent, "G"), factored(factors.variable, "Q"),
                               result.racking_n > 0.0 ? "F_i,c,Ed" : ""}))
      .step("design wind", "w_d", result.combination.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "w_d = " + sum_of({factored(factors.wind, "W")}));
  if (result.combination.barrier_n > 0.0) {
    builder.step("design load of persons leaning, at its height", "F_b,d",
                 result.combination.barrier_n / units::kNewtonPerKilonewton, "kN",
                 "F_b,d = " + barrier_term(basis, factors.barrier));
  }
}

std::string depth_factor_formula(const std::string& symbol, TimberFamily family, const std::string& depth) {
  const bool glulam = family == TimberFamily::glulam;
  return symbol + " = " +
         (glulam ? "min(max(1; (600 / " + depth + ")^0.1); 1.1)" : "min(max(1; (150 / " + depth + ")^0.2); 1.3)");
}

std::string lateral_factor_formula(double relative_slenderness) {
  if (relative_slenderness <= kNoLateralBuckling) return "k_crit = 1";
  return relative_slenderness <= kElasticLateralBuckling ? "k_crit = 1.56 − 0.75 · λ_rel,m" : "k_crit = 1 / λ_rel,m²";
}

namespace {

void add_moment(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const StudSystem& system = design.systems[result.member];
  const double moment_knm = result.forces.moment_nm / units::kNewtonPerKilonewton;
  if (system.clamped_foot && result.combination.barrier_n == 0.0) {
    const std::string a = overhang_symbol(design, result.member);
    builder.step("design moment", "M_y,d", moment_knm, "kNm", "M_y,d = w_d · " + a + "² / 2");
  } else if (system.single_span() && result.combination.barrier_n == 0.0) {
    builder.step("design moment", "M_y,d", moment_knm, "kNm", "M_y,d = w_d · l² / 8");
  } else {
    builder.step(system.spliced
                     ? "design moment, the larger of the continuous beam and of pieces hinged at the supports"
                     : "design moment, the largest of the beam on its supports",
                 "M_y,d", moment_knm, "kNm");
  }
}

}  // namespace

void add_bending(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const BendingVerification alone = verify_bending(design.section(result.member), result.resistance, result.forces);
  add_moment(builder, design, result);
  add_section_modulus(builder, design.section(result.member));
  builder
      .step("bending stress", "σ_m,y,d", alone.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,y,d = M_y,d / W_y")
      .step("depth factor, 3.2(3) or 3.3(3)", "k_h", result.resistance.depth_factor, "",
            design.section(result.member).outline
                ? "k_h = 1"
                : depth_factor_formula("k_h", design.materials[result.member].timber.family, "h"))
      .step("system factor, 6.6", "k_sys", result.resistance.system_factor, "")
      .step("bending strength", "f_m,y,d", alone.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_m,y,d = k_h · k_sys · k_mod · f_m,k / γ_M");
}

void add_composite_stiffness(FindingBuilder& builder, const CompositeStud& stud) {
  builder
      .step("stiffness with K_ser, annex B (B.1)", "EI_ef", stud.section(1.0, 0.0).stiffness_nm2 / kNm2PerKnm2, "kN·m²")
      .step("its final state by (2.7) to (2.12), 2.3.2.2", "EI_ef,fin",
            stud.section(1.0, 1.0).stiffness_nm2 / kNm2PerKnm2, "kN·m²")
      .step("creep of the whole", "k_def,ef", stud.creep_factor(), "", "k_def,ef = EI_ef / EI_ef,fin − 1");
}

void add_composite_bending(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const CompositeCheck& check = *result.composite;
  add_moment(builder, design, result);
  builder.step("share of the load that creeps, 2.2.2(1), of the action across the stud", "ψ_2", check.creep, "")
      .step("stiffness with K_u in the state that is worse for the stud (B.1)", "EI_ef,d",
            check.stud_state.stiffness_nm2 / kNm2PerKnm2, "kN·m²")
      .step("modulus of the stud in that state (2.7)", "E_d",
            check.stud_state.layers[kWeb].modulus_pa / units::kPascalPerNewtonPerMm2, "N/mm²")
      .step("distance of the stud from the neutral axis in that state (B.6)", "a_d",
            units::millimetres_from_metres(check.stud_state.distance_m[kWeb]), "mm")
      .step("stress at the centre of the stud (B.7)", "σ_2", check.stud_normal_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²", "σ_2 = E_d · |a_d| · M_y,d / EI_ef,d")
      .step("bending stress in the stud (B.8)", "σ_m,2", check.stud_bending_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,2 = 0.5 · E_d · h · M_y,d / EI_ef,d")
      .step("depth factor, 3.2(3) or 3.3(3)", "k_h", result.resistance.depth_factor, "",
            depth_factor_formula("k_h", design.materials[result.member].timber.family, "h"))
      .step("system factor, 6.6", "k_sys", result.resistance.system_factor, "")
      .step("tension strength", "f_t,0,d", result.resistance.tension_design_pa() / units::kPascalPerNewtonPerMm2,
            "N/mm²", "f_t,0,d = k_sys · k_mod · f_t,0,k / γ_M")
      .step("bending strength", "f_m,y,d", result.bending.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_m,y,d = k_h · k_sys · k_mod · f_m,k / γ_M")
      .step("stud, (6.17)", "η_stud", check.stud_utilisation, "", "η_stud = σ_2 / f_t,0,d + σ_m,2 / f_m,y,d");
}

std::optional<double> deflection_ratio(FindingBuilder& builder, const Settings& settings, const Tables& tables) {
  auto ratio = settings.number("structural.deflection_limit_ratio");
  const auto finish = settings.text("structural.deflection_finish");
  if (!ratio && finish) {
    builder.text("finish that limits deflection", finish, {});
    ratio = tables.deflection_limits.number(finish->value, "ratio");
  }
  return builder.positive("limit of deflection: span divided by", "r", "", ratio,
                          finish && !ratio ? "no limit for finish '" + finish->value + "' in deflection_limits.csv"
                                           : "setting structural.deflection_limit_ratio");
}

namespace {

std::string composite_note(const StudDesign& design, std::size_t member) {
  if (design.composite.of(member) != nullptr) {
    return "Bending and deflection count the sheets on the member by annex B, see " + kCompositeActionCheck.id + ".";
  }
  if (!design.composite.asked) return "Composite action with the sheathing is neglected.";
  return "Composite action with the sheathing is neglected here, see " + kCompositeActionCheck.id + ".";
}

}  // namespace

void add_member_notes(FindingBuilder& builder, const StudDesign& design, std::size_t member) {
  const VerticalMember& stud = design.framing.members[member];
  const StudSystem& system = design.systems[member];
  if (!design.basis.annex_note.empty()) builder.note(design.basis.annex_note);
  if (!design.section(member).whole()) {
    builder.note(
        "The section is taken where holes or notches leave least of it, over the whole length; deflection and "
        "slenderness are those of the section without them. Holes are taken to be drilled through the smaller side in "
        "the middle of the larger one, for the export does not say.");
  }
  builder.note("Supports do not yield; wind uniform, axial load without eccentricity. " +
               composite_note(design, member) +
               " Members side by side are not counted on to share load. The panel is taken to stand on "
               "its foot: supports further up hold it against wind, not its weight.");
  if (!design.basis.balustrade) {
    builder.note("No load of persons leaning on the panel is in it, see " + kFallBarrierCheck.id + ".");
  }
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
  if (design.basis.whole_spans > 0) {
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
