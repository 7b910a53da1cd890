#include "plugins/structural/racking/racking_design.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/geometry.h"
#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/fixings/fasteners.h"

namespace panel_dossier::structural {

namespace {

constexpr double kBesideEdge_m = 0.200;
constexpr double kNegligible_n = 1.0;  ///< what two equal strips leave where they meet, of pull and of push

std::vector<double> edges_of(const std::vector<RackingStrip>& strips) {
  std::vector<double> edges;
  for (const RackingStrip& strip : strips) {
    for (const double x_m : {strip.from_m, strip.to_m()}) {
      const bool known = std::any_of(edges.begin(), edges.end(),
                                     [&](double edge) { return std::abs(edge - x_m) < tolerance::kSameLine_m; });
      if (!known) edges.push_back(x_m);
    }
  }
  std::sort(edges.begin(), edges.end());
  return edges;
}

/// Force of the strips that begin (or end) at an edge, and the narrowest of them.
struct Side {
  double force_n = 0.0;
  double width_m = 0.0;

  void add(const RackingStrip& strip) {
    width_m = force_n > 0.0 ? std::min(width_m, strip.width_m) : strip.width_m;
    force_n += strip.compression_n;
  }
};

void find_tie_down(Uplift& uplift, const Panel& panel) {
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (!ties_down(part) || !part.bounds) continue;
    if (part.bounds->min.x > uplift.x_m + kBesideEdge_m || part.bounds->max.x < uplift.x_m - kBesideEdge_m) continue;
    const auto tension = part.properties.number("Panel_Fastener", "DesignTension");
    const bool usable = tension && std::isfinite(tension->value) && tension->value > 0.0;
    if (!uplift.part) uplift.part = i;
    if (!usable || (uplift.resistance_n && *uplift.resistance_n <= tension->value)) continue;
    uplift.part = i;
    uplift.resistance_n = tension->value;
  }
}

}  // namespace

std::vector<Uplift> uplifts(const Panel& panel, const std::vector<RackingStrip>& strips, double held_down_n_per_m) {
  std::vector<Uplift> found;
  for (const double x_m : edges_of(strips)) {
    Side right;
    Side left;
    for (const RackingStrip& strip : strips) {
      if (std::abs(strip.from_m - x_m) < tolerance::kSameLine_m) right.add(strip);
      if (std::abs(strip.to_m() - x_m) < tolerance::kSameLine_m) left.add(strip);
    }
    Uplift uplift;
    uplift.x_m = x_m;
    uplift.pull_n = std::abs(right.force_n - left.force_n);
    uplift.begins = right.force_n > left.force_n;
    uplift.held_down_n = held_down_n_per_m * (right.width_m + left.width_m) / 2.0;
    if (uplift.pull_n < kNegligible_n) continue;
    find_tie_down(uplift, panel);
    found.push_back(uplift);
  }
  return found;
}

namespace {

/// The longest member under a vertical edge of the sheathing.
std::optional<std::size_t> stud_at(const Framing& framing, double edge_m) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < framing.members.size(); ++i) {
    const VerticalMember& member = framing.members[i];
    if (std::abs(member.x_m - edge_m) > member.width_m / 2.0 + tolerance::kSameLine_m) continue;
    if (!found || member.length_m() > framing.members[*found].length_m()) found = i;
  }
  return found;
}

class RackingDesigner {
 public:
  RackingDesigner(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                  const StudDesign& design)
      : panel_(panel),
        settings_(settings),
        tables_(tables),
        design_(design),
        sheathing_(read_sheathing(panel, project, tables, design)) {}

  RackingDesign run() {
    read_load();
    if (racking_.no_racking_load()) return racking_;
    read_method();
    racking_.missing.insert(racking_.missing.end(), sheathing_.missing.begin(), sheathing_.missing.end());
    racking_.faces = std::move(sheathing_.faces);
    if (racking_.missing.empty()) read_held_down();
    if (racking_.missing.empty()) resist();
    if (racking_.missing.empty()) share_load();
    return racking_;
  }

 private:
  const Panel& panel_;
  const Settings& settings_;
  const Tables& tables_;
  const StudDesign& design_;
  Sheathing sheathing_;
  RackingDesign racking_;

  void read_load() {
    const auto load = panel_.properties.number("Panel_Structure", "RackingLoad");
    if (!load || !std::isfinite(load->value) || load->value < 0.0) {
      racking_.missing.emplace_back(
          "Panel_Structure.RackingLoad of a load-bearing panel (characteristic, at its head, not negative; 0 where it "
          "is "
          "no part of the bracing)");
      return;
    }
    racking_.inputs.push_back(
        {"characteristic racking load at the head", "F_v,k", load->value / 1e3, "kN", load->origin});
    racking_.load_n = design_.basis.factors.variable * load->value;
  }

