#include "sample_project/generator/framing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sample_export {

namespace {

constexpr double kPostWidth_mm = 60.0;
constexpr double kLintelDepth_mm = 195.0;
/// A module stud nearer than this to a post is left out.
constexpr double kLeastGap_mm = 20.0;
/// Shorter blocking cannot be nailed; the uprights beside it carry the joint.
constexpr double kLeastBlocking_mm = 60.0;

class FrameBuilder {
 public:
  FrameBuilder(const PlacedPanel& panel, double y_min, double y_max)
      : panel_(panel), y_min_(y_min), y_max_(y_max), openings_(panel.opening_faces()) {}

  std::vector<PanelPart> build() {
    rails();
    for (std::size_t i = 0; i + 1 < rail_heights_.size(); ++i) {
      bay(rail_heights_[i] + kStudWidth_mm, rail_heights_[i + 1]);
    }
    return std::move(parts_);
  }

 private:
  const PlacedPanel& panel_;
  double y_min_;
  double y_max_;
  Rectangles openings_;
  std::vector<double> rail_heights_;  ///< lower faces, from the sole up
  std::vector<PanelPart> parts_;

  void add(PartRole role, const char* name, std::string_view material, const Rectangle& face, Axis axis) {
    parts_.push_back({role, name, material, box_of(face, y_min_, y_max_), axis});
  }

  /// Sole, head, and one rail centred on each slab edge that the panel passes.
  void rails() {
    rail_heights_.push_back(0.0);
    for (const double floor : steps(kStoreyHeight_mm, panel_.height_mm, kStoreyHeight_mm)) {
      rail_heights_.push_back(floor - kStudWidth_mm / 2.0);
    }
    rail_heights_.push_back(panel_.height_mm - kStudWidth_mm);
    for (std::size_t i = 0; i < rail_heights_.size(); ++i) {
      const char* name = i == 0 ? "Sole rail" : i + 1 == rail_heights_.size() ? "Head rail" : "Floor rail";
      const Rectangle whole{0.0, panel_.width_mm, rail_heights_[i], rail_heights_[i] + kStudWidth_mm};
      for (const Rectangle& piece : minus(whole, openings_)) add(PartRole::rail, name, "softwood", piece, Axis::x);
    }
  }

  /// Everything between two rails.
  void bay(double foot, double head) {
    Rectangles uprights;
    for (const Rectangle& opening : openings_) {
      if (opening.z_min < head && opening.z_max > foot) around_opening(opening, foot, head, uprights);
    }
    studs(foot, head, uprights);
    blocking(foot, head, uprights);
  }

  void around_opening(const Rectangle& opening, double foot, double head, Rectangles& uprights) {
    for (const double x : {opening.x_min - kPostWidth_mm, opening.x_max}) {
      uprights.push_back({x, x + kPostWidth_mm, foot, head});
      add(PartRole::post, "Post", "glulam", uprights.back(), Axis::z);
    }
    const double lintel_foot = opening.z_max + kStudWidth_mm;
    trimmer("Head trimmer", opening, opening.z_max);
    lintels(opening, lintel_foot);
    cripples(opening, lintel_foot + kLintelDepth_mm, head);
    if (opening.z_min <= foot) return;
    trimmer("Sill trimmer", opening, opening.z_min - kStudWidth_mm);
    cripples(opening, foot, opening.z_min - kStudWidth_mm);
  }

  void trimmer(const char* name, const Rectangle& opening, double z) {
    add(PartRole::blocking, name, "softwood", {opening.x_min, opening.x_max, z, z + kStudWidth_mm}, Axis::x);
  }

  /// Two on edge, at the inner and the outer face, with insulation between them.
  void lintels(const Rectangle& opening, double z) {
    const Rectangle face{opening.x_min, opening.x_max, z, z + kLintelDepth_mm};
    parts_.push_back(
        {PartRole::lintel, "Inner lintel", "softwood", box_of(face, y_min_, y_min_ + kStudWidth_mm), Axis::x});
    parts_.push_back(
        {PartRole::lintel, "Outer lintel", "softwood", box_of(face, y_max_ - kStudWidth_mm, y_max_), Axis::x});
  }

  void cripples(const Rectangle& opening, double foot, double head) {
    for (const double centre : stud_centres(panel_.width_mm)) {
      const Rectangle face{centre - kStudWidth_mm / 2.0, centre + kStudWidth_mm / 2.0, foot, head};
      if (face.x_min < opening.x_min || face.x_max > opening.x_max || face.height() <= 0.0) continue;
      add(PartRole::stud, "Cripple stud", "softwood", face, Axis::z);
    }
  }

