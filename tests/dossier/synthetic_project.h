// A small made-up project for tests of the pages; every figure in it is invented.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <numbers>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "core/dossier/dossier.h"

namespace panel_dossier::test {

struct SyntheticDossier {
  Project project;
  Settings settings;
  ResultsDocument results;

  DossierContent content() const { return {project, settings, results}; }
};

inline Origin export_origin(std::string entity, std::string property, std::uint32_t line) {
  Origin origin;
  origin.entity = std::move(entity);
  origin.property = std::move(property);
  origin.global_id = "0aB3dE5fG7hI9jK1lM2nO$";
  origin.line = line;
  return origin;
}

inline Part box_part(PartKind kind, std::string name, std::size_t material, const Vec3& min, const Vec3& max) {
  Part part;
  part.kind = kind;
  part.name = std::move(name);
  part.material = material;
  part.bounds = Box3{min, max};
  return part;
}

inline void add_layer(Panel& panel, std::string name, std::string category, std::size_t material, double thickness_m) {
  Layer layer;
  layer.name = std::move(name);
  layer.category = std::move(category);
  layer.material = material;
  layer.thickness_m = {thickness_m, export_origin("IfcMaterialLayer", "LayerThickness", 40)};
  layer.y_inside_m = panel.layers.empty() ? 0.0 : panel.layers.back().y_outside_m;
  layer.y_outside_m = layer.y_inside_m + thickness_m;
  panel.layers.push_back(std::move(layer));
}

inline void add_framing(Panel& panel, double y_min, double y_max) {
  constexpr double kMember_m = 0.045;
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  panel.parts.push_back(box_part(PartKind::rail, "sole", 0, {0, y_min, 0}, {width, y_max, kMember_m}));
  panel.parts.push_back(box_part(PartKind::rail, "head", 0, {0, y_min, height - kMember_m}, {width, y_max, height}));
  for (double x = 0.0; x < width; x += 0.6) {
    const double left = std::min(x, width - kMember_m);
    panel.parts.push_back(
        box_part(PartKind::stud, "stud", 0, {left, y_min, kMember_m}, {left + kMember_m, y_max, height - kMember_m}));
  }
  for (double x = 0.0; x < width; x += 1.2) {
    for (double z = 0.0; z < height; z += 2.4) {
      panel.parts.push_back(box_part(PartKind::sheet, "sheathing", 2, {x, y_max, z},
                                     {std::min(x + 1.2, width), y_max + 0.012, std::min(z + 2.4, height)}));
    }
  }
}

/// A panel with studs at 600 mm, rails, sheets of 1200 × 2400 mm and six layers.
inline Panel synthetic_panel(const std::string& mark, double width_m, double height_m) {
  Panel panel;
  panel.global_id = std::string(22 - std::min<std::size_t>(22, mark.size()), '0') + mark;
  panel.mark = mark;
  panel.name = "Panel " + mark;
  panel.type = "T1 infill";
  panel.building = "Block A";
  panel.width_m = {width_m, export_origin("IfcWall", "Length", 12)};
  panel.height_m = {height_m, export_origin("IfcWall", "Height", 12)};
  panel.outside_known = true;
  add_layer(panel, "lining", "gypsum", 1, 0.015);
  add_layer(panel, "vapour control layer", "membrane", 3, 0.0002);
  add_layer(panel, "framing with insulation", "insulation", 4, 0.195);
  add_layer(panel, "sheathing", "board", 2, 0.012);
  add_layer(panel, "breather membrane", "membrane", 3, 0.0005);
  add_layer(panel, "cladding", "wood", 0, 0.024);
  panel.thickness_m = {panel.layers.back().y_outside_m, export_origin("IfcWall", "Width", 12)};
  add_framing(panel, panel.layers[2].y_inside_m, panel.layers[2].y_outside_m);
  panel.properties.add("Panel_Inspection", "Result",
                       {std::string("ACCEPTED"), "", export_origin("IfcPropertySingleValue", "NominalValue", 88)});
  panel.evidence = {0};
  return panel;
}

inline Opening window(double x_min, double z_min, double x_max, double z_max) {
  Opening opening;
  opening.name = "opening";
  opening.x_min_m = x_min;
  opening.x_max_m = x_max;
  opening.z_min_m = z_min;
  opening.z_max_m = z_max;
  opening.filling_entity = "IfcWindow";
  opening.filling_name = "W1";
  return opening;
}

inline Finding synthetic_finding(const std::string& panel, std::size_t index) {
  static constexpr std::array<const char*, 5> kDisciplines{"thermal", "structural", "fire", "carbon", "quantities"};
  Finding finding;
  finding.check = std::string(kDisciplines[index % 5]) + ".check_" + std::to_string(index);
  finding.title = "Made-up check number " + std::to_string(index);
  finding.panel = panel;
  finding.value = 0.15 + 0.01 * static_cast<double>(index);
  finding.unit = "W/(m²·K)";
  finding.limit = 0.26;
  finding.relation = Relation::at_most;
  finding.utilisation = 0.577 + 0.0385 * static_cast<double>(index);
  finding.decimals = 3;
  finding.verdict = static_cast<Verdict>(index % 5);
  if (finding.verdict != Verdict::pass && finding.verdict != Verdict::information)
    finding.reason = "The property Pset_Made.Up is not in the export; add it to the model.";
  finding.clause = "EN 99999:2017, 6.7.2";
  for (int i = 0; i < 6; ++i) {
    finding.inputs.push_back({"thermal conductivity of layer " + std::to_string(i + 1), "λ", 0.035 + 0.01 * i,
                              "W/(m·K)",
                              export_origin("IfcMaterial", "Pset_MaterialThermal.ThermalConductivity",
                                            static_cast<std::uint32_t>(100 + i))});
  }
  Origin setting;
  setting.kind = OriginKind::setting;
  setting.key = "thermal.external_temperature_c";
  finding.inputs.push_back({"external temperature", "θe", -3.0, "°C", setting});
  for (int i = 0; i < 5; ++i)
    finding.steps.push_back({"resistance of layer " + std::to_string(i + 1), "R", 0.4 + i, "m²·K/W", "R = d / λ"});
  finding.notes = {"Thermal bridges of fixings are not included."};
  return finding;
}

inline void add_rich_content(Finding& finding) {
  Table table;
  table.title = "Layers";
  table.columns = {{"layer", ""}, {"thickness", "mm"}, {"R", "m²·K/W"}};
  table.rows = {{std::string("lining"), 15.0, 0.06}, {std::string("insulation"), 195.0, 5.571}};
  finding.tables.push_back(table);
  Series series;
  series.title = "Temperature through the panel";
  series.x_label = "depth";
  series.x_unit = "mm";
  series.y_label = "temperature";
  series.y_unit = "°C";
  series.curves = {{"temperature", {{0, 19.2}, {15, 18.7}, {210, -2.4}, {247, -2.8}}},
                   {"dew point", {{0, 9.3}, {15, 9.1}, {210, -4.0}, {247, -4.1}}}};
  finding.series.push_back(series);
  finding.bar_charts.push_back({"Shares of the heat loss",
                                "heat loss",
                                "W/K",
                                {"panel", "window", "roof light"},
                                {stacked_bar("panel S0-01", {2.5, -0.5})}});
  Drawing drawing;
  drawing.title = "Loads on the panel";
  drawing.polygons.push_back({{{0, 0}, {3, 0}, {3, 2.7}, {0, 2.7}}, Hatch::none, LineStyle::normal, "panel"});
  drawing.dimensions.push_back({{0, 0}, {3, 0}, -0.4, ""});
  finding.drawings.push_back(drawing);
}

inline void add_materials(Project& project) {
  for (const auto& [name, category] :
       std::array<std::pair<const char*, const char*>, 5>{{{"softwood C24", "wood"},
                                                           {"gypsum board type F", "gypsum"},
                                                           {"oriented strand board", "board"},
                                                           {"polyethylene film", "membrane"},
                                                           {"mineral wool", "insulation"}}}) {
    Material material;
    material.name = name;
    material.category = category;
    project.materials.push_back(material);
  }
}

inline Frame frame_at(std::size_t side, double along_m, double height_m) {
  constexpr double kSide_m = 24.0;
  static constexpr std::array<Vec3, 4> kDirections{Vec3{-1, 0, 0}, Vec3{0, -1, 0}, Vec3{1, 0, 0}, Vec3{0, 1, 0}};
  static constexpr std::array<Vec3, 4> kCorners{Vec3{kSide_m, 0, 0}, Vec3{kSide_m, kSide_m, 0}, Vec3{0, kSide_m, 0},
                                                Vec3{0, 0, 0}};
  Frame frame;
  frame.x_axis = kDirections[side];
  frame.z_axis = {0, 0, 1};
  frame.y_axis = cross(frame.z_axis, frame.x_axis);
  frame.origin = kCorners[side] + frame.x_axis * along_m;
  frame.origin.z = height_m;
  return frame;
}

inline BuildSummary synthetic_build() {
  BuildSummary build;
  build.program_version = "0.1.0";
  build.time_utc = "2026-11-25T02:00:00Z";
  build.export_name = "project.ifcxml";
  build.export_schema = "IFC4 ADD2 TC1";
  build.export_sha256 = std::string(64, 'a');
  build.hash_tree_root = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
  for (const auto& [id, title] : std::array<std::pair<const char*, const char*>, 5>{{{"thermal", "Thermal performance"},
                                                                                     {"structural", "Structure"},
                                                                                     {"fire", "Fire"},
                                                                                     {"carbon", "Whole-life carbon"},
                                                                                     {"quantities", "Quantities"}}}) {
    PluginSummary plugin;
    plugin.id = id;
    plugin.title = title;
    plugin.version = "1.0.0";
    plugin.caution = "For checking by a competent person under the local codes.";
    plugin.standards = {"EN 99999:2017", "EN 99998:2005 with amendments"};
    plugin.sha256 = std::string(64, 'b');
    plugin.data_tables = {{"limits.csv", "", std::string(64, 'c')}};
    build.plugins.push_back(plugin);
  }
  build.evidence = {{"evidence/report.pdf", "TR-1", std::string(64, 'd')}};
  return build;
}

/// Lets a check claim a role, as if its plugin had declared it.
inline void claim(BuildSummary& build, std::string_view role, const std::string& check) {
  CheckDeclaration declared;
  declared.id = check;
  declared.role = std::string(role);
  build.plugins.front().checks.push_back(declared);
}

/// `panels` panels around a square building of three storeys, each with framing, sheets, layers and `findings`
/// findings.
inline SyntheticDossier synthetic_dossier(std::size_t panels, std::size_t findings) {
  SyntheticDossier made;
  FindingRecorder recorder;
  made.project.name = "Example Hall";
  made.project.storeys = {{"s0", "Ground floor", "Block A", std::nullopt, {}},
                          {"s1", "First floor", "Block A", std::nullopt, {}},
                          {"s2", "Second floor", "Block A", std::nullopt, {}}};
  add_materials(made.project);
  Evidence evidence;
  evidence.id = "TR-1";
  evidence.name = "Invented fire test report";
  evidence.location = "evidence/report.pdf";
  evidence.status = EvidenceStatus::present;
  made.project.evidence.push_back(evidence);
  made.results.build = synthetic_build();
  made.results.project = {"0Project", "Example Hall", "A made-up hall for tests.", "Design", "Site 1", {"Block A"}};
  for (std::size_t i = 0; i < panels; ++i) {
    const std::size_t storey = i / 28 % 3;
    Panel panel = synthetic_panel("P-" + std::to_string(i + 1), i % 3 == 0 ? 2.4 : 3.0, 3.2);
    if (i % 2 == 1) panel.openings.push_back(window(0.6, 0.9, 1.8, 2.1));
    if (i % 4 == 3) panel.type = "T2 oversail";
    panel.storey = storey;
    panel.frame = frame_at(i / 7 % 4, 3.2 * static_cast<double>(i % 7), 3.6 * static_cast<double>(storey));
    PanelSummary summary{panel.global_id,      panel.mark,           panel.type, made.project.storeys[storey].name,
                         std::string(64, 'e'), std::string(64, 'f'), {}};
    std::vector<Finding> own;
    for (std::size_t f = 0; f < findings; ++f) own.push_back(synthetic_finding(panel.global_id, f));
    if (!own.empty()) add_rich_content(own.front());
    summary.findings = recorder.record_all(std::move(own));
    made.project.panels.push_back(std::move(panel));
    made.results.panels.push_back(std::move(summary));
  }
  if (findings > 0) {
    Finding of_project = synthetic_finding("", 0);
    add_rich_content(of_project);
    made.results.project_findings.push_back(recorder.record(std::move(of_project)));
  }
  return made;
}

/// With an issue: a cause, a verdict and two figures, of which one moved far, and what stems from no cause.
inline Comparison synthetic_comparison() {
  Comparison comparison;
  comparison.before = {"2026-05-01T02:00:00Z", {"P02", "for comment"}, std::string(64, 'b')};
  comparison.after = {"2026-06-01T02:00:00Z", {}, std::string(64, 'c')};
  comparison.least_share = 0.01;
  comparison.causes = {{CauseKind::setting, "thermal.limit", "0.30", "0.20", {}, {2, 1, 1}},
                       {CauseKind::export_file, "hall.ifc", "0123456789abcdef", "fedcba9876543210", {"P-2"}, {}}};
  comparison.not_attributed = {0, 1, 0};
  Change worse{ChangeKind::verdict_moved, "P-1", "thermal.check_0", "0.29, pass", "0.31, fail", true};
  worse.causes = {0};
  Change small{ChangeKind::value_changed, "P-1", "thermal.check_1", "0.200, pass", "0.201, pass", false};
  small.share = 0.005;
  small.causes = {0};
  Change large{ChangeKind::value_changed, "P-2", "thermal.check_1", "0.20, pass", "0.25, pass", false};
  large.share = 0.25;
  large.causes = {0};
  comparison.changes = {worse, {ChangeKind::panel_added, "P-2", "", "", "id", false}, small, large};
  return comparison;
}

/// Nights from 1 May on, ever less of them open.
inline std::vector<HistoryEntry> synthetic_history(std::size_t nights) {
  std::vector<HistoryEntry> entries;
  for (std::size_t i = 0; i < nights; ++i) {
    HistoryEntry entry;
    entry.time_utc = "2026-05-0" + std::to_string(i + 1) + "T02:00:00Z";
    entry.hash_tree_root = std::string(64, 'b');
    entry.panels = 4;
    entry.verdicts = {40, nights - i, 2, 1, 8};
    entry.causes = {0, 1, 1, 1, 0};
    entry.figures = {{"mass", "Mass of all panels", 4000.0 + 10.0 * static_cast<double>(i), "kg"}};
    entries.push_back(entry);
  }
  return entries;
}

inline DossierFonts installed_fonts() {
  const std::filesystem::path folder = "/usr/share/fonts/truetype";
  return {folder / "lato/Lato-Regular.ttf", folder / "lato/Lato-Bold.ttf", folder / "lato/Lato-Italic.ttf",
          folder / "dejavu/DejaVuSansCondensed.ttf"};
}

/// A file of this name in a folder of this process, which ends with it.
inline std::filesystem::path temporary_file(const std::string& name) {
  static const testing::TemporaryFolder folder;
  return folder.path() / name;
}

inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream bytes;
  bytes << stream.rdbuf();
  return bytes.str();
}

/// What a shell command writes to its standard output; throws std::runtime_error when it fails.
inline std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  std::string output;
  std::array<char, 4096> buffer{};
  while (const std::size_t read = std::fread(buffer.data(), 1, buffer.size(), pipe)) output.append(buffer.data(), read);
  if (pclose(pipe) != 0) throw std::runtime_error("failed: " + command + "\n" + output);
  return output;
}

}  // namespace panel_dossier::test
