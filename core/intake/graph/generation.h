// Which IFC generation an export is written in.
#pragma once

#include <string>
#include <string_view>

#include "core/intake/graph/element.h"

namespace panel_dossier {

enum class Generation { unknown, ifc2x3, ifc4, ifc4x3 };

/// From a namespace of the standard, in any of its published spellings.
Generation generation_of_namespace(std::string_view uri);

/// From the namespaces of the root element and the elements directly inside.
Generation generation_of(const Element& root);

/// `IFC2x3 TC1`, `IFC4 ADD2 TC1`, `IFC4X3 ADD2`; empty for unknown.
std::string to_string(Generation generation);

}  // namespace panel_dossier
