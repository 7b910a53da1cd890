#include "plugins/structural/studs/composite_reader.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "plugins/structural/racking/sheathing_face.h"

namespace panel_dossier::structural {

namespace {

double half_width_m(const VerticalMember& member) {
  return member.width_m / 2.0;
}

bool overlap(const Stretch& a, const Stretch& b) {
  return overlap_m(a, b) > tolerance::kSameLine_m;
}

bool covers(const Box3& sheet, const VerticalMember& member) {
  return overlap_m(upright(sheet), member.upright()) >= kWholeLength * member.length_m();
}

/// Clear distance to the nearest member on one side (-1 left, 1 right) at any part of the height.
std::optional<double> clear_distance_m(const Framing& framing, const VerticalMember& member, int side) {
  std::optional<double> nearest_m;
  for (const VerticalMember& other : framing.members) {
    const double distance_m = side * (other.x_m - member.x_m);
    if (distance_m <= tolerance::kSameLine_m || !overlap(other.upright(), member.upright())) continue;
    const double clear_m = std::max(0.0, distance_m - half_width_m(other) - half_width_m(member));
    if (!nearest_m || clear_m < *nearest_m) nearest_m = clear_m;
  }
  return nearest_m;
}

/// Distance from the face of the member to an opening on that side.
std::optional<double> opening_distance_m(const Panel& panel, const VerticalMember& member, int side) {
  std::optional<double> nearest_m;
  for (const Opening& opening : panel.openings) {
    if (!overlap({opening.z_min_m, opening.z_max_m}, member.upright())) continue;
    if (side * ((opening.x_min_m + opening.x_max_m) / 2.0 - member.x_m) <= 0.0) continue;
    const double edge_m = side < 0 ? member.x_m - opening.x_max_m : opening.x_min_m - member.x_m;
    const double distance_m = std::max(0.0, edge_m - half_width_m(member));
    if (!nearest_m || distance_m < *nearest_m) nearest_m = distance_m;
  }
  return nearest_m;
}

/// Sheet beside the member on one side.
void reach(FlangeGeometry& geometry, const Panel& panel, const Framing& framing, const VerticalMember& member,
           const Box3& sheet, int side) {
  const double edge_m = side < 0 ? member.x_m - sheet.min.x : sheet.max.x - member.x_m;
  double reach_m = edge_m - half_width_m(member);
  if (reach_m <= tolerance::kSameLine_m) return;
  if (const auto clear_m = clear_distance_m(framing, member, side)) {
    if (reach_m >= *clear_m) geometry.clear_m = std::max(geometry.clear_m, *clear_m);
    reach_m = std::min(reach_m, *clear_m / 2.0);
  }
  if (const auto opening_m = opening_distance_m(panel, member, side)) reach_m = std::min(reach_m, *opening_m);
  double& width_m = side < 0 ? geometry.left_m : geometry.right_m;
  width_m = std::max(width_m, reach_m);
}

void add_sheet(FlangeGeometry& geometry, const Panel& panel, const Framing& framing, const VerticalMember& member,
               const Box3& sheet) {
  const double from_m = member.x_m - half_width_m(member);
  const double to_m = member.x_m + half_width_m(member);
  geometry.on_stud_m += overlap_m(along_wall(sheet), {from_m, to_m});
  const auto on_stud = [&](double edge_m) {
    return edge_m > from_m - tolerance::kSameLine_m && edge_m < to_m + tolerance::kSameLine_m;
  };
  if (on_stud(sheet.min.x) || on_stud(sheet.max.x)) ++geometry.edge_rows;
  for (const int side : {-1, 1}) reach(geometry, panel, framing, member, sheet, side);
}

}  // namespace

FlangeGeometry flange_geometry(const Panel& panel, const Framing& framing, std::size_t member,
                               const SheathingFace& face) {
  const VerticalMember& stud = framing.members[member];
  FlangeGeometry geometry;
  geometry.not_continuous = "no sheet in one piece over its whole length";
  for (const std::size_t i : face.sheets) {
    const Box3& sheet = *panel.parts[i].bounds;
    const bool on_stud = overlap(along_wall(sheet), stud.along_wall());
    if (!on_stud || !covers(sheet, stud)) continue;
    const bool directed = !face.product.starts_with("P") || face.product == "plywood";
    if (directed && sheet.size().z < sheet.size().x) {
      geometry.not_continuous = "the sheet lies across it";
      continue;
    }
    add_sheet(geometry, panel, framing, stud, sheet);
  }
  if (geometry.on_stud_m > 0.0) geometry.not_continuous.clear();
  return geometry;
}

double effective_width_m(const FlangeGeometry& geometry, const FlangeLimits& limits) {
  const double side_m = std::min(limits.shear_lag_m, limits.buckling_m) / 2.0;
  return geometry.on_stud_m + std::min(geometry.left_m, side_m) + std::min(geometry.right_m, side_m);
}

namespace {

class CompositeReader {
 public:
  CompositeReader(const Panel& panel, const Project& project, const Tables& tables, const StudDesign& design)
      : panel_(panel), project_(project), tables_(tables), design_(design) {}