  void studs(double foot, double head, Rectangles& uprights) {
    const Rectangles posts = uprights;
    for (const double centre : stud_centres(panel_.width_mm)) {
      const Rectangle face{centre - kStudWidth_mm / 2.0, centre + kStudWidth_mm / 2.0, foot, head};
      const Rectangle zone{face.x_min - kLeastGap_mm, face.x_max + kLeastGap_mm, foot, head};
      const auto taken = [&](const Rectangle& other) { return overlap(zone, other); };
      if (std::any_of(posts.begin(), posts.end(), taken)) continue;
      if (std::any_of(openings_.begin(), openings_.end(), taken)) continue;
      uprights.push_back(face);
      add(PartRole::stud, "Stud", "softwood", face, Axis::z);
    }
  }

  /// Behind each horizontal joint of the sheets, between neighbouring uprights and clear of openings.
  void blocking(double foot, double head, Rectangles uprights) {
    const auto left_of = [](const Rectangle& a, const Rectangle& b) { return a.x_min < b.x_min; };
    std::sort(uprights.begin(), uprights.end(), left_of);
    for (const double joint : steps(kSheetHeight_mm, panel_.height_mm, kSheetHeight_mm)) {
      const double z = joint - kStudWidth_mm / 2.0;
      if (z < foot || z + kStudWidth_mm > head) continue;
      for (std::size_t i = 0; i + 1 < uprights.size(); ++i) {
        blocking_piece({uprights[i].x_max, uprights[i + 1].x_min, z, z + kStudWidth_mm});
      }
    }
  }

  void blocking_piece(const Rectangle& face) {
    for (const Rectangle& opening : openings_) {
      // The lintel and its trimmer carry the joint there.
      const Rectangle zone{opening.x_min, opening.x_max, opening.z_min - kStudWidth_mm,
                           opening.z_max + kStudWidth_mm + kLintelDepth_mm};
      if (overlap(face, zone)) return;
    }
    // Over an opening, cripple studs would cross the piece: cut it between them.
    Rectangles crossing;
    for (const PanelPart& part : parts_) {
      if (part.role == PartRole::stud) {
        crossing.push_back({part.box.min.x, part.box.max.x, part.box.min.z, part.box.max.z});
      }
    }
    for (const Rectangle& piece : minus(face, crossing)) {
      if (piece.width() >= kLeastBlocking_mm) add(PartRole::blocking, "Blocking", "softwood", piece, Axis::x);
    }
  }
};

}  // namespace

std::vector<double> stud_centres(double width_mm) {
  std::vector<double> centres{kStudWidth_mm / 2.0};
  const double last = width_mm - kStudWidth_mm / 2.0;
  for (const double centre : steps(kStudSpacing_mm, last - kStudWidth_mm, kStudSpacing_mm)) centres.push_back(centre);
  centres.push_back(last);
  return centres;
}

std::vector<PanelPart> frame_parts(const PlacedPanel& panel, double y_min, double y_max) {
  return FrameBuilder(panel, y_min, y_max).build();
}

