#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/take_off.h"
#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/basis/printed_unit.h"
#include "plugins/structural/fixings/fasteners.h"
#include "plugins/structural/fixings/fixings_checks.h"
#include "plugins/structural/members/members_checks.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

double wind_width_m(const FrameActions& actions) {
  double studs = 1.0;
  for (int i = 1; actions.stud_spacing_m > 0.0 && i * actions.stud_spacing_m < actions.bracket_spacing_m; ++i) {
    studs += 2.0 * (1.0 - i * actions.stud_spacing_m / actions.bracket_spacing_m);
  }
  return std::max({actions.width_m / actions.brackets_in_row, actions.bracket_spacing_m, studs * actions.stud_width_m});
}

BracketForces bracket_forces(const FrameActions& actions, double gamma_g, double gamma_q) {
  BracketForces forces;
  const double n = actions.brackets_in_row;
  const double wind = actions.wind_pa * actions.wind_height_m;
  const double leading = std::max(wind + actions.barrier_psi0 * actions.barrier_n_per_m,
                                  actions.wind_psi0 * wind + actions.barrier_n_per_m);
  forces.across_n = gamma_q * leading * wind_width_m(actions);
  forces.barrier_n = gamma_q * actions.barrier_n_per_m * wind_width_m(actions);
  if (actions.weight_n > 0.0) {
    forces.couple_n = gamma_g * actions.weight_n * actions.eccentricity_m / (actions.rows_apart_m * n);
    forces.shear_n = gamma_g * actions.weight_n / n;
  }
  return forces;
}

namespace {

/// One thing compared with what it may be, both in `unit`.
struct Comparison {
  std::string name;
  double value = 0.0;
  double limit = 0.0;
  std::string unit;

  double utilisation() const { return value / limit; }
};

/// The brackets of a panel, all of one kind.
struct Brackets {
  const Part* part = nullptr;
  double count = 0.0;
  double tension_n = 0.0;
  double shear_n = 0.0;
};

/// Whether both are declared alike: type and everything that a bracket's maker states of it.
bool same_kind(const Part& a, const Part& b) {
  if (a.object_type != b.object_type) return false;
  constexpr std::array<const char*, 7> kStated{"DesignTension",  "DesignShear",      "ScrewsPerPiece",
                                               "ScrewDiameter",  "ScrewPenetration", "ScrewHeadDiameter",
                                               "HeadPullThrough"};
  return std::all_of(kStated.begin(), kStated.end(), [&](const char* name) {
    const auto of_a = a.properties.number("Panel_Fastener", name);
    const auto of_b = b.properties.number("Panel_Fastener", name);
    if (!of_a || !of_b) return of_a.has_value() == of_b.has_value();
    // What is no number is told of the first bracket.
    return of_a->value == of_b->value || (std::isnan(of_a->value) && std::isnan(of_b->value));
  });
}

/// An export may give each bracket by itself or one element that stands for several; what counts is their sum.
std::optional<Brackets> read_brackets(const Panel& panel, FindingBuilder& builder) {
  const auto parts = fasteners_that(panel, holds_panel);
  const bool alike =
      std::all_of(parts.begin(), parts.end(), [&parts](const Part* part) { return same_kind(*parts.front(), *part); });
  if (parts.empty() || !alike) {
    builder.missing(parts.empty() ? "the panel has no brackets (IfcMechanicalFastener with BRACKET in its ObjectType)"
                                  : "brackets of several kinds; their shares of the load are not known");
    return std::nullopt;
  }
  const Part& part = *parts.front();
  const auto property = [&](const char* words, const char* symbol, const char* name) {
    return read_positive(builder, std::string(words) + " of '" + part.name + "'", symbol, kKilonewton,
                         part.properties.number("Panel_Fastener", name),
                         "'" + part.name + "' has no Panel_Fastener." + name);
  };
  const auto tension = property("design resistance in tension", "N_Rd", "DesignTension");
  const auto shear = property("design resistance in shear", "V_Rd", "DesignShear");
  double count = 0.0;
  for (const Part* bracket : parts) count += bracket->count;
  builder.number(parts.size() == 1 ? "number of '" + part.name + "'" : "number of brackets from '" + part.name + "' on",
                 "n", "", Sourced<double>{count, part.origin}, {});
  if (!tension || !shear) return std::nullopt;
  return Brackets{&part, count, *tension, *shear};
}

/// The member on which the brackets' rows are read: the one with the most supports.
std::size_t leading_member(const StudDesign& design) {
  std::size_t leading = 0;
  for (std::size_t i = 1; i < design.systems.size(); ++i) {
    if (design.systems[i].supports_m.size() > design.systems[leading].supports_m.size()) leading = i;
  }
  return leading;
}

bool hangs_outside(const Panel& panel) {
  const auto arrangement = panel.properties.text("Panel_Identity", "Arrangement");
  return arrangement && arrangement->value == "OVERSAIL";
}

/// Weight and where it acts, for a panel that hangs outside the frame.
void read_weight(const Panel& panel, const Project& project, const Settings& settings, FrameActions& actions,
                 FindingBuilder& builder) {
  if (!hangs_outside(panel)) {
    builder.note("The panel stands on the floor or on the panel below, so its brackets carry no weight.");
    return;
  }
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) builder.missing(what);
  const auto mass = measured.mass_kg();
  const auto centre = measured.centre_of_gravity_m();
  if (!centre) builder.missing("the centre of gravity is not known");
  const auto gap = builder.number("gap between panel and frame", "s", "m", settings.number("structural.frame.gap_m"),
                                  "setting 'structural.frame.gap_m' is missing");
  if (!mass || !centre || !gap) return;
  builder.number("centre of gravity from the inner face of the panel", "y_G", "m",
                 Sourced<double>{centre->y, panel.origin}, {});
  actions.weight_n = *mass * units::kStandardGravity_m_per_s2;
  actions.eccentricity_m = *gap + centre->y;
  builder.step("weight", "G_p", actions.weight_n / units::kNewtonPerKilonewton, "kN", "G_p = m · 9.80665 / 1000")
      .step("centre of gravity before the face of the frame", "e_g", actions.eccentricity_m, "m", "e_g = s + y_G");
}