  void read_method() {
    const auto method = settings_.text("structural.racking_method");
    if (!method || (method->value != "A" && method->value != "B")) {
      racking_.missing.emplace_back("setting structural.racking_method (A or B)");
      return;
    }
    racking_.method_a = method->value == "A";
    racking_.inputs.push_back({"method of EN 1995-1-1 9.2.4", {}, method->value, {}, method->origin});
  }

  void read_held_down() {
    const DesignBasis& basis = design_.basis;
    const auto factor = tables_.national_annex.number(basis.annex, "gamma_g_equilibrium");
    if (!factor) {
      racking_.missing.push_back("no partial factor of equilibrium for national annex '" + basis.annex + "'");
      return;
    }
    racking_.inputs.push_back(
        {"partial factor of permanent load against uplift", "γ_G,inf,EQU", factor->value, "", factor->origin});
    const auto method = tables_.national_annex.text(basis.annex, "racking_method");
    if (method) racking_.annex_method = method->value;
    const auto uplift = panel_.properties.number("Panel_Structure", "WindUpliftLineLoad");
    if (!uplift) return;
    if (!std::isfinite(uplift->value) || uplift->value < 0.0) {
      racking_.missing.emplace_back("Panel_Structure.WindUpliftLineLoad that is not negative (" +
                                    describe(uplift->origin) + ")");
      return;
    }
    racking_.uplift_known = true;
    racking_.inputs.push_back(
        {"characteristic net uplift of wind on the head", "w_u", uplift->value / 1e3, "kN/m", uplift->origin});
    const double permanent_n_per_m = basis.self_weight_n_per_m / basis.self_weight_share + basis.permanent_n_per_m;
    const double lifted_n_per_m = basis.factors.variable * uplift->value;
    racking_.stabilising_n_per_m =
        std::max(0.0, basis.factors.permanent_favourable * permanent_n_per_m - lifted_n_per_m);
    racking_.held_down_n_per_m = std::max(0.0, factor->value * permanent_n_per_m - lifted_n_per_m);
  }

  void resist() {
    racking_.height_m = panel_.height_m.value;
    racking_.strips = racking_strips(panel_, racking_.faces, racking_.method_a, racking_.stabilising_n_per_m);
    if (racking_.strips.empty()) {
      racking_.missing.emplace_back(
          "no sheathing over the whole height without an opening is at least a quarter of the height wide: give the "
          "racking load to another panel (Panel_Structure.RackingLoad)");
      return;
    }
    for (const RackingStrip& strip : racking_.strips) {
      racking_.resistance_n += strip.resistance_n;
      for (const double edge_m : strip.edges_m) look_for_stud(edge_m);
    }
    const auto whole = std::find_if(racking_.strips.begin(), racking_.strips.end(),
                                    [](const RackingStrip& strip) { return strip.share == 1.0; });
    racking_.stronger = whole->face;
  }

  /// An edge of a sheet that is fixed to nothing passes no shear, 9.2.4.2(2).
  void look_for_stud(double edge_m) {
    constexpr double kOverTheHeight = 0.9;  // between head and sole rail
    const auto stud = stud_at(design_.framing, edge_m);
    if (stud && design_.framing.members[*stud].length_m() >= kOverTheHeight * racking_.height_m) return;
    std::string what =
        "a stud over the height of the panel under the edge of the sheathing at x = " + fixed_text(edge_m, 3) + " m";
    if (std::find(racking_.missing.begin(), racking_.missing.end(), what) == racking_.missing.end()) {
      racking_.missing.push_back(std::move(what));
    }
  }

  void share_load() {
    for (RackingStrip& strip : racking_.strips) {
      strip.load_n = racking_.load_n * strip.resistance_n / racking_.resistance_n;
      strip.compression_n = strip.load_n * racking_.height_m / strip.width_m;
    }
    racking_.uplifts = uplifts(panel_, racking_.strips, racking_.held_down_n_per_m);
    load_fasteners();
    load_sheets();
  }

  /// Along an edge; a face of which half counts is used by half, so the stronger one governs.
  void load_fasteners() {
    constexpr double kEdgeFasteners = 1.2;
    const SheathingFace& face = racking_.face();
    racking_.fastener_resistance_n = (racking_.method_a ? kEdgeFasteners : 1.0) * face.resistance_n();
    for (const RackingStrip& strip : racking_.strips) {
      if (strip.face != racking_.stronger) continue;
      const double effective_m = racking_.method_a ? strip.width_m * strip.shape_factor : strip.width_m;
      const double load_n = strip.on_face_n() * face.spacing_m / effective_m;
      if (load_n <= racking_.fastener_load_n) continue;
      racking_.fastener_load_n = load_n;
      racking_.worst_fastener = static_cast<std::size_t>(&strip - racking_.strips.data());
    }
  }

