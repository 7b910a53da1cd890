// A small project with results that use every kind of member, for the tests of hashing, results.json and the seal.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "core/api/model/project.h"
#include "core/api/testing/temporary_folder.h"
#include "core/pipeline/run.h"
#include "core/trace/record.h"

namespace panel_dossier::testing {

inline Origin export_origin(const std::string& entity, std::uint32_t line) {
  Origin origin;
  origin.entity = entity;
  origin.line = line;
  return origin;
}

/// Of an entity that has a GlobalId.
inline Origin export_origin_of(const std::string& entity, const std::string& global_id, std::uint32_t line) {
  Origin origin = export_origin(entity, line);
  origin.global_id = global_id;
  return origin;
}

inline Panel sample_panel(const std::string& mark) {
  Panel panel;
  panel.global_id = "id-of-" + mark;
  panel.mark = mark;
  panel.name = "panel " + mark;
  panel.type = "T1";
  panel.storey = 0;
  panel.width_m = {3.0, export_origin("IfcWall", 10)};
  panel.height_m = {2.8, export_origin("IfcWall", 11)};
  panel.thickness_m = {0.3, export_origin("IfcWall", 12)};
  panel.outside_known = true;
  Layer layer;
  layer.name = "insulation";
  layer.material = 0;
  layer.thickness_m = {0.24, export_origin("IfcMaterialLayer", 20)};
  layer.y_outside_m = 0.24;
  panel.layers = {layer};
  Part stud;
  stud.global_id = "id-of-stud-" + mark;
  stud.name = "stud";
  stud.kind = PartKind::stud;
  stud.material = 1;
  stud.solid = Extrusion{{{0.0, 0.0}, {0.045, 0.0}, {0.045, 0.24}, {0.0, 0.24}}, {}, {0.0, 0.0, 1.0}, 2.7};
  stud.bounds = stud.solid->bounds();
  stud.volume_m3 = {0.045 * 0.24 * 2.7, export_origin("IfcMember", 31)};
  panel.parts = {stud};
  Opening opening;
  opening.global_id = "id-of-opening-" + mark;
  opening.x_min_m = 0.5;
  opening.x_max_m = 1.5;
  opening.z_min_m = 1.0;
  opening.z_max_m = 2.0;
  panel.openings = {opening};
  panel.evidence = {0};
  panel.properties.add("Pset_WallCommon", "LoadBearing", {true, "", export_origin("IfcPropertySingleValue", 40)});
  return panel;
}

inline Material sample_material(const std::string& name, double density_kg_per_m3) {
  Material material;
  material.name = name;
  material.category = "wood";
  material.properties.add("Pset_MaterialCommon", "MassDensity",
                          {density_kg_per_m3, "kg/m³", export_origin("IfcPropertySingleValue", 5)});
  return material;
}

inline Project sample_project() {
  Project project;
  project.global_id = "id-of-project";
  project.name = "Prüfhaus – ≤ 3 storeys";
  project.buildings = {"house"};
  project.storeys = {{"id-of-storey", "ground floor", "house", Sourced<double>{0.0, {}}, {}}};
  project.materials = {sample_material("wood fibre", 50.0), sample_material("softwood", 420.0),
                       sample_material("not used", 1.0)};
  project.evidence = {{"E-1", "invented test report", "evidence/report.txt", EvidenceStatus::present, {}}};
  project.panels = {sample_panel("P-01"), sample_panel("P-02"), sample_panel("P-03")};
  return project;
}

inline Finding sample_finding(const std::string& panel) {
  Finding finding;
  finding.check = "thermal.u_value";
  finding.title = "Thermal transmittance";
  finding.panel = panel;
  finding.value = 0.1 + 0.2;
  finding.unit = "W/(m²·K)";
  finding.limit = 0.18;
  finding.relation = Relation::at_most;
  finding.utilisation = finding.value.index() == 1 ? std::get<double>(finding.value) / 0.18 : 0.0;
  finding.verdict = Verdict::fail;
  finding.reason = "more than the limit; add insulation";
  finding.clause = "EN ISO 6946:2017, 6.7";
  Origin table;
  table.kind = OriginKind::data_table;
  table.table = "resistances.csv";
  table.row = "horizontal";
  table.source = "EN ISO 6946:2017, table 7";
  Origin setting;
  setting.kind = OriginKind::setting;
  setting.key = "thermal.jurisdiction";
  finding.inputs = {{"thermal conductivity", "λ", 0.038, "W/(m·K)", export_origin("IfcMaterial", 7)},
                    {"internal surface resistance", "Rsi", 0.13, "m²·K/W", table},
                    {"jurisdiction", "", std::string("England"), "", setting},
                    {"width", "b", 3.0, "m", export_origin_of("IfcWall", panel, 12)}};
  finding.steps = {{"resistance of the layer", "R", 1.0 / 3.0, "m²·K/W", "R = d / λ"}};
  finding.notes = {"a note"};
  finding.tables = {{"layers", {{"layer", ""}, {"R", "m²·K/W"}}, {{std::string("one"), 1.5}, {Value{}, 2.0}}}};
  finding.series = {{"temperature", "depth", "m", "temperature", "°C", {{"curve", {{0.0, 20.0}, {0.3, -3.0}}}}}};
  finding.bar_charts = {{"shares", "heat loss", "W/K", {"panel", "window"}, {stacked_bar("P-01", {2.5, -0.5})}}};
  Drawing drawing;
  drawing.title = "section";
  drawing.polygons = {{{{0.0, 0.0}, {1.0, 0.0}, {1.0, 1.0}}, Hatch::timber, LineStyle::heavy, "stud", 2}};
  drawing.lines = {{{0.0, 0.0}, {1.0, 1.0}, LineStyle::dashed}};
  drawing.dimensions = {{{0.0, 0.0}, {1.0, 0.0}, 0.1, "1000"}};
  drawing.texts = {{{0.5, 0.5}, "text"}};
  finding.drawings = {drawing};
  return finding;
}

inline Results sample_results(const Project& project) {
  Results results;
  FindingRecorder recorder;
  for (const auto& panel : project.panels) {
    Finding class_finding;
    class_finding.check = "fire.reaction_to_fire";
    class_finding.title = "Reaction to fire";
    class_finding.panel = panel.global_id;
    class_finding.value = std::string("B-s1,d0");
    class_finding.verdict = Verdict::pass;
    class_finding.basis = Basis::test_evidence;
    results.panel_findings.push_back(recorder.record_all({class_finding, sample_finding(panel.global_id)}));
  }
  results.panel_not_applicable.resize(project.panels.size());
  Finding total;
  total.check = "quantities.mass";
  total.title = "Mass of all panels";
  total.value = 1200.0;
  total.unit = "kg";
  total.verdict = Verdict::information;
  results.project_findings.push_back(recorder.record(total));
  return results;
}

inline BuildFacts sample_facts(std::string_view export_bytes = "<export/>") {
  BuildFacts facts;
  facts.program_version = "0.0.1";
  facts.time_utc = "2026-11-25T02:00:00Z";
  facts.export_name = "project.xml";
  facts.export_schema = "IFC4 ADD2 TC1";
  facts.export_bytes = export_bytes;
  return facts;
}

/// The record of sample_project() without evidence files at hand.
inline ResultsDocument sample_document() {
  Project project = sample_project();
  project.evidence.front().status = EvidenceStatus::missing;
  return make_results_document(project, sample_results(project), sample_facts());
}

}  // namespace panel_dossier::testing
