// Whether the bytes of a file are text that the program reads: UTF-8.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

struct EncodingFault {
  std::string message;                ///< `the file is not valid UTF-8 from this byte on`
  std::optional<std::size_t> offset;  ///< byte of the fault; none when the whole file is meant
};

/// What is wrong with the bytes: none at all, UTF-16, an XML declaration of another encoding, or no UTF-8 (RFC 3629).
/// None for non-empty UTF-8; a byte order mark is passed over.
std::optional<EncodingFault> encoding_fault(std::string_view bytes);

}  // namespace panel_dossier
