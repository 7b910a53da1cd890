// The list of a file's pages with the hash of what is drawn on each, which is attached to the file. Private to the seal
// stage.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/intake/document/sha256.h"

class QPDF;

namespace panel_dossier {

struct ListedPage {
  std::string sha256;    ///< of its content streams, decoded, each followed by a line end
  std::string bookmark;  ///< the last that leads to the page or one before it: a panel's mark on its pages
};

/// Of all pages, in their order. Throws std::runtime_error or what QPDF throws when one cannot be decoded.
std::vector<ListedPage> page_list(QPDF& pdf);

/// CSV with columns `page` (from 1), `sha256`, `bookmark`.
std::string page_list_text(const std::vector<ListedPage>& pages);

/// The reverse. Throws std::runtime_error naming the line that has another form.
std::vector<ListedPage> page_list_from(const std::string& text);

/// What the page says in characters of ASCII, without spaces. `index` from 0.
std::string plain_text(QPDF& pdf, std::size_t index);

}  // namespace panel_dossier
