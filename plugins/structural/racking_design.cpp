#include "plugins/structural/racking_design.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace panel_dossier::structural {

namespace {

constexpr double kSameEdge_m = 0.005;
constexpr double kWholeHeight = 0.95;
constexpr double kSame_m = 0.0001;  ///< sizes from coordinates carry rounding

struct Column {
  double from_m = 0.0;
  double to_m = 0.0;
  double covered_m = 0.0;
};

/// Sheets above one another of one width, over the whole height and clear of openings.
std::vector<Column> columns_of(const Panel& panel, const SheathingFace& face) {
  std::vector<Column> columns;
  for (const std::size_t i : face.sheets) {
    const Box3& box = *panel.parts[i].bounds;
    auto same = std::find_if(columns.begin(), columns.end(), [&](const Column& c) {
      return std::abs(c.from_m - box.min.x) < kSameEdge_m && std::abs(c.to_m - box.max.x) < kSameEdge_m;
    });
    if (same == columns.end()) same = columns.insert(columns.end(), {box.min.x, box.max.x, 0.0});
    same->covered_m += box.size().z;
  }
  std::erase_if(columns, [&](const Column& column) {
    const bool pierced = std::any_of(panel.openings.begin(), panel.openings.end(), [&](const Opening& opening) {
      return opening.x_min_m < column.to_m - kSameEdge_m && opening.x_max_m > column.from_m + kSameEdge_m;
    });
    return pierced || column.covered_m < kWholeHeight * panel.height_m.value;
  });
  std::sort(columns.begin(), columns.end(), [](const Column& a, const Column& b) { return a.from_m < b.from_m; });
  return columns;
}

/// Columns that meet are one wall for method B.
std::vector<Column> joined(const std::vector<Column>& columns) {
  std::vector<Column> walls;
  for (const Column& column : columns) {
    if (!walls.empty() && std::abs(walls.back().to_m - column.from_m) < kSameEdge_m) {
      walls.back().to_m = column.to_m;
    } else {
      walls.push_back(column);
    }
  }
  return walls;
}

/// 9.2.4.2(7) and 9.2.4.3: what the second face adds. The same sheets and fasteners count in full by method A, others
/// by half of the weaker; method B takes half by kn itself.
double weaker_share(const std::vector<SheathingFace>& faces, bool method_a) {
  if (faces.size() < 2) return 0.0;
  const SheathingFace& a = faces[0];
  const SheathingFace& b = faces[1];
  const double strengths[] = {a.resistance_n() / a.spacing_m, b.resistance_n() / b.spacing_m};
  const double share = std::min(strengths[0], strengths[1]) / std::max(strengths[0], strengths[1]);
  const auto same = [](double first_m, double second_m) { return std::abs(first_m - second_m) < kSame_m; };
  const bool alike = a.product == b.product && a.screws == b.screws && same(a.thickness_m, b.thickness_m) &&
                     same(a.diameter_m, b.diameter_m) && same(a.length_m, b.length_m) && same(a.spacing_m, b.spacing_m);
  if (!method_a) return share;
  return alike ? 1.0 : 0.5 * share;
}

class Designer {
 public:
  Designer(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
           const StudDesign& design)
      : panel_(panel),
        settings_(settings),
        design_(design),
        sheathing_(read_sheathing(panel, project, tables, design)) {}

  RackingDesign run() {
    read_load();
    if (racking_.no_racking_load()) return racking_;
    read_method();
    racking_.missing.insert(racking_.missing.end(), sheathing_.missing.begin(), sheathing_.missing.end());
    if (!sheathing_.faces.empty()) take_stronger_face();
    if (racking_.missing.empty()) resist();
    if (racking_.missing.empty()) share_load();
    return racking_;
  }

 private:
  const Panel& panel_;
  const Settings& settings_;
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

  void take_stronger_face() {
    const auto strength = [](const SheathingFace& face) { return face.resistance_n() / face.spacing_m; };
    racking_.face =
        *std::max_element(sheathing_.faces.begin(), sheathing_.faces.end(),
                          [&](const SheathingFace& a, const SheathingFace& b) { return strength(a) < strength(b); });
    racking_.weaker_share = weaker_share(sheathing_.faces, racking_.method_a);
  }

  void resist() {
    const SheathingFace& face = racking_.face;
    const DesignBasis& basis = design_.basis;
    racking_.height_m = panel_.height_m.value;
    racking_.stabilising_n_per_m = basis.factors.permanent_favourable *
                                   (basis.self_weight_n_per_m / basis.self_weight_share + basis.permanent_n_per_m);
    const std::vector<Column> columns = columns_of(panel_, face);
    for (const Column& column : racking_.method_a ? columns : joined(columns)) {
      RackingStrip strip;
      strip.from_m = column.from_m;
      strip.width_m = column.to_m - column.from_m;
      strip.shape_factor = shape_factor(strip.width_m, racking_.height_m);
      if (strip.shape_factor == 0.0) continue;
      if (racking_.method_a) {
        strip.resistance_n = (1.0 + racking_.weaker_share) *
                             racking_method_a_n(face.resistance_n(), strip.width_m, racking_.height_m, face.spacing_m);
      } else {
        strip.method_b =
            racking_method_b(face.resistance_n(), face.diameter_m, face.timber_density_kg_per_m3, strip.width_m,
                             racking_.height_m, face.spacing_m, racking_.stabilising_n_per_m, racking_.weaker_share);
        strip.resistance_n = strip.method_b->resistance_n;
      }
      racking_.resistance_n += strip.resistance_n;
      racking_.strips.push_back(strip);
    }
    if (racking_.strips.empty()) {
      racking_.missing.emplace_back(
          "no sheathing over the whole height without an opening is at least a quarter of the height wide: give the "
          "racking load to another panel (Panel_Structure.RackingLoad)");
    }
  }

  void share_load() {
    const SheathingFace& face = racking_.face;
    constexpr double kEdgeFasteners = 1.2;
    racking_.fastener_resistance_n = (racking_.method_a ? kEdgeFasteners : 1.0) * face.resistance_n();
    for (RackingStrip& strip : racking_.strips) {
      strip.load_n = racking_.load_n * strip.resistance_n / racking_.resistance_n;
      strip.compression_n = strip.load_n * racking_.height_m / strip.width_m;
      strip.tie_down_n = std::max(0.0, strip.compression_n - racking_.stabilising_n_per_m * strip.width_m / 2.0);
      const double on_face_n = strip.load_n / (1.0 + racking_.weaker_share);
      const double effective_m = racking_.method_a ? strip.width_m * strip.shape_factor : strip.width_m;
      racking_.fastener_load_n = std::max(racking_.fastener_load_n, on_face_n * face.spacing_m / effective_m);
      racking_.panel_shear_stress_pa =
          std::max(racking_.panel_shear_stress_pa, on_face_n / (strip.width_m * face.thickness_m));
    }
    racking_.panel_shear_design_pa = face.panel_modification * face.panel_shear_pa / face.panel_partial_factor;
    double widest_m = 0.0;
    for (const VerticalMember& stud : design_.framing.members) {
      if (stud.right_spacing_m) widest_m = std::max(widest_m, *stud.right_spacing_m - stud.width_m);
    }
    racking_.sheet_slenderness = widest_m / face.thickness_m;
    if (widest_m <= 0.0)
      racking_.missing.emplace_back("spacing of the studs: only one of them reaches over the height");
  }
};

}  // namespace

RackingDesign design_racking(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                             const StudDesign& design) {
  return Designer(panel, project, settings, tables, design).run();
}

}  // namespace panel_dossier::structural