  void load_sheets() {
    double worst_use = 0.0;
    for (const RackingStrip& strip : racking_.strips) {
      const SheathingFace& face = racking_.faces[strip.face];
      const double strength_pa = face.panel_modification * face.panel_shear_pa / face.panel_partial_factor;
      const double stress_pa = strip.on_face_n() / (strip.width_m * face.thickness_m);
      if (strength_pa <= 0.0 || stress_pa / strength_pa <= worst_use) continue;
      worst_use = stress_pa / strength_pa;
      racking_.worst_sheet = static_cast<std::size_t>(&strip - racking_.strips.data());
      racking_.panel_shear_stress_pa = stress_pa;
      racking_.panel_shear_design_pa = strength_pa;
    }
    double widest_m = 0.0;
    for (const VerticalMember& stud : design_.framing.members) {
      if (stud.right_spacing_m) widest_m = std::max(widest_m, *stud.right_spacing_m - stud.width_m);
    }
    for (const SheathingFace& face : racking_.faces) {
      racking_.sheet_slenderness = std::max(racking_.sheet_slenderness, widest_m / face.thickness_m);
    }
  }
};

}  // namespace

double RackingDesign::largest_compression_n() const {
  return std::max_element(
             strips.begin(), strips.end(),
             [](const RackingStrip& a, const RackingStrip& b) { return a.compression_n < b.compression_n; })
      ->compression_n;
}

RackingDesign design_racking(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                             const StudDesign& design) {
  return RackingDesigner(panel, project, settings, tables, design).run();
}

namespace {

/// Push (right edges, with the load to the right) less pull, one a member; there is a stud under each edge.
std::vector<double> pushes_n(const StudDesign& design, const RackingDesign& racking) {
  std::vector<double> pushes(design.framing.members.size(), 0.0);
  const auto press = [&](double edge_m, double push_n) {
    if (const auto stud = stud_at(design.framing, edge_m)) pushes[*stud] += push_n;
  };
  for (const RackingStrip& strip : racking.strips) {
    press(strip.from_m, -strip.compression_n);
    press(strip.to_m(), strip.compression_n);
  }
  return pushes;
}

}  // namespace

void add_racking_compression(StudDesign& design, const RackingDesign& racking) {
  if (!racking.missing.empty()) {
    design.racking_missing.push_back("the compression from racking, which is not known without " +
                                     joined(racking.missing, "; "));
    return;
  }
  if (racking.load_n == 0.0) return;
  const std::vector<double> pushes = pushes_n(design, racking);
  const std::size_t without = design.cases.size();
  for (std::size_t i = 0; i < without; ++i) {
    StudCase result = design.cases[i];
    // The strips' forces carry γQ already.
    const double share = result.combination.wind_factor / design.basis.factors.variable;
    result.racking_n = share * std::abs(pushes[result.member]);
    if (result.racking_n < kNegligible_n) continue;
    result.combination.name += ", with racking";
    result.combination.expression += share < 1.0 ? " + ψ_0,W · F_i,c,Ed" : " + F_i,c,Ed";
    result.forces.axial_n += result.racking_n;
    result.stability = verify_stability(design.section(result.member), result.resistance,
                                        design.restraint(result.member), result.forces);
    design.cases.push_back(std::move(result));
  }
}

namespace {

std::string kn_text(double force_n) {
  return fixed_text(force_n / units::kNewtonPerKilonewton, 2) + " kN";
}

void add_arrow(Drawing& drawing, Vec2 tail, Vec2 tip) {
  drawing.lines.push_back({tail, tip, LineStyle::heavy});
  const Vec2 back{(tail.x - tip.x) / 4.0, (tail.y - tip.y) / 4.0};
  for (const double side : {0.5, -0.5}) {
    const Vec2 barb{tip.x + back.x - side * back.y, tip.y + back.y + side * back.x};
    drawing.lines.push_back({barb, tip, LineStyle::heavy});
  }
}

void add_sheets(Drawing& drawing, const Panel& panel, const RackingDesign& racking) {
  for (const RackingStrip& strip : racking.strips) {
    // Behind a sheet of the stronger face one of the other would hide it; the table holds both.
    if (strip.face != racking.stronger) continue;
    const double spacing_mm = units::millimetres_from_metres(racking.faces[strip.face].spacing_m);
    drawing.polygons.push_back({rectangle(strip.from_m, 0.0, strip.to_m(), panel.height_m.value), Hatch::board,
                                LineStyle::normal, "s = " + fixed_text(spacing_mm, 0) + " mm"});
  }
  for (const Opening& opening : panel.openings) {
    drawing.polygons.push_back({rectangle(opening.x_min_m, opening.z_min_m, opening.x_max_m, opening.z_max_m),
                                Hatch::none, LineStyle::normal, opening.name});
  }
}

}  // namespace

