// What a part of a panel is, from its entity and type names.
#pragma once

#include <string>
#include <string_view>

#include "core/api/model/part.h"

namespace panel_dossier {

/// `entity` is the IFC entity; `token` its PredefinedType or, where the standard has no fitting value, its ObjectType,
/// as `enumeration_token` writes it; may be empty.
PartKind part_kind(std::string_view entity, std::string_view token);

}  // namespace panel_dossier
