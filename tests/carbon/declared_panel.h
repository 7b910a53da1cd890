// A timber panel whose materials carry declarations, and the data tables as they are shipped.
#pragma once

#include <cstddef>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/testing/change.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/panels.h"
#include "core/api/testing/properties.h"
#include "core/api/testing/temporary_folder.h"
#include "plugins/carbon/checks.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::testing {

inline const carbon::Tables& carbon_tables() {
  static const carbon::Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/carbon/data");
  return tables;
}

/// Declared values in kg CO2e per declared unit.
struct Declared {
  const char* unit = "kg";
  double fossil = 0.0;
  double biogenic = 0.0;
  double luluc = 0.0;
  double c1 = 0.0;
  double c2 = 0.0;
  double c3 = 0.0;
  double c4 = 0.0;
  double d = 0.0;
  double waste = 0.0;
};

inline constexpr const char* kDeclaredSet = "Panel_EnvironmentalDeclaration";

inline void declare(Material& material, const Declared& declared, double distance_m) {
  Properties& p = material.properties;
  put(p, kDeclaredSet, "DocumentId", std::string("EPD-1"));
  put(p, kDeclaredSet, "DeclaredUnit", std::string(declared.unit));
  put(p, kDeclaredSet, "ValidUntil", std::string("2029-12-31"));
  put(p, kDeclaredSet, "DataKind", std::string("SPECIFIC"));
  put(p, kDeclaredSet, "GwpFossilA1A3", declared.fossil);
  put(p, kDeclaredSet, "GwpBiogenicA1A3", declared.biogenic);
  put(p, kDeclaredSet, "GwpLulucA1A3", declared.luluc);
  put(p, kDeclaredSet, "GwpTotalC1", declared.c1);
  put(p, kDeclaredSet, "GwpTotalC2", declared.c2);
  put(p, kDeclaredSet, "GwpTotalC3", declared.c3);
  put(p, kDeclaredSet, "GwpTotalC4", declared.c4);
  put(p, kDeclaredSet, "GwpTotalD", declared.d);
  put(p, kDeclaredSet, "WasteRateA5", declared.waste);
  put(p, "Panel_Supply", "TransportDistance", distance_m);
  put(p, "Panel_Supply", "ServiceLife", 60.0);
}

/// The timber panel without its layers, with studs (0.08505 m³ of softwood) and one lining board (0.081 m³, 64.8 kg of
/// gypsum).
struct DeclaredPanel : TimberPanel {
  /// What documents of the evidence state as files, by their id.
  std::map<std::string, carbon::DeclarationFile> files;

  DeclaredPanel() {
    panel().layers.clear();  // each layer of wool and board would ask for its part
    add_part(panel(), PartKind::sheet, "Lining board", gypsum, {{0.0, 0.0, 0.0}, {2.4, 0.0125, 2.7}});
    declare(project.materials[timber], {"m3", 60.0, -700.0, 1.0, 0.5, 4.0, 705.0, 0.0, -120.0, 0.10}, 400e3);
    declare(project.materials[gypsum], {"kg", 0.25, 0.0, 0.0, 0.01, 0.01, 0.01, 0.02, 0.0, 0.20}, 100e3);
    put(project.materials[timber].properties, "Panel_Timber", "ReferenceMoistureContent", 0.12);
    put(project.materials[timber].properties, "Panel_Supply", "ChainOfCustodyClaim", std::string("CERTIFIED"));
    put(project.materials[timber].properties, "Panel_Supply", "ChainOfCustodyDocument", std::string("COC-1"));
    put(project.materials[timber].properties, "Panel_Supply", "ChainOfCustodyDate", std::string("2026-03-02"));
    put(project.materials[timber].properties, "Panel_Supply", "DeliveryNote", std::string("DN-1"));
    for (const auto& [id, kind] : {std::pair{"EPD-1", EvidenceKind::environmental_declaration},
                                   {"COC-1", EvidenceKind::chain_of_custody_certificate},
                                   {"DN-1", EvidenceKind::other}}) {
      project.evidence.push_back({id, id, std::string("evidence/") + id, EvidenceStatus::present, {}, kind, id});
    }
    Evidence& certificate = project.evidence[1];
    certificate.issuer = "certification body";
    certificate.issued = "2025-01-01";
    certificate.expires = "2029-12-31";
    certificate.subject = "sawmill";
    certificate.scope = "softwood, strand board, other material: CERTIFIED";
    project.evidence[2].scope = "softwood, strand board and other material, delivery of March";
    settings.set("carbon.road_transport_gwp_kgco2e_per_tonne_km", 0.1);
    settings.set("carbon.site_assembly_gwp_kgco2e_per_m2", 1.5);
    set_target(0, "A1-A5", "every panel", 120.0);
    set_target(1, "A-C", "every panel", 100.0);
    settings.set("carbon.study_period_years", 60.0);
  }

  /// Row `row` of the targets, which is given in the settings and has no dates.
  void set_target(int row, const std::string& modules, const std::string& applies_to, double limit) {
    const std::string key = "carbon.targets." + std::to_string(row) + ".";
    settings.set(key + "name", "Target " + std::to_string(row));
    settings.set(key + "modules", modules);
    settings.set(key + "applies_to", applies_to);
    settings.set(key + "limit_kgco2e_per_m2", limit);
    settings.set(key + "source", std::string("project brief"));
  }

