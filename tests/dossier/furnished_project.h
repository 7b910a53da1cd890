// The made-up project with all that pages can show of a panel and of a project: for tests that hold the pages.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/units.h"
#include "tests/dossier/synthetic_project.h"

namespace panel_dossier::test {

inline void state(Properties& properties, std::string_view set, std::string_view name,
                  std::variant<double, bool, std::string> value, std::string unit = {}) {
  properties.add(set, name,
                 {std::move(value), std::move(unit), export_origin("IfcPropertySingleValue", std::string(name), 90)});
}

inline Part fixing_part(std::string name, int count, const Box3& bounds) {
  Part part = box_part(PartKind::fastener, std::move(name), 0, bounds.min, bounds.max);
  part.material.reset();
  part.count = count;
  return part;
}

/// Who made, inspected and installed the panel, its warranty, and records of sets that the program does not know.
inline void add_statements(Panel& panel) {
  Properties& stated = panel.properties;
  state(stated, "Pset_ManufacturerTypeInformation", "Manufacturer", std::string("Example Works"));
  state(stated, "Pset_ManufacturerTypeInformation", "ProductionYear", std::string("2026"));
  state(stated, "Pset_ManufacturerOccurrence", "SerialNumber", std::string("S-0042"));
  state(stated, "Panel_Identity", "Batch", std::string("7"));
  state(stated, "Panel_Inspection", "Date", std::string("2026-03-02"));
  state(stated, "Panel_Inspection", "Inspector", std::string("Checker"));
  state(stated, "Panel_Install", "Result", std::string("PLUMB"));
  state(stated, "Panel_Install", "Date", std::string("2026-04-02"));
  state(stated, "Panel_Install", "Team", std::string("Team 2"));
  state(stated, "Panel_AsBuilt", "Width", 3.0015, "m");
  state(stated, "Panel_AsBuilt", "MoistureContent", 0.135);
  state(stated, "Panel_AsBuilt", "LiningClosed", true);
  state(stated, "Pset_Warranty", "WarrantyPeriod", 10.0 * units::kSecondPerYear, "s");
  state(stated, "Pset_Warranty", "WarrantyStartDate", std::string("2026-05-01"));
  state(stated, "Pset_Warranty", "WarrantyEndDate", std::string("2036-04-30"));
  state(stated, "Pset_Warranty", "PointOfContact", std::string("works@example.org"));
  state(stated, "Pset_Warranty", "Exclusions", std::string("damage by water from outside the panel"));
  state(stated, "Pset_Warranty", "WarrantyContent", std::string("weathertightness"));
  state(stated, "Pset_ServiceLife", "MeanTimeBetweenFailure", 25.0 * units::kSecondPerYear, "s");
}

/// A post, a lintel, blocking, a batten, a rail that is cut on the slant, fixings at places and all over, and a part
/// without a shape.
inline void add_parts(Panel& panel) {
  const double y_min = panel.layers[2].y_inside_m;
  const double y_max = panel.layers[2].y_outside_m;
  panel.parts.push_back(box_part(PartKind::post, "post", 0, {0.51, y_min, 0.045}, {0.60, y_max, 2.155}));
  panel.parts.push_back(box_part(PartKind::lintel, "lintel", 0, {0.51, y_min, 2.155}, {1.89, y_max, 2.345}));
  panel.parts.push_back(box_part(PartKind::blocking, "blocking", 0, {1.2, y_min, 0.8}, {1.755, y_max, 0.845}));
  panel.parts.push_back(box_part(PartKind::batten, "batten", 0, {0.0, -0.04, 1.6}, {2.4, 0.0, 1.66}));
  Part slanted = box_part(PartKind::rail, "slanted", 0, {1.2, y_min, 2.6}, {2.4, y_max, 3.0});
  Extrusion solid;
  solid.outline = {{0.0, 0.0}, {1.2, 0.2}, {1.2, 0.4}, {0.0, 0.2}};
  solid.frame.origin = {1.2, y_max, 2.6};
  solid.frame.x_axis = {1, 0, 0};
  solid.frame.y_axis = {0, 0, 1};
  solid.frame.z_axis = {0, -1, 0};
  solid.direction = {0, 0, 1};
  solid.depth_m = y_max - y_min;
  slanted.solid = solid;
  panel.parts.push_back(slanted);
  Part loop = fixing_part("lifting loop", 1, {{0.6, y_min, 3.1}, {0.7, y_max, 3.3}});
  state(loop.properties, "Panel_Fastener", "Type", std::string("lifting loop 2 t"));
  panel.parts.push_back(loop);
  panel.parts.push_back(fixing_part("screw 5 x 60", 148, {{0.0, y_max, 0.0}, {2.4, y_max + 0.06, 3.2}}));
  Part unplaced = fixing_part("angle bracket", 6, {});
  unplaced.bounds.reset();
  panel.parts.push_back(unplaced);
  Part shapeless = box_part(PartKind::insulation, "insulation", 4, {}, {});
  shapeless.bounds.reset();
  state(shapeless.properties, "Pset_ManufacturerOccurrence", "BatchReference", std::string("B-18"));
  panel.parts.push_back(shapeless);
  state(panel.parts.front().properties, "Pset_ManufacturerOccurrence", "BatchReference", std::string("B-17"));
}

inline PanelRecord furnished_record(std::string table, std::string day, std::string what, std::string by,
                                    std::string row) {
  PanelRecord record;
  record.table = std::move(table);
  record.day = std::move(day);
  record.what = std::move(what);
  record.by = std::move(by);
  record.origin.kind = OriginKind::input_table;
  record.origin.table = "records/" + record.table + ".csv";
  record.origin.row = std::move(row);
  return record;
}

inline Evidence furnished_evidence(std::string id, EvidenceStatus status) {
  Evidence evidence;
  evidence.id = std::move(id);
  evidence.name = "Invented document " + evidence.id;
  evidence.location = "evidence/" + evidence.id + ".pdf";
  evidence.status = status;
  return evidence;
}

inline CheckDeclaration declared_check(std::string id, std::string_view role, bool for_workshop) {
  CheckDeclaration check;
  check.id = std::move(id);
  check.title = "Title of " + check.id;
  check.sentence = "It finds what " + check.id + " is made for.";
  check.clause = "EN 99999:2017, 6.7.2";
  check.units = {"W/(m²·K)"};
  check.kind = CheckKind::limit;
  check.inputs = {property("Pset_Made.Up"), setting("thermal.external_temperature_c"), data_table("limits.csv"),
                  optional_property("Pset_Made.Other")};
  check.limits = {"It does not see the wind.", "It does not see the sun."};
  check.role = std::string(role);
  check.for_workshop = for_workshop;
  return check;
}

inline Finding role_finding(const std::string& panel, std::string check, Value value, std::string unit,
                            Verdict verdict) {
  Finding finding;
  finding.check = std::move(check);
  finding.title = "Title of " + finding.check;
  finding.panel = panel;
  finding.value = std::move(value);
  finding.unit = std::move(unit);
  finding.verdict = verdict;
  finding.basis = Basis::declared;
  finding.clause = "EN 99998:2005, 3";
  if (verdict == Verdict::evidence_needed) finding.reason = "Document TR-9 is missing; supply it.";
  return finding;
}

inline Origin setting_origin(std::string key) {
  Origin origin;
  origin.kind = OriginKind::setting;
  origin.key = std::move(key);
  return origin;
}

/// Of every role one, of every verdict one, with a limit of each relation.
inline std::vector<Finding> role_findings(const std::string& panel) {
  std::vector<Finding> findings;
  findings.push_back(role_finding(panel, "quantities.mass", 412.37, "kg", Verdict::information));
  findings.push_back(role_finding(panel, "quantities.area", 7.35, "m²", Verdict::information));
  findings.back().values = {{"gross", 9.6, "m²"}, {"openings", 2.25, "m²"}};
  findings.push_back(role_finding(panel, "quantities.centre", std::string("in the middle"), "", Verdict::information));
  findings.back().values = {
      {"from_left_edge", 1.2034, "m"}, {"from_inner_face", 0.1236, "m"}, {"from_foot", 1.55, "m"}};
  findings.push_back(role_finding(panel, "quantities.hook", 498.0, "kg", Verdict::pass));
  findings.back().limit = 2000.0;
  findings.back().relation = Relation::at_most;
  findings.back().utilisation = 0.249;
  findings.push_back(role_finding(panel, "structural.lifting", 1.31, "", Verdict::fail));
  findings.back().limit = 1.0;
  findings.back().relation = Relation::at_most;
  findings.back().utilisation = 1.31;
  findings.back().reason = "The loop is too weak; choose a heavier one.";
  findings.push_back(role_finding(panel, "thermal.u", 0.171, "W/(m²·K)", Verdict::pass));
  findings.back().limit = 0.18;
  findings.back().decimals = 3;
  findings.back().relation = Relation::at_most;
  findings.back().utilisation = 0.95;
  findings.push_back(role_finding(panel, "fire.resistance", std::string("REI 60"), "", Verdict::evidence_needed));
  findings.back().limit = std::string("REI 30");
  findings.back().relation = Relation::at_least;
  findings.push_back(role_finding(panel, "thermal.air", {}, "m³/(h·m²)", Verdict::not_assessed));
  findings.back().reason = "No air test of the panel is recorded; record it.";
  findings.push_back(role_finding(panel, "quantities.cost", 1234.5, "EUR", Verdict::information));
  findings.back().inputs = {{"rate of work", "r", 61.5, "EUR/h", setting_origin("workshop.rate")}};
  findings.push_back(role_finding(panel, "quantities.waste", 0.4, "%", Verdict::pass));
  findings.back().limit = 8.0;
  findings.back().relation = Relation::at_most;
  findings.back().utilisation = 0.05;
  findings.back().inputs = {{"waste declared", "w", 8.0, "%", setting_origin("workshop.waste")}};
  return findings;
}

/// Tables, charts and drawings of every form the annex knows: some stand in a column, some over the whole width.
inline void add_figures(Finding& finding) {
  add_rich_content(finding);
  Table longer;
  longer.title = "Nodes of a long edge";
  longer.columns = {{"node", ""}, {"temperature", "°C"}};
  for (int i = 0; i < 60; ++i) longer.rows.push_back({"node " + std::to_string(i), 20.0 - 0.25 * i});
  finding.tables.push_back(longer);
  // As many rows as go into a column, and one more.
  for (const int rows : {14, 15}) {
    Table list;
    list.title = std::to_string(rows) + " rows";
    list.columns = {{"row", ""}};
    for (int i = 0; i < rows; ++i) list.rows.push_back({static_cast<double>(i)});
    finding.tables.push_back(list);
  }
  Table wide;
  wide.title = "";
  for (int i = 0; i < 8; ++i) wide.columns.push_back({"column of some width " + std::to_string(i), "kN/m"});
  wide.rows.emplace_back();
  for (int i = 0; i < 8; ++i) wide.rows.back().emplace_back(i % 2 == 0 ? Value(1.5 * i) : Value(std::string("text")));
  finding.tables.push_back(wide);
  Table lines;
  lines.title = "Rows of several lines";
  lines.columns = {{"part", ""}, {"remark", ""}};
  lines.rows = {{std::string("stud"), std::string("first line\nsecond line")}, {std::string("rail"), Value()}};
  finding.tables.push_back(lines);
  Series steep;
  steep.title = "A curve with gaps and large values";
  steep.x_label = "time";
  steep.x_unit = "h";
  steep.y_label = "flux";
  steep.y_unit = "W/m²";
  steep.curves = {{"out", {{0, 0}, {6, 120000.0}, {12, -40000.0}, {18, 0.0}}}, {"still", {{0, 5.0}, {24, 5.0}}}};
  finding.series.push_back(steep);
  BarChart many{"A programme", "day", "d", {"cut", "assemble", "load"}, {}};
  for (int i = 0; i < 24; ++i) {
    const double start = 0.5 * i;
    many.bars.push_back({"panel " + std::to_string(i),
                         {{0, start, start + 1.0}, {1, start + 1.0, start + 2.5}, {2, start + 2.5, start + 2.75}}});
  }
  finding.bar_charts.push_back(many);
  finding.bar_charts.push_back({"Shares below and above 0",
                                "carbon",
                                "kg",
                                {"wood", "boards", "end"},
                                {stacked_bar("panel", {-310.0, 120.5, 45.0})}});
  Drawing strip;
  strip.title = "A strip much wider than high";
  for (std::size_t i = 0; i < 9; ++i) {
    const double left = 1.1 * static_cast<double>(i);
    strip.polygons.push_back({{{left, 0}, {left + 1.0, 0}, {left + 1.0, 0.4}, {left, 0.4}},
                              static_cast<Hatch>(i),
                              static_cast<LineStyle>(i % 5),
                              "piece " + std::to_string(i),
                              i});
  }
  strip.lines = {{{0, 0.2}, {9.8, 0.2}, LineStyle::centre}, {{0, 0.1}, {9.8, 0.3}, LineStyle::dashed}};
  strip.dimensions = {{{0, 0}, {9.8, 0}, -0.5, "all"}, {{0, 0}, {0, 0.4}, 0.4, ""}, {{0, 0}, {1.0, 0.4}, 0.6, ""}};
  strip.texts = {{{4.0, 0.7}, "above the strip"}};
  finding.drawings.push_back(strip);
}

/// Evidence of every status, parties, batches, what is withheld and confirmed.
inline void furnish_project(SyntheticDossier& made) {
  Project& project = made.project;
  project.phase = "Construction";
  project.true_north_rad = 0.6;
  project.parties = {{"maker", "A. Maker", "Example Works", "1 Works Lane", "works@example.org", {}},
                     {"architect", "", "Example Architects", "", "", {}}};
  for (const auto& [id, status] :
       std::array<std::pair<const char*, EvidenceStatus>, 5>{{{"TR-2", EvidenceStatus::missing},
                                                              {"TR-3", EvidenceStatus::refused},
                                                              {"TR-4", EvidenceStatus::empty},
                                                              {"TR-5", EvidenceStatus::unreadable},
                                                              {"TR-6", EvidenceStatus::unnamed}}}) {
    project.evidence.push_back(furnished_evidence(id, status));
  }
  state(project.materials[1].properties, "Panel_Fire", "ReportDocumentId", std::string("TR-2"));
  state(project.materials[2].properties, "Panel_Fire", "ReportDocumentId", std::string("TR-8"));
  state(project.materials[4].properties, "Panel_Carbon", "Declaration", std::string("TR-1"));
  project.batches = {{"B-17", "softwood C24", {"stud", "rail"}, {"D-3", "D-4"}, {0, 1}},
                     {"B-18", "", {"insulation"}, {}, {}}};
  for (std::size_t i = 0; i < project.panels.size(); ++i) project.batches[1].panels.push_back(i);
  BuildSummary& build = made.results.build;
  build.issue = {"P03", "for construction"};
  build.warnings = {"the clock stands before the last build"};
  build.withheld = {"a thousandfold density"};
  build.confirmed = {"a high density, confirmed by the engineer"};
  build.unconfirmed = {"limits.csv row 'x'"};
  build.settings_sha256 = std::string(64, '5');
  build.settings_files = {{"carbon_targets.csv", "", std::string(64, '6')}};
  build.outputs = {"quantities.csv", "cutting.csv"};
  build.evidence.push_back({"evidence/TR-4.pdf", "TR-4", std::string(64, '4')});
  build.evidence.push_back({"evidence/TR-2.pdf", "TR-2", {}});
}

/// Plugins that declare their checks, and one that has no caution and says nothing.
inline void declare_checks(BuildSummary& build) {
  build.plugins[0].checks = {declared_check("thermal.u", role::kThermalTransmittance, false),
                             declared_check("thermal.air", role::kAirTest, false),
                             declared_check("thermal.check_0", "", false)};
  build.plugins[1].checks = {declared_check("structural.lifting", role::kLifting, false)};
  build.plugins[2].checks = {declared_check("fire.resistance", role::kFireResistance, false),
                             declared_check("fire.check_2", role::kFireSafety, false)};
  build.plugins[3].caution.clear();
  build.plugins[4].checks = {declared_check("quantities.mass", role::kMass, false),
                             declared_check("quantities.area", role::kArea, false),
                             declared_check("quantities.centre", role::kCentreOfGravity, false),
                             declared_check("quantities.hook", role::kHookLoad, false),
                             declared_check("quantities.cost", "", true),
                             declared_check("quantities.waste", "", true)};
}

/// Panels of which the first is furnished, the second has a door, the third is of unknown face and the fourth has no
/// storey; the others are plain.
inline SyntheticDossier furnished_dossier(std::size_t panels, std::size_t findings) {
  SyntheticDossier made = synthetic_dossier(panels, findings);
  declare_checks(made.results.build);
  FindingRecorder recorder;
  for (std::size_t i = 0; i < panels; ++i) {
    PanelSummary& summary = made.results.panels[i];
    std::vector<Finding> own = role_findings(summary.global_id);
    if (i == 0) add_figures(own.front());
    if (i % 3 == 2) own[4].verdict = Verdict::pass;
    std::vector<RecordedFinding> recorded = recorder.record_all(std::move(own));
    summary.findings.insert(summary.findings.end(), recorded.begin(), recorded.end());
  }
  Panel& first = made.project.panels.at(0);
  add_statements(first);
  add_parts(first);
  first.evidence = {0, 1};
  first.records = {furnished_record("inspections", "2026-03-02", "REJECTED, subject frame", "Checker", "7"),
                   furnished_record("as_built", "2026-03-04", "frame opening width 1202 mm", "", "12")};
  Panel& second = made.project.panels.at(1);
  second.openings = {window(0.6, 0.0, 1.6, 2.1), window(1.9, 0.9, 2.7, 2.1)};
  second.openings[0].filling_entity = "IfcDoor";
  second.openings[1].filling_entity.clear();
  second.openings[1].filling_name.clear();
  state(second.properties, "Pset_Warranty", "WarrantyPeriod", 5.0 * units::kSecondPerYear, "s");
  Panel& third = made.project.panels.at(2);
  third.layers.clear();
  third.outside_known = false;
  third.evidence.clear();
  Panel& fourth = made.project.panels.at(3);
  fourth.storey.reset();
  made.results.panels.at(3).storey.clear();
  fourth.parts.clear();
  furnish_project(made);
  return made;
}

/// With a night before: causes of every kind, a panel that went, and figures that moved both ways.
inline Comparison furnished_comparison() {
  Comparison comparison;
  comparison.before = {"2026-05-31T02:00:00Z", {}, std::string(64, 'd')};
  comparison.after = {"2026-06-01T02:00:00Z", {"P03", "for construction"}, std::string(64, 'c')};
  comparison.least_share = 0.025;
  for (const CauseKind kind : {CauseKind::settings_file, CauseKind::export_file, CauseKind::project_file,
                               CauseKind::evidence, CauseKind::plugin, CauseKind::data_table, CauseKind::program}) {
    comparison.causes.push_back({kind, "cause of the kind " + std::string(to_string(kind)), "", "new", {}, {3, 0, 0}});
  }
  comparison.not_attributed = {1, 0, 0};
  for (int i = 0; i < 14; ++i) {
    Change moved{
        ChangeKind::verdict_moved, "P-" + std::to_string(10 + i), "fire.resistance", "REI 60, pass", "", false};
    moved.causes = {1, 2};
    comparison.changes.push_back(moved);
  }
  comparison.changes.push_back({ChangeKind::panel_removed, "P-9", "", "id", "", false});
  Change less{ChangeKind::value_changed, "", "quantities.mass", "4000 kg", "3600 kg", false};
  less.share = -0.1;
  less.causes = {0};
  comparison.changes.push_back(less);
  Change from_nothing{ChangeKind::value_changed, "P-3", "quantities.area", "0 m²", "1 m²", false};
  comparison.changes.push_back(from_nothing);
  return comparison;
}

/// More builds than the table lists, of which one is incomplete and one is an issue, and a figure that came late.
inline std::vector<HistoryEntry> furnished_history() {
  std::vector<HistoryEntry> entries = synthetic_history(9);
  std::vector<HistoryEntry> earlier = synthetic_history(6);
  for (HistoryEntry& entry : earlier) entry.figures.clear();
  earlier.back().figures = {{"mass", "Mass of all panels", 3.9, "t"}};
  entries.insert(entries.begin(), earlier.begin(), earlier.end());
  entries[7].issue = {"P02", "for comment"};
  entries[12].incomplete = true;
  entries.back().figures.push_back({"area", "Area of all panels", 30.4, "m²"});
  entries.back().figures.push_back({"hook_load", "Load of the hook", 498.0, "kg"});
  return entries;
}

/// More panels than stand on one page of any table or drawing, of many types and causes.
inline SyntheticDossier many_panels() {
  SyntheticDossier made = synthetic_dossier(36, 3);
  for (std::size_t i = 0; i < made.project.panels.size(); ++i) {
    const std::string type = "T" + std::to_string(i % 11) + " infill";
    made.project.panels[i].type = type;
    made.results.panels[i].type = type;
    for (RecordedFinding& finding : made.results.panels[i].findings) {
      if (!finding.reason.empty()) finding.reason += " Cause " + std::to_string(i % 17) + ".";
    }
  }
  made.project.batches = {{"B-1", "softwood C24", {"stud"}, {"D-1"}, {}}};
  for (std::size_t i = 0; i < made.project.panels.size(); ++i) made.project.batches[0].panels.push_back(i);
  return made;
}

/// Takes away what a project need not say.
inline void strip(SyntheticDossier& made) {
  made.project.evidence.clear();
  for (Panel& panel : made.project.panels) {
    panel.evidence.clear();
    panel.parts.clear();
    panel.layers.clear();
    panel.outside_known = false;
    panel.properties = {};
  }
  made.results.project = {"0Project", "", "", "", "", {}};
  BuildSummary& build = made.results.build;
  build.plugins.clear();
  build.evidence.clear();
  build.signed_for_issue = true;
  build.incomplete = true;
  build.failures = {"no plugin was found"};
}

}  // namespace panel_dossier::test
