// Mends the ToUnicode maps that the page writer leaves malformed. Private to the seal stage.
#pragma once

class QPDF;

namespace panel_dossier {

/// The page writer numbers the glyphs of its UTF-8 fonts by UTF-16 code unit, which its explicit CIDToGIDMap then leads
/// to glyphs. It says so in ToUnicode with `cidrange`, an operator that only character-to-CID maps have (ISO
/// 32000-2:2020, 9.10.3), so readers drop the map and warn. Each such map is replaced by the identity written with
/// `bfrange`. Throws std::runtime_error naming a composite font whose map is neither that one nor well formed.
void mend_text_maps(QPDF& pdf);

}  // namespace panel_dossier