  /// Gives one property of a material another value, or takes it away.
  void replace(std::size_t material, std::string_view set, std::string_view name,
               std::optional<std::variant<double, bool, std::string>> value) {
    Properties changed;
    const std::string full = std::string(set) + "." + std::string(name);
    for (const auto& [key, property] : project.materials[material].properties.all()) {
      const auto dot = key.find('.');
      if (key != full) changed.add(key.substr(0, dot), key.substr(dot + 1), property);
    }
    if (value) put(changed, set, name, *value);
    project.materials[material].properties = changed;
  }
};

/// As a run of the plugin would have them, were the model's files in the project folder.
inline std::vector<carbon::DeclarationFile> files_of(const DeclaredPanel& model) {
  std::vector<carbon::DeclarationFile> files;
  for (const Evidence& evidence : model.project.evidence) {
    const auto found = model.files.find(evidence.id);
    files.push_back(found == model.files.end() ? carbon::DeclarationFile() : found->second);
  }
  return files;
}

inline std::vector<Finding> check(const DeclaredPanel& model, const Panel& panel) {
  const carbon::RunInputs inputs(model.project, model.settings, carbon_tables(), files_of(model));
  return carbon::check_panel(panel, inputs).findings;
}

/// Of the model's first panel.
inline std::vector<Finding> check(const DeclaredPanel& model) {
  return check(model, model.project.panels.front());
}

/// Of every panel.
inline std::vector<PanelFindings> check_panels(const DeclaredPanel& model) {
  std::vector<PanelFindings> panels;
  for (const Panel& panel : model.project.panels) panels.push_back({&panel, check(model, panel)});
  return panels;
}

inline std::vector<Finding> totals_of(const DeclaredPanel& model, const std::vector<PanelFindings>& panels) {
  const carbon::RunInputs inputs(model.project, model.settings, carbon_tables(), files_of(model));
  return carbon::check_project(inputs, panels).findings;
}

inline std::vector<Finding> totals_of(const DeclaredPanel& model) {
  return totals_of(model, check_panels(model));
}

/// The finding's table of that title, or null.
inline const Table* table_titled(const Finding& finding, std::string_view title) {
  for (const Table& table : finding.tables) {
    if (table.title == title) return &table;
  }
  return nullptr;
}

/// One finding of the first panel.
inline Finding checked(const DeclaredPanel& model, const char* id) {
  return finding_of(check(model), id);
}

/// Projects and settings for tables of cases: the declared panel, alone and with a second one that has a stud less. Its
/// materials by index: gypsum board 0, softwood 2.
inline constexpr std::size_t kBoardMaterial = 0;
inline constexpr std::size_t kWoodMaterial = 2;

inline Project declared_project() {
  return DeclaredPanel().project;
}

inline Project two_declared_panels() {
  Project project = DeclaredPanel().project;
  Panel second = project.panels.front();
  second.mark = "P-02";
  second.global_id.back() = '2';
  second.parts.erase(second.parts.begin());
  project.panels.push_back(second);
  return project;
}

inline Settings declared_settings() {
  return DeclaredPanel().settings;
}

/// Target `row` as `DeclaredPanel::set_target` gives it.
inline Change set_target(int row, const std::string& modules, const std::string& applies_to, double limit) {
  return [=](Project&, Settings& settings) {
    DeclaredPanel model;
    model.set_target(row, modules, applies_to, limit);
    const std::string prefix = "carbon.targets." + std::to_string(row) + ".";
    for (const auto& [key, value] : model.settings.all()) {
      if (key.starts_with(prefix)) settings.set(key, value);
    }
  };
}

/// Both materials, or the board alone, name the document EPD-2: a CSV file of these lines behind its header.
inline Change declare_by_file(const std::string& lines, bool board_alone = false) {
  return [=](Project& project, Settings&) {
    static std::deque<TemporaryFolder> folders;  // as long as the program: a run may read them at any time
    folders.emplace_back();
    folders.back().write("evidence/EPD-2.csv", "field,module,value,unit\n" + lines);
    project.folder = folders.back().path().string();
    project.evidence.push_back({"EPD-2", "EPD-2", "evidence/EPD-2.csv", EvidenceStatus::present, {}});
    for (const std::size_t material : {kBoardMaterial, kWoodMaterial}) {
      if (board_alone && material == kWoodMaterial) continue;
      testing::replace(project.materials[material].properties, kDeclaredSet, "DocumentId", property_of("EPD-2"));
    }
  };
}

/// Lines that declare 0.5 of each core indicator for each module, but for one indicator.
inline std::string core_lines(const std::string& but_for = {}) {
  std::string lines;
  for (const std::string& key : carbon_tables().core_indicators.keys()) {
    if (key == but_for) continue;
    const std::string unit = carbon_tables().core_indicators.text(key, "unit").value().value;
    for (const char* module : {"A1-A3", "C1", "C2", "C3", "C4", "D"})
      lines += key + "," + module + ",0.5," + unit + "\n";
  }
  return lines;
}

}  // namespace panel_dossier::testing
