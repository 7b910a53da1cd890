#include "plugins/structural/members/bearing_check.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "plugins/structural/members/bearing.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

struct BearingCase {
  std::size_t member = 0;
  std::size_t rail = 0;  ///< index into Panel::parts
  Contact contact;
  Combination combination;
  Sourced<double> modification_factor;
  double bearing_factor = 1.0;
  double stress_pa = 0.0;
  double strength_pa = 0.0;  ///< fc,90,d

  double utilisation() const { return stress_pa / (bearing_factor * strength_pa); }
};

std::optional<std::size_t> rail_under(const Panel& panel, const VerticalMember& member) {
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (part.kind != PartKind::rail || !part.bounds) continue;
    const Box3& box = *part.bounds;
    const bool holds = box.min.x <= member.x_m && member.x_m <= box.max.x;
    if (holds && std::abs(box.max.z - member.bottom_m) <= tolerance::kMembrane_m) return i;
  }
  return std::nullopt;
}

Contact contact_of(const StudDesign& design, const Panel& panel, std::size_t member, std::size_t rail) {
  const VerticalMember& stud = design.framing.members[member];
  const Box3& box = *panel.parts[rail].bounds;
  Contact contact;
  const double left_m = std::max(stud.x_m - stud.width_m / 2.0, box.min.x);
  const double right_m = std::min(stud.x_m + stud.width_m / 2.0, box.max.x);
  contact.length_m = right_m - left_m;
  contact.width_m = std::min(stud.inside_y_m + stud.depth_m, box.max.y) - std::max(stud.inside_y_m, box.min.y);
  contact.end_left_m = left_m - box.min.x;
  contact.end_right_m = box.max.x - right_m;
  contact.rail_depth_m = box.size().z;
  for (const VerticalMember& other : design.framing.members) {
    if (&other == &stud || rail_under(panel, other) != rail) continue;
    const double gap_m = std::abs(other.x_m - stud.x_m) - (other.width_m + stud.width_m) / 2.0;
    auto& nearest = other.x_m < stud.x_m ? contact.gap_left_m : contact.gap_right_m;
    if (!nearest || gap_m < *nearest) nearest = std::max(gap_m, 0.0);
  }
  return contact;
}

/// At the foot the whole weight of the panel presses, not the share above the middle of a span.
Actions actions_at_foot(const VerticalMember& member, const DesignBasis& basis) {
  Actions actions = actions_on(member, basis);
  actions.permanent_n =
      (basis.self_weight_n_per_m / basis.self_weight_share + basis.permanent_n_per_m) * member.tributary_width_m;
  return actions;
}

class BearingCases {
 public:
  BearingCases(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
               const StudDesign& design)
      : panel_(panel), project_(project), settings_(settings), tables_(tables), design_(design) {
    for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
      if (const auto rail = rail_under(panel, design.framing.members[i])) add(i, *rail);
    }
    if (cases.empty() && missing.empty()) {
      missing.emplace_back("no stud or post stands on a rail (IfcMember PLATE with a box)");
    }
  }

  std::vector<BearingCase> cases;
  std::map<std::size_t, MemberMaterial> rails;  ///< by part
  std::vector<std::string> missing;

 private:
  const Panel& panel_;
  const Project& project_;
  const Settings& settings_;
  const Tables& tables_;
  const StudDesign& design_;

  void add(std::size_t member, std::size_t rail) {
    if (!rails.contains(rail)) {
      std::vector<std::string> reasons;
      auto material = member_material(material_at(project_, panel_.parts[rail].material), panel_.parts[rail].name,
                                      settings_, tables_, design_.basis.annex, reasons);
      for (std::string& reason : reasons) {
        if (std::find(missing.begin(), missing.end(), reason) == missing.end()) missing.push_back(std::move(reason));
      }
      if (!material) return;
      rails.emplace(rail, std::move(*material));
    }
    const VerticalMember& stud = design_.framing.members[member];
    BearingCase result;
    result.member = member;
    result.rail = rail;
    result.contact = contact_of(design_, panel_, member, rail);
    if (!(result.contact.length_m > 0.0) || !(result.contact.width_m > 0.0)) {
      missing.push_back("'" + member_name(panel_, stud) + "' does not stand on '" + panel_.parts[rail].name + "'");
      return;
    }
    for (const Combination& combination : combinations(actions_at_foot(stud, design_.basis), design_.basis.factors)) {
      add_case(result, combination);
    }
  }

  void add_case(BearingCase result, const Combination& combination) {
    const MemberMaterial& rail = rails.at(result.rail);
    const auto factor = modification_factor(tables_, rail, combination.duration);
    if (!factor) return missing.push_back("no modification factor for load duration " + combination.duration);
    result.combination = combination;
    result.modification_factor = *factor;
    result.bearing_factor = bearing_factor(rail.timber.family, result.contact);
    result.stress_pa = combination.axial_n / (effective_contact_length_m(result.contact) * result.contact.width_m);
    result.strength_pa = factor->value * rail.timber.compression_perpendicular_pa.value / rail.partial_factor.value;
    cases.push_back(std::move(result));
  }
};

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

}  // namespace

