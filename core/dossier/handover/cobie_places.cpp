// Facility, floors and spaces of a COBie delivery, and the order in which its rows are made.
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/api/support/words.h"
#include "core/dossier/handover/cobie_delivery.h"

namespace panel_dossier {

namespace {

/// COBie's form of a time, `2026-11-25T02:00:00`: without the zone, which is UTC.
std::string cobie_time(const std::string& time_utc) {
  return time_utc.ends_with('Z') ? time_utc.substr(0, time_utc.size() - 1) : time_utc;
}

void add_facility(CobieDelivery& delivery, const HandoverContent& content) {
  const Project& project = content.project();
  const bool is_one_building = project.buildings.size() == 1 && !project.buildings.front().empty();
  delivery.facility = delivery.book.new_name("Facility", is_one_building ? project.buildings.front() : project.name,
                                             "Facility without a name");
  delivery.book.add("Facility", {{"Name", delivery.facility},
                                 {"ProjectName", project.name},
                                 {"SiteName", project.site_name},
                                 {"LinearUnits", "meters"},
                                 {"AreaUnits", "squaremeters"},
                                 {"VolumeUnits", "cubicmeters"},
                                 {"AreaMeasurement", "Faces of the panels"},
                                 {"ExternalProjectObject", "IfcProject"},
                                 {"ExternalProjectIdentifier", project.global_id},
                                 {"ExternalSiteObject", "IfcSite"},
                                 {"ExternalFacilityObject", "IfcBuilding"},
                                 {"Description", is_one_building ? std::string() : joined(project.buildings, "; ")},
                                 {"ProjectDescription", project.description},
                                 {"Phase", project.phase}});
}

/// The storey alone where its name is the only one of the project, else with its building.
std::string storey_name(const Project& project, const Storey& storey) {
  const auto same = std::count_if(project.storeys.begin(), project.storeys.end(),
                                  [&storey](const Storey& other) { return other.name == storey.name; });
  return same > 1 && !storey.building.empty() ? storey.building + " " + storey.name : storey.name;
}

void add_storey(CobieDelivery& delivery, const std::string& wanted, const Storey* storey) {
  const std::string floor = delivery.book.new_name("Floor", wanted, "Storey without a name");
  delivery.book.add(
      "Floor", {{"Name", floor},
                {"Category", "Floor"},
                {"ExtObject", storey != nullptr ? "IfcBuildingStorey" : ""},
                {"ExtIdentifier", storey != nullptr ? storey->global_id : ""},
                {"Description",
                 storey != nullptr && !storey->building.empty() ? "Storey of " + storey->building : std::string()},
                {"Elevation", storey != nullptr && storey->elevation_m ? Value(storey->elevation_m->value) : Value()}});
  const std::string space = delivery.book.new_name("Space", floor + " wall panels", "Wall panels");
  delivery.book.add("Space",
                    {{"Name", space},
                     {"FloorName", floor},
                     {"Description", "All wall panels of " + floor + ": the rooms of the model are not read"}});
  delivery.spaces.push_back(space);
}

/// The spaces of one building as a zone; those of panels without a storey are in none. The list of kinds of zone has
/// none for the envelope, so the category stays open.
void add_zones(CobieDelivery& delivery, const Project& project) {
  std::map<std::string, std::vector<std::string>> by_building;
  for (std::size_t i = 0; i < project.storeys.size(); ++i)
    by_building[project.storeys[i].building].push_back(delivery.spaces[i]);
  for (const auto& [building, spaces] : by_building) {
    const std::string of = building.empty() ? delivery.facility : building;
    for (const std::string& list : name_lists(spaces)) {
      delivery.book.add("Zone", {{"Name", delivery.book.new_name("Zone", of + " envelope", "Envelope")},
                                 {"SpaceNames", list},
                                 {"Description", "The wall panels of all storeys of " + of}});
    }
  }
}

}  // namespace

void add_places(CobieDelivery& delivery, const HandoverContent& content) {
  const Project& project = content.project();
  add_facility(delivery, content);
  for (const Storey& storey : project.storeys) add_storey(delivery, storey_name(project, storey), &storey);
  add_zones(delivery, project);
  const bool all_stand = std::all_of(project.panels.begin(), project.panels.end(),
                                     [](const Panel& panel) { return panel.storey.has_value(); });
  if (!all_stand) add_storey(delivery, "No storey stated", nullptr);
}

CobieDelivery cobie_delivery(const HandoverContent& content) {
  CobieDelivery delivery{{}, CobieContacts(content.project().parties), {}, {}, {}, {}, {}};
  const BuildSummary& build = content.results().build;
  delivery.book.set_creator(delivery.contacts.creator(), cobie_time(build.time_utc),
                            "panel-dossier " + build.program_version);
  add_places(delivery, content);
  add_assets(delivery, content);
  add_statements(delivery, content);
  delivery.contacts.write(delivery.book);
  return delivery;
}

}  // namespace panel_dossier