/// Screws of one bracket in the timber of the rail or stud, under tension; none when the export does not tell.
void add_screws(const Brackets& brackets, const StudDesign& design, const Tables& tables, const BracketForces& forces,
                std::vector<Comparison>& comparisons, FindingBuilder& builder) {
  const Properties& properties = brackets.part->properties;
  const auto count = properties.number("Panel_Fastener", "ScrewsPerPiece");
  const auto diameter = properties.number("Panel_Fastener", "ScrewDiameter");
  const auto penetration = properties.number("Panel_Fastener", "ScrewPenetration");
  const std::string of = " of '" + brackets.part->name + "'";
  const auto n =
      builder.positive("screws in timber" + of, "n_s", "", count, "brackets without Panel_Fastener.ScrewsPerPiece");
  const auto d = read_positive(builder, "diameter of these screws", "d", kMillimetre, diameter,
                               "brackets without Panel_Fastener.ScrewDiameter");
  const auto l = read_positive(builder, "their thread in the timber", "l_ef", kMillimetre, penetration,
                               "brackets without Panel_Fastener.ScrewPenetration");
  if (!n || !d || !l) return;
  const MemberMaterial& material = design.materials[leading_member(design)];
  const auto group = withdrawal({*n, *d, *l, material.timber.density_kg_per_m3.value});
  if (!group) {
    builder.missing("screws" + of + " lie outside EN 1995-1-1 8.7.2: d from 6 mm to 12 mm, thread of at least 6·d");
    return;
  }
  const auto factor = modification_factor(tables, material, design.basis.factors.wind_duration);
  if (!factor) return builder.missing("no modification factor for the duration of wind");
  builder.number("density of the timber", "ρ_k", "kg/m³", material.timber.density_kg_per_m3, {});
  builder.number("modification factor", "k_mod", "", *factor, {});
  const auto partial = builder.positive("partial factor of connections", "γ_M", "",
                                        tables.national_annex.number(design.basis.annex, "gamma_m_connection"),
                                        "national_annex.csv has no gamma_m_connection");
  const auto lasting = modification_factor(tables, material, "permanent");
  if (!partial || !lasting) return;
  const double resistance = factor->value * group->resistance_n / *partial;
  builder
      .step("withdrawal strength (8.39)", "f_ax,k", group->strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_ax,k = 0.52 · d^(−0.5) · l_ef^(−0.1) · ρ_k^0.8")
      .step("diameter factor (8.40)", "k_d", group->diameter_factor, "", "k_d = min(d / 8; 1)")
      .step("effective number (8.41)", "n_ef", group->effective_count, "", "n_ef = n_s^0.9")
      .step("design withdrawal of the screws of one bracket (8.38)", "F_ax,Rd",
            resistance / units::kNewtonPerKilonewton, "kN", "F_ax,Rd = k_mod · n_ef · f_ax,k · d · l_ef · k_d / γ_M");
  comparisons.push_back({"withdrawal of the screws", forces.tension_n() / units::kNewtonPerKilonewton,
                         resistance / units::kNewtonPerKilonewton, "kN"});
  if (forces.couple_n > 0.0) {
    builder.number("modification factor, permanent", "k_mod,p", "", *lasting, {});
    comparisons.push_back({"withdrawal of the screws, weight alone", forces.couple_n / units::kNewtonPerKilonewton,
                           resistance * lasting->value / factor->value / units::kNewtonPerKilonewton, "kN"});
  }
  if (forces.barrier_n > 0.0) {
    const auto leaning = modification_factor(tables, material, design.basis.factors.barrier_duration);
    if (!leaning) return builder.missing("no modification factor for the duration of the barrier load");
    builder.number("modification factor, persons leaning", "k_mod,B", "", *leaning, {});
    comparisons.push_back({"withdrawal of the screws, persons and weight",
                           (forces.barrier_n + forces.couple_n) / units::kNewtonPerKilonewton,
                           resistance * leaning->value / factor->value / units::kNewtonPerKilonewton, "kN"});
  }
  const auto head = properties.number("Panel_Fastener", "ScrewHeadDiameter");
  const auto strength = properties.number("Panel_Fastener", "HeadPullThrough");
  if (!head || !strength) {
    builder.note(
        "The bracket's own plate holds the heads of its screws, so no head pulls through timber or board "
        "(Panel_Fastener.ScrewHeadDiameter and HeadPullThrough are not given).");
    return;
  }
  const double through =
      factor->value * pull_through_n(group->effective_count, strength->value, head->value) / *partial;
  builder.number("diameter of the heads", "d_h", kMillimetre.name, kMillimetre.of(head), {});
  builder.number("pull-through parameter", "f_head,k", kNewtonPerMm2.name, kNewtonPerMm2.of(strength), {});
  comparisons.push_back({"heads pulled through", forces.tension_n() / units::kNewtonPerKilonewton,
                         through / units::kNewtonPerKilonewton, "kN"});
}

Table comparison_table(const std::vector<Comparison>& comparisons) {
  Table table{
      "Fixing back to the frame", {{"what", ""}, {"effect", ""}, {"limit", ""}, {"unit", ""}, {"share", ""}}, {}};
  for (const Comparison& c : comparisons) table.rows.push_back({c.name, c.value, c.limit, c.unit, c.utilisation()});
  return table;
}

/// The rows of brackets and what acts on them.
void set_rows(FrameActions& actions, const Panel& panel, const StudDesign& design, const StudReaction& stud,
              double spacing_m, double brackets_in_row) {
  const std::vector<double>& supports = design.systems[leading_member(design)].supports_m;
  actions.width_m = panel.width_m.value;
  actions.wind_pa = design.basis.wind_pressure_pa;
  actions.wind_height_m = stud.per_line_load_m;
  actions.wind_psi0 = design.basis.factors.wind_psi0;
  actions.barrier_psi0 = design.basis.factors.barrier_psi0;
  if (design.basis.balustrade) actions.barrier_n_per_m = design.basis.balustrade->n_per_m * stud.barrier_share;
  actions.bracket_spacing_m = spacing_m;
  actions.stud_spacing_m = stud.spacing_m;
  actions.stud_width_m = stud.width_m;
  actions.rows_apart_m = supports.back() - supports.front();
  actions.brackets_in_row = brackets_in_row;
}

/// The largest distance of two neighbours in a row by where the brackets are drawn, 0 where no row has two. None where
/// not each of them is drawn by itself.
std::optional<double> drawn_spacing_m(const Panel& panel) {
  constexpr double kSameRow_m = 0.1;
  std::vector<Vec3> middles;
  for (const Part* bracket : fasteners_that(panel, holds_panel)) {
    if (bracket->count != 1 || !bracket->bounds) return std::nullopt;
    middles.push_back(bracket->bounds->centre());
  }
  std::sort(middles.begin(), middles.end(), [](const Vec3& a, const Vec3& b) { return a.z < b.z; });
  double widest_m = 0.0;
  for (auto row = middles.begin(); row != middles.end();) {
    auto end = std::next(row);
    while (end != middles.end() && end->z - std::prev(end)->z < kSameRow_m) ++end;
    std::sort(row, end, [](const Vec3& a, const Vec3& b) { return a.x < b.x; });
    for (auto next = std::next(row); next != end; ++next) widest_m = std::max(widest_m, next->x - std::prev(next)->x);
    row = end;
  }
  return widest_m;
}

/// Why the rows cannot be what the export says; empty when they can. Where brackets are drawn one by one, as evenly as
/// openings let them, their places stand against the spacing; else their count does.
std::string why_not_rows(const Panel& panel, const FrameActions& actions) {
  const auto drawn_m = drawn_spacing_m(panel);
  if (drawn_m && *drawn_m > actions.bracket_spacing_m + tolerance::kModelling_m) {
    return "the brackets are drawn up to " + shortest_text(units::millimetres_from_metres(*drawn_m)) +
           " mm apart, and Panel_Fastener.Spacing is " +
           shortest_text(units::millimetres_from_metres(actions.bracket_spacing_m)) + " mm; correct one of them";
  }
  if (!drawn_m && (std::floor(actions.brackets_in_row) - 1.0) * actions.bracket_spacing_m >
                      actions.width_m + tolerance::kModelling_m) {
    return "the brackets of a row at their spacing are wider than the panel; correct their count or "
           "Panel_Fastener.Spacing";
  }
  if (actions.brackets_in_row < 1.0) return "fewer brackets than rows of supports";
  if (actions.brackets_in_row != std::floor(actions.brackets_in_row)) {
    return "the brackets do not make whole rows: " + shortest_text(actions.brackets_in_row) +
           " would stand in each row of supports; correct their count or Panel_Structure.SupportSpacing";
  }
  if (!(actions.rows_apart_m > 0.0)) return "the panel is held in one row only";
  return {};
}

/// Of the studs within one spacing of a bracket, with one right at it; see wind_width_m.
std::string wind_width_formula(const FrameActions& actions) {
  std::string studs = "1";
  for (int i = 1; actions.stud_spacing_m > 0.0 && i * actions.stud_spacing_m < actions.bracket_spacing_m; ++i) {
    studs += " + 2 · (1 − " + std::to_string(i) + " · s_s / e)";
  }
  return "b_r = max(B / n_r; e; b_t · (" + studs + "))";
}

void add_rows(FindingBuilder& builder, const FrameActions& actions, const StudReaction& stud, double rows) {
  builder.step("rows of brackets, as the supports of the studs", "r", rows, "")
      .step("brackets in a row", "n_r", actions.brackets_in_row, "", "n_r = n / r")
      .step("height of wall whose wind comes to a row: the largest reaction of the studs under 1 kN/m", "h_r",
            actions.wind_height_m, "m")
      .step("width of wall that the hardest pressed stud carries", "b_t", actions.stud_width_m, "m")
      .step("spacing of that stud to the nearer one beside it", "s_s", actions.stud_spacing_m, "m")
      .step("width of wall whose wind comes to the hardest loaded bracket", "b_r", wind_width_m(actions), "m",
            wind_width_formula(actions));
  if (actions.barrier_n_per_m == 0.0) return;
  builder
      .step(
          "share of persons leaning on the panel that comes to a row: the largest reaction of the studs under 1 N at "
          "the height of the barrier",
          "k_B", stud.barrier_share, "")
      .step("persons leaning, along the row", "q_r", actions.barrier_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "q_r = q_k · k_B");
}

void add_bracket_forces(FindingBuilder& builder, const FrameActions& actions, const BracketForces& forces) {
  builder.step(actions.barrier_n_per_m > 0.0 ? "force across the wall on one bracket, EN 1990 6.4.3.2"
                                             : "force across the wall on one bracket",
               "N_w,d", forces.across_n / units::kNewtonPerKilonewton, "kN",
               actions.barrier_n_per_m > 0.0
                   ? "N_w,d = γ_Q · max(w_k · h_r + ψ_0,B · q_r; ψ_0,W · w_k · h_r + q_r) · b_r"
                   : "N_w,d = γ_Q · w_k · h_r · b_r");
  if (actions.weight_n == 0.0) return;
  builder.step("distance of the outer rows", "z", actions.rows_apart_m, "m")
      .step("pull from the eccentric weight", "N_g,d", forces.couple_n / units::kNewtonPerKilonewton, "kN",
            "N_g,d = γ_G,sup · G_p · e_g / (z · n_r)")
      .step("weight on one bracket of the row that carries it", "V_d", forces.shear_n / units::kNewtonPerKilonewton,
            "kN", "V_d = γ_G,sup · G_p / n_r");
}

std::vector<Comparison> bracket_comparisons(const Brackets& brackets, const FrameActions& actions,
                                            const BracketForces& forces) {
  std::vector<Comparison> comparisons{{"tension in the bracket", forces.tension_n() / units::kNewtonPerKilonewton,
                                       brackets.tension_n / units::kNewtonPerKilonewton, "kN"}};
  if (actions.weight_n == 0.0) return comparisons;
  comparisons.push_back({"shear in the bracket", forces.shear_n / units::kNewtonPerKilonewton,
                         brackets.shear_n / units::kNewtonPerKilonewton, "kN"});
  comparisons.push_back({"both together, sum of the shares",
                         forces.tension_n() / brackets.tension_n + forces.shear_n / brackets.shear_n, 1.0, ""});
  return comparisons;
}

}  // namespace

