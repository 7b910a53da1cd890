// In which form an export is written, told by its content and never by its file's name.
#pragma once

#include <cstdint>
#include <string_view>

namespace panel_dossier {

enum class ExportForm : std::uint8_t {
  empty,
  xml,   ///< ifcXML, ISO 10303-28
  step,  ///< ISO 10303-21
  zip,   ///< either of the two, packed
  none,  ///< none of these
};

ExportForm form_of_export(std::string_view bytes);

}  // namespace panel_dossier
