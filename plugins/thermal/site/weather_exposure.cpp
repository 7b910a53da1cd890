#include "plugins/thermal/site/weather_exposure.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

const CheckDeclaration kWeatherExposureCheck{
    .id = "thermal.weather_exposure",
    .title = "Days that the membrane stood open to the weather",
    .project_title = {},
    .sentence =
        "The outer membrane stood open to the weather no longer than its evidence permits, counted from the day on "
        "which "
        "the panel was erected to that on which the membrane was covered or, while it is open, to the day of "
        "assessment; days of several such spells are added.",
    .clause = "EN 13859-2:2014, annex C, and the declaration of the product (from memory); days by common practice",
    .units = {"days"},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = with_records({property("Panel_WeatherExposure.From"),
                            optional_property("Panel_WeatherExposure.Until"),
                            property("Panel_WeatherExposure.PermittedDays"),
                            property("Panel_WeatherExposure.DocumentId"),
                            optional_property("Panel_Install.Date"),
                            optional_setting("project.assessment_date"),
                            {CheckInput::Source::model, "layers", false}},
                           {"weather_exposure"}),
    .limits = {"Rain, wind and sun of those days, and where the panel stood.",
               "Days in the stack or on the lorry, unless the record begins there.",
               "Damage of the membrane, and boards that stand open beside it.",
               "The document must be there, be valid and name the material; the days are not looked up in it."},
    .role = {}};