const CheckDeclaration kFrameFixingsCheck{
    .id = "structural.frame_fixings",
    .title = "Brackets to the frame and their screws",
    .project_title = {},
    .sentence =
        "Of tension and shear in the hardest loaded bracket, both together, withdrawal of its screws and their "
        "heads pulled through, the largest share of what each may be is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 8.7.2; EN 1990:2002 6.4.3.2; resistances of the bracket as declared",
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis(
        {property("Panel_Fastener.DesignTension"), property("Panel_Fastener.DesignShear"),
         property("Panel_Fastener.ScrewsPerPiece"), property("Panel_Fastener.ScrewDiameter"),
         property("Panel_Fastener.ScrewPenetration"), optional_property("Panel_Fastener.ScrewHeadDiameter"),
         optional_property("Panel_Fastener.HeadPullThrough"), optional_property("Panel_Fastener.Spacing"),
         optional_property("Panel_Identity.Arrangement"), optional_setting("structural.fixing_spacing_m"),
         optional_setting("structural.frame.gap_m")})),
    .limits = {"Anchors in the frame, edge distances in concrete and the frame itself are not checked.",
               "The lateral resistance of the screws is part of the declared resistance of the bracket in shear.",
               "One row carries all of the weight, all brackets of a row alike."}};

Finding frame_fixings(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      const StudDesign& design) {
  FindingBuilder builder(kFrameFixingsCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const auto brackets = read_brackets(panel, builder);
  const auto spacing =
      builder.positive("spacing of the brackets, at most", "e", "m", fixing_spacing(panel, settings), kNoFixingSpacing);
  FrameActions actions;
  read_weight(panel, project, settings, actions, builder);
  if (!brackets || !spacing || builder.incomplete()) return builder.not_assessed();
  const StudReaction stud = hardest_stud(design);
  const auto rows = static_cast<double>(design.systems[leading_member(design)].supports_m.size());
  set_rows(actions, panel, design, stud, *spacing, brackets->count / rows);
  if (const std::string why = why_not_rows(panel, actions); !why.empty()) return builder.not_assessed(why);
  const CombinationFactors& factors = design.basis.factors;
  const BracketForces forces = bracket_forces(actions, factors.permanent_unfavourable, factors.variable);
  add_inputs(builder, design.basis.inputs);
  add_rows(builder, actions, stud, rows);
  add_bracket_forces(builder, actions, forces);
  std::vector<Comparison> comparisons = bracket_comparisons(*brackets, actions, forces);
  add_screws(*brackets, design, tables, forces, comparisons, builder);
  if (builder.incomplete()) return builder.not_assessed();
  const auto worst =
      std::max_element(comparisons.begin(), comparisons.end(),
                       [](const Comparison& a, const Comparison& b) { return a.utilisation() < b.utilisation(); });
  builder.step_text("governs", worst->name).table(comparison_table(comparisons));
  builder.note(
      "One row carries all of the weight, all brackets of a row alike. The lateral resistance of the screws is part of "
      "the "
      "bracket's declared resistance in shear; their timber is taken to be of the studs' class. Anchors in the frame, "
      "edge distances in "
      "concrete and "
      "the frame itself are for the structural engineer of the building.");
  return builder.judge(
      worst->utilisation(), "", Relation::at_most, 1.0,
      worst->name + " is beyond what is allowed; more or stronger brackets, or another joint, are needed");
}

}  // namespace panel_dossier::structural
