// GlobalIds that stay the same from one run to the next.
#pragma once

#include <string>
#include <string_view>

namespace sample_export {

/// The IFC form (22 characters of the base-64 alphabet of ISO 16739-1, 8.3.2 IfcGloballyUniqueId) of a UUID version 8
/// (RFC 9562, 2024, 5.8) derived from `path`, which must be unique within the export.
std::string global_id(std::string_view path);

}  // namespace sample_export