namespace {

constexpr const char* kExposureSet = "Panel_WeatherExposure";

/// The material of the outermost membrane in the outer half of the panel: a membrane behind the insulation, such as a
/// vapour control layer, is not what the weather meets. Null where none is known.
const Material* outer_membrane(const Panel& panel, const Project& project) {
  for (auto layer = panel.layers.rbegin(); layer != panel.layers.rend(); ++layer) {
    if (layer->y_inside_m + layer->y_outside_m < panel.thickness_m.value) break;
    const Material* material = material_at(project, layer->material);
    if (material == nullptr) continue;
    if (layer->category == "membrane" || material->category == "membrane") return material;
  }
  return nullptr;
}

bool is_recorded(const Panel& panel) {
  return panel.properties.text(kExposureSet, "From") || panel.properties.text(kExposureSet, "Until");
}

bool keeps_records_of_exposure(const Project& project) {
  return std::any_of(project.panels.begin(), project.panels.end(), is_recorded);
}

std::string assessment_day(const Settings& settings) {
  const auto day = settings.text("project.assessment_date");
  return day ? day->value : std::string();
}

/// Why no document shows the permitted days; empty when one does.
std::string lacking_document(const Material& membrane, const Project& project, const Settings& settings,
                             FindingBuilder& builder) {
  const auto id = membrane.properties.text(kExposureSet, "DocumentId");
  const std::string of = "of '" + membrane.name + "'";
  if (!id) {
    return "the permitted days " + of +
           " name no document (Panel_WeatherExposure.DocumentId); name the product's declaration or approval";
  }
  builder.text("document behind the permitted days", id, {});
  const Evidence* document = find_evidence(project, id->value);
  if (document == nullptr) {
    return "no document of the project has the identification '" + id->value +
           "' that Panel_WeatherExposure.DocumentId " + of + " names; put it there";
  }
  std::string fault =
      evidence_fault(*document, {EvidenceKind::product_declaration, EvidenceKind::other}, assessment_day(settings));
  if (!fault.empty()) return fault;
  const std::string says = lower_case(document->scope + " " + document->subject);
  if (says.find(lower_case(membrane.name)) != std::string::npos) return {};
  return "document '" + document->id + "' does not name '" + membrane.name +
         "' in its scope or subject (evidence/evidence.csv)";
}

/// Days YYYY-MM-DD between which the membrane stood open; `until` is empty where nobody says that it was covered.
struct Spell {
  std::string from;
  std::string until;
};

/// By the newest row of each day from which the membrane was open, in order of these days.
std::vector<Spell> recorded_spells(const Panel& panel) {
  std::map<std::string, std::string> until_by_from;
  for (const PanelRecord& record : panel.records) {
    if (record.table != "weather_exposure" || !record.text("erected")) continue;
    until_by_from[record.words("erected")] = record.words("covered");
  }
  std::vector<Spell> spells;
  for (const auto& [from, until] : until_by_from) {
    // What nobody says was covered stood open until the next cover; days of two spells count once. A spell that ends
    // before it begins must not vanish in another.
    const bool is_backwards = !until.empty() && until < from;
    if (!is_backwards && !spells.empty() && (spells.back().until.empty() || from <= spells.back().until)) {
      std::string& last = spells.back().until;
      last = last.empty() || until.empty() ? until : std::max(last, until);
    } else {
      spells.push_back({from, until});
    }
  }
  return spells;
}

/// By the records, else by export or library; empty, which is noted, where the first day is not known.
std::vector<Spell> spells_of(const Panel& panel, FindingBuilder& builder) {
  const auto from = builder.text("erected on", panel.properties.text(kExposureSet, "From"),
                                 "the day from which the membrane was open (Panel_WeatherExposure.From) is missing");
  const auto until = panel.properties.text(kExposureSet, "Until");
  if (until) builder.text("covered on", until, {});
  std::vector<Spell> spells = recorded_spells(panel);
  if (!spells.empty() || !from) return spells;
  return {{*from, until ? until->value : std::string()}};
}

/// Days from erection to cover or assessment, of all spells; none where that cannot be told, which is noted.
std::optional<double> days_open(const std::vector<Spell>& spells, const Settings& settings, FindingBuilder& builder) {
  const std::string assessed = assessment_day(settings);
  const bool is_open = !spells.empty() && spells.back().until.empty();
  if (assessed.empty()) {
    builder.missing("whether the days of exposure have been is not known: set project.assessment_date");
  } else if (is_open) {
    builder.text("day of assessment, until when it is open", settings.text("project.assessment_date"), {});
  }
  if (spells.empty() || builder.incomplete()) return std::nullopt;
  double sum = 0.0;
  for (const Spell& spell : spells) {
    const std::string& last = spell.until.empty() ? spell.from : spell.until;
    for (const std::string& day : {spell.from, last}) {
      if (day <= assessed) continue;
      builder.missing(
          joined({"the membrane's exposure has a day after project.assessment_date", assessed + ":", day}, " "));
      return std::nullopt;
    }
    const auto days = days_between(spell.from, spell.until.empty() ? assessed : spell.until);
    if (!days || *days < 0) {
      builder.missing(
          "the membrane is covered (Panel_WeatherExposure.Until) before it is erected "
          "(Panel_WeatherExposure.From), or one of them is no day");
      return std::nullopt;
    }
    if (spells.size() > 1) builder.step("days open from " + spell.from, "n_i", *days, "days");
    sum += *days;
  }
  builder.step("days open to the weather", "n", sum, "days");
  return sum;
}

/// Why the membrane cannot have stood open only from the first of these days; empty where it can.
std::string fault_of_erection(const std::vector<Spell>& spells, const Panel& panel) {
  const auto installed = panel.properties.text("Panel_Install", "Date");
  if (spells.empty() || !installed || installed->value >= spells.front().from) return {};
  return "the membrane stands open from " + spells.front().from +
         " (Panel_WeatherExposure.From), but the panel was installed before that, on " + installed->value + " (" +
         describe(installed->origin) + "); correct one of the days, or record the days between them";
}

Finding judge_exposure(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder builder(kWeatherExposureCheck, panel.global_id);
  builder.basis(Basis::declared).decimals(0);
  const std::vector<Spell> spells = spells_of(panel, builder);
  const auto days = days_open(spells, settings, builder);
  const Material* membrane = outer_membrane(panel, project);
  if (membrane == nullptr) {
    builder.missing("no membrane is known in the outer half of the panel whose days could be permitted");
    return builder.not_assessed();
  }
  const auto permitted = membrane->properties.number(kExposureSet, "PermittedDays");
  if (!permitted) {
    return builder.needs_evidence("how long '" + membrane->name +
                                  "' may stand open to the weather is not stated: give its material "
                                  "Panel_WeatherExposure.PermittedDays and the document behind it");
  }
  const auto limit = builder.positive("permitted days of '" + membrane->name + "'", "n_p", "days", permitted,
                                      "Panel_WeatherExposure.PermittedDays must be above 0");
  std::string lacking = lacking_document(*membrane, project, settings, builder);
  if (lacking.empty()) lacking = fault_of_erection(spells, panel);
  if (builder.incomplete() || !days || !limit) return builder.not_assessed();
  const bool is_open = spells.back().until.empty();
  Finding finding = builder.judge(*days, "days", Relation::at_most, *limit,
                                  "the membrane '" + membrane->name + "' " + (is_open ? "has stood" : "stood") +
                                      " open for " + fixed_text(*days, 0) +
                                      " days, longer than it may; look at it with "
                                      "its maker, and replace it or cover the panel before it takes up water");
  if (finding.verdict != Verdict::pass || lacking.empty()) return finding;
  finding.verdict = Verdict::evidence_needed;
  finding.reason = lacking;
  return finding;
}

}  // namespace

CheckOutcome check_weather_exposure(const Panel& panel, const Project& project, const Settings& settings) {
  if (is_recorded(panel)) return {{judge_exposure(panel, project, settings)}};
  const bool is_installed = panel.properties.text("Panel_Install", "Date").has_value();
  if (is_installed && keeps_records_of_exposure(project) && outer_membrane(panel, project) != nullptr) {
    FindingBuilder builder(kWeatherExposureCheck, panel.global_id);
    return {{builder.needs_evidence(
        "the panel is installed, and how long its membrane stood open is not recorded as it is of others: "
        "write Panel_WeatherExposure.From and Until into the records of exposure")}};
  }
  return {{}, {{kWeatherExposureCheck.id, "there is no record of exposure to the weather"}}};
}

}  // namespace panel_dossier::thermal
