#include "plugins/fire/evidence/construction_fire.h"

#include <map>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"
#include "plugins/fire/facade/layer_classes.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kClause =
    "EN 13501-1:2018 (classes); fire during construction: common practice, national guidance on construction sites";
constexpr int kRankOfA2 = 1;

struct Mass {
  std::map<std::string, ExactSum> by_class;  ///< class letter, or why there is none
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
    const Material* material = material_at(project, item.material);
    const auto parsed = material != nullptr ? class_of(*material, item.name, false).parsed : std::nullopt;
    mass.by_class[letter_of(parsed)].add(*item.mass_kg);
    mass.total_kg.add(*item.mass_kg);
    if (!parsed || parsed->rank > kRankOfA2) mass.combustible_kg.add(*item.mass_kg);
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

Finding construction_fire(const Panel& panel, const Project& project) {
  FindingBuilder builder("fire.during_construction", "Fire during construction", panel.global_id, kClause);
  const Mass mass = mass_of(panel, project);
  if (!mass.missing.empty()) return builder.not_assessed(mass.missing);
  builder.number("width of the panel", "B", "m", panel.width_m, {});
  builder.number("height of the panel", "H", "m", panel.height_m, {});
  if (const auto fitted = panel.properties.text("Panel_Construction", "LiningFitted")) {
    builder.text("lining fitted", fitted, {});
  }
  const double area_m2 = panel.gross_area_m2();
  const double combustible_kg = mass.combustible_kg.total();
  Table table{"Mass by reaction to fire, windows and doors left out", {{"class", ""}, {"mass", "kg"}}, {}};
  for (const auto& [name, kg] : mass.by_class) table.rows.push_back({name, kg.total()});
  builder.table(std::move(table))
      .step("combustible mass: all but A1 and A2", "m_c", combustible_kg, "kg", "Σ")
      .step_text("inner face", lining_state(panel))
      .step_text("outermost board or cladding", outer_state(panel, project))
      .step("combustible mass on the face", "", combustible_kg / area_m2, "kg/m²", "m_c / (B · H)")
      .note("Until both faces are covered, a site fire plan must count the panel as open timber framing.");
  return builder.inform(combustible_kg / area_m2, "kg/m²");
}

Finding project_construction_fire(const Project& project) {
  FindingBuilder builder("fire.during_construction", "Combustible mass of the panels by storey", {}, kClause);
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
    return builder.not_assessed(std::to_string(without) +
                                " panels have no fire.during_construction: their findings say what is missing");
  }
  Table table{"Combustible mass by storey",
              {{"storey", ""}, {"panels", ""}, {"lined inside", ""}, {"all", "kg"}, {"combustible", "kg"}},
              {}};
  for (const auto& [storey, totals] : storeys) {
    table.rows.push_back({storey.first ? std::string("not known") : project.storeys[storey.second].name,
                          static_cast<double>(totals.panels), static_cast<double>(totals.lined),
                          totals.total_kg.total(), totals.combustible_kg.total()});
  }
  builder.step("combustible mass of all panels", "m_c", all_kg.total(), "kg", "Σ").table(std::move(table));
  return builder.inform(all_kg.total(), "kg");
}

}  // namespace panel_dossier::fire
