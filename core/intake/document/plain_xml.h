// The tree of an export that is beyond doubt, so that the whole check is only needed where something may be wrong.
#pragma once

#include <filesystem>
#include <memory>
#include <string_view>

#include "core/intake/document/xml_tree.h"

namespace panel_dossier {

/// The tree, only of a text that `check_xml` would pass without a word: well-formed XML without a document type
/// declaration, CDATA sections, entities of its own, processing instructions and texts around elements or comments,
/// nested no deeper than kMaxDepth, whose attributes and values have the form that the schema in `schema_dir` asks for.
/// Null means nothing but that `check_xml` has to look: that is also the answer to what is sound and unusual, and to a
/// schema with a construct that is not known here. The text must be UTF-8 and outlive the tree. Reports nothing.
std::unique_ptr<XmlTree> plainly_sound_tree(std::string_view text, const std::filesystem::path& schema_dir);

}  // namespace panel_dossier
