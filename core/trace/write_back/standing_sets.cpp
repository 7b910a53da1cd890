#include "core/trace/write_back/standing_sets.h"

#include <cstddef>
#include <stdexcept>
#include <unordered_map>
#include <utility>

#include "core/intake/graph/property_reader.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/open_export.h"

namespace panel_dossier {

namespace {

/// On how many objects each set hangs, and of how many types it is.
std::unordered_map<const void*, std::size_t> uses_of_sets(const Graph& graph) {
  std::unordered_map<const void*, std::size_t> uses;
  for (const Element& entity : graph.rooted()) {
    for (const Element& set : graph.linked(Link::property_sets, entity)) ++uses[set.key()];
    for (const Element& set : graph.entities(entity, "HasPropertySets")) ++uses[set.key()];
  }
  return uses;
}

StandingSet standing_set(const Graph& graph, const Element& set, bool is_shared) {
  StandingSet standing{graph.text(set, "Name"), own_global_id(set), is_shared, {}};
  for (const char* members : {"HasProperties", "Quantities"}) {
    for (const Element& member : graph.entities(set, members)) {
      if (!is_written_back(graph, member)) standing.properties.insert(graph.text(member, "Name"));
    }
  }
  return standing;
}

void read_units(const Graph& graph, Reporter& report, std::size_t size, const std::set<std::string>& types,
                StandingSets& standing) {
  const std::vector<Element>& projects = graph.all("IfcProject");
  if (projects.empty()) return;
  ExpansionBudget budget(size);
  UnitTable units({graph, report, budget}, projects.front());
  for (const std::string& type : types) {
    const Measure* measure = find_measure(type);
    const auto one = measure == nullptr ? std::nullopt : units.to_si(1.0, *measure, {});
    if (one) standing.si_of_one[type] = *one;
  }
}

}  // namespace

StandingSets read_standing_sets(std::string_view bytes, const std::filesystem::path& schema_dir,
                                const std::set<std::string>& panels, const std::set<std::string>& types) {
  StandingSets standing;
  Reporter report("the export");
  bool is_read = false;
  const auto read = [&](const Graph& graph, Generation, std::size_t size) {
    const auto uses = uses_of_sets(graph);
    for (const Element& entity : graph.rooted()) {
      const std::string id = own_global_id(entity);
      if (!panels.contains(id)) continue;
      for (const Element& set : graph.linked(Link::property_sets, entity)) {
        if (graph.text(set, "Name") == kResultsSet || is_written_back(graph, set)) continue;
        standing.of_panels[id].push_back(standing_set(graph, set, uses.at(set.key()) > 1));
      }
    }
    read_units(graph, report, size, types, standing);
    is_read = true;
  };
  open_export(bytes, schema_dir, Graph::Keep::listed_types, report, read);
  if (!is_read) throw std::runtime_error("the export cannot be read a second time");
  return standing;
}

}  // namespace panel_dossier
