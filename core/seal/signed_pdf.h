// What verification reads from a signed dossier. Private to the seal stage.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/seal/signature_field.h"

class QPDF;

namespace panel_dossier {

struct SignatureFacts {
  SignaturePlace place;
  std::vector<long long> byte_range;
  std::string sub_filter;  ///< with its slash
  std::string date;        ///< as in /M
};

/// Throws as find_signature does.
SignatureFacts read_signature(QPDF& pdf, std::string_view bytes);

/// The XMP metadata of the document; empty when there is none.
std::string read_metadata(QPDF& pdf);

/// Attached files by name. Throws std::runtime_error or what QPDF throws when one cannot be read.
std::map<std::string, std::string> read_attachments(QPDF& pdf);

}  // namespace panel_dossier
