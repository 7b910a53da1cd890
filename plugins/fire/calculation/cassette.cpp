#include "plugins/fire/calculation/cassette.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/fire/stretch.h"
#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

/// A joint as seen on the face: `across` is the gap from edge to edge, `along` the length of the joint.
struct Joint {
  bool vertical = true;
  double gap_m = 0.0;  ///< below 0 where the boxes overlap
  Stretch across;
  Stretch along;
};

Stretch x_of(const Box3& box) {
  return {box.min.x, box.max.x};
}
Stretch z_of(const Box3& box) {
  return {box.min.z, box.max.z};
}

std::optional<Joint> joint_between(const Box3& a, const Box3& b, bool vertical) {
  const Stretch a_across = vertical ? x_of(a) : z_of(a);
  const Stretch b_across = vertical ? x_of(b) : z_of(b);
  const Stretch a_along = vertical ? z_of(a) : x_of(a);
  const Stretch b_along = vertical ? z_of(b) : x_of(b);
  const double gap_m = b_across.from - a_across.to;
  const Stretch along{std::max(a_along.from, b_along.from), std::min(a_along.to, b_along.to)};
  if (std::abs(gap_m) > kSheetsMeet_m || along.length_m() <= tolerance::kSameLine_m) return std::nullopt;
  return Joint{vertical, gap_m, {std::min(a_across.to, b_across.from), std::max(a_across.to, b_across.from)}, along};
}

void add_if_over(std::vector<Stretch>& covers, const Joint& joint, const Stretch& x, const Stretch& z) {
  const Stretch& across = joint.vertical ? x : z;
  const Stretch& along = joint.vertical ? z : x;
  const bool over = across.from <= joint.across.from && across.to >= joint.across.to;
  if (over) covers.push_back({std::max(along.from, joint.along.from), std::min(along.to, joint.along.to)});
}

/// A strip of board or an opening lies between the two edges, which then do not meet.
bool is_filled(const Panel& panel, const std::vector<const Part*>& sheets, const Joint& joint) {
  if (joint.gap_m <= 0.0) return false;
  std::vector<Stretch> covers;
  for (const Part* sheet : sheets) add_if_over(covers, joint, x_of(*sheet->bounds), z_of(*sheet->bounds));
  for (const Opening& opening : panel.openings) {
    add_if_over(covers, joint, {opening.x_min_m, opening.x_max_m}, {opening.z_min_m, opening.z_max_m});
  }
  return bare_length_m(joint.along, std::move(covers)) <= tolerance::kSameLine_m;
}

bool touches(const Box3& box, const Layer& layer) {
  return std::abs(box.max.y - layer.y_inside_m) <= tolerance::kMembrane_m ||
         std::abs(box.min.y - layer.y_outside_m) <= tolerance::kMembrane_m;
}

bool is_backed(const Panel& panel, const Layer& layer, const Joint& joint) {
  std::vector<Stretch> covers;
  for (const Part& part : panel.parts) {
    if (is_framing(part.kind) && part.bounds && touches(*part.bounds, layer)) {
      add_if_over(covers, joint, x_of(*part.bounds), z_of(*part.bounds));
    }
  }
  for (const Opening& opening : panel.openings) {
    add_if_over(covers, joint, {opening.x_min_m, opening.x_max_m}, {opening.z_min_m, opening.z_max_m});
  }
  return bare_length_m(joint.along, std::move(covers)) <= tolerance::kSameLine_m;
}

std::string place_of(const Joint& joint) {
  const auto at_mm = std::lround(units::millimetres_from_metres((joint.across.from + joint.across.to) / 2.0));
  return (joint.vertical ? "upright joint " : "level joint ") + std::to_string(at_mm) +
         (joint.vertical ? " mm from the left" : " mm above the foot");
}

/// By place and name, so that what is said of them does not hang on the export's order.
std::vector<const Part*> parts_of_kind(const Panel& panel, const Layer& layer, PartKind kind) {
  std::vector<const Part*> found;
  for (const std::size_t index : parts_in_layer(panel, layer)) {
    if (panel.parts[index].kind == kind) found.push_back(&panel.parts[index]);
  }
  std::sort(found.begin(), found.end(), [](const Part* a, const Part* b) {
    return std::tie(a->bounds->min.x, a->bounds->min.z, a->name) <
           std::tie(b->bounds->min.x, b->bounds->min.z, b->name);
  });
  return found;
}

}  // namespace

std::string BoardJoints::text() const {
  if (!known) return "not known: no sheets with a shape in this layer";
  if (joints == 0) return "none";
  return std::to_string(joints) + (unbacked.empty() ? ", all on framing" : "; no framing behind the " + unbacked);
}

