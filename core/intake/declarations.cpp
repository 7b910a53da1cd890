#include "core/intake/declarations.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>
#include <utility>

#include "core/intake/evidence/evidence_file.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

// Project, site, building, storey, space, and a handful of assemblies: far below this. A longer chain is a cycle,
// which the decomposition check reports.
constexpr int kMaxOwners = 64;

void add_behind(const Properties& from, Properties& to) {
  for (const auto& [full_name, property] : from.all()) {
    const std::size_t dot = full_name.find('.');
    to.add(full_name.substr(0, dot), full_name.substr(dot + 1), property);
  }
}

}  // namespace

Element owner_of(const ReadContext& context, const Element& element) {
  for (const Link link : {Link::container, Link::whole}) {
    const auto owners = context.graph.linked(link, element);
    if (!owners.empty()) return owners.front();
  }
  return {};
}

Element SpatialReader::find_project(const ReadContext& context) {
  const std::vector<Element>& projects = context.graph.all("IfcProject");
  if (projects.empty()) {
    context.report.file_error(0, 0, "the file has no IfcProject", "export the whole project, not a selection");
    return {};
  }
  for (std::size_t i = 1; i < projects.size(); ++i) {
    context.report.error(projects[i],
                         "the file has a second IfcProject; the first is at line " +
                             std::to_string(context.report.line(projects.front())),
                         "export one project a file");
  }
  return projects.front();
}

void SpatialReader::read(const Element& project_entity) {
  const Graph& graph = context_.graph;
  project_.global_id = own_global_id(project_entity);
  project_.name = graph.text(project_entity, "Name");
  if (project_.name.empty()) project_.name = graph.text(project_entity, "LongName");
  project_.description = graph.text(project_entity, "Description");
  project_.phase = graph.text(project_entity, "Phase");
  project_.origin = context_.report.origin(project_entity);
  project_.properties = properties_.of_object(project_entity);
  project_.true_north_rad = true_north(project_entity);
  for (const Element& site : graph.all("IfcSite")) {
    if (project_.site_name.empty()) project_.site_name = graph.text(site, "Name");
    add_behind(properties_.of_object(site), project_.properties);
  }
  for (const Element& building : graph.all("IfcBuilding")) {
    project_.buildings.push_back(graph.text(building, "Name"));
    add_behind(properties_.of_object(building), project_.properties);
  }
  read_storeys();
}

void SpatialReader::read_storeys() {
  static const Measure& length_measure = *find_measure("IfcLengthMeasure");
  std::vector<std::pair<Storey, const void*>> storeys;
  for (const Element& entity : context_.graph.all("IfcBuildingStorey")) {
    Storey storey;
    storey.global_id = own_global_id(entity);
    storey.name = context_.graph.text(entity, "Name");
    storey.building = building_of(entity);
    storey.origin = context_.report.origin(entity);
    if (const auto elevation = number(context_, entity, "Elevation")) {
      const auto metres = units_.to_si(*elevation, length_measure, {});
      if (metres) storey.elevation_m = Sourced<double>{*metres, context_.report.origin(entity, "Elevation")};
    }
    storeys.emplace_back(std::move(storey), entity.key());
  }
  const auto height = [](const auto& entry) {
    return entry.first.elevation_m ? entry.first.elevation_m->value : std::numeric_limits<double>::infinity();
  };
  std::stable_sort(storeys.begin(), storeys.end(), [&](const auto& a, const auto& b) { return height(a) < height(b); });
  for (auto& [storey, key] : storeys) {
    storey_index_[key] = project_.storeys.size();
    project_.storeys.push_back(std::move(storey));
  }
}

std::string SpatialReader::building_of(const Element& element) const {
  Element at = element;
  for (int i = 0; at && i < kMaxOwners; ++i) {
    if (ifc_type(at) == "IfcBuilding") return context_.graph.text(at, "Name");
    at = owner_of(context_, at);
  }
  return {};
}

