// Reads results.json back, for comparison, tracing and verification.
#pragma once

#include <filesystem>
#include <string_view>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// Findings of one derivation share it as they did when they were recorded. Hashes are taken as stated. Throws
/// std::runtime_error naming what is wrong when the text is not a results.json of a version this program reads, or when
/// its findings and derivations do not fit each other.
ResultsDocument results_from_json(std::string_view text);

/// The same of a file, which is read twice and never held as a whole. With `sharing`, derivations that it has too are
/// its own. Throws also when the file cannot be read.
ResultsDocument results_from_file(const std::filesystem::path& file, const ResultsDocument* sharing = nullptr);

/// What the file says of its build; what stands behind that is not read. Throws as `results_from_file`.
BuildSummary build_from_file(const std::filesystem::path& file);

}  // namespace panel_dossier