Finding bearing(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                const StudDesign& design) {
  FindingBuilder builder("structural.bearing", "Bearing of studs and posts on the rail", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 6.1.5");
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const BearingCases all(panel, project, settings, tables, design);
  for (const std::string& what : all.missing) builder.missing(what);
  if (builder.incomplete()) return builder.not_assessed();
  const BearingCase& worst = *std::max_element(all.cases.begin(), all.cases.end(), less_used);
  const MemberMaterial& rail = all.rails.at(worst.rail);
  const VerticalMember& stud = design.framing.members[worst.member];
  const DesignBasis& basis = design.basis;
  builder.text("governing member", Sourced<std::string>{member_name(panel, stud), panel.parts[stud.parts[0]].origin},
               {});
  builder.text("rail", Sourced<std::string>{panel.parts[worst.rail].name, panel.parts[worst.rail].origin}, {});
  add_inputs(builder, rail.inputs);
  add_strength(builder, "compression strength across the grain of the rail", "f_c,90,k",
               rail.timber.compression_perpendicular_pa);
  builder.number("modification factor", "k_mod", "", worst.modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", rail.partial_factor, {});
  add_width_and_span(builder, design, worst.member);
  builder
      .step("self-weight of the panel", "g_0",
            basis.self_weight_n_per_m / basis.self_weight_share / units::kNewtonPerKilonewton, "kN/m",
            "g_0 = m · 9.80665 m/s² / B: all of it, at the foot")
      .step_text("governing combination, EN 1990:2002 6.4.3.2",
                 worst.combination.name + ": " + worst.combination.expression)
      .step("design force at the foot", "F_c,90,d", worst.combination.axial_n / units::kNewtonPerKilonewton, "kN")
      .step("contact along the grain of the rail", "l", millimetres_from_metres(worst.contact.length_m), "mm")
      .step("contact across the grain", "b_c", millimetres_from_metres(worst.contact.width_m), "mm")
      .step("effective contact length, 6.1.5(1)", "l_ef",
            millimetres_from_metres(effective_contact_length_m(worst.contact)), "mm",
            "l + on each side min(30 mm; a; l; l_1 / 2)")
      .step("stress", "σ_c,90,d", worst.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_c,90,d = F_c,90,d / (l_ef · b_c)")
      .step("design strength", "f_c,90,d", worst.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_c,90,d = k_mod · f_c,90,k / γ_M")
      .step("factor for load configuration, 6.1.5(3)", "k_c,90", worst.bearing_factor, "",
            "rail on a continuous support; 1.0 where l_1 < 2 · h_rail")
      .table(bearing_table(panel, design, all.cases))
      .note(
          "The rail is taken to lie on a continuous support over its length: packs under it must stand under the "
          "studs. Bearing under the head rail carries less and is not printed.");
  return builder.judge(worst.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
                       worst.bearing_factor * worst.strength_pa / units::kPascalPerNewtonPerMm2,
                       "'" + member_name(panel, stud) + "' presses too hard on '" + panel.parts[worst.rail].name + "'");
}

}  // namespace panel_dossier::structural
