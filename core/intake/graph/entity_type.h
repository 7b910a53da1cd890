// What an element of the export stands for.
#pragma once

#include <string>
#include <string_view>

#include "core/intake/graph/element.h"

namespace panel_dossier {

/// The IFC type of an element: its own name, its `xsi:type`, or the only type that an attribute element of that name
/// can have. Empty when it is none of these. A `-wrapper` suffix is dropped.
std::string_view ifc_type(const Element& element);

/// The GlobalId of the element itself, whichever way it is written; empty when it has none.
std::string own_global_id(const Element& element);

/// True for an element that only points to another one by `ref` or `href`.
bool is_reference(const Element& element);

/// The id a reference points to, without the leading `#`.
std::string_view reference_target(const Element& element);

/// Upper-case letters and digits, with one underscore for anything between: `Sole plate` -> `SOLE_PLATE`.
std::string enumeration_token(std::string_view text);

}  // namespace panel_dossier
