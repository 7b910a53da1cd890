// The side of a worker: loads one plugin and answers what the program asks of its run.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "core/pipeline/byte_form/finding_fields.h"
#include "core/pipeline/worker/channel.h"

namespace panel_dossier {

/// What a plugin says of itself.
struct PluginDescription {
  PluginInfo info;
  std::vector<CheckDeclaration> checks;
};

void fields(auto& archive, EitherOf<PluginDescription> auto& description) {
  archive(description.info, description.checks);
}

/// Asked of the process that holds the plugin's run and makes workers of it.
enum class HostRequest { make_worker, end_worker };
template <>
inline constexpr HostRequest kLastOf<HostRequest> = HostRequest::end_worker;

/// Asked of a worker.
enum class WorkerRequest {
  check_panel,    ///< index of the panel
  take_findings,  ///< index and findings of a panel, for the project's check to come; not answered
  check_project,
  panel_rows,    ///< name of the output, index and findings of a panel
  project_rows,  ///< name of the output, findings of the project
};
template <>
inline constexpr WorkerRequest kLastOf<WorkerRequest> = WorkerRequest::project_rows;

// Every answer begins with a text that says what went wrong, empty when nothing did and what was asked for follows.

/// Answers with the PluginDescription.
void describe_plugin(Channel& channel, const std::filesystem::path& file);

/// Prepares a run of the plugin, answers with the problems it found, and then serves `HostRequest`s until the other end
/// is gone: each worker is a copy of this process, so that what all panels share is worked out once.
void host_plugin(Channel& channel, const std::filesystem::path& file, const Project& project, const Settings& settings);

}  // namespace panel_dossier
