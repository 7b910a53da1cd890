// The graph of an export -> Project.
#pragma once

#include <cstddef>
#include <optional>

#include "core/api/model/project.h"
#include "core/intake/document/reporter.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/graph.h"

namespace panel_dossier {

/// Runs all readers in order. None when there is no IfcProject; else whatever could be read, which counts only when
/// `report` holds no error.
std::optional<Project> read_project(const Graph& graph, Reporter& report, const IntakeOptions& options,
                                    std::size_t file_size);

}  // namespace panel_dossier
