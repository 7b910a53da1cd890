// The tables of guidance that come with the program and its plugins, on the made-up project.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/finding/roles.h"
#include "core/dossier/guidance/guidance.h"
#include "tests/dossier/synthetic_project.h"

namespace panel_dossier::test {

inline GuidanceTables shipped_tables() {
  const std::filesystem::path root = PANEL_DOSSIER_SOURCE_DIR;
  GuidanceTables tables = read_guidance_folder(root / "core/dossier/guidance");
  for (const char* plugin : {"fire", "structural", "thermal"})
    put_over(tables.rows, read_guidance(root / "plugins" / plugin / "guidance.csv"));
  return tables;
}

inline Guidance guidance_of(const SyntheticDossier& made, const GuidanceTables& tables) {
  return make_guidance(made.project, made.settings, made.results, tables);
}

inline std::string all_texts(const Guidance& guidance, std::string_view topic) {
  std::string text;
  for (const Advice* advice : guidance.of_topic(topic)) text += advice->text + "\n";
  return text;
}

inline bool is_open(const Guidance& guidance, const std::string& words) {
  return std::any_of(guidance.open_points.begin(), guidance.open_points.end(), [&](const OpenPoint& point) {
    return point.what.find(words) != std::string::npos && !point.who.empty();
  });
}

inline DutyState duty_state(const Guidance& guidance, std::string_view id) {
  for (const DutyLine& line : guidance.duties) {
    if (line.duty.id == id) return line.state;
  }
  FAIL("no duty " << id);
  return DutyState::met;
}

inline void add_text(Properties& properties, const char* set, const char* name, const char* value) {
  properties.add(set, name, {std::string(value), "", export_origin("IfcPropertySingleValue", name, 7)});
}

inline void name_party(SyntheticDossier& made, const char* role) {
  made.project.parties.push_back({role, "", "Office", "", "office@example.org", {}});
}

/// Gives the panel a finding of the role in place of the one that it had.
inline void put_role(SyntheticDossier& made, std::size_t panel, std::string_view role, Value value, Verdict verdict,
                     Basis basis = Basis::test_evidence) {
  Finding finding;
  finding.check = "made_up." + std::string(role);
  finding.title = "Finding of the role " + std::string(role);
  finding.panel = made.results.panels[panel].global_id;
  finding.value = std::move(value);
  finding.verdict = verdict;
  finding.basis = basis;
  if (verdict != Verdict::pass && verdict != Verdict::information) finding.reason = "document 'TR-1' is not there";
  std::vector<RecordedFinding>& findings = made.results.panels[panel].findings;
  findings.erase(std::remove_if(findings.begin(), findings.end(),
                                [&](const RecordedFinding& other) { return other.check == finding.check; }),
                 findings.end());
  findings.push_back(FindingRecorder().record(finding));
  if (check_of_role(made.results.build, role) == nullptr) claim(made.results.build, role, finding.check);
}

}  // namespace panel_dossier::test
