#include "core/pipeline/record/origin_texts.h"

namespace panel_dossier {

void OriginTexts::share(Origin& origin) {
  for (SharedText* text :
       {&origin.entity, &origin.global_id, &origin.property, &origin.table, &origin.row, &origin.source, &origin.key}) {
    share_text(*text);
  }
}

void OriginTexts::share_text(SharedText& text) {
  if (text.empty()) return;
  const auto known = texts_.find(text.str());
  if (known != texts_.end()) {
    text = known->second;
  } else {
    texts_.emplace(text.str(), text);
  }
}

}  // namespace panel_dossier
