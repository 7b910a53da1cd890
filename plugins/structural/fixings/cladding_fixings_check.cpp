#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/basis/printed_unit.h"
#include "plugins/structural/fixings/cladding_lines.h"
#include "plugins/structural/fixings/fasteners.h"
#include "plugins/structural/fixings/fixings_checks.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

/// Reaction of the middle support of a beam over two equal spans, in those of single spans: 5/4 (statics).
constexpr double kContinuous = 1.25;
/// Fixings that are modelled one by one, and those that stand for many: how few of the expected still may be a matter
/// of ends, corners and openings. An assumption of our own.
constexpr double kFewestOfExpected = 0.75;
/// Timber behind cladding gets wet: EN 1995-1-1 2.3.1.3.
constexpr const char* kOutside = "3";

/// One step of the way from the cladding to the framing.
struct Link {
  const char* word;       ///< in ObjectType
  const char* holds;      ///< what it holds
  std::string_view mark;  ///< index of its symbols
};

constexpr Link kCladdingLink{"CLADDING", "cladding", "c"};
constexpr Link kBattenLink{"BATTEN", "battens", "b"};

/// The fixings of one link, and what it is in.
struct Fixings {
  const Part* part = nullptr;
  double spacing_m = 0.0;
  double resistance_n = 0.0;  ///< design
  std::string weaker;         ///< withdrawal or pull-through
};

std::string symbol(const char* letter, const Link& link) {
  return std::string(letter) + "," + std::string(link.mark);
}

/// What holds cladding on a batten names both and is of the cladding; empty for other fasteners.
std::string_view link_of(const Part& part) {
  const std::string type = lower_case(part.object_type);
  for (const Link& link : {kCladdingLink, kBattenLink}) {
    if (type.find(lower_case(link.word)) != std::string::npos) return link.word;
  }
  return {};
}

/// The one group of the link's fixings; notes why there is none.
const Part* find_fixings(const Panel& panel, const Link& link, FindingBuilder& builder) {
  std::vector<const Part*> found;
  for (const Part& part : panel.parts) {
    if (part.kind == PartKind::fastener && link_of(part) == link.word) found.push_back(&part);
  }
  if (found.size() == 1) return found.front();
  builder.missing(found.empty() ? std::string("the panel has no fixings of its ") + link.holds +
                                      " (IfcMechanicalFastener with " + link.word + " in its ObjectType)"
                                : std::string("fixings of the ") + link.holds +
                                      " of several kinds; their shares of the load are not known");
  return nullptr;
}

/// Characteristic withdrawal of one fixing: as declared, else by 8.7.2 in timber of this density.
std::optional<double> withdrawal_n(const Part& part, const Link& link, const Sourced<double>& density,
                                   FindingBuilder& builder) {
  const std::string of = " of '" + part.name + "'";
  const auto declared = part.properties.number("Panel_Fastener", "WithdrawalCapacity");
  if (declared) {
    return builder.positive("declared withdrawal" + of, symbol("F_ax,Rk", link), "N", declared,
                            "'" + part.name + "' has no withdrawal above 0 (Panel_Fastener.WithdrawalCapacity)");
  }
  const auto property = [&](const char* words, const char* letter, const char* name) {
    return read_positive(builder, words + of, symbol(letter, link), kMillimetre,
                         part.properties.number("Panel_Fastener", name),
                         "'" + part.name + "' has neither Panel_Fastener.WithdrawalCapacity nor " + name);
  };
  const auto d = property("diameter", "d", "Diameter");
  const auto l = property("thread in the timber", "l_ef", "ScrewPenetration");
  if (!d || !l) return std::nullopt;
  const auto one = withdrawal({1.0, *d, *l, density.value});
  if (!one) {
    builder.missing("fixings" + of +
                    " lie outside EN 1995-1-1 8.7.2, d from 6 mm to 12 mm and thread of at least 6·d: state their "
                    "Panel_Fastener.WithdrawalCapacity");
    return std::nullopt;
  }
  builder.number("density of the timber" + of, symbol("ρ_k", link), "kg/m³", density, {});
  builder.step("withdrawal of one (8.38)" + of, symbol("F_ax,Rk", link), one->resistance_n, "N",
               symbol("F_ax,Rk", link) + " = 0.52 · " + symbol("d", link) + "^(−0.5) · " + symbol("l_ef", link) +
                   "^(−0.1) · " + symbol("ρ_k", link) + "^0.8 · " + symbol("d", link) + " · " + symbol("l_ef", link) +
                   " · min(" + symbol("d", link) + " / 8; 1)");
  return one->resistance_n;
}

