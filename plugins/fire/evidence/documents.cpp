#include "plugins/fire/evidence/documents.h"

#include <algorithm>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/fire/evidence/report_record.h"

namespace panel_dossier::fire {

namespace {

/// Tests of walls and the classification that they lead to (EN 13501-2:2016 7.3 and 7.5), and tests of curtain walls.
const std::vector<std::string_view>& resistance_standards() {
  static const std::vector<std::string_view> standards{"13501-2", "1363-1", "1364-1", "1364-3", "1364-4", "1365-1"};
  return standards;
}

std::string name_of(const Evidence& document) {
  return "document '" + document.id + "'";
}

/// What the record of the document leaves open, as a part of a reason; empty when it states all of these.
std::string not_stated(const Evidence& document, const std::vector<std::pair<bool, const char*>>& stated) {
  std::vector<std::string> absent;
  for (const auto& [is_stated, what] : stated) {
    if (!is_stated) absent.emplace_back(what);
  }
  if (absent.empty()) return {};
  return name_of(document) + ": its record states no " + joined(absent, ", no ") + " (evidence/evidence.csv)";
}

std::string country_fault(const Evidence& document, const DocumentUse& use) {
  if (document.countries.empty()) return {};
  const std::string where = "may be used in " + document.countries + " (its record)";
  if (use.jurisdiction.empty())
    return where + ", and where the project is, is not given (setting project.jurisdiction)";
  if (names_country(document.countries, use.jurisdiction)) return {};
  return where + ", and the project is in " + use.jurisdiction + " (setting project.jurisdiction)";
}

std::string sponsor_fault(const Evidence& document, const Project& project, const DocumentUse& use) {
  constexpr const char* kMaker = "Pset_ManufacturerTypeInformation.Manufacturer";
  if (document.sponsor.empty() || document.sponsor == use.maker) return {};
  const Evidence* permission = find_evidence(project, trimmed(document.permission));
  const std::string fault =
      permission == nullptr
          ? "a permission to use it is not stated (evidence/evidence.csv, column permission: the id of a document of "
            "the export)"
          : evidence_fault(*permission, {EvidenceKind::other}, use.day);
  if (fault.empty()) return {};
  const std::string made_for = "was made for '" + document.sponsor + "' (its record)";
  if (use.maker.empty()) {
    return made_for + ", and who makes the panel is not given (" + std::string(kMaker) + "): " + fault;
  }
  return made_for + ", and the panel is made by '" + use.maker + "' (" + kMaker + "): " + fault;
}

/// The points with the document's name before each; empty points are left out.
std::string named_points(const Evidence& document, const std::vector<std::string>& points) {
  std::vector<std::string> named;
  for (const std::string& point : points) {
    if (!point.empty()) named.push_back(name_of(document) + " " + point);
  }
  return joined(named, "; ");
}

std::string both_of(const std::string& first, const std::string& second) {
  return first.empty() || second.empty() ? first + second : first + "; " + second;
}

bool may_classify(const Evidence& document, std::string_view resistance_report) {
  // A file that cannot be read, or is another than it should be, does not say what the document is: it may be the one.
  const bool unread = document.status != EvidenceStatus::present &&
                      (document.kind == EvidenceKind::not_stated || document.status == EvidenceStatus::unnamed);
  const bool may_be = unread || document.kind == EvidenceKind::classification_report ||
                      document.kind == EvidenceKind::product_declaration;
  return may_be && document.id != resistance_report;
}

void add_once(std::vector<std::string>& faults, std::string fault) {
  const bool known = std::find(faults.begin(), faults.end(), fault) != faults.end();
  if (!fault.empty() && !known) faults.push_back(std::move(fault));
}

}  // namespace

std::string assessment_day(const Settings& settings) {
  const auto day = settings.text("project.assessment_date");
  return day ? day->value : std::string();
}

std::string not_in_the_export(std::string_view id) {
  return "document '" + std::string(id) + "' is not in the export (IfcDocumentReference)";
}

DocumentUse document_use(const Panel& panel, const Settings& settings) {
  const auto jurisdiction = settings.text("project.jurisdiction");
  const auto maker = panel.properties.text("Pset_ManufacturerTypeInformation", "Manufacturer");
  return {assessment_day(settings), jurisdiction ? jurisdiction->value : std::string(),
          maker ? maker->value : std::string()};
}

std::string resistance_report_fault(const Evidence& document, const Project& project, const DocumentUse& use) {
  std::string fault =
      evidence_fault(document, {EvidenceKind::fire_test_report, EvidenceKind::classification_report}, use.day);
  if (!fault.empty()) return fault;
  const std::string absent = not_stated(document, {{!document.issuer.empty(), "issuer (laboratory)"},
                                                   {!document.standard.empty(), "standard"},
                                                   {!document.issued.empty(), "day of issue"},
                                                   {!document.sponsor.empty(), "sponsor"},
                                                   {!document.countries.empty(), "countries for its use"}});
  const std::string standard =
      document.standard.empty() ? std::string() : standard_fault(document, resistance_standards(), "EN 13501-2");
  return both_of(
      absent, named_points(document, {standard, sponsor_fault(document, project, use), country_fault(document, use)}));
}

std::string reaction_document_fault(const Evidence& document, const DocumentUse& use) {
  std::string fault =
      evidence_fault(document, {EvidenceKind::classification_report, EvidenceKind::product_declaration}, use.day);
  if (!fault.empty()) return fault;
  const std::string country = country_fault(document, use);
  // A declaration of performance is its maker's own and names the product standard, not the classification's.
  if (document.kind != EvidenceKind::classification_report) return named_points(document, {country});
  const std::string absent = not_stated(document, {{!document.issuer.empty(), "issuer (laboratory)"},
                                                   {!document.standard.empty(), "standard"},
                                                   {!document.issued.empty(), "day of issue"}});
  const std::string standard =
      document.standard.empty() ? std::string() : standard_fault(document, {"13501-1"}, "EN 13501-1");
  return both_of(absent, named_points(document, {standard, country}));
}

std::string strategy_fault(const Evidence& document, const std::string& day) {
  std::string fault = evidence_fault(document, {EvidenceKind::fire_strategy}, day);
  if (!fault.empty()) return fault;
  return not_stated(document, {{!document.issuer.empty(), "issuer"}, {!document.issued.empty(), "day of issue"}});
}

namespace {

/// What is wrong with each document of the panel that could stand behind a class; empty when one serves.
std::vector<std::string> panel_document_faults(const Panel& panel, const Project& project, const DocumentUse& use) {
  const auto report = panel.properties.text("Panel_FireEvidence", "DocumentId");
  std::vector<std::string> faults;
  for (const std::size_t index : panel.evidence) {
    const Evidence& document = project.evidence[index];
    if (!may_classify(document, report ? std::string_view(report->value) : std::string_view())) continue;
    std::string fault = reaction_document_fault(document, use);
    if (fault.empty()) return {};
    faults.push_back(std::move(fault));
  }
  if (faults.empty()) {
    faults.emplace_back(
        "no classification report and no declaration of performance of the panel stands behind the reaction to fire "
        "classes (IfcRelAssociatesDocument, or Panel_Fire.DocumentId of the material)");
  }
  return faults;
}

}  // namespace

std::string missing_class_documents(const Panel& panel, const Project& project, const Settings& settings,
                                    const std::vector<std::optional<std::size_t>>& materials) {
  const DocumentUse use = document_use(panel, settings);
  std::vector<std::string> faults;
  bool needs_panel_document = false;
  for (const auto& material : materials) {
    const auto id = material ? project.materials[*material].properties.text("Panel_Fire", "DocumentId") : std::nullopt;
    needs_panel_document = needs_panel_document || !id;
    const Evidence* document = id ? find_evidence(project, id->value) : nullptr;
    if (document != nullptr) add_once(faults, reaction_document_fault(*document, use));
    if (id && document == nullptr) add_once(faults, not_in_the_export(id->value));
  }
  if (needs_panel_document) {
    for (std::string& fault : panel_document_faults(panel, project, use)) add_once(faults, std::move(fault));
  }
  return joined(faults, "; ");
}

std::vector<CheckInput> class_document_inputs() {
  return {optional_property("Panel_Fire.DocumentId"), optional_property("Panel_FireEvidence.DocumentId"),
          optional_setting("project.assessment_date"), optional_setting("project.jurisdiction")};
}

std::vector<CheckInput> document_use_inputs() {
  return {optional_property("Pset_ManufacturerTypeInformation.Manufacturer"),
          optional_setting("project.assessment_date"), optional_setting("project.jurisdiction")};
}

}  // namespace panel_dossier::fire
