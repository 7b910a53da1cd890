#include "core/api/finding/withheld_claims.h"

#include <algorithm>
#include <set>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

using Reasons = std::multimap<std::string, std::string, std::less<>>;

void add(const Properties& properties, Reasons& reasons) {
  for (const auto& [name, claim] : properties.withheld()) reasons.emplace(name, claim.why);
}

/// What a check declares to read and may not, each once.
std::vector<std::string> reasons_of(const CheckDeclaration& check, const Reasons& of_export, const Reasons& settings) {
  std::vector<std::string> found;
  std::set<std::string_view> told;
  for (const CheckInput& input : check.inputs) {
    if (input.source == CheckInput::Source::table) continue;
    const Reasons& reasons = input.source == CheckInput::Source::setting ? settings : of_export;
    for (const auto& [name, why] : reasons) {
      if (names_input(input.name, name) && told.insert(why).second) found.push_back(why);
    }
  }
  return found;
}

std::string with_reasons(const std::string& reason, const std::vector<std::string>& claims) {
  std::vector<std::string> texts;
  if (!reason.empty()) texts.push_back(reason);
  for (const std::string& claim : claims) {
    if (reason.find(claim) == std::string::npos) texts.push_back(claim);
  }
  return joined(texts, "; ");
}

/// A failure stands, for nothing that is withheld makes it good; what needs evidence still does.
void withhold_finding(Finding& finding, const std::vector<std::string>& claims) {
  finding.reason = with_reasons(finding.reason, claims);
  if (finding.verdict != Verdict::pass && finding.verdict != Verdict::information) return;
  finding.verdict = Verdict::not_assessed;
  finding.value = {};
  finding.limit = {};
  finding.relation = Relation::none;
  finding.utilisation.reset();
  // What was worked out without the claim would be read by other checks, outputs and pages as if it were known.
  finding.values.clear();
}

}  // namespace

WithheldClaims::WithheldClaims(const Project& project, const Settings& settings) {
  for (const auto& [key, why] : settings.withheld()) of_settings_.emplace(key, why);
  add(project.properties, of_project_);
  for (const Material& material : project.materials) add(material.properties, of_materials_.emplace_back());
  of_all_ = of_project_;
  for (const Reasons& reasons : of_materials_) of_all_.insert(reasons.begin(), reasons.end());
  // Of the model itself a reason does not say which panel it is of; panels of one type mostly share it.
  std::map<std::pair<std::string, std::string>, std::pair<std::string, std::size_t>> models;
  for (const Panel& panel : project.panels) {
    for (const auto& [name, why] : of_panel(panel)) {
      if (!panel.contradictions.contains(name)) of_all_.emplace(name, why);
    }
    for (const auto& claim : panel.contradictions) {
      ++models.try_emplace({claim.first, claim.second}, panel.mark, 0).first->second.second;
    }
  }
  for (const auto& [claim, first] : models) {
    const auto& [mark, panels] = first;
    const std::string more = panels > 1 ? " and " + std::to_string(panels - 1) + " more" : "";
    of_all_.emplace(claim.first, joined({"panel '", mark, "'", more, ": ", claim.second}, ""));
  }
}

Reasons WithheldClaims::of_panel(const Panel& panel) const {
  Reasons reasons = of_project_;
  std::set<std::size_t> materials;
  add(panel.properties, reasons);
  for (const auto& [concerned, why] : panel.contradictions) reasons.emplace(concerned, why);
  for (const Layer& layer : panel.layers) {
    add(layer.properties, reasons);
    if (layer.material) materials.insert(*layer.material);
  }
  for (const Part& part : panel.parts) {
    add(part.properties, reasons);
    if (part.material) materials.insert(*part.material);
  }
  for (const Opening& opening : panel.openings) add(opening.filling_properties, reasons);
  for (const std::size_t material : materials) {
    reasons.insert(of_materials_[material].begin(), of_materials_[material].end());
  }
  return reasons;
}

void WithheldClaims::apply(CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks, const std::string& panel,
                           const Reasons& of_export, const Reasons& settings) {
  if (of_export.empty() && settings.empty()) return;
  for (const CheckDeclaration& check : checks) {
    const std::vector<std::string> claims = reasons_of(check, of_export, settings);
    if (claims.empty()) continue;
    for (Finding& finding : outcome.findings) {
      if (finding.check == check.id) withhold_finding(finding, claims);
    }
    const auto excused = std::find_if(outcome.not_applicable.begin(), outcome.not_applicable.end(),
                                      [&](const NotApplicable& one) { return one.check == check.id; });
    if (excused == outcome.not_applicable.end()) continue;
    outcome.findings.push_back(FindingBuilder(check, panel).not_assessed(with_reasons({}, claims)));
    outcome.not_applicable.erase(excused);
  }
}

void WithheldClaims::withhold(CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks,
                              const Panel& panel) const {
  apply(outcome, checks, panel.global_id, of_panel(panel), of_settings_);
}

void WithheldClaims::withhold(CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks) const {
  apply(outcome, checks, {}, of_all_, of_settings_);
}

std::vector<std::string> WithheldClaims::all() const {
  std::set<std::string> texts;
  for (const auto& [key, why] : of_settings_) texts.insert(why);
  for (const auto& [name, why] : of_all_) texts.insert(why);
  return {texts.begin(), texts.end()};
}

}  // namespace panel_dossier
