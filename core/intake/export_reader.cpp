#include "core/intake/export_reader.h"

#include <malloc.h>

#include <algorithm>
#include <system_error>
#include <unordered_map>
#include <utility>

#include "core/intake/claims/material_kinds.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/input_file.h"
#include "core/intake/graph/graph.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/open_export.h"
#include "core/intake/panels/neighbour_reader.h"
#include "core/intake/panels/opening_reader.h"
#include "core/intake/panels/panel_shares.h"

namespace panel_dossier {

namespace {

/// 22 characters of 0-9 A-Z a-z _ $, of which the first holds 2 bits only: IfcGloballyUniqueId, ISO 16739-1.
bool is_global_id(std::string_view text) {
  constexpr std::size_t kLength = 22;
  const auto is_digit_of_id = [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_' || c == '$';
  };
  return text.size() == kLength && std::all_of(text.begin(), text.end(), is_digit_of_id) && text.front() <= '3';
}

/// Reports malformed and repeated GlobalIds.
void check_identities(const Graph& graph, Reporter& report) {
  std::unordered_map<std::string, Element> first_use;
  first_use.reserve(graph.rooted().size());
  for (const Element& entity : graph.rooted()) {
    std::string id = own_global_id(entity);
    if (!is_global_id(id)) {
      report.error(entity, "GlobalId '" + id.substr(0, 60) + "' is malformed",
                   "use 22 characters of 0-9 A-Z a-z _ $, the first of them 0 to 3");
    }
    const auto [first, is_new] = first_use.try_emplace(std::move(id), entity);
    if (!is_new) {
      report.error(entity,
                   "GlobalId is already that of " + std::string(ifc_type(first->second)) + " at line " +
                       std::to_string(report.line(first->second)),
                   "give every object its own GlobalId");
    }
  }
}

void report_unread_shapes(const UnreadShapes& unread, Reporter& report) {
  for (const auto& [name, count] : unread) {
    report.file_warning(std::to_string(count) + " shapes of type '" + name +
                            "' are not read; the quantities of their parts are used instead",
                        "export extrusions, closed faceted bodies or clipped extrusions");
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

std::string without_panels(const std::vector<ChoiceCount>& counts) {
  std::string message = "the project has no panels";
  for (const ChoiceCount& count : counts) {
    message +=
        (&count == &counts.front() ? ": " : ", ") + std::to_string(count.elements) + " left out (" + count.reason + ")";
  }
  return message;
}

void read_panels(const PanelSources& sources, const PanelChoice& choice, UnreadShapes& unread, Project& project) {
  Reporter& report = sources.context.report;
  PanelShares shares = read_in_shares(sources, choice.panels);
  project.panels = std::move(shares.panels);
  unread = std::move(shares.unread);
  if (choice.panels.empty()) {
    report.file_error(0, 0, without_panels(choice.counts),
                      "export walls, or element assemblies that decompose into parts, or say with the setting "
                      "intake.panels which elements are panels");
  }
  sort_by_mark(project.panels, report);
}

/// Runs all readers in order. None when there is no IfcProject; else whatever could be read, which counts only when
/// `report` holds no error.
std::optional<Project> read_project(const Graph& graph, Reporter& report, const IntakeOptions& options,
                                    std::size_t file_size, std::vector<ChoiceCount>& panel_choice) {
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
  MaterialReader materials(context, units, properties, project);
  SpatialReader spatial(context, units, properties, project);
  EvidenceReader evidence(context, options.project_dir, options.document_registers, project);
  UnreadShapes unread;
  spatial.read(project_entity);
  materials.read();
  evidence.read();
  if (check_decomposition(context)) {
    const PanelChoice choice = find_panels({context, spatial, project, properties, materials}, options.panel_rules);
    panel_choice = choice.counts;
    read_panels({context, units, expected, spatial, evidence, materials, options.default_layer_order}, choice, unread,
                project);
    check_stray_openings(context);
    materials.name_after_parts();
    NeighbourReader neighbours(context, units, spatial, materials);
    project.neighbours = neighbours.read(entities_of(context, choice.panels));
    neighbours.report();
  }
  MaterialKinds(options.schema_dir).name_kinds(project, report);
  report_unread_shapes(unread, report);
  if (budget.is_spent()) {
    report.file_error(0, 0, "the export grows out of proportion when its shared types and shapes are read",
                      "export each panel with its own properties and shapes only");
  }
  return project;
}

void read_graph(const Graph& graph, Reporter& report, const IntakeOptions& options, std::size_t file_size,
                IntakeResult& result) {
  check_identities(graph, report);
  result.skipped = graph.skipped();
  result.project = read_project(graph, report, options, file_size, result.panel_choice);
}

IntakeResult read(std::string_view bytes, Reporter& report, const IntakeOptions& options) {
  IntakeResult result;
  const auto use = [&](const Graph& graph, Generation /*generation*/, std::size_t size) {
    read_graph(graph, report, options, size, result);
  };
  result.schema_version = to_string(open_export(bytes, options.schema_dir, Graph::Keep::listed_types, report, use));
  if (report.has_errors()) result.project.reset();
  result.diagnostics = report.take();
#ifdef __GLIBC__
  // What was read of each panel lies among what reading needed meanwhile; the C library would keep the space between
  // for the rest of a build, more than the project itself takes.
  malloc_trim(0);
#endif
  return result;
}

}  // namespace

std::optional<LayerOrder> layer_order_setting(const Settings& settings, Diagnostics& diagnostics) {
  constexpr const char* kKey = "intake.layer_order";
  const auto order = settings.text(kKey);
  if (order && order->value == "inside_to_outside") return LayerOrder::inside_to_outside;
  if (order && order->value == "outside_to_inside") return LayerOrder::outside_to_inside;
  if (settings.all().contains(kKey)) {
    Diagnostic diagnostic;
    diagnostic.file = "settings";
    diagnostic.entity = kKey;
    diagnostic.message = "the order of layers is not one of the known two";
    diagnostic.advice = "write 'inside_to_outside' or 'outside_to_inside', or leave the key out";
    diagnostics.push_back(diagnostic);
  }
  return std::nullopt;
}

IntakeResult read_export(const std::filesystem::path& file, const IntakeOptions& options) {
  Reporter report(file.string());
  auto text = load_file(file, report);
  if (!text) {
    IntakeResult result;
    result.diagnostics = report.take();
    return result;
  }
  return read(*text, report, options);
}

IntakeResult read_export(std::string_view bytes, const std::string& display_name, const IntakeOptions& options) {
  Reporter report(display_name);
  return read(bytes, report, options);
}

}  // namespace panel_dossier
