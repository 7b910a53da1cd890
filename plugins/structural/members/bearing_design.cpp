#include "plugins/structural/members/bearing_design.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "core/api/support/tolerances.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

constexpr double kSpread_m = 0.030;

double spread_m(const Contact& contact, double end_m, const std::optional<double>& gap_m) {
  const double half_gap_m = gap_m ? *gap_m / 2.0 : std::numeric_limits<double>::infinity();
  return std::max(0.0, std::min({kSpread_m, end_m, contact.length_m, half_gap_m}));
}

/// Whether the box of a member shows where its faces touch others; holes are far from the ends or stand in doubt.
bool full_faces(const Section& section) {
  return !section.outline && section.end_depth_m == 0.0 && section.notched_depth_m == 0.0 &&
         section.notched_width_m == 0.0;
}

std::optional<std::size_t> rail_under(const Panel& panel, const VerticalMember& member) {
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (!is_rail(panel, part)) continue;
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

class BearingDesigner {
 public:
  BearingDesigner(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                  const StudDesign& design)
      : panel_(panel), project_(project), settings_(settings), tables_(tables), design_(design) {
    for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
      if (const auto rail = rail_under(panel, design.framing.members[i])) add(i, *rail);
    }
    if (result_.cases.empty() && result_.missing.empty()) {
      result_.missing.emplace_back("no stud or post stands on a rail (IfcMember PLATE with a box)");
    }
  }

  BearingDesign done() && { return std::move(result_); }

 private:
  const Panel& panel_;
  const Project& project_;
  const Settings& settings_;
  const Tables& tables_;
  const StudDesign& design_;
  BearingDesign result_;

  void add(std::size_t member, std::size_t rail) {
    std::vector<std::string>& missing = result_.missing;
    if (!result_.rails.contains(rail)) {
      std::vector<std::string> reasons;
      auto material = member_material(material_at(project_, panel_.parts[rail].material), panel_.parts[rail].name,
                                      settings_, tables_, design_.basis.annex, reasons);
      for (std::string& reason : reasons) {
        if (std::find(missing.begin(), missing.end(), reason) == missing.end()) missing.push_back(std::move(reason));
      }
      const MemberSection read = read_section(panel_.parts[rail], MemberAxis::along_wall);
      if (!read.problem.empty()) {
        missing.push_back(read.problem);
      } else if (!full_faces(read.section)) {
        missing.push_back("the contact on '" + panel_.parts[rail].name + "', whose faces are notched or no rectangle");
      }
      if (!material) return;
      result_.rails.emplace(rail, std::move(*material));
    }
    const VerticalMember& stud = design_.framing.members[member];
    if (!full_faces(stud.section)) {
      missing.push_back("the contact of '" + member_name(panel_, stud) +
                        "', whose section or end is no full rectangle");
      return;
    }
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
    const MemberMaterial& rail = result_.rails.at(result.rail);
    const auto factor = modification_factor(tables_, rail, combination.duration);
    if (!factor) return result_.missing.push_back("no modification factor for load duration " + combination.duration);
    result.combination = combination;
    result.modification_factor = *factor;
    result.bearing_factor = bearing_factor(rail.timber.family, result.contact);
    result.stress_pa = combination.axial_n / (effective_contact_length_m(result.contact) * result.contact.width_m);
    result.strength_pa = factor->value * rail.timber.compression_perpendicular_pa.value / rail.partial_factor.value;
    result_.cases.push_back(std::move(result));
  }
};

}  // namespace

double spread_left_m(const Contact& contact) {
  return spread_m(contact, contact.end_left_m, contact.gap_left_m);
}

double spread_right_m(const Contact& contact) {
  return spread_m(contact, contact.end_right_m, contact.gap_right_m);
}

double effective_contact_length_m(const Contact& contact) {
  return contact.length_m + spread_left_m(contact) + spread_right_m(contact);
}

double bearing_factor(TimberFamily family, const Contact& contact) {
  const auto near = [&](const std::optional<double>& gap_m) { return gap_m && *gap_m < 2.0 * contact.rail_depth_m; };
  if (near(contact.gap_left_m) || near(contact.gap_right_m)) return 1.0;
  return family == TimberFamily::glulam ? 1.5 : 1.25;
}

BearingDesign design_bearing(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                             const StudDesign& design) {
  return BearingDesigner(panel, project, settings, tables, design).done();
}

}  // namespace panel_dossier::structural
