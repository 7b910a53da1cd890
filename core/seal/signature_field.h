// The signature field of a dossier and where its placeholders lie in the file. Private to the seal stage.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

class QPDF;

namespace panel_dossier {

/// Adds an invisible signature field on the first page, with an unsigned PAdES signature (ETSI EN 319 142-1) that has
/// room for `signature_bytes` bytes. Throws std::runtime_error when there is no page.
void add_signature_field(QPDF& pdf, std::size_t signature_bytes, const std::string& pdf_date);

/// Where the parts of the one signature dictionary lie, as offsets into the file.
struct SignaturePlace {
  std::size_t contents_begin = 0;    ///< of the `<` of /Contents
  std::size_t contents_end = 0;      ///< behind its `>`
  std::size_t byte_range_begin = 0;  ///< of the `[` of /ByteRange
  std::size_t byte_range_end = 0;    ///< behind its `]`
  std::size_t date_begin = 0;        ///< of the `(` of /M
  std::size_t date_end = 0;          ///< behind its `)`
};

/// Finds the dictionary by its offset in the cross-reference table, never by its text alone, which an attachment could
/// also hold. Throws std::runtime_error saying what is missing when `bytes` hold no single signature field as
/// add_signature_field writes it, and what QPDF throws when they are no sound PDF.
SignaturePlace find_signature(QPDF& pdf, std::string_view bytes);

}  // namespace panel_dossier
