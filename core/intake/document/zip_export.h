// The export inside a zip archive (.ifczip).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// An export comes alone or with a few pictures and tables; an archive of more is something else.
inline constexpr std::size_t kMostZipEntries = 1000;
/// The largest export that is unpacked, in memory: a town of panels.
inline constexpr std::size_t kLargestUnpacked_bytes = std::size_t{2} << 30U;
/// Exports shrink to a tenth or a thirtieth. Above the size below, an archive that grows more than this was made to
/// harm.
inline constexpr std::size_t kLargestZipRatio = 100;
inline constexpr std::size_t kRatioCounts_bytes = std::size_t{16} << 20U;

/// The one entry that ends in .ifc, .ifcxml or .xml, unpacked in memory; names inside are never used as paths. None,
/// reported, when there is not exactly one, when it is packed in a way that is not read, damaged, or beyond the limits.
std::optional<std::string> unpack_export(std::string_view archive, Reporter& report);

}  // namespace panel_dossier
