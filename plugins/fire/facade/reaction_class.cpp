#include "plugins/fire/facade/reaction_class.h"

#include <array>
#include <utility>

#include "core/api/support/tolerances.h"

namespace panel_dossier::fire {

namespace {

constexpr std::array<std::string_view, 7> kClasses{"A1", "A2", "B", "C", "D", "E", "F"};
constexpr int kRankOfA1 = 0;
constexpr int kRankOfE = 5;

/// Writers put blanks, commas and hyphens differently; none of them carries meaning.
std::string compact(std::string_view text) {
  std::string result;
  for (const char c : text) {
    if (c != ' ' && c != ',' && c != '-') result += c;
  }
  return result;
}

std::optional<ReactionClass> with_smoke_and_droplets(int rank, std::string_view rest) {
  if (rest.size() != 4 || rest[0] != 's' || rest[2] != 'd') return std::nullopt;
  const ReactionClass found{rank, rest[1] - '0', rest[3] - '0'};
  if (found.smoke < 1 || found.smoke > 3 || found.droplets < 0 || found.droplets > 2) return std::nullopt;
  return found;
}

/// What to say of a layer without a usable class.
std::string missing_class(const LayerClass& layer) {
  if (!layer.fault.empty()) return layer.fault;
  if (!layer.stated) return "material '" + layer.material_name + "': Panel_Fire.ReactionToFire";
  return "'" + layer.stated->value + "' of material '" + layer.material_name + "' is not a class of EN 13501-1";
}

}  // namespace

std::string ReactionClass::text() const {
  std::string result(kClasses[static_cast<std::size_t>(rank)]);
  if (smoke > 0) return result + "-s" + std::to_string(smoke) + ",d" + std::to_string(droplets);
  if (rank == kRankOfE && droplets == 2) result += "-d2";
  return result;
}

bool ReactionClass::meets(const ReactionClass& required) const {
  if (rank == kRankOfA1) return true;
  if (rank > required.rank) return false;
  return required.smoke == 0 || (smoke <= required.smoke && droplets <= required.droplets);
}

std::optional<ReactionClass> parse_reaction_class(std::string_view text) {
  const std::string subject = compact(text);
  for (std::size_t i = 0; i < kClasses.size(); ++i) {
    if (!subject.starts_with(kClasses[i])) continue;
    const int rank = static_cast<int>(i);
    const std::string_view rest = std::string_view(subject).substr(kClasses[i].size());
    const bool states_smoke = rank != kRankOfA1 && rank < kRankOfE;
    if (states_smoke) return with_smoke_and_droplets(rank, rest);
    if (rest.empty()) return ReactionClass{rank, 0, 0};
    if (rank == kRankOfE && rest == "d2") return ReactionClass{rank, 0, 2};
    return std::nullopt;
  }
  return std::nullopt;
}

LayerClass class_of(const Project& project, std::size_t material, std::string name) {
  const Material& found = project.materials[material];
  LayerClass result;
  result.name = std::move(name);
  result.material = material;
  result.material_name = found.name;
  result.stated = found.properties.text("Panel_Fire", "ReactionToFire");
  if (result.stated) result.parsed = parse_reaction_class(result.stated->value);
  const bool burns = found.category == "wood" || found.category == "plastic";
  if (burns && result.parsed && result.parsed->rank <= kRankOfA2) {
    result.fault = "'" + result.stated->value + "' of material '" + found.name +
                   "' (Panel_Fire.ReactionToFire) cannot be: its IfcMaterial.Category is '" + found.category + "'";
    result.parsed.reset();
  }
  return result;
}

std::vector<LayerClass> layer_classes(const Panel& panel, const Project& project) {
  std::vector<LayerClass> result;
  for (const Layer& layer : panel.layers) {
    if (!layer.material) continue;
    result.push_back(class_of(project, *layer.material, layer.name));
    LayerClass& found = result.back();
    found.membrane = layer.category == "membrane" || layer.thickness_m.value < tolerance::kMembrane_m;
    found.insulation = layer.category == "insulation" || project.materials[*layer.material].category == "insulation";
  }
  return result;
}

Table class_table(const std::vector<LayerClass>& layers) {
  Table table{"Reaction to fire from inside to outside", {{"layer", ""}, {"material", ""}, {"class", ""}}, {}};
  for (const LayerClass& layer : layers) {
    table.rows.push_back(
        {layer.name, layer.material_name, layer.parsed ? layer.parsed->text() : std::string("not given")});
  }
  return table;
}

std::optional<ReactionClass> surface(FindingBuilder& builder, const char* where, const LayerClass& layer) {
  if (!layer.parsed) {
    builder.missing(missing_class(layer));
    return std::nullopt;
  }
  builder.text(std::string(where) + ": '" + layer.name + "'", layer.stated, {});
  return layer.parsed;
}

}  // namespace panel_dossier::fire