Drawing racking_elevation(const Panel& panel, const RackingDesign& racking) {
  Drawing drawing;
  drawing.title =
      "Racking to the right, from inside: sheets that count hatched; design load at the head, tie-down "
      "(down) and compression (up) at the foot";
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  const double arrow_m = height_m / 8.0;
  drawing.polygons.push_back({rectangle(0.0, 0.0, width_m, height_m), Hatch::none, LineStyle::heavy, {}});
  add_sheets(drawing, panel, racking);
  add_arrow(drawing, {-1.2 * arrow_m, height_m}, {-0.2 * arrow_m, height_m});
  drawing.texts.push_back({{-0.7 * arrow_m, height_m + 0.3 * arrow_m}, kn_text(racking.load_n)});
  for (const Uplift& edge : racking.uplifts) {
    const Vec2 near{edge.x_m, -0.1 * arrow_m};
    const Vec2 far{edge.x_m, -1.1 * arrow_m};
    if (edge.begins && edge.force_n() == 0.0) continue;
    add_arrow(drawing, edge.begins ? near : far, edge.begins ? far : near);
    drawing.texts.push_back(
        {{edge.x_m + 0.15 * arrow_m, -0.7 * arrow_m}, kn_text(edge.begins ? edge.force_n() : edge.pull_n)});
  }
  const double row_m = 1.8 * arrow_m;
  for (const RackingStrip& strip : racking.strips) {
    if (strip.face == racking.stronger)
      drawing.dimensions.push_back({{strip.from_m, 0.0}, {strip.to_m(), 0.0}, -row_m, {}});
  }
  drawing.dimensions.push_back({{width_m, 0.0}, {width_m, height_m}, -arrow_m, {}});
  return drawing;
}

namespace {

std::string in_mm(const std::string& symbol, double length_m) {
  return symbol + " = " + fixed_text(units::millimetres_from_metres(length_m), 1);
}

}  // namespace

Drawing edge_detail(const SheathingFace& face) {
  Drawing drawing;
  const double stud_m = face.joint_stud_width_m;
  const double length_m = 1.6 * face.spacing_m;
  const double sheet_end_m = face.sheets_meet_on_stud ? stud_m / 2.0 : 0.0;
  const double head_m = face.diameter_m;
  drawing.title = face.sheets_meet_on_stud ? "Joint of two sheets on a stud, seen square to the wall, mm"
                                           : "Edge of a sheet on a stud, seen square to the wall, mm";
  drawing.polygons.push_back({rectangle(0.0, 0.0, stud_m, length_m), Hatch::timber, LineStyle::thin, {}});
  drawing.polygons.push_back(
      {rectangle(sheet_end_m, 0.0, 2.2 * stud_m, length_m), Hatch::none, LineStyle::normal, "sheet"});
  drawing.lines.push_back({{stud_m, 0.0}, {stud_m, length_m}, LineStyle::dashed});
  if (face.sheets_meet_on_stud) {
    drawing.polygons.push_back(
        {rectangle(-1.2 * stud_m, 0.0, sheet_end_m, length_m), Hatch::none, LineStyle::normal, "sheet"});
    drawing.lines.push_back({{0.0, 0.0}, {0.0, length_m}, LineStyle::dashed});
  }
  for (int i = 0; i < 2; ++i) {
    const double y_m = (i + 0.3) * face.spacing_m;
    for (const double side : {1.0, -1.0}) {
      if (side < 0.0 && !face.sheets_meet_on_stud) continue;
      const double x_m = sheet_end_m + side * face.edge_distance_m;
      drawing.lines.push_back({{x_m - head_m, y_m}, {x_m + head_m, y_m}, LineStyle::heavy});
      drawing.lines.push_back({{x_m, y_m - head_m}, {x_m, y_m + head_m}, LineStyle::heavy});
    }
  }
  const double fastener_m = sheet_end_m + face.edge_distance_m;
  const double row_m = 0.2 * face.spacing_m;
  drawing.dimensions.push_back(
      {{sheet_end_m, length_m}, {fastener_m, length_m}, row_m, in_mm("e", face.edge_distance_m)});
  drawing.dimensions.push_back(
      {{fastener_m, length_m}, {stud_m, length_m}, 2.5 * row_m, in_mm("a_4", stud_m - fastener_m)});
  drawing.dimensions.push_back({{0.0, 0.0}, {stud_m, 0.0}, -row_m, in_mm("b", stud_m)});
  drawing.dimensions.push_back(
      {{2.2 * stud_m, 0.3 * face.spacing_m}, {2.2 * stud_m, 1.3 * face.spacing_m}, -row_m, in_mm("s", face.spacing_m)});
  return drawing;
}

}  // namespace panel_dossier::structural
