// Small dossiers, finished and signed, for the tests of the seal.
#pragma once

#include <hpdf.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/intake/export_reader.h"
#include "core/seal/finish.h"
#include "core/seal/signature_field.h"
#include "core/seal/signer.h"
#include "core/seal/verify.h"
#include "core/trace/record.h"
#include "tests/trace/test_support.h"

namespace panel_dossier::testing {

inline constexpr const char* kSchemaDir = PANEL_DOSSIER_SOURCE_DIR "/schemas";
inline constexpr const char* kBuildTime = "2026-11-25T02:00:00Z";

inline constexpr const char* kExport = R"(<?xml version="1.0" encoding="UTF-8"?>
<ifcXML xmlns="http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" id="ifcXML4">
<IfcProject id="p" GlobalId="0pROJECT000000000000ab" Name="Prüfhaus – ≤ 3 storeys">
<IsDecomposedBy><IfcRelAggregates GlobalId="0rEL0000000000000000a1"><RelatedObjects>
<IfcBuilding id="b" GlobalId="0bUILDING00000000000ab" Name="house">
<IsDecomposedBy><IfcRelAggregates GlobalId="0rEL0000000000000000a2"><RelatedObjects>
<IfcBuildingStorey id="s" GlobalId="0sTOREY00000000000000a" Name="ground floor" Elevation="0">
<ContainsElements><IfcRelContainedInSpatialStructure GlobalId="0rEL0000000000000000a3"><RelatedElements>
<IfcWall id="w1" GlobalId="0wALL0000000000000001a" Name="wall 1" Tag="P-01">
<Representation xsi:type="IfcProductDefinitionShape"><Representations>
<IfcShapeRepresentation RepresentationIdentifier="Body" RepresentationType="SweptSolid"><Items>
<IfcExtrudedAreaSolid Depth="2800"><SweptArea xsi:type="IfcRectangleProfileDef" ProfileType="area" XDim="3000" YDim="300"/><ExtrudedDirection DirectionRatios="0 0 1"/></IfcExtrudedAreaSolid>
</Items></IfcShapeRepresentation></Representations></Representation>
<IsDefinedBy><IfcRelDefinesByProperties GlobalId="0rEL0000000000000000a4"><RelatingPropertyDefinition xsi:type="IfcPropertySet" GlobalId="0sET00000000000000001a" Name="Panel_Identity"><HasProperties>
<IfcPropertySingleValue Name="Mark"><NominalValue><IfcIdentifier-wrapper>P-01</IfcIdentifier-wrapper></NominalValue></IfcPropertySingleValue>
</HasProperties></RelatingPropertyDefinition></IfcRelDefinesByProperties></IsDefinedBy>
</IfcWall>
</RelatedElements></IfcRelContainedInSpatialStructure></ContainsElements>
</IfcBuildingStorey>
</RelatedObjects></IfcRelAggregates></IsDecomposedBy>
</IfcBuilding>
</RelatedObjects></IfcRelAggregates></IsDecomposedBy>
<UnitsInContext><Units><IfcSIUnit UnitType="lengthunit" Prefix="milli" Name="metre"/></Units></UnitsInContext>
</IfcProject>
</ifcXML>
)";

inline constexpr const char* kSettings = R"({"intake": {"layer_order": "inside_to_outside"}})";

/// Text and exit status of a command of the shell.
struct CommandOutcome {
  std::string text;
  int status = -1;
};

inline CommandOutcome run_command(const std::string& command) {
  CommandOutcome outcome;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  std::array<char, 4096> block{};
  for (std::size_t count = 0; (count = fread(block.data(), 1, block.size(), pipe)) > 0;) {
    outcome.text.append(block.data(), count);
  }
  outcome.status = pclose(pipe);
  return outcome;
}

inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// The record of the export above, with one finding.
inline ResultsDocument exported_document(bool for_issue = false) {
  IntakeOptions options;
  options.schema_dir = kSchemaDir;
  options.project_dir = ".";
  options.default_layer_order = LayerOrder::inside_to_outside;
  const IntakeResult read = read_export(kExport, "export.xml", options);
  for (const auto& diagnostic : read.diagnostics) INFO(to_string(diagnostic));
  REQUIRE(read.project.has_value());
  Results results;
  results.panel_not_applicable.resize(1);
  results.panel_findings = {FindingRecorder().record_all({sample_finding(read.project->panels.front().global_id)})};
  BuildFacts facts = sample_facts(kExport);
  facts.time_utc = kBuildTime;
  facts.settings_bytes = kSettings;
  facts.signed_for_issue = for_issue;
  return make_results_document(*read.project, results, facts);
}

inline std::vector<Attachment> attachments_of(const ResultsDocument& document) {
  return {{"results.json", "application/json", "results", "Data", to_json(document)},
          {"project.xml", "application/xml", "export", "Source", kExport},
          {"settings.json", "application/json", "settings", "Source", kSettings}};
}

/// One page of text. Without a font file, with a standard font that is not embedded, so that the file is small.
inline std::filesystem::path write_pages(const TemporaryFolder& dir, const std::string& text,
                                         const std::string& font_file = {}) {
  HPDF_Doc pdf = HPDF_New(nullptr, nullptr);
  HPDF_UseUTFEncodings(pdf);
  HPDF_SetCompressionMode(pdf, HPDF_COMP_ALL);
  HPDF_Font font = font_file.empty()
                       ? HPDF_GetFont(pdf, "Helvetica", nullptr)
                       : HPDF_GetFont(pdf, HPDF_LoadTTFontFromFile(pdf, font_file.c_str(), HPDF_TRUE), "UTF-8");
  HPDF_Page page = HPDF_AddPage(pdf);
  HPDF_Page_BeginText(page);
  HPDF_Page_SetFontAndSize(page, font, 12);
  HPDF_Page_TextOut(page, 50, 700, text.c_str());
  HPDF_Page_EndText(page);
  const std::filesystem::path file = dir.path() / "pages.pdf";
  const HPDF_STATUS status = HPDF_SaveToFile(pdf, file.c_str());
  HPDF_Free(pdf);
  REQUIRE(status == HPDF_OK);
  return file;
}

/// A dossier of the export above in `dir`, signed by `signer`.
inline std::filesystem::path write_signed(const TemporaryFolder& dir, const ResultsDocument& document,
                                          const std::vector<Attachment>& attachments, const Signer& signer) {
  const std::filesystem::path file = dir.path() / "dossier.pdf";
  finish_dossier(write_pages(dir, "panel dossier"), document, attachments, signer.signature_bytes(), file);
  sign_dossier(file, signer, kBuildTime);
  return file;
}

/// One key for all tests, because making it is slow.
inline const Signer& demonstration_signer() {
  static const std::unique_ptr<Signer> signer = make_demonstration_signer();
  return *signer;
}

inline std::filesystem::path write_demonstration(const TemporaryFolder& dir) {
  const ResultsDocument document = exported_document();
  return write_signed(dir, document, attachments_of(document), demonstration_signer());
}

inline std::string steps_text(const Verification& verification) {
  std::string text;
  for (const auto& step : verification.steps) {
    text += (step.holds ? "holds " : "FAILS ") + step.what + ": " + step.detail + "\n";
  }
  return text;
}

}  // namespace panel_dossier::testing