std::optional<double> head_n(const Part& part, const Link& link, FindingBuilder& builder) {
  const std::string of = " of '" + part.name + "'";
  const auto head = read_positive(builder, "diameter of the heads" + of, symbol("d_h", link), kMillimetre,
                                  part.properties.number("Panel_Fastener", "ScrewHeadDiameter"),
                                  "'" + part.name + "' has no Panel_Fastener.ScrewHeadDiameter");
  const auto strength = read_positive(builder, "declared pull-through" + of, symbol("f_head,k", link), kNewtonPerMm2,
                                      part.properties.number("Panel_Fastener", "HeadPullThrough"),
                                      "'" + part.name + "' has no Panel_Fastener.HeadPullThrough");
  if (!head || !strength) return std::nullopt;
  const double through_n = pull_through_n(1.0, *strength, *head);
  builder.step("pull of the head through what it holds (8.40b)" + of, symbol("F_h,Rk", link), through_n, "N",
               symbol("F_h,Rk", link) + " = " + symbol("f_head,k", link) + " · " + symbol("d_h", link) + "^2");
  return through_n;
}

/// Notes a count that cannot stand at the spacing along lines of `length_m`.
void judge_count(const Part& part, double spacing_m, double length_m, FindingBuilder& builder) {
  const double expected = fewest_fixings(length_m, spacing_m);
  if (part.count >= kFewestOfExpected * expected) return;
  builder.missing("'" + part.name + "' count " + std::to_string(part.count) +
                  " (Panel_FastenerQuantities.Count), where " + fixed_text(length_m, 1) +
                  " m of battens at Panel_Fastener.Spacing " + fixed_text(spacing_m, 3) + " m ask for some " +
                  fixed_text(expected, 0) + ": correct the one that is wrong");
}

std::optional<Fixings> read_fixings(const Panel& panel, const Link& link, double length_m,
                                    const Sourced<double>& density, FindingBuilder& builder) {
  const Part* part = find_fixings(panel, link, builder);
  if (part == nullptr) return std::nullopt;
  const auto spacing = read_positive(builder, "spacing of '" + part->name + "'", symbol("s", link), kMillimetre,
                                     part->properties.number("Panel_Fastener", "Spacing"),
                                     "'" + part->name + "' has no Panel_Fastener.Spacing along the battens");
  if (spacing) judge_count(*part, *spacing, length_m, builder);
  const auto pulled = withdrawal_n(*part, link, density, builder);
  const auto through = head_n(*part, link, builder);
  if (!spacing || !pulled || !through) return std::nullopt;
  return Fixings{part, *spacing, std::min(*pulled, *through),
                 *pulled <= *through ? "withdrawal of '" + part->name + "'" : "heads of '" + part->name + "'"};
}

/// As `material`, outside of the sheathing.
MemberMaterial outside(MemberMaterial material) {
  material.service_class = kOutside;
  return material;
}

}  // namespace

const CheckDeclaration kCladdingFixingsCheck{
    .id = "structural.cladding_fixings",
    .title = "Cladding and battens held against suction",
    .project_title = {},
    .sentence =
        "Of the pull of the wind on one fixing of the cladding and on one of its battens, the largest share of what "
        "withdrawal and the pull-through of its head allow is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 8.7.2; EN 1991-1-4:2005+A1:2010 7.2.1 for a loaded area of 1 m²",
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis(
        {property("Panel_Fastener.Spacing"), property("Panel_Fastener.ScrewHeadDiameter"),
         property("Panel_Fastener.HeadPullThrough"), optional_property("Panel_Fastener.WithdrawalCapacity"),
         optional_property("Panel_Fastener.Diameter"), optional_property("Panel_Fastener.ScrewPenetration")})),
    .limits = {"Bending and pull of the boards themselves: see the cladding's own declaration.",
               "The way on from the battens: see the checks of studs, rails and brackets.",
               "Weight of the cladding, its movement, and rows at the edges of boards."}};

