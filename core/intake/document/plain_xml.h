// A quick look whether an export is beyond doubt, so that the whole check is only needed where something may be wrong.
#pragma once

#include <filesystem>
#include <string_view>

namespace panel_dossier {

/// True only for text that `check_xml` would pass without a word: well-formed XML without a document type declaration,
/// CDATA sections, entities of its own and processing instructions, nested no deeper than kMaxDepth, whose attributes
/// and values have the form that the schema in `schema_dir` asks for. False means nothing but that `check_xml` has to
/// look: that is also the answer to what is sound and unusual, and to a schema with a construct that is not known here.
/// The text must be UTF-8. Reports nothing, so that it may run on a thread of its own.
bool is_plainly_sound(std::string_view text, const std::filesystem::path& schema_dir);

}  // namespace panel_dossier