SpatialPlace SpatialReader::place_of(const Element& element) const {
  SpatialPlace place;
  place.building = building_of(element);
  Element at = element;
  for (int i = 0; at && i < kMaxOwners; ++i) {
    const auto found = storey_index_.find(at.key());
    if (found != storey_index_.end()) {
      place.storey = found->second;
      return place;
    }
    at = owner_of(context_, at);
  }
  return place;
}

double SpatialReader::true_north(const Element& project_entity) const {
  for (const Element& context : context_.graph.entities(project_entity, "RepresentationContexts")) {
    const Element direction = context_.graph.entity(context, "TrueNorth");
    if (!direction) continue;
    const auto ratios = numbers(context_, direction, "DirectionRatios");
    if (!ratios || ratios->size() < 2) continue;
    return std::atan2(-(*ratios)[0], (*ratios)[1]);
  }
  return 0.0;
}

void EvidenceReader::read() {
  join_information();
  EvidenceRegister documents(project_dir_, context_.report);
  for (const Element& entity : context_.graph.all("IfcDocumentReference")) {
    Evidence evidence;
    evidence.id = context_.graph.text(entity, "Identification");
    if (evidence.id.empty()) evidence.id = context_.graph.text(entity, "ItemReference");
    evidence.name = context_.graph.text(entity, "Name");
    evidence.location = context_.graph.text(entity, "Location");
    evidence.origin = context_.report.origin(entity, "Location");
    add_information(entity, evidence);
    documents.complete(evidence);
    // The last library that knows the document goes before the earlier ones.
    const auto library = std::find_if(libraries_.rbegin(), libraries_.rend(),
                                      [&](const EvidenceRegister* known) { return known->has(evidence.id); });
    if (library != libraries_.rend()) (*library)->complete(evidence);
    look_into_document(evidence, project_dir_);
    warn(entity, evidence);
    index_[entity.key()] = project_.evidence.size();
    project_.evidence.push_back(std::move(evidence));
  }
  find_repeated();
  documents.warn_of_unused(context_.report);
}

/// A check asks for a document by its id: where two have one, nobody knows which of them is meant.
void EvidenceReader::find_repeated() {
  std::map<std::string, std::size_t> first_of;
  for (std::size_t i = 0; i < project_.evidence.size(); ++i) {
    Evidence& evidence = project_.evidence[i];
    if (evidence.id.empty()) continue;
    const auto [found, is_new] = first_of.try_emplace(evidence.id, i);
    if (is_new) continue;
    Evidence& first = project_.evidence[found->second];
    if (first.location == evidence.location && first.number == evidence.number && first.expires == evidence.expires) {
      continue;
    }
    const std::string lines =
        std::to_string(first.origin.line) + " and " + std::to_string(evidence.origin.line) + " of the export";
    for (Evidence* one : {&first, &evidence}) one->faults.push_back("two documents have this id, at lines " + lines);
    context_.report.file_warning("document '" + evidence.id + "' stands twice, at lines " + lines,
                                 "give each document its own Identification; until then neither proves anything");
  }
}

/// Reference and information name each other by ReferencedDocument since IFC4, by DocumentReferences before.
void EvidenceReader::join_information() {
  const auto join = [this](const Element& reference, const Element& information) {
    information_of_reference_.emplace(reference.key(), information);
    references_of_information_[information.key()].push_back(reference);
  };
  for (const Element& reference : context_.graph.all("IfcDocumentReference")) {
    if (const Element information = context_.graph.entity(reference, "ReferencedDocument")) {
      join(reference, information);
    }
  }
  for (const Element& information : context_.graph.all("IfcDocumentInformation")) {
    for (const Element& reference : context_.graph.entities(information, "DocumentReferences")) {
      if (!information_of_reference_.contains(reference.key())) join(reference, information);
    }
  }
}

