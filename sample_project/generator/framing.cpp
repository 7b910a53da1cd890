#include "sample_project/generator/framing.h"

#include <algorithm>
#include <cmath>

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

}  // namespace sample_export