namespace {

constexpr double kEdgeSpacing_mm = 150.0;
/// Frame brackets along the head and along the sole.
constexpr double kBracketSpacing_mm = 900.0;
constexpr double kBracketSide_mm = 120.0;

/// Distances through the panel between the faces of the layer with this role.
Box layer_zone(const PlacedPanel& panel, LayerRole role) {
  double y = 0.0;
  for (const LayerSpec& layer : panel.type->layers) {
    if (layer.role == role) return box_of(panel.face(), y, y + layer.thickness_mm);
    y += layer.thickness_mm;
  }
  return box_of(panel.face(), 0.0, y);
}

/// At the edge spacing round each piece and at twice the edge spacing along its middle.
int pieces_of(const PanelPart& sheet, double edge_spacing_mm) {
  const double edges = 2.0 * (sheet.box.width() + sheet.box.height());
  return static_cast<int>(std::ceil(edges / edge_spacing_mm + sheet.box.height() / (2.0 * edge_spacing_mm)));
}

/// Sets the number for every sheet of the layer in which the group stands.
void count_pieces(FastenerGroup& group, const std::vector<PanelPart>& parts) {
  for (const PanelPart& part : parts) {
    const bool in_layer = part.box.min.y == group.zone.min.y && part.box.max.y == group.zone.max.y;
    if (part.role == PartRole::sheet && in_layer) group.count += pieces_of(part, group.spacing_mm);
  }
}

FastenerGroup screws(const PlacedPanel& panel, const std::vector<PanelPart>& parts, LayerRole role,
                     const std::string& name, double length_mm, double mass_each_kg) {
  FastenerGroup group;
  group.kind = FastenerKind::screw;
  group.name = name;
  group.product = "Sheathing screw 4.2 x " + std::to_string(static_cast<int>(length_mm));
  group.diameter_mm = 4.2;
  group.length_mm = length_mm;
  group.spacing_mm = kEdgeSpacing_mm;
  group.mass_each_kg = mass_each_kg;
  group.zone = layer_zone(panel, role);
  count_pieces(group, parts);
  return group;
}

/// The inner sheathing of a panel that braces the building: thin nails, for two sheets share a stud of 45 mm.
FastenerGroup bracing_nails(const PlacedPanel& panel, const std::vector<PanelPart>& parts) {
  FastenerGroup group;
  group.kind = FastenerKind::nail;
  group.name = "Inner sheathing nails";
  group.product = "Ring-shank nail 2.5 x 50";
  group.diameter_mm = 2.5;
  group.length_mm = 50.0;
  group.spacing_mm = 100.0;
  group.intermediate_spacing_mm = 200.0;
  group.edge_distance_mm = 9.0;
  group.tensile_strength_n_per_mm2 = 600.0;
  group.mass_each_kg = 0.002;
  group.zone = layer_zone(panel, LayerRole::inner_sheathing);
  count_pieces(group, parts);
  return group;
}

/// How far two parts lie beside each other upright.
double upright_overlap_mm(const Box& a, const Box& b) {
  const bool crosses = std::min(a.max.x, b.max.x) > std::max(a.min.x, b.min.x);
  return crosses ? std::max(0.0, std::min(a.max.z, b.max.z) - std::max(a.min.z, b.min.z)) : 0.0;
}

bool in_zone(const PanelPart& part, const Box& zone) {
  return part.box.min.y == zone.min.y && part.box.max.y == zone.max.y;
}

/// At the spacing along every batten behind every board, and one at its end.
FastenerGroup cladding_screws(const PlacedPanel& panel, const std::vector<PanelPart>& parts) {
  const Box cavity = layer_zone(panel, LayerRole::cavity);
  FastenerGroup group;
  group.kind = FastenerKind::cladding_screw;
  group.name = "Cladding screws";
  group.product = "Facade screw 4.8 x 38, stainless steel";
  group.diameter_mm = 4.8;
  group.length_mm = 38.0;
  group.spacing_mm = 500.0;
  group.head_diameter_mm = 12.0;
  group.pull_through_n_per_mm2 = 15.0;
  group.withdrawal_n = 1300.0;
  group.mass_each_kg = 0.0046;
  group.zone = layer_zone(panel, LayerRole::cladding);
  for (const PanelPart& board : parts) {
    if (board.role != PartRole::cladding) continue;
    for (const PanelPart& batten : parts) {
      if (batten.role != PartRole::batten || !in_zone(batten, cavity)) continue;
      const double length_mm = upright_overlap_mm(board.box, batten.box);
      if (length_mm > 0.0) group.count += static_cast<int>(std::ceil(length_mm / group.spacing_mm)) + 1;
    }
  }
  return group;
}

/// Through the batten and the sheathing into the stud behind it.
FastenerGroup batten_screws(const PlacedPanel& panel, const std::vector<PanelPart>& parts) {
  FastenerGroup group;
  group.kind = FastenerKind::batten_screw;
  group.name = "Batten screws";
  group.product = "Timber screw 6.0 x 120";
  group.diameter_mm = 6.0;
  group.length_mm = 120.0;
  group.spacing_mm = 400.0;
  group.screw_penetration_mm = 60.0;
  group.head_diameter_mm = 12.0;
  group.pull_through_n_per_mm2 = 13.0;
  group.mass_each_kg = 0.012;
  group.zone = layer_zone(panel, LayerRole::cavity);
  for (const PanelPart& batten : parts) {
    if (batten.role != PartRole::batten || !in_zone(batten, group.zone)) continue;
    group.count += static_cast<int>(std::ceil(batten.box.height() / group.spacing_mm)) + 1;
  }
  return group;
}

/// At equal shares of the width, so that the panel hangs level.
FastenerGroup lifting_loop(const PlacedPanel& panel, int index, int loops) {
  const Box cassette = layer_zone(panel, LayerRole::cassette);
  const double x = panel.width_mm * (index + 0.5) / loops;
  const double y = (cassette.min.y + cassette.max.y) / 2.0;
  FastenerGroup group;
  group.kind = FastenerKind::lifting_loop;
  group.name = "Lifting loop " + std::to_string(index + 1);
  group.product = "Lifting loop, working load limit 10 kN";
  group.working_load_limit_n = 10000.0;
  group.screws_per_piece = 6;
  group.count = 1;
  group.mass_each_kg = 0.9;
  group.zone = {{x - 40.0, y - 20.0, panel.height_mm - 300.0}, {x + 40.0, y + 20.0, panel.height_mm}};
  return group;
}

/// Feet of the rows of brackets: one at the sole, one at each floor that the panel passes, one at the head.
std::vector<double> bracket_rows(const PlacedPanel& panel) {
  std::vector<double> rows{0.0};
  const long storeys = std::lround(panel.height_mm / kStoreyHeight_mm);
  for (long storey = 1; storey < storeys; ++storey) rows.push_back(static_cast<double>(storey) * kStoreyHeight_mm);
  rows.push_back(panel.height_mm - kBracketSide_mm);
  return rows;
}

/// Left edges of the brackets of a row: from edge to edge of the panel, as even as its openings allow. One that would
/// stand in an opening goes beside it.
std::vector<double> bracket_places(const PlacedPanel& panel, double z) {
  const int in_a_row = static_cast<int>(std::ceil(panel.width_mm / kBracketSpacing_mm)) + 1;
  const double spacing = (panel.width_mm - kBracketSide_mm) / (in_a_row - 1);
  std::vector<double> places;
  for (int i = 0; i < in_a_row; ++i) {
    double x = i * spacing;
    for (const Rectangle& opening : panel.opening_faces()) {
      const bool is_level = z < opening.z_max && z + kBracketSide_mm > opening.z_min;
      if (!is_level || x >= opening.x_max || x + kBracketSide_mm <= opening.x_min) continue;
      const bool is_left = x + kBracketSide_mm / 2.0 < (opening.x_min + opening.x_max) / 2.0;
      x = is_left ? opening.x_min - kBracketSide_mm : opening.x_max;
    }
    places.push_back(x);
  }
  return places;
}

/// Brackets at the inner face of the frame, row by row from the sole up. What states their spacing is the widest.
std::vector<FastenerGroup> brackets(const PlacedPanel& panel) {
  constexpr double kPlate_mm = 5.0;
  FastenerGroup bracket;
  bracket.kind = FastenerKind::bracket;
  bracket.product = "Angle bracket 120 x 120 x 5, adjustable";
  bracket.screws_per_piece = 4;
  bracket.screw_diameter_mm = 8.0;
  bracket.screw_penetration_mm = 60.0;
  bracket.design_tension_n = 15000.0;
  bracket.design_shear_n = 14000.0;
  bracket.adjustment_mm = 20.0;
  bracket.count = 1;
  bracket.mass_each_kg = 0.55;
  const double y = layer_zone(panel, LayerRole::cassette).min.y;
  std::vector<FastenerGroup> all;
  for (const double z : bracket_rows(panel)) {
    const std::vector<double> places = bracket_places(panel, z);
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double x = places[i];
      if (i > 0) bracket.spacing_mm = std::max(bracket.spacing_mm, x - places[i - 1]);
      bracket.name = "Frame bracket " + std::to_string(all.size() + 1);
      bracket.zone = {{x, y, z}, {x + kBracketSide_mm, y + kPlate_mm, z + kBracketSide_mm}};
      all.push_back(bracket);
    }
  }
  for (FastenerGroup& one : all) one.spacing_mm = bracket.spacing_mm;
  return all;
}

