#include "plugins/structural/fixings/cladding_lines.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier::structural {

namespace {

/// A part in the face of the panel: along the line of the battens, and across it.
struct Extent {
  double from = 0.0;
  double to = 0.0;
};

Extent extent(const Box3& box, bool along_x) {
  return along_x ? Extent{box.min.x, box.max.x} : Extent{box.min.z, box.max.z};
}

double overlap_m(const Extent& a, const Extent& b) {
  return std::max(0.0, std::min(a.to, b.to) - std::max(a.from, b.from));
}

bool stands(const Part& batten) {
  const Box3& box = *batten.bounds;
  return box.max.z - box.min.z >= box.max.x - box.min.x;
}

/// The outer face of the upright framing; below every part where there is none.
double framing_face_m(const Panel& panel) {
  double face_m = -std::numeric_limits<double>::infinity();
  for (const Part& part : panel.parts) {
    const bool upright = part.kind == PartKind::stud || part.kind == PartKind::post;
    if (upright && part.bounds) face_m = std::max(face_m, part.bounds->max.y);
  }
  return face_m;
}

void collect(CladdingLines& lines, const Panel& panel) {
  const double face_m = framing_face_m(panel) - tolerance::kModelling_m;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::cladding && part.kind != PartKind::batten) continue;
    if (!part.bounds) {
      lines.missing.push_back("'" + part.name + "' has no shape, so where the cladding is held is not known");
    } else if (part.kind == PartKind::cladding) {
      lines.cladding.push_back(&part);
    } else if (part.bounds->min.y >= face_m) {
      lines.battens.push_back(&part);
    }
  }
  if (lines.battens.empty()) {
    lines.missing.emplace_back("there are no battens behind the cladding (IfcMember with BATTEN in its ObjectType)");
    return;
  }
  const Part& first = *lines.battens.front();
  for (const Part* batten : lines.battens) {
    if (std::abs(batten->bounds->min.y - first.bounds->min.y) > tolerance::kModelling_m ||
        stands(*batten) != stands(first)) {
      lines.missing.push_back("battens in several layers, '" + first.name + "' and '" + batten->name +
                              "': which of them holds the cladding is not told");
      return;
    }
  }
}

/// Length of the batten behind which some framing stands over half of its width or more: what its fixings hold in.
double backed_m(const Part& batten, const Panel& panel) {
  const Extent across = extent(*batten.bounds, true);
  const Extent along = extent(*batten.bounds, false);
  double backed = 0.0;
  for (const Part& part : panel.parts) {
    if (!is_framing(part.kind) || part.kind == PartKind::batten || !part.bounds) continue;
    if (overlap_m(across, extent(*part.bounds, true)) < (across.to - across.from) / 2.0) continue;
    backed += overlap_m(along, extent(*part.bounds, false));
  }
  return backed;
}

/// Fixings of a batten hold in the studs behind it, not in the sheathing alone.
void judge_backing(CladdingLines& lines, const Panel& panel) {
  for (const Part* batten : lines.battens) {
    const std::string name = "batten '" + batten->name + "' at " + fixed_text(batten->bounds->centre().x, 3) + " m";
    if (!stands(*batten)) {
      lines.missing.push_back(name + " lies: how many of its fixings meet a stud is not told");
      return;
    }
    const Extent along = extent(*batten->bounds, false);
    if (backed_m(*batten, panel) >= (along.to - along.from) / 2.0) continue;
    lines.missing.push_back(name + " has no stud behind at least half of it, so its fixings hold in nothing");
    return;
  }
}

/// The lines of battens behind one piece: where their middles are, and how long they are behind it.
struct Behind {
  std::vector<double> middles_m;  ///< ascending, each once
  double length_m = 0.0;
};

Behind behind(const Part& cladding, const std::vector<const Part*>& battens, bool stand) {
  const Extent across = extent(*cladding.bounds, stand);
  const Extent along = extent(*cladding.bounds, !stand);
  Behind found;
  for (const Part* batten : battens) {
    const Extent width = extent(*batten->bounds, stand);
    const double length_m = overlap_m(along, extent(*batten->bounds, !stand));
    if (overlap_m(across, width) <= tolerance::kModelling_m || length_m <= tolerance::kModelling_m) continue;
    found.length_m += length_m;
    found.middles_m.push_back(std::clamp((width.from + width.to) / 2.0, across.from, across.to));
  }
  std::sort(found.middles_m.begin(), found.middles_m.end());
  const auto same = [](double a, double b) { return b - a <= tolerance::kModelling_m; };
  found.middles_m.erase(std::unique(found.middles_m.begin(), found.middles_m.end(), same), found.middles_m.end());
  return found;
}

/// What the hardest loaded of the lines carries of a piece from edge to edge.
double widest_share_m(const std::vector<double>& middles_m, const Extent& across) {
  double widest_m = 0.0;
  for (std::size_t i = 0; i < middles_m.size(); ++i) {
    const double left_m = i == 0 ? middles_m[i] - across.from : (middles_m[i] - middles_m[i - 1]) / 2.0;
    const bool is_last = i + 1 == middles_m.size();
    const double right_m = is_last ? across.to - middles_m[i] : (middles_m[i + 1] - middles_m[i]) / 2.0;
    widest_m = std::max(widest_m, left_m + right_m);
  }
  return widest_m;
}

}  // namespace

bool bears_cladding(const Panel& panel) {
  return std::any_of(panel.parts.begin(), panel.parts.end(),
                     [](const Part& part) { return part.kind == PartKind::cladding; });
}

CladdingLines cladding_lines(const Panel& panel) {
  CladdingLines lines;
  collect(lines, panel);
  if (lines.missing.empty()) judge_backing(lines, panel);
  if (!lines.missing.empty()) return lines;
  const bool stand = stands(*lines.battens.front());
  for (const Part* piece : lines.cladding) {
    const Behind found = behind(*piece, lines.battens, stand);
    if (found.middles_m.size() < 2) {
      const Extent across = extent(*piece->bounds, stand);
      lines.missing.push_back("cladding '" + piece->name + "', " + fixed_text(across.from, 3) + " m to " +
                              fixed_text(across.to, 3) + " m across its battens, lies on fewer than two of them");
      return lines;
    }
    lines.width_m = std::max(lines.width_m, widest_share_m(found.middles_m, extent(*piece->bounds, stand)));
    lines.cladding_length_m += found.length_m;
  }
  for (const Part* batten : lines.battens) {
    const Extent along = extent(*batten->bounds, !stand);
    lines.batten_length_m += along.to - along.from;
  }
  return lines;
}

double fewest_fixings(double length_m, double spacing_m) {
  return std::floor(length_m / spacing_m);
}

}  // namespace panel_dossier::structural
