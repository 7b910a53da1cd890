// The signature field of a dossier: added empty, filled by signing, read again by verification.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/seal/signer.h"

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
  std::size_t date_begin = 0;        ///< of the `(` of /M; 0 for a document time stamp, which has none
  std::size_t date_end = 0;          ///< behind its `)`
};

/// What verification reads of the signature dictionary.
struct SignatureFacts {
  SignaturePlace place;
  std::vector<long long> byte_range;
  std::string sub_filter;  ///< with its slash
  std::string date;        ///< as in /M; empty for a document time stamp
};

/// Of the signature, or document time stamp, of the field at `index`, the last of `index + 1` fields. Throws
/// std::runtime_error saying what is missing when `bytes` hold no such signature field as add_signature_field writes
/// it, and what QPDF throws when they are no sound PDF.
SignatureFacts read_signature(QPDF& pdf, std::string_view bytes, int index = 0);

/// Where the parts lie of a signature dictionary whose text stands at `start` of the file. Throws std::runtime_error
/// saying what is missing when it is not as add_signature_field writes it.
SignaturePlace signature_place(std::string_view object, std::size_t start);

/// The array of ByteRange for a file of that size, as long as its placeholder.
std::string byte_range_text(const SignaturePlace& place, std::size_t file_size);

/// The signature in hexadecimal digits, filled up with zeros to the room between the offsets of the place. Throws
/// std::runtime_error when it takes more.
std::string contents_text(const SignaturePlace& place, const std::string& signature);

/// Stands for an array of ByteRange until the size of the file is known: three offsets of ten digits, room for files
/// of almost 10 GB.
inline constexpr std::string_view kByteRangePlaceholder = "[0 9999999999 9999999999 9999999999]";

/// Signs the finished file in place: fills ByteRange and Contents of its empty signature field. Throws
/// std::runtime_error when the file has no such field or the signature does not fit.
void sign_dossier(const std::filesystem::path& file, const Signer& signer, const std::string& time_utc);

}  // namespace panel_dossier
