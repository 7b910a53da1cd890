// The use stage: replacement B4, and B1–B3 and B5 as declared.
#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kStudyPeriod = "carbon.study_period_years";

/// The layer with the most studs and posts in it, by their middle.
std::optional<std::size_t> framed_layer(const Panel& panel) {
  std::optional<std::size_t> best;
  std::ptrdiff_t most = 0;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const std::vector<std::size_t> parts = parts_in_layer(panel, panel.layers[i]);
    const auto count = std::count_if(parts.begin(), parts.end(), [&](std::size_t part) {
      return panel.parts[part].kind == PartKind::stud || panel.parts[part].kind == PartKind::post;
    });
    if (count <= most) continue;
    most = count;
    best = i;
  }
  return best;
}

double times_of(const Layer& layer, const std::map<std::size_t, double>& times_replaced) {
  const auto found = layer.material ? times_replaced.find(*layer.material) : times_replaced.end();
  return found == times_replaced.end() ? 0.0 : found->second;
}

/// What one replacement is made of: the new product and the end of the old one.
constexpr std::array kOfReplacement{Module::a1_a3, Module::a4, Module::a5, Module::c1,
                                    Module::c2,    Module::c3, Module::c4};
constexpr std::array kDeclaredUse{Module::b1, Module::b2, Module::b3, Module::b5};

std::optional<Gwp> one_replacement(const MaterialAccount& entry) {
  Gwp gwp;
  for (const Module module : kOfReplacement) {
    if (!entry.at(module)) return std::nullopt;
    gwp += *entry.at(module);
  }
  return gwp;
}

/// B1–B3 and B5 as declared for the service life of one product: of each product built in over the study period, but an
/// uptake, as by carbonation, of the `lives` alone that the period holds.
Gwp add_declared_use(PanelAccount& account, std::size_t row, double products, double lives, OpenFinding& finding) {
  Gwp sum;
  for (const Module module : kDeclaredUse) {
    const auto per_unit = read_module_gwp(account.declared(row), module, false, finding);
    if (!per_unit) continue;
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    if (!units) continue;
    const Gwp gwp = scaled(*per_unit, *units * (per_unit->total() < 0.0 ? lives : products));
    account.materials[row].at(module) = gwp;
    sum += gwp;
  }
  return sum;
}

std::vector<CheckInput> use_stage_inputs() {
  // The amounts are for B1–B3 and B5, where they are declared.
  return merged_inputs({service_life_inputs(), optional_inputs(declared_amount_inputs()),
                        declared_gwp_inputs({kDeclaredUse.begin(), kDeclaredUse.end()}), upfront_inputs()});
}

}  // namespace

std::optional<double> read_study_period(const Settings& settings, FindingBuilder& builder) {
  return builder.positive("study period", "ReqSL", "years", settings.number(kStudyPeriod),
                          "setting '" + std::string(kStudyPeriod) + "' is missing");
}

std::optional<double> read_service_life(const DeclaredMaterial& declared, OpenFinding& finding) {
  constexpr double kSame = 1.01;
  auto life = declared.material->properties.number("Panel_Supply", "ServiceLife");
  const auto reference = declared.file != nullptr ? declared.file->reference_service_life : std::nullopt;
  if (life && reference && life->value > kSame * reference->value) {
    finding.evidence_gap(
        "material '" + declared.name() + "': Panel_Supply.ServiceLife of " + shortest_text(life->value) +
        " years is longer than the declaration's reference service life of " + shortest_text(reference->value) + " (" +
        describe(reference->origin) + "); correct it, or have the supplier declare the longer one");
  }
  if (!life) life = reference;
  return finding.builder().positive(
      "service life of '" + declared.name() + "'", "ESL", "years", life,
      "material '" + declared.name() +
          "' has no Panel_Supply.ServiceLife, and its declaration no reference service life");
}

std::vector<CheckInput> service_life_inputs() {
  return {optional_property("Panel_Supply.ServiceLife"), setting(kStudyPeriod)};
}

std::vector<CheckInput> whole_account_inputs() {
  return optional_inputs(merged_inputs({upfront_inputs(), use_stage_inputs()}));
}

