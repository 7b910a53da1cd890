// The standard's words in an export: what an element stands for, which entities are read, and of which generation.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/intake/graph/element.h"

namespace panel_dossier {

/// The IFC type of an element: its own name, its `xsi:type`, or the only type that an attribute element of that name
/// can have. Empty when it is none of these. A `-wrapper` suffix is dropped.
std::string_view ifc_type(const Element& element);
/// The same where `xsi:type` is known already.
std::string_view ifc_type(const Element& element, std::optional<std::string_view> xsi_type);

/// The GlobalId of the element itself, whichever way it is written; empty when it has none.
std::string own_global_id(const Element& element);

/// True for an element that only points to another one by `ref` or `href`.
bool is_reference(const Element& element);

/// An id as `ref` or `href` gives it, without the leading `#`.
std::string_view without_hash(std::string_view target);

/// The id a reference points to, without the leading `#`.
std::string_view reference_target(const Element& element);

/// Upper-case letters and digits, with one underscore for anything between: `Sole plate` -> `SOLE_PLATE`.
std::string enumeration_token(std::string_view text);

/// Entities that the reader starts from, so that the graph keeps a list of each.
bool is_listed_type(std::string_view type);

/// Entities that are read when another one leads to them, or that carry nothing but structure. All others are
/// counted as skipped.
bool is_read_type(std::string_view type);

/// Walls of all generations.
bool is_wall_type(std::string_view type);

enum class Generation { unknown, ifc2x3, ifc4, ifc4x3 };

/// From a namespace of the standard, in any of its published spellings.
Generation generation_of_namespace(std::string_view uri);

/// From the namespaces of the root element and of the elements in it, two levels deep.
Generation generation_of(const Element& root);

/// `IFC2x3 TC1`, `IFC4 ADD2 TC1`, `IFC4X3 ADD2`; empty for unknown.
std::string to_string(Generation generation);

}  // namespace panel_dossier
