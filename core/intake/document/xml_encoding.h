// XML in the encodings that exporters write -> UTF-8.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// The text in UTF-8, converted where it is UTF-16, by its mark or its first character, or ISO 8859-1, by declaration:
/// every line break is kept, and the declaration no longer names an encoding. A text that is UTF-8 is not copied;
/// `bytes` must then outlive the result.
class Utf8Xml {
 public:
  /// None, reported once, for any other encoding and for bytes that are not what they claim.
  /// Tells `report` where the lines begin.
  static std::optional<Utf8Xml> of(std::string_view bytes, Reporter& report);

  std::string_view text() const { return converted_ ? std::string_view(*converted_) : bytes_; }

 private:
  std::string_view bytes_;
  std::optional<std::string> converted_;
};

}  // namespace panel_dossier
