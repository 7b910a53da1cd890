#include "core/seal/revision/document_stamp.h"

#include <map>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include "core/seal/revision/added_field.h"
#include "core/seal/signature_field.h"

namespace panel_dossier {

ObjectTexts document_stamp_objects(QPDF& pdf, const RevisionEnd& before, int& stamp) {
  const int field = before.object_count;
  stamp = field + 1;
  AddedField added = added_field(pdf, field);
  const std::string name = "Time stamp " + std::to_string(added.number);
  // Invisible, printed and locked, as the field of the first signature.
  added.objects[field] = "<< /F 132 /FT /Sig /P " + added.page + " /Rect [0 0 0 0] /Subtype /Widget /T (" + name +
                         ") /TU (" + name + ") /Type /Annot /V " + reference(stamp) + " >>";
  added.objects[stamp] = "<< /ByteRange " + std::string(kByteRangePlaceholder) + " /Contents <" +
                         std::string(2 * kMostTokenBytes, '0') +
                         "> /Filter /Adobe.PPKLite /SubFilter /ETSI.RFC3161 /Type /DocTimeStamp >>";
  return std::move(added.objects);
}

bool ends_with_document_stamp(QPDF& pdf) {
  QPDFObjectHandle form = pdf.getRoot().getKey("/AcroForm");
  QPDFObjectHandle fields = form.isDictionary() ? form.getKey("/Fields") : QPDFObjectHandle::newNull();
  if (!fields.isArray() || fields.getArrayNItems() == 0) return false;
  QPDFObjectHandle last = fields.getArrayItem(fields.getArrayNItems() - 1);
  return last.isDictionary() && last.getKey("/V").isDictionaryOfType("/DocTimeStamp");
}

std::string stamp_document(std::string_view dossier, const TimeStamper& server) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", dossier.data(), dossier.size());
  const RevisionEnd before = revision_end(pdf, dossier);
  int number = 0;
  const ObjectTexts objects = document_stamp_objects(pdf, before, number);
  std::map<int, std::size_t> offsets;
  std::string bytes(dossier);
  bytes += increment_text(before, objects, &offsets);
  const SignaturePlace place = signature_place(objects.at(number), offsets.at(number));
  const std::string range = byte_range_text(place, bytes.size());
  bytes.replace(place.byte_range_begin, range.size(), range);
  const std::string stamped = bytes.substr(0, place.contents_begin) + bytes.substr(place.contents_end);
  const std::string digits = contents_text(place, server.token(stamped));
  bytes.replace(place.contents_begin + 1, digits.size(), digits);
  return bytes;
}

}  // namespace panel_dossier
