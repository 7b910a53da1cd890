// What a COBie delivery says of its components and types: attributes, documents, jobs and issues.
#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <set>
#include <tuple>
#include <utility>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/handover/cobie_delivery.h"
#include "core/dossier/handover/workbook_file.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/annex/references.h"
#include "core/dossier/parts/panel/panel_facts.h"
#include "core/trace/open_points.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

/// What a panel's page gives first.
constexpr std::array<std::string_view, 7> kFirstFigures{
    role::kMass,           role::kHookLoad,      role::kArea,   role::kThermalTransmittance,
    role::kFireResistance, role::kBearingInFire, role::kAirTest};

std::string limit_category(Relation relation) {
  switch (relation) {
    case Relation::at_most: return "Maximum Requirement";
    case Relation::at_least: return "Minimum Requirement";
    case Relation::equals: return "Exact Requirement";
    case Relation::none: break;
  }
  return "Requirement";
}

std::string stage_of(Basis basis) {
  return basis == Basis::declared ? "Submitted" : "As Built";
}

void add_figure(CobieDelivery& delivery, const std::string& component, std::set<std::string>& names,
                const RecordedFinding& finding) {
  const bool is_open = finding.verdict == Verdict::fail || finding.verdict == Verdict::evidence_needed ||
                       finding.verdict == Verdict::not_assessed;
  std::string words = std::string(to_string(finding.basis)) + " by " + finding.clause +
                      "; verdict: " + std::string(to_string(finding.verdict));
  if (is_open && !finding.reason.empty()) words += ": " + finding.reason;
  delivery.book.add("Attribute", {{"Name", free_name(names, finding.title, finding.check)},
                                  {"Category", stage_of(finding.basis)},
                                  {"SheetName", "Component"},
                                  {"RowName", component},
                                  {"Value", finding.value},
                                  {"Unit", finding.unit},
                                  {"Description", words}});
  if (std::holds_alternative<std::monostate>(finding.limit)) return;
  delivery.book.add("Attribute", {{"Name", free_name(names, finding.title + " (limit)", finding.check)},
                                  {"Category", limit_category(finding.relation)},
                                  {"SheetName", "Component"},
                                  {"RowName", component},
                                  {"Value", finding.limit},
                                  {"Unit", finding.unit},
                                  {"Description", finding.clause}});
}

/// Sets that say what was made, measured, set and promised.
bool is_handed_over(std::string_view name) {
  constexpr std::array<std::string_view, 8> kSets{"Panel_",           "Pset_WallCommon",   "Pset_Manufacturer",
                                                  "Pset_Warranty",    "Pset_Condition",    "Pset_ServiceLife",
                                                  "Pset_Maintenance", "Pset_Environmental"};
  return std::any_of(kSets.begin(), kSets.end(), [name](std::string_view set) { return name.starts_with(set); });
}

Value cell_of(const Property& property) {
  if (const auto* logical = std::get_if<bool>(&property.value)) return std::string(*logical ? "yes" : "no");
  if (const auto* number = std::get_if<double>(&property.value)) return *number;
  return std::get<std::string>(property.value);
}

bool was_built_or_measured(std::string_view name) {
  return name.starts_with("Panel_AsBuilt") || name.starts_with("Panel_Install") ||
         name.starts_with("Panel_Inspection") || name.starts_with("Panel_Air.");
}

void add_property(CobieDelivery& delivery, const HandoverContent& content, const std::string& component,
                  std::set<std::string>& names, const std::string& name, const Property& property) {
  const auto title = content.dossier.property_titles.find(name);
  const bool is_of_export = property.origin.kind == OriginKind::export_file;
  delivery.book.add("Attribute",
                    {{"Name", free_name(names, name, "Property without a name")},
                     {"Category", was_built_or_measured(name) ? "As Built" : "Submitted"},
                     {"SheetName", "Component"},
                     {"RowName", component},
                     {"Value", cell_of(property)},
                     {"Unit", property.unit},
                     {"ExtObject", is_of_export ? "IfcPropertySingleValue" : ""},
                     {"Description", title == content.dossier.property_titles.end() ? std::string() : title->second}});
}

/// Whether all properties have room on the sheet beside the figures and their limits.
bool have_room(const Project& project) {
  std::size_t rows = 2 * kFirstFigures.size() * project.panels.size();
  for (const Panel& panel : project.panels) {
    const auto& properties = panel.properties.all();
    rows += static_cast<std::size_t>(std::count_if(properties.begin(), properties.end(),
                                                   [](const auto& named) { return is_handed_over(named.first); }));
  }
  return rows < WorkbookFile::kMostRows;
}

