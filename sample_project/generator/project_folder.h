// What lies beside the export of a project that is scaled up: settings, prices, targets and evidence.
#pragma once

#include <cstddef>
#include <filesystem>

namespace sample_export {

/// Writes into `folder`, which is made where it is not there, copies of the sample project's files in
/// `sample`, fitted to `panels` panels: a place of the crane for each wing, cranes and start of the programme, and
/// delivery notes for every batch. The export itself is not among them. Throws std::runtime_error when a file cannot be
/// read or written.
void write_project_folder(const std::filesystem::path& sample, const std::filesystem::path& folder, std::size_t panels);

}  // namespace sample_export
