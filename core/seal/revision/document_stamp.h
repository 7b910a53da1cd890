// Document time stamps (ISO 32000-2:2020, 12.8.5; ETSI EN 319 142-1, baseline LTA): an update that proves when
// everything before it existed, the proofs that the dossier keeps among it. Private to the seal stage but for
// `stamp_document`.
#pragma once

#include <string>
#include <string_view>

#include "core/seal/revision/increment.h"
#include "core/seal/time/time_stamper.h"

class QPDF;

namespace panel_dossier {

/// The objects of an update to `pdf` with one document time stamp more, whose ByteRange and Contents are still empty;
/// in `stamp` the number of its dictionary. Throws std::runtime_error when the file has no signature yet.
ObjectTexts document_stamp_objects(QPDF& pdf, const RevisionEnd& before, int& stamp);

/// Whether the last field of the revision holds a document time stamp.
bool ends_with_document_stamp(QPDF& pdf);

/// The dossier with a document time stamp of that server behind it. Throws std::runtime_error when the bytes are no
/// dossier that this program signed, or the server gives none.
std::string stamp_document(std::string_view dossier, const TimeStamper& server);

}  // namespace panel_dossier
