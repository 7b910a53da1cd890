// Text of another encoding -> UTF-8, by the system's tables.
#pragma once

#include <string>
#include <string_view>

namespace panel_dossier {

struct ConvertedText {
  std::string text;       ///< in UTF-8, as far as it could be converted
  bool is_whole = false;  ///< false when the bytes are not what `encoding` says, or the system does not know it
};

/// `encoding` as iconv names it, such as `UTF-16LE` or `ISO-8859-5`.
ConvertedText converted_to_utf8(std::string_view bytes, const std::string& encoding);

}  // namespace panel_dossier