  CompositeDesign read() {
    composite_.asked = true;
    const Sheathing sheathing = read_sheathing(panel_, project_, tables_, design_);
    for (const std::string& what : sheathing.missing) missing(what);
    for (const SheathingFace& face : sheathing.faces) read_face(face);
    for (const MemberMaterial& timber : design_.materials) {
      if (timber.service_class != design_.materials.front().service_class) missing("studs of one service class");
    }
    if (!composite_.missing.empty()) return std::move(composite_);
    for (std::size_t i = 0; i < design_.framing.members.size(); ++i) {
      std::string alone;
      composite_.members.push_back(stud(i, sheathing.faces, alone));
      composite_.alone.push_back(alone);
    }
    const bool any = std::any_of(composite_.members.begin(), composite_.members.end(),
                                 [](const auto& member) { return member.has_value(); });
    if (!any && composite_.missing.empty()) {
      missing("no stud works with a sheet: " + composite_.alone.front() +
              " (sheets of a wood-based panel over the whole height of a stud)");
    }
    if (!composite_.missing.empty()) composite_.members.clear();
    return std::move(composite_);
  }

 private:
  const Panel& panel_;
  const Project& project_;
  const Tables& tables_;
  const StudDesign& design_;
  CompositeDesign composite_;
  std::vector<CompositeFace> boards_;  ///< one a face, without what belongs to one stud
  std::vector<double> sheet_densities_;
  std::vector<double> inner_spacings_m_;

  void missing(std::string what) {
    if (std::find(composite_.missing.begin(), composite_.missing.end(), what) == composite_.missing.end()) {
      composite_.missing.push_back(std::move(what));
    }
  }

  void input(std::string name, std::string symbol, double value, std::string unit, const Origin& origin) {
    composite_.inputs.push_back({std::move(name), std::move(symbol), value, std::move(unit), origin});
  }

  void read_face(const SheathingFace& face) {
    CompositeFace board;
    board.inside = face.inside;
    board.product = face.product;
    board.screws = face.screws;
    board.thickness_m = face.thickness_m;
    board.partial_factor = face.panel_partial_factor;
    board.fastener_n = governing_mode(face.modes).total_n();
    board.connection_partial_factor = face.connection_partial_factor;
    for (Input one : face.inputs) {
      if (!one.symbol.empty()) one.symbol += "," + board.index();
      composite_.inputs.push_back(std::move(one));
    }
    read_product(board);
    read_density(face, board);
    read_inner_spacing(face);
    boards_.push_back(std::move(board));
  }

  void read_product(CompositeFace& board) {
    const double thickness_mm = units::millimetres_from_metres(board.thickness_m);
    const std::string row = product_row(tables_.panel_products, board.product, thickness_mm);
    const auto value = [&](const char* name, const char* symbol, const char* column) {
      const auto cell = tables_.panel_products.number(row, column);
      if (!cell || !(cell->value > 0.0)) {
        missing("no row of " + board.product + " for this thickness in panel_products.csv (EN 12369-1)");
        return 0.0;
      }
      input(std::string(name) + " of " + board.product, symbol + board.index(), cell->value, "N/mm²", cell->origin);
      return cell->value * units::kPascalPerNewtonPerMm2;
    };
    board.modulus_pa = value("modulus along the main axis, in plane, mean", "E_", "modulus_in_plane_parallel");
    board.tension_pa = value("tension strength", "f_t,k,", "tension_parallel");
    board.compression_pa = value("compression strength", "f_c,k,", "compression_parallel");
    board.bending_pa = value("bending strength", "f_m,k,", "bending_parallel");
    const std::string key = board.product + "/" + design_.materials.front().service_class;
    for (const char* duration : {"permanent", "long", "medium", "short", "instantaneous"}) {
      const auto factor = tables_.modification_factors.number(key, duration);
      if (!factor) return missing("no modification factor of " + key + " in modification_factors.csv");
      board.modification_factors[duration] = factor->value;
    }
    const auto creep = tables_.deformation_factors.number(key, "kdef");
    if (!creep) return missing("no deformation factor of " + key + " in deformation_factors.csv");
    board.deformation_factor = creep->value;
    input("deformation factor of " + board.product, "k_def," + board.index(), creep->value, "", creep->origin);
  }