void add_attributes(CobieDelivery& delivery, const HandoverContent& content) {
  const Project& project = content.project();
  const ResultsDocument& results = content.results();
  const bool with_properties = have_room(project);
  if (!with_properties) {
    delivery.notes.emplace_back(
        "The properties of the model are left out of the sheet Attribute: with them it would have more rows than a "
        "sheet "
        "can hold. They stand in the export that is attached to dossier.pdf.");
  }
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    std::set<std::string> names;
    for (const std::string_view asked : kFirstFigures) {
      const RecordedFinding* finding = finding_of_role(results.build, results.panels[i].findings, asked);
      if (finding != nullptr) add_figure(delivery, delivery.components[i], names, *finding);
    }
    if (!with_properties) continue;
    for (const auto& [name, property] : project.panels[i].properties.all()) {
      if (is_handed_over(name)) add_property(delivery, content, delivery.components[i], names, name, property);
    }
  }
}

std::string document_category(EvidenceKind kind) {
  switch (kind) {
    case EvidenceKind::fire_test_report:
    case EvidenceKind::classification_report:
    case EvidenceKind::air_test_report: return "Test Reports";
    case EvidenceKind::product_declaration:
    case EvidenceKind::environmental_declaration: return "Product Data";
    case EvidenceKind::chain_of_custody_certificate:
    case EvidenceKind::lifting_certificate:
    case EvidenceKind::factory_production_control: return "Certificates";
    case EvidenceKind::fire_strategy: return "Design Data";
    case EvidenceKind::not_stated:
    case EvidenceKind::other: break;
  }
  return "Closeout Submittals";
}

/// Adds each document to each row it belongs to once.
class Documents {
 public:
  Documents(CobieDelivery& delivery, const Project& project) : delivery_(delivery), project_(project) {}

  void add(const Evidence& evidence, const std::string& sheet, const std::string& row) {
    if (!added_.insert({&evidence, sheet, row}).second) return;
    const std::filesystem::path location(evidence.location);
    std::string words = std::string(to_string(evidence.kind));
    if (evidence.status != EvidenceStatus::present) words += "; " + std::string(to_string(evidence.status));
    for (const std::string& part : {evidence.subject, evidence.scope, evidence.standard}) {
      if (!part.empty()) words += "; " + part;
    }
    delivery_.book.add("Document", {{"Name", name_of(evidence)},
                                    {"Category", document_category(evidence.kind)},
                                    {"ApprovalBy", "Information Only"},
                                    {"Stage", "Submitted"},
                                    {"SheetName", sheet},
                                    {"RowName", row},
                                    {"Directory", location.parent_path().string()},
                                    {"File", location.filename().string()},
                                    {"ExtObject", "IfcDocumentReference"},
                                    {"ExtIdentifier", evidence.id},
                                    {"Description", words},
                                    {"Reference", evidence.number}});
  }

 private:
  CobieDelivery& delivery_;
  const Project& project_;
  std::map<const Evidence*, std::string> names_;
  std::set<std::tuple<const Evidence*, std::string, std::string>> added_;

  const std::string& name_of(const Evidence& evidence) {
    const auto [found, is_new] = names_.try_emplace(&evidence);
    if (is_new)
      found->second = delivery_.book.new_name("Document", evidence.id + " " + evidence.name, "Document without a name");
    return found->second;
  }
};

void add_dossier(CobieDelivery& delivery, const HandoverContent& content) {
  std::set<std::string> files{"dossier.pdf"};
  for (const PanelPage& page : content.pages) {
    if (!page.file.empty()) files.insert(page.file);
  }
  for (const std::string& file : files) {
    delivery.book.add("Document",
                      {{"Name", delivery.book.new_name("Document", "Panel dossier " + file, file)},
                       {"Category", "Operation and Maintenance"},
                       {"ApprovalBy", "Information Only"},
                       {"Stage", "As Built"},
                       {"SheetName", "Facility"},
                       {"RowName", delivery.facility},
                       {"File", file},
                       {"Description", "Signed handover dossier of the panels; the whole proof is attached"},
                       {"Reference", content.results().build.issue.id}});
  }
}