Finding cladding_fixings(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                         const StudDesign& design) {
  FindingBuilder builder(kCladdingFixingsCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const CladdingLines lines = cladding_lines(panel);
  for (const std::string& what : lines.missing) builder.missing(what);
  if (builder.incomplete()) return builder.not_assessed();
  const Part& batten = *lines.battens.front();
  std::vector<std::string> unknown;
  const Material* of_batten = batten.material ? &project.materials[*batten.material] : nullptr;
  const auto member = member_material(of_batten, batten.name, settings, tables, design.basis.annex, unknown);
  for (std::string& what : unknown) builder.missing(std::move(what));
  if (!member) return builder.not_assessed();
  const MemberMaterial timber = outside(*member);
  const MemberMaterial framing = outside(design.materials.front());
  const auto in_batten =
      read_fixings(panel, kCladdingLink, lines.cladding_length_m, timber.timber.density_kg_per_m3, builder);
  const auto in_stud =
      read_fixings(panel, kBattenLink, lines.batten_length_m, framing.timber.density_kg_per_m3, builder);
  const auto factor = modification_factor(tables, timber, design.basis.factors.wind_duration);
  if (!factor) builder.missing("no modification factor for the duration of wind");
  const auto partial = builder.positive("partial factor of connections", "γ_M", "",
                                        tables.national_annex.number(design.basis.annex, "gamma_m_connection"),
                                        "national_annex.csv has no gamma_m_connection");
  if (!in_batten || !in_stud || !factor || !partial || builder.incomplete()) return builder.not_assessed();
  builder.number("modification factor, service class 3", "k_mod", "", *factor, {});
  add_inputs(builder, design.basis.inputs);
  builder.step("width of cladding on the hardest loaded batten", "b_w", lines.width_m, "m");
  const double gamma_q = design.basis.factors.variable;
  const double line_n_per_m = gamma_q * design.basis.wind_pressure_pa * kContinuous * lines.width_m;
  builder.step("pull along a batten, cladding over two spans", "q_d", kKilonewtonPerMetre.of(line_n_per_m),
               kKilonewtonPerMetre.name, "q_d = γ_Q · w_k · 1.25 · b_w");
  const auto share = [&](const Fixings& fixings, const Link& link, double pull_n, const std::string& formula) {
    const double allowed_n = factor->value * fixings.resistance_n / *partial;
    builder.step("pull on one of '" + fixings.part->name + "'", symbol("F_d", link), pull_n, "N", formula)
        .step("what one of '" + fixings.part->name + "' may take, " + fixings.weaker, symbol("F_Rd", link), allowed_n,
              "N",
              symbol("F_Rd", link) + " = k_mod · min(" + symbol("F_ax,Rk", link) + "; " + symbol("F_h,Rk", link) +
                  ") / γ_M");
    return pull_n / allowed_n;
  };
  const double of_cladding = share(*in_batten, kCladdingLink, line_n_per_m * in_batten->spacing_m, "F_d,c = q_d · s,c");
  const double of_battens =
      share(*in_stud, kBattenLink, kContinuous * line_n_per_m * in_stud->spacing_m, "F_d,b = 1.25 · q_d · s,b");
  const Fixings& worst = of_cladding >= of_battens ? *in_batten : *in_stud;
  builder.step_text("governs", worst.weaker);
  builder.note(
      "The larger of pressure and suction on 1 m² of the panel's worst zone pulls outwards, without relief by air "
      "behind "
      "the cladding. Boards and battens are taken to run over two spans. Timber behind cladding is of service class "
      "3.");
  return builder.judge(std::max(of_cladding, of_battens), "", Relation::at_most, 1.0,
                       worst.weaker + " is beyond what is allowed: closer or stronger fixings are needed");
}

}  // namespace panel_dossier::structural