  void read_density(const SheathingFace& face, const CompositeFace& board) {
    const Material* material = material_at(project_, panel_.parts[face.sheets.front()].material);
    const auto density = material != nullptr ? material->density_kg_per_m3() : std::nullopt;
    if (!density || !std::isfinite(density->value) || density->value <= 0.0) {
      missing("mean density of " + face.product + " (Pset_MaterialCommon.MassDensity of the sheet's material)");
      sheet_densities_.push_back(0.0);
      return;
    }
    input("mean density of " + face.product, "ρ_s," + board.index(), density->value, "kg/m³", density->origin);
    sheet_densities_.push_back(density->value);
  }

  /// Where it is not given, the widest that 10.8.2(1) allows: with more slip the sheet does less.
  void read_inner_spacing(const SheathingFace& face) {
    if (face.intermediate_spacing_m) {
      inner_spacings_m_.push_back(*face.intermediate_spacing_m);
      return;
    }
    inner_spacings_m_.push_back(std::min(2.0 * face.spacing_m, 0.300));
    composite_.notes.push_back(
        "'" + panel_.parts[face.fastener].name +
        "': the spacing on studs between the edges of sheets is not given "
        "(Panel_Fastener.IntermediateSpacing); taken as the widest that 10.8.2(1) allows, twice that "
        "along edges and at most 300 mm.");
  }

  std::optional<CompositeStud> stud(std::size_t member, const std::vector<SheathingFace>& faces, std::string& alone) {
    const StudSystem& system = design_.systems[member];
    if (!design_.section(member).whole()) {
      alone = "not a full rectangle over its length";
      return std::nullopt;
    }
    if (system.clamped_foot || system.spliced) {
      alone = system.spliced ? "stacked from pieces" : "stands above the highest support";
      return std::nullopt;
    }
    const MemberMaterial& timber = design_.materials[member];
    CompositeStud stud;
    stud.web = design_.section(member);
    stud.web_modulus_pa = timber.timber.modulus_mean_pa.value;
    stud.web_deformation_factor = timber.deformation_factor.value;
    stud.span_m = composite_span_m(system);
    for (std::size_t i = 0; i < faces.size(); ++i) {
      if (auto face = face_on(member, faces[i], i, stud, alone)) stud.faces.push_back(std::move(*face));
    }
    if (stud.faces.empty()) return std::nullopt;
    alone.clear();
    return stud;
  }

  std::optional<CompositeFace> face_on(std::size_t member, const SheathingFace& sheathing, std::size_t index,
                                       const CompositeStud& stud, std::string& alone) {
    const FlangeGeometry geometry = flange_geometry(panel_, design_.framing, member, sheathing);
    const auto limits = flange_limits(sheathing.product, stud.span_m, sheathing.thickness_m);
    if (!geometry.not_continuous.empty() || !limits) {
      alone = geometry.not_continuous;
      return std::nullopt;
    }
    if (geometry.clear_m > 2.0 * limits->buckling_m) {
      alone = "clear width of the sheet beyond twice that of plate buckling, 9.1.2";
      return std::nullopt;
    }
    CompositeFace face = boards_[index];
    face.limits = *limits;
    face.width_m = effective_width_m(geometry, *limits);
    face.edge_rows = geometry.edge_rows;
    face.spacing_m = geometry.edge_rows > 0 ? sheathing.spacing_m / static_cast<double>(geometry.edge_rows)
                                            : inner_spacings_m_[index];
    const MemberMaterial& timber = design_.materials[member];
    face.mean_density_kg_per_m3 = std::sqrt(sheet_densities_[index] * timber.timber.density_mean_kg_per_m3.value);
    face.slip_modulus_n_per_m =
        slip_modulus_n_per_m(sheathing.screws, face.mean_density_kg_per_m3, sheathing.diameter_m);
    face.connection_deformation_factor = 2.0 * std::sqrt(face.deformation_factor * timber.deformation_factor.value);
    return face;
  }
};

}  // namespace

bool composite_asked(const Settings& settings) {
  const auto setting = settings.text("structural.composite_sheathing");
  return setting && setting->value != "neglected";
}

CompositeDesign read_composite(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables, const StudDesign& design) {
  if (!composite_asked(settings)) return {};
  const auto setting = settings.text("structural.composite_sheathing");
  if (setting->value == "annex B") return CompositeReader(panel, project, tables, design).read();
  CompositeDesign unknown;
  unknown.asked = true;
  unknown.missing.push_back("setting structural.composite_sheathing is '" + setting->value + "': neglected or annex B");
  return unknown;
}

}  // namespace panel_dossier::structural
