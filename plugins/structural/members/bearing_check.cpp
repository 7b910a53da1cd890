#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "core/api/support/units.h"
#include "plugins/structural/members/bearing_design.h"
#include "plugins/structural/members/members_checks.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

bool less_used(const BearingCase& a, const BearingCase& b) {
  return a.utilisation() < b.utilisation();
}

/// The governing combination of each member.
Table bearing_table(const Panel& panel, const StudDesign& design, const std::vector<BearingCase>& cases) {
  Table table{"Bearing of every stud and post on its rail",
              {{"member", ""},
               {"at x", "m"},
               {"F_c,90,d", "kN"},
               {"l_ef", "mm"},
               {"k_c,90", ""},
               {"σ_c,90,d", "N/mm²"},
               {"utilisation", ""}},
              {}};
  std::map<std::size_t, const BearingCase*> worst;
  for (const BearingCase& result : cases) {
    const BearingCase*& held = worst[result.member];
    if (held == nullptr || less_used(*held, result)) held = &result;
  }
  for (const auto& [member, result] : worst) {
    const VerticalMember& stud = design.framing.members[member];
    table.rows.push_back({member_name(panel, stud), stud.x_m, result->combination.axial_n / units::kNewtonPerKilonewton,
                          millimetres_from_metres(effective_contact_length_m(result->contact)), result->bearing_factor,
                          result->stress_pa / units::kPascalPerNewtonPerMm2, result->utilisation()});
  }
  return table;
}

void add_bearing_inputs(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const BearingCase& worst,
                        const MemberMaterial& rail) {
  const VerticalMember& stud = design.framing.members[worst.member];
  const Part& foot = panel.parts[stud.parts.front()];
  add_inputs(builder, design.basis.inputs);
  builder.text("governing member", Sourced<std::string>{member_name(panel, stud), foot.origin}, {});
  builder.number("length of the member", "L", "mm",
                 Sourced<double>{millimetres_from_metres(stud.length_m()), foot.origin}, {});
  builder.text("rail", Sourced<std::string>{panel.parts[worst.rail].name, panel.parts[worst.rail].origin}, {});
  add_inputs(builder, rail.inputs);
  add_strength(builder, "compression strength across the grain of the rail", "f_c,90,k",
               rail.timber.compression_perpendicular_pa);
  builder.number("modification factor", "k_mod", "", worst.modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", rail.partial_factor, {});
}

/// At the foot all of the panel's weight presses.
void add_force(FindingBuilder& builder, const StudDesign& design, const BearingCase& worst) {
  const DesignBasis& basis = design.basis;
  const double width_m = design.framing.members[worst.member].tributary_width_m;
  const double self_weight_n_per_m = basis.self_weight_n_per_m / basis.self_weight_share;
  const FactorSymbols& factors = worst.combination.symbols;
  builder
      .step("self-weight of the panel, all of it at the foot", "g_0", self_weight_n_per_m / units::kNewtonPerKilonewton,
            "kN/m", "g_0 = m · 9.80665 / (1000 · B)")
      .step("permanent load at the foot", "G",
            (self_weight_n_per_m + basis.permanent_n_per_m) * width_m / units::kNewtonPerKilonewton, "kN",
            basis.load_bearing ? "G = (g_0 + G_k) · b_t" : "G = g_0 · b_t")
      .step("variable load at the foot", "Q", basis.variable_n_per_m * width_m / units::kNewtonPerKilonewton, "kN",
            basis.load_bearing ? "Q = Q_k · b_t" : "Q = 0")
      .step_text("governing combination, EN 1990:2002 6.4.3.2",
                 worst.combination.name + ": " + worst.combination.expression)
      .step("design force at the foot", "F_c,90,d", worst.combination.axial_n / units::kNewtonPerKilonewton, "kN",
            "F_c,90,d = " + sum_of({factored(factors.permanent, "G"), factored(factors.variable, "Q")}));
}

void add_stress(FindingBuilder& builder, const BearingCase& worst) {
  builder.step("contact along the grain of the rail", "l_c", millimetres_from_metres(worst.contact.length_m), "mm")
      .step("contact across the grain", "b_c", millimetres_from_metres(worst.contact.width_m), "mm")
      .step("added on the left: the least of 30 mm, the rest of the rail, l_c and half of the gap to the next contact",
            "Δ_l", millimetres_from_metres(spread_left_m(worst.contact)), "mm")
      .step("added on the right, likewise", "Δ_r", millimetres_from_metres(spread_right_m(worst.contact)), "mm")
      .step("effective contact length, 6.1.5(1)", "l_ef",
            millimetres_from_metres(effective_contact_length_m(worst.contact)), "mm", "l_ef = l_c + Δ_l + Δ_r")
      .step("stress", "σ_c,90,d", worst.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_c,90,d = F_c,90,d / (l_ef · b_c)")
      .step("design strength", "f_c,90,d", worst.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_c,90,d = k_mod · f_c,90,k / γ_M")
      .step(
          "factor for load configuration, 6.1.5(3), rail on a continuous support; 1.0 where the next contact is nearer "
          "than twice the rail's height",
          "k_c,90", worst.bearing_factor, "");
}

}  // namespace

const CheckDeclaration kBearingCheck{
    .id = "structural.bearing",
    .title = "Bearing of studs and posts on the rail",
    .project_title = {},
    .sentence =
        "Of all studs and posts that stand on a rail, the largest design stress across the grain of the rail "
        "under all combinations of EN 1990 is at most k_c,90 times the design strength.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.5",
    .units = {"N/mm²"},
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis({})),
    .limits = {"The sole rail is taken to lie on a continuous support.",
               "The head rail, which carries less, is not printed.",
               "What racking presses into the end studs is not in the force at the foot."}};

Finding bearing(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                const StudDesign& design) {
  FindingBuilder builder(kBearingCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const BearingDesign all = design_bearing(panel, project, settings, tables, design);
  for (const std::string& what : all.missing) builder.missing(what);
  if (builder.incomplete()) return builder.not_assessed();
  const BearingCase& worst = *std::max_element(all.cases.begin(), all.cases.end(), less_used);
  const MemberMaterial& rail = all.rails.at(worst.rail);
  const VerticalMember& stud = design.framing.members[worst.member];
  add_bearing_inputs(builder, panel, design, worst, rail);
  add_width_and_span(builder, design, worst.member);
  add_force(builder, design, worst);
  add_stress(builder, worst);
  builder.table(bearing_table(panel, design, all.cases))
      .note(
          "The rail is taken to lie on a continuous support over its length: packs under it must stand under the "
          "studs. Bearing under the head rail carries less and is not printed.");
  return builder.judge(worst.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
                       worst.bearing_factor * worst.strength_pa / units::kPascalPerNewtonPerMm2,
                       "'" + member_name(panel, stud) + "' presses too hard on '" + panel.parts[worst.rail].name + "'");
}

}  // namespace panel_dossier::structural