void EvidenceReader::add_information(const Element& entity, Evidence& evidence) const {
  const auto found = information_of_reference_.find(entity.key());
  if (found == information_of_reference_.end()) return;
  const Element& information = found->second;
  const Graph& graph = context_.graph;
  evidence.number = graph.text(information, "Identification");
  if (evidence.number.empty()) evidence.number = graph.text(information, "DocumentId");
  evidence.subject = graph.text(information, "Description");
  evidence.scope = graph.text(information, "Scope");
  evidence.issuer = owner_name(information);
  // Purposes in other words than those of the register are no statement of the kind.
  evidence.kind = parse_evidence_kind(graph.text(information, "Purpose")).value_or(EvidenceKind::not_stated);
  const std::string issued = day(information, "ValidFrom");
  state_day(evidence, &Evidence::issued, issued.empty() ? day(information, "CreationTime") : issued, "day of issue",
            "the export");
  state_day(evidence, &Evidence::expires, day(information, "ValidUntil"), "last day", "the export");
}

std::string EvidenceReader::owner_name(const Element& information) const {
  const Element owner = context_.graph.entity(information, "DocumentOwner");
  if (!owner) return {};
  const Element organisation = context_.graph.entity(owner, "TheOrganization");
  std::string name = context_.graph.text(organisation ? organisation : owner, "Name");
  return name.empty() ? context_.graph.text(owner, "FamilyName") : name;
}

/// An IfcDate or the day of an IfcDateTime, as text; before IFC4 an IfcCalendarDate or IfcDateAndTime.
std::string EvidenceReader::day(const Element& owner, std::string_view attribute) const {
  const Graph& graph = context_.graph;
  Element date = graph.entity(owner, attribute);
  if (const Element inner = date ? graph.entity(date, "DateComponent") : Element{}) date = inner;
  const std::string year = date ? graph.text(date, "YearComponent") : std::string();
  if (year.empty()) {
    constexpr std::size_t kDayLength = 10;
    return graph.text(owner, attribute).substr(0, kDayLength);
  }
  const auto two_digits = [](const std::string& digits) { return digits.size() == 1 ? "0" + digits : digits; };
  return year + "-" + two_digits(graph.text(date, "MonthComponent")) + "-" +
         two_digits(graph.text(date, "DayComponent"));
}

void EvidenceReader::warn(const Element& entity, const Evidence& evidence) const {
  if (evidence.status == EvidenceStatus::missing) {
    const std::string what = evidence.location.empty() ? "document '" + evidence.id + "' has no Location"
                                                       : "evidence '" + evidence.location + "' is not there";
    context_.report.warning(entity, what + "; listed as missing", "put the file into the project folder");
  } else if (evidence.status == EvidenceStatus::refused) {
    context_.report.warning(entity,
                            "evidence '" + evidence.location + "' is not inside the project folder; not followed",
                            "copy the file into the project folder and give its relative path");
  } else if (evidence.status != EvidenceStatus::present) {
    const std::string number = evidence.status == EvidenceStatus::unnamed ? " '" + evidence.number + "'" : "";
    context_.report.warning(entity,
                            "evidence '" + evidence.location + "': " + std::string(to_string(evidence.status)) + number,
                            "put the document itself there, and its own number into evidence/evidence.csv");
  }
  for (const std::string& fault : evidence.faults) {
    context_.report.warning(entity, "document '" + evidence.id + "': " + fault,
                            "it proves nothing until this is mended");
  }
}

void EvidenceReader::add_documents_of(const Element& entity, std::vector<std::size_t>& evidence) const {
  const auto add = [&](const Element& document) {
    const auto found = index_.find(document.key());
    if (found != index_.end()) evidence.push_back(found->second);
  };
  for (const Element& document : context_.graph.linked(Link::documents, entity)) {
    if (!context_.budget.take(1)) return;
    add(document);
    const auto references = references_of_information_.find(document.key());
    if (references == references_of_information_.end()) continue;
    for (const Element& reference : references->second) add(reference);
  }
}

}  // namespace panel_dossier
