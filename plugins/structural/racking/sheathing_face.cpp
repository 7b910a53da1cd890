#include "plugins/structural/racking/sheathing_face.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "plugins/structural/basis/printed_unit.h"

namespace panel_dossier::structural {

namespace {

constexpr double kLargestDiameter_m = 0.006;

/// Product of the tables that a product standard such as `EN 300 OSB/3` names.
std::optional<std::string> product_of(const Material& material) {
  const auto standard = material.properties.text("Panel_Board", "ProductStandard");
  if (!standard) return std::nullopt;
  for (const char* product : {"OSB/2", "OSB/3", "OSB/4", "P4", "P5", "plywood"}) {
    const std::size_t at = standard->value.find(product);
    if (at != std::string::npos && (at == 0 || standard->value[at - 1] == ' ')) return product;
  }
  return std::nullopt;
}

bool type_contains(const Part& part, std::string_view word) {
  std::string type = part.object_type;
  std::transform(type.begin(), type.end(), type.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return type.find(word) != std::string::npos;
}

class FaceReader {
 public:
  FaceReader(const Panel& panel, const Project& project, const Tables& tables, const StudDesign& design, bool inside)
      : panel_(panel), project_(project), tables_(tables), design_(design) {
    face_.inside = inside;
  }

  std::optional<SheathingFace> read(std::vector<std::string>& missing) {
    find_sheets();
    if (face_.sheets.empty()) return std::nullopt;
    read_board();
    read_fastener();
    if (missing_.empty()) read_factors();
    if (missing_.empty()) calculate();
    missing.insert(missing.end(), missing_.begin(), missing_.end());
    return missing_.empty() ? std::optional(face_) : std::nullopt;
  }

 private:
  const Panel& panel_;
  const Project& project_;
  const Tables& tables_;
  const StudDesign& design_;
  SheathingFace face_;
  std::vector<std::string> missing_;

  std::string where() const { return face_.inside ? "inner sheathing" : "outer sheathing"; }

  void find_sheets() {
    const VerticalMember& stud = design_.framing.members.front();
    for (std::size_t i = 0; i < panel_.parts.size(); ++i) {
      const Part& part = panel_.parts[i];
      if (part.kind != PartKind::sheet || !part.bounds || is_gypsum(project_, part)) continue;
      const double gap_m =
          face_.inside ? stud.inside_y_m - part.bounds->max.y : part.bounds->min.y - (stud.inside_y_m + stud.depth_m);
      if (std::abs(gap_m) <= tolerance::kMembrane_m) face_.sheets.push_back(i);
    }
  }

  void read_board() {
    const Part& first = panel_.parts[face_.sheets.front()];
    face_.thickness_m = first.bounds->size().y;
    for (const std::size_t i : face_.sheets) {
      const Part& sheet = panel_.parts[i];
      const bool alike =
          sheet.material == first.material && std::abs(sheet.bounds->size().y - face_.thickness_m) < kSameSize_m;
      if (!alike) return missing_.push_back("the " + where() + " is not of one board throughout");
      for (const std::size_t j : face_.sheets) {
        const bool meets = std::abs(panel_.parts[j].bounds->min.x - sheet.bounds->max.x) < tolerance::kSameLine_m;
        face_.sheets_meet_on_stud = face_.sheets_meet_on_stud || meets;
      }
    }
    const Material* material = material_at(project_, first.material);
    const auto product = material != nullptr ? product_of(*material) : std::nullopt;
    if (!product) {
      return missing_.push_back("product of the " + where() +
                                " (Panel_Board.ProductStandard naming OSB/2, OSB/3, OSB/4, P4, P5 or plywood)");
    }
    face_.product = *product;
    face_.inputs.push_back({"product of the " + where(),
                            {},
                            *product,
                            {},
                            material->properties.text("Panel_Board", "ProductStandard")->origin});
    add_input("thickness of the sheet", "t_1", kMillimetre.of(face_.thickness_m), kMillimetre.name, first.origin);
  }

  void add_input(std::string name, std::string symbol, double value, std::string unit, const Origin& origin) {
    face_.inputs.push_back({std::move(name), std::move(symbol), value, std::move(unit), origin});
  }

  void read_fastener() {
    const Box3& sheet = *panel_.parts[face_.sheets.front()].bounds;
    const double middle_m = sheet.centre().y;
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < panel_.parts.size(); ++i) {
      const Part& part = panel_.parts[i];
      if (part.kind != PartKind::fastener || !part.bounds) continue;
      if (!type_contains(part, "SCREW") && !type_contains(part, "NAIL")) continue;
      if (part.bounds->min.y <= middle_m && middle_m <= part.bounds->max.y) found.push_back(i);
    }
    if (found.size() != 1) {
      return missing_.push_back(found.empty()
                                    ? "no nails or screws of the " + where() + " (IfcMechanicalFastener NAIL or SCREW)"
                                    : "more than one kind of fastener in the " + where());
    }
    face_.fastener = found.front();
    const Part& part = panel_.parts[face_.fastener];
    face_.screws = type_contains(part, "SCREW");
    const auto shank = part.properties.text("Panel_Fastener", "Shank");
    face_.smooth = !face_.screws && !(shank && (shank->value == "RING" || shank->value == "THREADED"));
    face_.inputs.push_back({"fasteners of the " + where(), {}, part.name, {}, part.origin});
    face_.diameter_m = positive(part, "Diameter", "diameter", "d", kMillimetre);
    face_.length_m = positive(part, "Length", "length", "l_f", kMillimetre);
    face_.spacing_m = positive(part, "Spacing", "spacing along edges of sheets", "s", kMillimetre);
    face_.edge_distance_m = positive(part, "EdgeDistance", "distance from the edge of a sheet", "e", kMillimetre);
    const double tensile_pa = positive(part, "TensileStrength", "tensile strength of the wire", "f_u", kNewtonPerMm2);
    const auto between = part.properties.number("Panel_Fastener", "IntermediateSpacing");
    if (between) {
      face_.intermediate_spacing_m =
          positive(part, "IntermediateSpacing", "spacing on studs between the edges", "s_i", kMillimetre);
    }
    if (missing_.empty()) read_effective_diameter(part);
    if (!missing_.empty()) return;
    face_.plane.yield_moment_nm = yield_moment_nm(tensile_pa, face_.effective_diameter_m);
    const auto withdrawal = part.properties.number("Panel_Fastener", "WithdrawalCapacity");
    if (withdrawal && withdrawal->value > 0.0) {
      face_.plane.withdrawal_n = withdrawal->value;
      add_input("characteristic withdrawal capacity", "F_ax,Rk", withdrawal->value, "N", withdrawal->origin);
    }
    // 8.2.2(2): round smooth nails 15 %, other nails 50 %, screws 100 %.
    face_.plane.rope_limit = face_.screws ? 1.0 : face_.smooth ? 0.15 : 0.50;
  }

  /// 8.7.1(3): the smooth shank counts where 4·d of it stand in the timber, else 1.1 times the root of the thread.
  void read_effective_diameter(const Part& part) {
    if (face_.diameter_m > kLargestDiameter_m) {
      return missing_.push_back("fasteners of the " + where() +
                                " thicker than 6 mm, which EN 1995-1-1 8.7.1(4) treats as bolts: not covered");
    }
    face_.effective_diameter_m = face_.diameter_m;
    if (!face_.screws) return;
    const auto shank = part.properties.number("Panel_Fastener", "SmoothShankLength");
    if (shank) {
      const double shank_m = positive(part, "SmoothShankLength", "smooth shank below the head", "l_s", kMillimetre);
      if (shank_m - face_.thickness_m >= 4.0 * face_.diameter_m) return;
    }
    face_.effective_diameter_m =
        1.1 * positive(part, "RootDiameter", "diameter at the root of the thread", "d_1", kMillimetre);
    if (face_.effective_diameter_m > 1.1 * face_.diameter_m) {
      missing_.push_back("Panel_Fastener.RootDiameter of '" + part.name + "' must not exceed its Diameter");
    }
  }

  double positive(const Part& part, const char* property, const char* name, const char* symbol,
                  const PrintedUnit& unit) {
    const auto value = part.properties.number("Panel_Fastener", property);
    if (!value || !std::isfinite(value->value) || value->value <= 0.0) {
      missing_.push_back("Panel_Fastener." + std::string(property) + " of '" + part.name + "' (" + name + ")");
      return 0.0;
    }
    add_input(std::string(name) + " of a fastener", symbol, unit.of(value->value), unit.name, value->origin);
    return value->value;
  }

  void read_factors() {
    const DesignBasis& basis = design_.basis;
    const MemberMaterial& timber = design_.materials.front();
    const auto timber_factor = modification_factor(tables_, timber, basis.factors.wind_duration);
    const auto panel_factor =
        tables_.modification_factors.number(face_.product + "/" + timber.service_class, basis.factors.wind_duration);
    const auto panel_partial = tables_.national_annex.number(basis.annex, "gamma_m_" + face_.product);
    const auto connection_partial = tables_.national_annex.number(basis.annex, "gamma_m_connection");
    if (!timber_factor || !panel_factor || !panel_partial || !connection_partial) {
      return missing_.push_back("no modification or partial factor for " + face_.product + " in service class " +
                                timber.service_class);
    }
    face_.timber_modification = timber_factor->value;
    face_.panel_modification = panel_factor->value;
    face_.panel_partial_factor = panel_partial->value;
    face_.connection_partial_factor = connection_partial->value;
    add_input("modification factor of the timber", "k_mod,1", timber_factor->value, "", timber_factor->origin);
    add_input("modification factor of the panel", "k_mod,2", panel_factor->value, "", panel_factor->origin);
    add_input("partial factor of connections", "γ_M", connection_partial->value, "", connection_partial->origin);
    add_input("partial factor of the panel", "γ_M,2", panel_partial->value, "", panel_partial->origin);
    face_.joint_stud_width_m = design_.framing.members.front().width_m;
    face_.timber_density_kg_per_m3 = timber.timber.density_kg_per_m3.value;
    for (std::size_t i = 0; i < design_.framing.members.size(); ++i) {
      face_.joint_stud_width_m = std::min(face_.joint_stud_width_m, design_.framing.members[i].width_m);
      face_.timber_density_kg_per_m3 =
          std::min(face_.timber_density_kg_per_m3, design_.materials[i].timber.density_kg_per_m3.value);
    }
    add_input("characteristic density of the timber", "ρ_k", face_.timber_density_kg_per_m3, "kg/m³",
              timber.timber.density_kg_per_m3.origin);
    const std::string row =
        product_row(tables_.panel_products, face_.product, units::millimetres_from_metres(face_.thickness_m));
    const auto shear = tables_.panel_products.number(row, "panel_shear");
    if (shear) {
      face_.panel_shear_pa = shear->value * units::kPascalPerNewtonPerMm2;
      add_input("panel shear strength of the sheet", "f_v,k", shear->value, "N/mm²", shear->origin);
    }
  }

  void calculate() {
    ShearPlane& plane = face_.plane;
    plane.thickness_m = face_.thickness_m;
    plane.penetration_m = face_.length_m - face_.thickness_m;
    plane.diameter_m = face_.effective_diameter_m;
    const Material* board = material_at(project_, panel_.parts[face_.sheets.front()].material);
    const auto density = board->properties.number("Panel_Board", "CharacteristicDensity");
    const bool usable = density && std::isfinite(density->value) && density->value > 0.0;
    const auto embedment = panel_embedment_pa(face_.product, plane.diameter_m, face_.thickness_m,
                                              usable ? std::optional(density->value) : std::nullopt);
    if (!embedment) {
      return missing_.push_back("characteristic density of the " + where() +
                                " (Panel_Board.CharacteristicDensity, above zero)");
    }
    if (face_.product == "plywood") {
      add_input("characteristic density of the sheet", "ρ_k,1", density->value, "kg/m³", density->origin);
    }
    plane.panel_embedment_pa = *embedment;
    plane.timber_embedment_pa = timber_embedment_pa(face_.timber_density_kg_per_m3, plane.diameter_m);
    if (plane.penetration_m <= 0.0) {
      return missing_.push_back("the fasteners of the " + where() + " are no longer than the sheet is thick");
    }
    face_.modes = failure_modes(plane);
  }
};

}  // namespace

std::string product_row(const DataTable& products, const std::string& product, double thickness_mm) {
  for (const std::string& key : products.keys()) {
    const auto name = products.text(key, "product");
    const auto over = products.number(key, "thickness_over");
    const auto to = products.number(key, "thickness_to");
    if (name && over && to && name->value == product && thickness_mm > over->value && thickness_mm <= to->value) {
      return key;
    }
  }
  return {};
}

double SheathingFace::modification() const {
  return std::sqrt(timber_modification * panel_modification);
}

double SheathingFace::resistance_n() const {
  return modification() * governing_mode(modes).total_n() / connection_partial_factor;
}

Sheathing read_sheathing(const Panel& panel, const Project& project, const Tables& tables, const StudDesign& design) {
  Sheathing sheathing;
  for (const bool inside : {true, false}) {
    if (auto face = FaceReader(panel, project, tables, design, inside).read(sheathing.missing)) {
      sheathing.faces.push_back(std::move(*face));
    }
  }
  if (sheathing.faces.empty() && sheathing.missing.empty()) {
    sheathing.missing.emplace_back("no sheet of a wood-based panel lies on the studs (IfcPlate SHEET)");
  }
  return sheathing;
}

namespace {

constexpr const char* kSpacingClause = "8.3.1.3(1)";
constexpr const char* kLargestSpacingClause = "10.8.2(1)";
constexpr const char* kPlywoodClause = "8.3.1.3(2)";
constexpr const char* kTimberClause = "table 8.2";
constexpr const char* kNailClause = "8.3.1.2";
constexpr const char* kScrewClause = "8.7.1";

/// 8.3.1.3(2) is for plywood; for other boards 3 d is common practice, below what table 8.2 asks for.
DistanceRule sheet_edge_rule(const SheathingFace& face, double asked_m) {
  const double limit_m = 3.0 * face.diameter_m;
  const char* name = "distance from the edge of the sheet";
  if (face.product == "plywood") return {name, kPlywoodClause, "3 d", face.edge_distance_m, limit_m, true};
  const std::string asked = face.timber_density_kg_per_m3 > 420.0 ? "7 d" : "5 d";
  return {
      name, kTimberClause, "3 d, common practice; table 8.2 (a_4,c) asks for " + asked, face.edge_distance_m, limit_m,
      true, asked_m};
}

}  // namespace

std::vector<std::string> distance_clauses() {
  return {kSpacingClause, kLargestSpacingClause, kPlywoodClause, kTimberClause, kNailClause, kScrewClause};
}

std::vector<DistanceRule> distance_rules(const SheathingFace& face) {
  const double d = face.diameter_m;
  const bool dense = face.timber_density_kg_per_m3 > 420.0;
  constexpr double kThick_m = 0.005;
  // Table 8.2, a1 along the grain, and a4,c.
  const double along = dense ? 15.0 : d < kThick_m ? 10.0 : 12.0;
  const double edge = dense ? 7.0 : 5.0;
  constexpr double kPanelToTimber = 0.85;  // 8.3.1.3(1)
  const double in_timber_m =
      (face.sheets_meet_on_stud ? face.joint_stud_width_m / 2.0 : face.joint_stud_width_m) - face.edge_distance_m;
  const double largest_m = face.screws ? 0.200 : 0.150;
  std::vector<DistanceRule> rules{
      {"spacing along the edge, least", kSpacingClause, "0.85 · a_1 of EN 1995-1-1 table 8.2", face.spacing_m,
       kPanelToTimber * along * d, true},
      {"spacing along the edge, largest", kLargestSpacingClause, "", face.spacing_m, largest_m, false},
      sheet_edge_rule(face, edge * d),
      {"distance from the edge of the stud", kTimberClause, "a_4,c", in_timber_m, edge * d, true},
      {"penetration into the timber", face.screws ? kScrewClause : kNailClause, "", face.plane.penetration_m,
       (face.smooth && !face.screws ? 8.0 : 6.0) * d, true}};
  if (face.intermediate_spacing_m) {
    constexpr double kLargestBetween_m = 0.300;
    rules.push_back({"spacing on studs between the edges, largest", kLargestSpacingClause, "",
                     *face.intermediate_spacing_m, std::min(2.0 * face.spacing_m, kLargestBetween_m), false});
  }
  return rules;
}

}  // namespace panel_dossier::structural