std::vector<std::string> layers_in_the_way(const Panel& panel, const Project& project,
                                           const std::map<std::size_t, double>& times_replaced) {
  std::vector<std::string> notes;
  const auto framed = framed_layer(panel);
  if (!framed) return notes;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const double times = times_of(panel.layers[i], times_replaced);
    if (times <= 0.0 || i == *framed) continue;
    const std::size_t from = i < *framed ? 0 : i + 1;
    const std::size_t to = i < *framed ? i : panel.layers.size();
    std::string in_the_way;
    for (std::size_t other = from; other < to; ++other) {
      const Layer& layer = panel.layers[other];
      if (!layer.material || times_of(layer, times_replaced) >= times) continue;
      in_the_way += (in_the_way.empty() ? "'" : ", '") + project.materials[*layer.material].name + "'";
    }
    if (in_the_way.empty()) continue;
    notes.push_back("Before '" + project.materials[*panel.layers[i].material].name +
                    "' is replaced these must come off, which is not counted: " + in_the_way + ".");
  }
  return notes;
}

double replacements(double study_period, double service_life) {
  return std::ceil(study_period / service_life - 1.0) + 0.0;  // a life longer than the period gives −0
}

const CheckDeclaration kReplacementCheck{
    .id = "carbon.b4",
    .title = "Replacement B4 over the study period (fossil and land use)",
    .project_title = "Replacement B4 of all panels over the study period (fossil and land use)",
    .sentence =
        "The GWP-fossil and GWP-luluc of B4 are the sums over all materials of the times each is replaced in the "
        "study period, ReqSL / ESL − 1 rounded up, times its A1–A3, A4, A5 and C1–C4.",
    .clause = "EN 15978:2011, 8.6 and 9.3.3",
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(use_stage_inputs()),
    .limits = {"What must come off with a material that is replaced; it is named from the order of layers alone.",
               "Work on site for the replacement, and a better supply in later years.",
               "B1–B3 and B5 that no declaration states, and B6 and B7, which belong to the building.",
               "Whether a material can be replaced in this panel at all."}};

Finding check_replacement(PanelAccount& account, const Finding& upstream) {
  OpenFinding finding = account.open(kReplacementCheck);
  finding.value_of(upstream);
  const auto period = read_study_period(account.inputs.settings, finding.builder());
  MaterialRows rows;
  Gwp sum;
  Gwp use;
  std::map<std::size_t, double> times_of_material;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    MaterialAccount& entry = account.materials[row];
    const auto life = read_service_life(account.declared(row), finding);
    const auto each = one_replacement(entry);
    if (!period || !life || !each) continue;
    const double times = replacements(*period, *life);
    entry.at(Module::b4) = scaled(*each, times);
    sum += *entry.at(Module::b4);
    use += add_declared_use(account, row, times + 1.0, *period / *life, finding);
    times_of_material[account.index(row)] = times;
    if (times <= 0.0) continue;
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back({*life, times, entry.at(Module::b4)->fossil_and_luluc()});
  }
  FindingBuilder& builder = finding.builder();
  if (!rows.materials.empty()) {
    add_material_table(builder, account.inputs.project, rows, "Materials replaced",
                       {{"material", ""}, {"service life", "years"}, {"times", ""}, {"B4", "kg CO2e"}});
  }
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("replacement", "B4", sum.fossil_and_luluc(), "kg CO2e", rows.materials.empty() ? "" : "B4 = sum(B4)");
  builder.step("GWP-biogenic, shown apart", "B4,bio", sum.biogenic, "kg CO2e");
  builder.value(kBiogenicValue, sum.biogenic, "kg CO2e");
  builder.step("use, maintenance, repair and refurbishment as declared", "B1–B3, B5", use.total(), "kg CO2e");
  for (std::string& note : layers_in_the_way(account.panel, account.inputs.project, times_of_material)) {
    builder.note(std::move(note));
  }
  builder.note(
      "B4 of a material is the times it is replaced, ReqSL / ESL − 1 rounded up to a whole number, times its A1–A3 + "
      "A4 + A5 + C1–C4. A material is replaced alone: what must come off with it, and work on site, are not counted. "
      "B1–B3 and B5 hold only what declarations state.");
  return builder.inform(sum.fossil_and_luluc(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