BoardJoints joints_of(const Panel& panel, const Layer& layer) {
  BoardJoints result;
  const auto sheets = parts_of_kind(panel, layer, PartKind::sheet);
  result.known = !sheets.empty();
  for (const Part* a : sheets) {
    for (const Part* b : sheets) {
      for (const bool vertical : {true, false}) {
        const auto joint = a == b ? std::nullopt : joint_between(*a->bounds, *b->bounds, vertical);
        if (!joint || is_filled(panel, sheets, *joint)) continue;
        ++result.joints;
        result.widest_gap_mm = std::max(result.widest_gap_mm, units::millimetres_from_metres(joint->gap_m));
        if (result.unbacked.empty() && !is_backed(panel, layer, *joint)) result.unbacked = place_of(*joint);
      }
    }
  }
  return result;
}

BoardFixings fixings_of(const Panel& panel, const Layer& layer) {
  BoardFixings result;
  const auto fasteners = parts_of_kind(panel, layer, PartKind::fastener);
  bool lengths = true;
  bool spacings = true;
  for (const Part* part : fasteners) {
    const auto length = part->properties.number("Panel_Fastener", "Length");
    const auto spacing = part->properties.number("Panel_Fastener", "Spacing");
    lengths = lengths && length && length->value > 0.0;
    spacings = spacings && spacing && spacing->value > 0.0;
    if (lengths && (!result.shortest_m || length->value < result.shortest_m->value)) result.shortest_m = length;
    if (spacings && (!result.spacing_m || spacing->value > result.spacing_m->value)) result.spacing_m = spacing;
  }
  if (!lengths) result.shortest_m.reset();
  if (!spacings) result.spacing_m.reset();
  return result;
}

namespace {

/// Row of boards.csv for a board material; empty when the export does not say what it is.
std::string board_key(const Material& material) {
  const auto role = material.properties.text("Panel_Fire", "ProtectionRole");
  if (!role) return {};
  if (role->value.starts_with("GYPSUM_")) return role->value;
  const auto standard = material.properties.text("Panel_Board", "ProductStandard");
  if (role->value != "WOOD_PANEL" || !standard) return {};
  if (standard->value.starts_with("EN 636")) return "PLYWOOD";
  if (standard->value.starts_with("EN 300")) return "OSB";
  if (standard->value.starts_with("EN 312") || standard->value.starts_with("EN 622")) return "PARTICLEBOARD";
  return {};
}

void read_charring(const Material& material, const Tables& tables, CassetteBoard& board) {
  constexpr double kSecondsPerMinute = 60.0;
  auto density = material.properties.number("Panel_Board", "CharacteristicDensity");
  if (!density || !(density->value > 0.0)) density = tables.boards.number(board.key, "characteristic_density");
  if (density) board.characteristic_density_kg_per_m3 = *density;
  const auto failure = material.properties.number("Panel_Fire", "FailureTime");
  if (failure && failure->value > 0.0 && board.key == "GYPSUM_F") {
    board.tested_failure_min = Sourced<double>{failure->value / kSecondsPerMinute, failure->origin};
  }
}

std::optional<CassetteBoard> read_board(const Panel& panel, const Project& project, const Tables& tables,
                                        std::size_t index, std::vector<std::string>& missing) {
  const Layer& layer = panel.layers[index];
  const Material* material = material_at(project, layer.material);
  CassetteBoard board;
  board.layer = index;
  board.thickness_mm = units::millimetres_from_metres(layer.thickness_m.value);
  if (material != nullptr) board.key = board_key(*material);
  const auto least_density = tables.boards.number(board.key, "minimum_density");
  if (material == nullptr || !least_density) {
    missing.push_back("layer '" + layer.name +
                      "': board type (Panel_Fire.ProtectionRole, for wood panels with Panel_Board.ProductStandard)");
    return std::nullopt;
  }
  const auto density = material->density_kg_per_m3();
  if (!density || density->value <= 0.0) {
    missing.push_back("material '" + material->name + "': Pset_MaterialCommon.MassDensity");
    return std::nullopt;
  }
  if (density->value < least_density->value) {
    missing.push_back("layer '" + layer.name + "' is lighter than EN 1995-1-2 annex E covers");
    return std::nullopt;
  }
  read_charring(*material, tables, board);
  board.joints = joints_of(panel, layer);
  board.fixings = fixings_of(panel, layer);
  return board;
}

/// The board next to the framing on one side, past membranes; `step` is -1 towards the inside, 1 towards the outside.
std::optional<std::size_t> board_beside(const Panel& panel, std::size_t framing, int step) {
  auto index = static_cast<std::ptrdiff_t>(framing) + step;
  while (index >= 0 && index < static_cast<std::ptrdiff_t>(panel.layers.size())) {
    const Layer& layer = panel.layers[static_cast<std::size_t>(index)];
    if (!layer.material) return std::nullopt;
    if (layer.thickness_m.value >= tolerance::kMembrane_m) return static_cast<std::size_t>(index);
    index += step;
  }
  return std::nullopt;
}

/// Panel_Fire.InsulationType, else the words of the material's name.
std::string insulation_key(const Material& material, bool& assumed) {
  if (const auto type = material.properties.text("Panel_Fire", "InsulationType")) return type->value;
  const std::string name = lower_case(material.name);
  if (name.find("stone wool") != std::string::npos || name.find("rock wool") != std::string::npos) return "STONE_WOOL";
  if (name.find("glass wool") != std::string::npos) return "GLASS_WOOL";
  if (name.find("mineral wool") == std::string::npos) return {};
  assumed = true;
  return "GLASS_WOOL";
}

bool no_insulation_in(const Panel& panel, const Layer& layer) {
  const auto parts = parts_in_layer(panel, layer);
  return std::none_of(parts.begin(), parts.end(),
                      [&](std::size_t part) { return panel.parts[part].kind == PartKind::insulation; });
}

void read_filling(const Panel& panel, const Project& project, const Tables& tables, std::size_t framing,
                  Cassette& cassette) {
  const Layer& layer = panel.layers[framing];
  const Material* material = material_at(project, layer.material);
  if (material == nullptr && no_insulation_in(panel, layer)) {
    cassette.void_cavity = true;
    return;
  }
  CavityFilling filling;
  filling.layer = framing;
  if (material != nullptr) filling.key = insulation_key(*material, filling.type_assumed);
  const auto density = material != nullptr ? material->density_kg_per_m3() : std::optional<Sourced<double>>{};
  if (!tables.cavity_insulation.has(filling.key)) {
    cassette.missing.push_back("layer '" + layer.name +
                               "' is neither stone wool nor glass wool (Panel_Fire.InsulationType); EN 1995-1-2 annex "
                               "E has no values for it");
  } else if (!density || density->value <= 0.0) {
    cassette.missing.push_back("material '" + material->name + "': Pset_MaterialCommon.MassDensity");
  } else {
    filling.thickness_mm = units::millimetres_from_metres(layer.thickness_m.value);
    filling.density_kg_per_m3 = density->value;
    cassette.filling = filling;
  }
}

void name_the_rest(const Panel& panel, Cassette& cassette, std::size_t first, std::size_t last) {
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    if (i < first || i > last) cassette.not_counted.push_back(panel.layers[i].name);
  }
}

}  // namespace

