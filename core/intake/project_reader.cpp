#include "core/intake/project_reader.h"

#include <algorithm>
#include <filesystem>
#include <string>
#include <system_error>
#include <unordered_map>
#include <utility>

#include "core/intake/panels/panel_reader.h"

namespace panel_dossier {

namespace {

void report_unread_shapes(const ShapeReader& shapes, Reporter& report) {
  for (const auto& [name, count] : shapes.unread()) {
    report.file_warning(std::to_string(count) + " shapes of type '" + name +
                            "' are not read; the quantities of their parts are used instead",
                        "export extrusions of rectangles or closed outlines");
  }
}

void sort_by_mark(std::vector<Panel>& panels, Reporter& report) {
  std::stable_sort(panels.begin(), panels.end(), [](const Panel& a, const Panel& b) { return a.mark < b.mark; });
  for (std::size_t i = 1; i < panels.size(); ++i) {
    const Panel& first = panels[i - 1];
    const Panel& second = panels[i];
    if (first.mark != second.mark || second.mark.empty()) continue;
    report.add({Severity::error,
                {},
                second.origin.line,
                0,
                second.origin.entity,
                second.global_id,
                "mark '" + second.mark + "' is also that of panel '" + first.global_id + "' at line " +
                    std::to_string(first.origin.line),
                "give every panel its own mark"});
  }
}

void read_panels(PanelReader& reader, const ReadContext& context, Project& project) {
  const std::vector<PanelEntities> found = find_panels(context);
  for (const PanelEntities& entities : found) {
    if (auto panel = reader.read(entities)) project.panels.push_back(std::move(*panel));
  }
  if (found.empty()) {
    context.report.file_error(0, 0, "the project has no panels",
                              "export walls, or element assemblies that decompose into parts");
  }
  sort_by_mark(project.panels, context.report);
}

}  // namespace

std::optional<Project> read_project(const Graph& graph, Reporter& report, const IntakeOptions& options,
                                    std::size_t file_size) {
  ExpansionBudget budget(file_size);
  const ReadContext context{graph, report, budget};
  const Element project_entity = SpatialReader::find_project(context);
  if (!project_entity) return std::nullopt;
  Project project;
  std::error_code failed;
  project.folder = std::filesystem::absolute(options.project_dir, failed).string();
  UnitTable units(context, project_entity);
  std::vector<PropertyListText> lists = load_property_lists({options.schema_dir / "model_properties.csv"}, report);
  lists.insert(lists.end(), options.property_lists.begin(), options.property_lists.end());
  const ExpectedMeasures expected(lists, report);
  PropertyReader properties(context, units, expected);
  PlacementReader placements(context, units.length_factor());
  ShapeReader shapes(context, placements, units.length_factor());
  MaterialReader materials(context, units, properties, project);
  SpatialReader spatial(context, units, properties, project);
  EvidenceReader evidence(context, options.project_dir, project);
  spatial.read(project_entity);
  materials.read();
  evidence.read();
  if (check_decomposition(context)) {
    PanelReaders readers{context, units, placements, shapes, properties, materials};
    PanelReader reader(readers, spatial, evidence, materials, options.default_layer_order);
    read_panels(reader, context, project);
  }
  report_unread_shapes(shapes, report);
  if (budget.is_spent()) {
    report.file_error(0, 0, "the export grows out of proportion when its shared types and shapes are read",
                      "export each panel with its own properties and shapes only");
  }
  return project;
}

}  // namespace panel_dossier
