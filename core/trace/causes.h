// What differs between the inputs of two builds: the causes of whatever their findings say differently.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

enum class CauseKind {
  setting,        ///< one key of the settings file
  settings_file,  ///< the file as a whole: its layout or comments, or a build that kept no values
  export_file,    ///< with the panels whose data changed
  project_file,   ///< a file of the settings, the library or the records
  evidence,
  plugin,
  data_table,  ///< of a plugin
  program
};

/// The words used on pages and in print: `setting`, `settings file`, `export`, `project file`, `evidence`, `plugin`,
/// `data table`, `program`.
std::string_view to_string(CauseKind kind);

/// How much of a comparison stems from one cause.
struct Effects {
  std::size_t figures = 0;   ///< values that moved while their verdict stayed
  std::size_t verdicts = 0;  ///< that moved, or came or went with their finding
  std::size_t worse = 0;     ///< of these verdicts, for the worse
};

struct Cause {
  CauseKind kind = CauseKind::setting;
  std::string name;    ///< key, file, plugin id or `PLUGIN/TABLE`
  std::string before;  ///< value of the setting, version, or first 16 digits of the hash; empty for what is new
  std::string after;   ///< the same; empty for what is gone
  std::vector<std::string> panels = {};  ///< marks, for the export: data changed, came or went
  Effects effects = {};
  std::string id = {};  ///< of evidence, by which findings name it
};

/// `setting quarry.depth_m: 22.5 -> 25`; `none` for what was not there.
std::string to_string(const Cause& cause);

/// `454 figures, 2 verdicts (1 worse)`.
std::string to_string(const Effects& effects);

/// In the order of the kinds, then of the names; no effects yet, and no panels. Where either build kept no settings,
/// the settings file stands as a whole.
std::vector<Cause> causes_between(const BuildSummary& before, const BuildSummary& after);

}  // namespace panel_dossier
