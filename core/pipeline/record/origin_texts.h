// Texts of origins, shared by all origins that hold the same ones.
#pragma once

#include <string_view>
#include <unordered_map>

#include "core/api/model/origin.h"
#include "core/api/support/shared_text.h"

namespace panel_dossier {

/// Origins that came from a worker, a store or a results.json share no text with those of the next panel, and texts are
/// most of what they take. Belongs to one thread.
class OriginTexts {
 public:
  /// Gives the origin the texts of those that came before it, where they are equal.
  void share(Origin& origin);

 private:
  std::unordered_map<std::string_view, SharedText> texts_;  ///< each under a view of itself

  void share_text(SharedText& text);
};

}  // namespace panel_dossier
