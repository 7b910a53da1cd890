// Incremental updates of a PDF (ISO 32000-2:2020, 7.5.6): objects appended, earlier bytes untouched. Private to the
// seal stage.
//
// An update is written in one form only, so that verification can write it again from what it says and compare octets:
// whatever does not fit that form was added by somebody else.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

class QPDF;
class QPDFObjectHandle;

namespace panel_dossier {

/// What an update follows on from.
struct RevisionEnd {
  std::size_t file_size = 0;
  std::size_t cross_reference = 0;  ///< offset of its cross-reference stream
  int object_count = 0;             ///< /Size: one more than the largest object number
  std::string root;                 ///< as `2 0 R`
  std::string info;                 ///< alike; empty: none
  std::string id;                   ///< the array of /ID
};

/// Of the revision that `bytes` end with. Throws std::runtime_error when they do not end as a revision does.
RevisionEnd revision_end(QPDF& pdf, std::string_view bytes);

/// Text of objects by their number, without `obj` and `endobj`.
using ObjectTexts = std::map<int, std::string>;

/// The bytes to append, and in `offsets`, if given, where each object's text begins in the file.
std::string increment_text(const RevisionEnd& before, const ObjectTexts& objects,
                           std::map<int, std::size_t>* offsets = nullptr);

/// A reference to the object of that number, which may not be there yet.
QPDFObjectHandle reference_to(QPDF& pdf, int number);

/// Text of a string object: hexadecimal UTF-16, for any text in UTF-8.
std::string text_string(const std::string& utf8);

/// Sizes of the file at the end of each revision, the first first, by the chain of cross-reference sections; its size
/// alone where there is no such chain. Nothing is promised about what the revisions hold.
std::vector<std::size_t> revision_sizes(std::string_view bytes);

}  // namespace panel_dossier
