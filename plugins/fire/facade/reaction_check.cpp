#include "plugins/fire/facade/reaction_check.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"
#include "plugins/fire/evidence/documents.h"
#include "plugins/fire/facade/reaction_class.h"

namespace panel_dossier::fire {

namespace {

std::vector<CheckInput> reaction_inputs() {
  std::vector<CheckInput> inputs{property("Panel_Fire.ReactionToFire")};
  for (CheckInput& input : class_document_inputs()) inputs.push_back(std::move(input));
  return inputs;
}

constexpr const char* kEndUse =
    "Classes are those stated for each material in the export; the class of a product in its end use depends "
    "on its fixing, backing and joints and is shown by its declaration of performance or classification report.";

}  // namespace

const CheckDeclaration kReactionToFireCheck{
    .id = "fire.reaction_to_fire",
    .title = "Reaction to fire of the surfaces",
    .project_title = "",
    .sentence =
        "Every layer has a class that its material can have, a classification report or declaration of performance "
        "that "
        "serves on the day of assessment stands behind them, and the surfaces have those of their materials.",
    .clause = "EN 13501-1:2018 11",
    .other_clauses = {},
    .units = {},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_model(reaction_inputs()),
    .limits = {kEndUse, "Whether the documents hold the class of each material is not read."},
    .role = ""};

const CheckDeclaration kDuringConstructionCheck{
    .id = "fire.during_construction",
    .title = "Fire during construction",
    .project_title = "Combustible mass of the panels by storey",
    .sentence =
        "The mass of all parts that are not of class A1 or A2, for each area of the panel's face; of the "
        "project in whole.",
    .clause =
        "EN 13501-1:2018 (classes); fire during construction: common practice, national guidance on construction sites",
    .other_clauses = {},
    .units = {"kg", "kg/m²"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model({optional_property("Panel_Construction.LiningFitted"),
                          optional_property("Panel_Fire.ReactionToFire"), optional_property("Panel_Install.LiningDate"),
                          property("Pset_MaterialCommon.MassDensity")}),
    .limits = {"Windows and doors are left out: their materials are not in the export.",
               "What stands or is stored on site beside the panels is not in the export."},
    .role = ""};

namespace {

struct ClassMass {
  ExactSum total_kg;
  ExactSum combustible_kg;  ///< all of it or nothing
};

struct Mass {
  std::map<std::string, ClassMass> by_class;  ///< class letter, or why there is none
  ExactSum combustible_kg;
  ExactSum total_kg;
  std::string missing;
};

/// `A1` to `F` without smoke and droplets; `no class` where none is stated or it is none.
std::string letter_of(const std::optional<ReactionClass>& parsed) {
  if (!parsed) return "no class";
  const std::string text = parsed->text();
  return text.substr(0, text.find('-'));
}

/// Factory-fitted windows and doors are weighed whole and left out: their materials are not in the export.
Mass mass_of(const Panel& panel, const Project& project) {
  Mass mass;
  const TakeOff measured = take_off(panel, project);
  if (!measured.missing.empty()) mass.missing = measured.missing.front();
  for (const TakeOffItem& item : measured.items) {
    if (item.opening || !item.mass_kg) continue;
    const auto parsed = item.material ? class_of(project, *item.material, item.name).parsed : std::nullopt;
    const bool combustible = !parsed || parsed->rank > kRankOfA2;
    ClassMass& of_class = mass.by_class[letter_of(parsed)];
    of_class.total_kg.add(*item.mass_kg);
    mass.total_kg.add(*item.mass_kg);
    if (!combustible) continue;
    of_class.combustible_kg.add(*item.mass_kg);
    mass.combustible_kg.add(*item.mass_kg);
  }
  return mass;
}

/// When the inner face is covered, as far as the records say.
std::string lining_state(const Panel& panel) {
  const auto fitted = panel.properties.text("Panel_Construction", "LiningFitted");
  if (!fitted) return "not recorded (Panel_Construction.LiningFitted: FACTORY or SITE)";
  if (fitted->value == "FACTORY") return "lined in the factory: covered when it arrives";
  if (fitted->value != "SITE") return "'" + fitted->value + "' is neither FACTORY nor SITE";
  const auto date = panel.properties.text("Panel_Install", "LiningDate");
  return date ? "lined on site on " + date->value : std::string("to be lined on site: open until then");
}

bool is_lined(const Panel& panel) {
  const auto fitted = panel.properties.text("Panel_Construction", "LiningFitted");
  return fitted && (fitted->value == "FACTORY" ||
                    (fitted->value == "SITE" && panel.properties.text("Panel_Install", "LiningDate")));
}

/// The outermost layer that is no membrane.
std::string outer_state(const Panel& panel, const Project& project) {
  const auto layers = layer_classes(panel, project);
  for (auto layer = layers.rbegin(); layer != layers.rend(); ++layer) {
    if (!layer->membrane) return "'" + layer->name + "', class " + letter_of(layer->parsed);
  }
  return "not known: no layers";
}

}  // namespace

Finding reaction_to_fire(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder builder(kReactionToFireCheck, panel.global_id);
  builder.basis(Basis::declared);
  const auto layers = layer_classes(panel, project);
  if (!panel.outside_known) return builder.not_assessed(kOutsideUnknown);
  if (layers.empty()) return builder.not_assessed("the panel has no material layers (IfcMaterialLayerSet)");
  builder.table(class_table(layers));
  const auto inner = surface(builder, "inner surface", layers.front());
  const auto outer = surface(builder, "outer surface", layers.back());
  std::vector<std::optional<std::size_t>> materials;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    materials.push_back(layers[i].material);
    if (i > 0 && i + 1 < layers.size()) surface(builder, "layer", layers[i]);
  }
  if (builder.incomplete()) return builder.needs_evidence("a class is needed of every layer");
  const std::string fault = missing_class_documents(panel, project, settings, materials);
  if (!fault.empty()) return builder.needs_evidence(fault);
  builder.step_text("inner surface", inner->text()).step_text("outer surface", outer->text());
  builder.note(kEndUse);
  return builder.inform_text("inner " + inner->text() + "; outer " + outer->text());
}

Finding construction_fire(const Panel& panel, const Project& project) {
  FindingBuilder builder(kDuringConstructionCheck, panel.global_id);
  const Mass mass = mass_of(panel, project);
  if (!mass.missing.empty()) return builder.not_assessed(mass.missing);
  builder.number("width of the panel", "B", "m", panel.width_m, {});
  builder.number("height of the panel", "H", "m", panel.height_m, {});
  if (const auto fitted = panel.properties.text("Panel_Construction", "LiningFitted")) {
    builder.text("lining fitted", fitted, {});
  }
  const double area_m2 = panel.gross_area_m2();
  const double combustible_kg = mass.combustible_kg.total();
  Table table{"Mass by reaction to fire, windows and doors left out",
              {{"class", ""}, {"mass", "kg"}, {"combustible", "kg"}},
              {}};
  for (const auto& [name, kg] : mass.by_class) {
    table.rows.push_back({name, kg.total_kg.total(), kg.combustible_kg.total()});
  }
  builder.table(std::move(table))
      .step("combustible mass: all but A1 and A2", "m_c", combustible_kg, "kg", "m_c = sum(combustible)")
      .step_text("inner face", lining_state(panel))
      .step_text("outermost board or cladding", outer_state(panel, project))
      .step("combustible mass on the face", "m_c,A", combustible_kg / area_m2, "kg/m²", "m_c,A = m_c / (B · H)")
      .note("Until both faces are covered, a site fire plan must count the panel as open timber framing.");
  return builder.inform(combustible_kg / area_m2, "kg/m²");
}

Finding project_construction_fire(const Project& project) {
  FindingBuilder builder(kDuringConstructionCheck, {});
  builder.decimals(0);
  struct Totals {
    std::size_t panels = 0;
    std::size_t lined = 0;
    ExactSum combustible_kg;
    ExactSum total_kg;
  };
  std::map<std::pair<bool, std::size_t>, Totals> storeys;
  ExactSum all_kg;
  std::size_t without = 0;
  for (const Panel& panel : project.panels) {
    const Mass mass = mass_of(panel, project);
    if (!mass.missing.empty()) ++without;
    Totals& totals = storeys[{!panel.storey, panel.storey.value_or(0)}];
    ++totals.panels;
    if (is_lined(panel)) ++totals.lined;
    totals.combustible_kg.add(mass.combustible_kg.total());
    totals.total_kg.add(mass.total_kg.total());
    all_kg.add(mass.combustible_kg.total());
  }
  if (without > 0) {
    return builder.not_assessed(std::to_string(without) + " panels have no " + kDuringConstructionCheck.id +
                                ": their findings say what is missing");
  }
  Table table{"Combustible mass by storey",
              {{"storey", ""}, {"panels", ""}, {"lined inside", ""}, {"all", "kg"}, {"combustible", "kg"}},
              {}};
  for (const auto& [storey, totals] : storeys) {
    table.rows.push_back({storey.first ? std::string("not known") : project.storeys[storey.second].name,
                          static_cast<double>(totals.panels), static_cast<double>(totals.lined),
                          totals.total_kg.total(), totals.combustible_kg.total()});
  }
  builder.step("combustible mass of all panels", "m_c", all_kg.total(), "kg", "m_c = sum(combustible)")
      .table(std::move(table));
  return builder.inform(all_kg.total(), "kg");
}

}  // namespace panel_dossier::fire