/// At the foot of the stud under the first or last edge of whole sheets, down to the construction below: the narrow
/// sheet beside them does not brace. Sheets meet over the middle of a stud.
FastenerGroup tie_down(const PlacedPanel& panel, bool at_left) {
  constexpr double kHeight_mm = 340.0;
  const Box cassette = layer_zone(panel, LayerRole::cassette);
  const double last_joint = std::floor(panel.width_mm / kSheetWidth_mm) * kSheetWidth_mm;
  const double x = at_left ? 0.0 : std::min(last_joint - kStudWidth_mm / 2.0, panel.width_mm - kStudWidth_mm);
  FastenerGroup group;
  group.kind = FastenerKind::tie_down;
  group.name = at_left ? "Left tie-down" : "Right tie-down";
  group.product = "Tie-down angle 340 x 60 x 3";
  group.screws_per_piece = 12;
  group.design_tension_n = 11000.0;
  group.count = 1;
  group.mass_each_kg = 0.8;
  group.zone = {{x, cassette.min.y, 0.0}, {x + kStudWidth_mm, cassette.max.y, kHeight_mm}};
  return group;
}

/// Lines along which the cavity of a ventilated panel is closed in the factory: all round the panel, at the floors that
/// it passes, and round its openings; each as the face of its barrier.
Rectangles barrier_lines(const PlacedPanel& panel) {
  constexpr double kWidth_mm = 60.0;
  const double width = panel.width_mm;
  const double height = panel.height_mm;
  Rectangles lines{{0.0, kWidth_mm, 0.0, height}, {width - kWidth_mm, width, 0.0, height}};
  Rectangles levels{{0.0, width, 0.0, kWidth_mm}, {0.0, width, height - kWidth_mm, height}};
  const long storeys = std::lround(height / kStoreyHeight_mm);
  for (long storey = 1; storey < storeys; ++storey) {
    const double floor = static_cast<double>(storey) * kStoreyHeight_mm;
    levels.push_back({0.0, width, floor, floor + kWidth_mm});
  }
  for (const Rectangle& level : levels) {
    for (const Rectangle& piece : minus(level, panel.opening_faces())) lines.push_back(piece);
  }
  for (const Rectangle& opening : panel.opening_faces()) {
    lines.push_back({opening.x_min, opening.x_max, opening.z_max, opening.z_max + kWidth_mm});
    if (opening.z_min > 0.0) {
      lines.push_back({opening.x_min, opening.x_max, opening.z_min - kWidth_mm, opening.z_min});
    }
    lines.push_back({opening.x_min - kWidth_mm, opening.x_min, opening.z_min, opening.z_max});
    lines.push_back({opening.x_max, opening.x_max + kWidth_mm, opening.z_min, opening.z_max});
  }
  return lines;
}

