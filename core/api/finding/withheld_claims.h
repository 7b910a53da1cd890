// Claims that may not be used, carried from the inputs to the findings that would rest on them.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier {

/// What the project and the settings hold and no check may use, because it is implausible or another source says
/// otherwise. A check that declares to read such a property or setting sees it as absent; where it could do without, it
/// must not pass all the same. The project and settings outlive it. Safe to share between threads.
class WithheldClaims {
 public:
  WithheldClaims(const Project& project, const Settings& settings);

  /// Of one panel: of itself, its parts, layers, openings and their materials, and of the project and the settings.
  /// Every finding of a check that declares to read one of them becomes `not assessed`, unless it fails or needs
  /// evidence, and its reason names the claim; so does a check that says it does not apply.
  void withhold(CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks, const Panel& panel) const;
  /// Of the project's findings: those of every panel count.
  void withhold(CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks) const;

  /// All of them, once each: what is wrong with which value, and where it stands.
  std::vector<std::string> all() const;

 private:
  /// Reasons by full name of the property, `layers`, `parts` or a table of records, or by key of the setting.
  using Reasons = std::multimap<std::string, std::string, std::less<>>;

  Reasons of_settings_;
  Reasons of_project_;
  std::vector<Reasons> of_materials_;  ///< by index
  Reasons of_all_;

  Reasons of_panel(const Panel& panel) const;
  static void apply(CheckOutcome& outcome, const std::vector<CheckDeclaration>& checks, const std::string& panel,
                    const Reasons& of_export, const Reasons& settings);
};

}  // namespace panel_dossier