void add_documents(CobieDelivery& delivery, const HandoverContent& content) {
  const Project& project = content.project();
  add_dossier(delivery, content);
  Documents documents(delivery, project);
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    for (const std::size_t index : panel.evidence)
      documents.add(project.evidence[index], "Component", delivery.components[i]);
    for (const auto& [id, materials] : material_documents(panel, project)) {
      const Evidence* evidence = find_evidence(project, id);
      if (evidence != nullptr) documents.add(*evidence, "Type", delivery.types.at(panel.type));
    }
  }
}

/// What the standard calls the climate change of an element, of each panel of which it was found. The stage stays open:
/// the description says which modules are counted.
void add_impacts(CobieDelivery& delivery, const HandoverContent& content) {
  for (const WrittenBack& result : content.standard_results) {
    if (result.set != "Pset_EnvironmentalImpactValues" || result.property != "ClimateChange") continue;
    for (std::size_t i = 0; i < content.results().panels.size(); ++i) {
      const std::vector<RecordedFinding>& findings = content.results().panels[i].findings;
      const auto finding = std::find_if(findings.begin(), findings.end(),
                                        [&result](const RecordedFinding& own) { return own.check == result.check; });
      if (finding == findings.end() || !std::holds_alternative<double>(finding->value)) continue;
      std::string unit = finding->unit;
      unit.erase(std::remove(unit.begin(), unit.end(), ' '), unit.end());
      if (unit != "kgCO2e") continue;
      const std::string& component = delivery.components[i];
      delivery.book.add("Impact", {{"Name", delivery.book.new_name("Impact", component + " climate change", component)},
                                   {"ImpactType", "ClimateChange"},
                                   {"SheetName", "Component"},
                                   {"RowName", component},
                                   {"Value", finding->value},
                                   {"ImpactUnit", unit},
                                   {"ExtObject", "IfcPropertySet"},
                                   {"Description", result.meaning + "; " + finding->clause +
                                                       "; verdict: " + std::string(to_string(finding->verdict))}});
    }
  }
}

/// The inspections that are stated, one job for each type, day and task; COBie names jobs by type.
void add_jobs(CobieDelivery& delivery, const HandoverContent& content) {
  std::map<std::tuple<std::string, std::string, std::string>, std::vector<std::string>> jobs;
  for (std::size_t i = 0; i < content.inspections.size(); ++i) {
    const std::string& type = delivery.types.at(content.project().panels[i].type);
    for (const DatedInspection& entry : content.inspections[i])
      jobs[{type, entry.day, entry.what}].push_back(delivery.components[i]);
  }
  double number = 0.0;
  for (const auto& [key, components] : jobs) {
    const auto& [type, day, what] = key;
    number += 1.0;
    delivery.book.add("Job", {{"Name", delivery.book.new_name("Job", joined({what, day}, " "), "Inspection")},
                              {"Category", "Inspection"},
                              {"Status", "Not Yet Started"},
                              {"TypeName", type},
                              {"Description", what + ": " + list_some(components, 200)},
                              {"Start", day},
                              {"TaskNumber", number}});
  }
}

void add_issues(CobieDelivery& delivery, const HandoverContent& content) {
  std::map<std::string, std::size_t> by_id;
  const std::vector<PanelSummary>& panels = content.results().panels;
  for (std::size_t i = 0; i < panels.size(); ++i) by_id.emplace(panels[i].global_id, i);
  for (const OpenPoint& point : open_points(content.results())) {
    const auto panel = by_id.find(point.first_panel);
    const bool is_of_project = panel == by_id.end();
    std::string words = std::string(to_string(point.verdict)) + ": " + point.what;
    if (!is_of_project) words += " (" + list_some(point.marks, 500) + ")";
    delivery.book.add("Issue", {{"Name", delivery.book.new_name("Issue", point.title, point.check)},
                                {"Type", "Specification"},
                                {"Risk", "Unknown"},
                                {"Chance", point.verdict == Verdict::fail ? "Has Occurred" : "Unknown"},
                                {"Impact", "Unknown"},
                                {"SheetName1", is_of_project ? "Facility" : "Component"},
                                {"RowName1", is_of_project ? delivery.facility : delivery.components[panel->second]},
                                {"Description", words},
                                {"Mitigation", "To be closed by: " + point.who}});
  }
}

}  // namespace

void add_statements(CobieDelivery& delivery, const HandoverContent& content) {
  add_attributes(delivery, content);
  add_documents(delivery, content);
  add_impacts(delivery, content);
  add_jobs(delivery, content);
  add_issues(delivery, content);
}

}  // namespace panel_dossier