FastenerGroup cavity_barrier(const PlacedPanel& panel, const Rectangle& face, int number) {
  constexpr double kMass_kg_per_m = 0.9;
  const Box cavity = layer_zone(panel, LayerRole::cavity);
  FastenerGroup group;
  group.kind = FastenerKind::cavity_barrier;
  group.name = "Cavity barrier " + std::to_string(number);
  group.product = "Perforated steel barrier, swelling, 60 mm";
  group.count = 1;
  group.mass_each_kg = kMass_kg_per_m * std::max(face.width(), face.height()) / 1000.0;
  group.zone = box_of(face, cavity.min.y, cavity.max.y);
  return group;
}

bool has_cavity(const PanelType& type) {
  return std::any_of(type.layers.begin(), type.layers.end(),
                     [](const LayerSpec& layer) { return layer.role == LayerRole::cavity; });
}

}  // namespace

std::vector<FastenerGroup> fasteners(const PlacedPanel& panel, const std::vector<PanelPart>& parts) {
  std::vector<FastenerGroup> groups = {
      panel.type->load_bearing()
          ? bracing_nails(panel, parts)
          : screws(panel, parts, LayerRole::inner_sheathing, "Inner sheathing screws", 45.0, 0.0031),
      screws(panel, parts, LayerRole::outer_sheathing, "Outer sheathing screws", 45.0, 0.0031),
      screws(panel, parts, LayerRole::lining, "Lining screws", 35.0, 0.0022)};
  const int loops = panel.height_mm > kStoreyHeight_mm ? 4 : 2;
  for (int i = 0; i < loops; ++i) groups.push_back(lifting_loop(panel, i, loops));
  for (FastenerGroup& bracket : brackets(panel)) groups.push_back(std::move(bracket));
  if (panel.type->load_bearing()) {
    for (const bool at_left : {true, false}) groups.push_back(tie_down(panel, at_left));
  }
  if (has_cavity(*panel.type)) {
    groups.push_back(cladding_screws(panel, parts));
    groups.push_back(batten_screws(panel, parts));
    int number = 0;
    for (const Rectangle& line : barrier_lines(panel)) groups.push_back(cavity_barrier(panel, line, ++number));
  }
  return groups;
}

}  // namespace sample_export