std::optional<std::size_t> framing_layer(const Panel& panel) {
  std::optional<std::size_t> best;
  std::ptrdiff_t most = 0;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const auto parts = parts_in_layer(panel, panel.layers[i]);
    const auto count = std::count_if(parts.begin(), parts.end(), [&](std::size_t part) {
      return panel.parts[part].kind == PartKind::stud || panel.parts[part].kind == PartKind::post;
    });
    if (count > most) {
      most = count;
      best = i;
    }
  }
  return best;
}

Cassette read_cassette(const Panel& panel, const Project& project, const Tables& tables) {
  Cassette cassette;
  const auto framing = framing_layer(panel);
  if (!framing) {
    cassette.missing.emplace_back("no material layer holds the studs");
    return cassette;
  }
  const auto inside = board_beside(panel, *framing, -1);
  const auto outside = board_beside(panel, *framing, 1);
  if (inside) {
    cassette.inside = read_board(panel, project, tables, *inside, cassette.missing);
  } else {
    cassette.missing.emplace_back("no board on the inner face of the framing");
  }
  if (outside) {
    cassette.outside = read_board(panel, project, tables, *outside, cassette.missing);
  } else {
    cassette.missing.emplace_back("no board on the outer face of the framing");
  }
  read_filling(panel, project, tables, *framing, cassette);
  name_the_rest(panel, cassette, inside.value_or(*framing), outside.value_or(*framing));
  return cassette;
}

std::vector<CheckInput> cassette_inputs() {
  return {data_table("boards.csv"),
          optional_property("Panel_Board.CharacteristicDensity"),
          optional_property("Panel_Board.ProductStandard"),
          optional_property("Panel_Fastener.Length"),
          optional_property("Panel_Fire.FailureTime"),
          optional_property("Panel_Fire.InsulationType"),
          optional_property("Panel_Fire.ProtectionRole"),
          optional_property("Pset_MaterialCommon.MassDensity")};
}

const char* face(bool fire_inside) {
  return fire_inside ? "inside" : "outside";
}

void note_scope(FindingBuilder& builder, const Cassette& cassette) {
  builder.note(
      "The calculation is for the bare cassette: framing, cavity and the board on either face. It stands beside the "
      "evidence and never outranks it." +
      (cassette.not_counted.empty() ? std::string() : " Not counted: " + joined(cassette.not_counted, "; ") + "."));
  if (cassette.filling && cassette.filling->type_assumed) {
    builder.note(
        "The export says mineral wool without its kind (Panel_Fire.InsulationType); the calculation takes it as "
        "glass wool, the weaker of the two.");
  }
}

}  // namespace panel_dossier::fire
