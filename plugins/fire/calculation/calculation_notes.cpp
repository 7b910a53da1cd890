#include "plugins/fire/calculation/calculation_notes.h"

#include "core/api/support/words.h"

namespace panel_dossier::fire {

const char* face(bool fire_inside) {
  return fire_inside ? "inside" : "outside";
}

void note_scope(FindingBuilder& builder, const Cassette& cassette) {
  builder.note(
      "The calculation is for the bare cassette: framing, cavity and the board on either face. It stands beside the "
      "evidence and never outranks it." +
      (cassette.not_counted.empty() ? std::string() : " Not counted: " + joined(cassette.not_counted, "; ") + "."));
  if (cassette.filling && cassette.filling->type_assumed) {
    builder.note(
        "The export says mineral wool without its kind (Panel_Fire.InsulationType); the calculation takes it as "
        "glass wool, the weaker of the two.");
  }
}

}  // namespace panel_dossier::fire
