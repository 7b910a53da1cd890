#include "core/cli/build/dry_run.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <stdexcept>
#include <vector>

#include "core/api/support/words.h"
#include "core/cli/build/nights/kept_builds.h"
#include "core/cli/build/output/output_folder.h"
#include "core/cli/build/output/signing_key.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// The folder that files would be made in: the nearest one above the target that is there.
void require_writable_above(const fs::path& target) {
  fs::path folder = target.parent_path();
  while (!fs::exists(folder) && folder.has_relative_path()) folder = folder.parent_path();
  if (::access(folder.c_str(), W_OK | X_OK) == 0) return;
  throw std::runtime_error("cannot write beside '" + target.string() + "': " + std::strerror(errno));
}

std::string plugins_text(const PluginFolder& plugins) {
  std::size_t checks = 0;
  std::vector<std::string> texts;
  for (const LoadedPlugin& plugin : plugins.plugins) {
    const std::size_t own = plugin.plugin->checks().size();
    checks += own;
    texts.push_back(plugin.info.id + " " + plugin.info.version + " (" + std::to_string(own) + ")");
  }
  return std::to_string(checks) + " checks of " + std::to_string(texts.size()) + " plugins: " + joined(texts);
}

std::string files_text(const BuildOptions& options, const std::vector<std::string>& outputs) {
  std::vector<std::string> files{"dossier.pdf",     "workshop.pdf",  "companion.html", "cobie.xlsx",
                                 "tables.xlsx",     "workshop.xlsx", "results.json",   "checks.xml",
                                 "open-points.csv", "calendar.ics",  "build.log",      kSigningCertificateFile};
  files.insert(files.end(), outputs.begin(), outputs.end());
  if (options.labels) files.insert(files.end(), {"labels.pdf", "panel-labels.pdf"});
  if (options.issue.is_issue()) files.emplace_back(kIssueFile);
  return joined(files);
}

}  // namespace

std::string dry_run_text(const BuildOptions& options, const Inputs& inputs, const PluginFolder& plugins) {
  const fs::path target = normalised_target(options.out);
  const std::vector<std::string> outputs = output_names(plugins);
  require_replaceable(target, outputs);
  require_writable_above(target);
  const KeptBuilds kept(target);
  if (options.issue.is_issue()) kept.require_new_issue(options.issue.id);

  std::string text = "would read '" + options.input.export_file.string() + "' (" + inputs.intake.schema_version +
                     "): panels: " + std::to_string(inputs.intake.project->panels.size()) +
                     ", warnings: " + std::to_string(inputs.diagnostics.size()) + "\n";
  text += "would compute " + plugins_text(plugins) + "\n";
  for (const std::string& refused : plugins.refused) text += "would be incomplete: " + refused + "\n";
  if (const auto issue = kept.last_issue()) {
    text += "would compare with issue " + issue->mark.id + " of " + issue->time_utc + "\n";
  }
  const fs::path previous = options.previous.empty() ? target : options.previous;
  if (fs::exists(previous / "results.json")) text += "would compare with the build in '" + previous.string() + "'\n";
  if (options.issue.is_issue()) text += "would keep it as issue " + options.issue.id + "\n";
  text += "would write '" + target.string() + "'" +
          (fs::exists(target) ? ", in the place of the build that stands there: " : ": ") +
          files_text(options, outputs) + "\n";
  if (!options.write_back.empty()) text += "would write back to '" + options.write_back.string() + "'\n";
  return text + "nothing was computed, nothing was written\n";
}

}  // namespace panel_dossier
