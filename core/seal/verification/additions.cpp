#include "core/seal/verification/additions.h"

#include <algorithm>
#include <cstddef>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFXRefEntry.hh>
#include <stdexcept>
#include <utility>
#include <vector>

#include "core/seal/revision/document_stamp.h"
#include "core/seal/revision/kept_proofs.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

void open_strictly(QPDF& pdf, std::string_view bytes) {
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
}

int field_count(QPDF& pdf) {
  Object form = pdf.getRoot().getKey("/AcroForm");
  Object fields = form.isDictionary() ? form.getKey("/Fields") : Object::newNull();
  return fields.isArray() ? fields.getArrayNItems() : 0;
}

/// What stands in the file for the object, which lies in the update.
std::string text_of(QPDF& pdf, std::string_view bytes, int number) {
  const auto table = pdf.getXRefTable();
  const auto entry = table.find(QPDFObjGen(number, 0));
  constexpr int kPlainObject = 1;
  const std::string head = std::to_string(number) + " 0 obj\n";
  if (entry == table.end() || entry->second.getType() != kPlainObject) return {};
  const auto offset = static_cast<std::size_t>(entry->second.getOffset());
  if (offset >= bytes.size() || bytes.substr(offset, head.size()) != head) return {};
  const std::size_t begin = offset + head.size();
  const std::size_t end = bytes.find("\nendobj\n", begin);
  return end == std::string_view::npos ? std::string() : std::string(bytes.substr(begin, end - begin));
}

/// Characters but spaces and line ends: a key that stands twice, of which readers take either, makes them more.
std::size_t solid_characters(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char character) { return character != ' ' && character != '\n'; }));
}

/// An object that stood there before keeps the form in which another version of the PDF library wrote it, if that says
/// the same.
void take_standing_forms(QPDF& after, std::string_view bytes, int first_new, ObjectTexts& objects) {
  for (auto& [number, text] : objects) {
    if (number >= first_new) break;
    const std::string found = text_of(after, bytes, number);
    if (!found.empty() && solid_characters(found) == solid_characters(text) &&
        Object::parse(&after, found).unparse() == Object::parse(&after, text).unparse()) {
      text = found;
    }
  }
}

template <typename Item>
void drop_first(std::vector<Item>& items, std::size_t count) {
  items.erase(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(std::min(count, items.size())));
}

KeptProofs added_proofs(QPDF& before, QPDF& after) {
  KeptProofs added = read_proofs(after);
  const KeptProofs known = read_proofs(before);
  drop_first(added.certificates, known.certificates.size());
  drop_first(added.revocation.lists, known.revocation.lists.size());
  drop_first(added.revocation.responses, known.revocation.responses.size());
  return added;
}

/// `object 12 (Page)`: what the update brings anew or in another form.
std::string changed_objects(QPDF& before, QPDF& after) {
  constexpr std::size_t kShown = 8;
  const auto old_table = before.getXRefTable();
  std::size_t count = 0;
  std::string text;
  for (const auto& [number, entry] : after.getXRefTable()) {
    const auto old = old_table.find(number);
    const auto place = [](const QPDFXRefEntry& where) {
      return where.getType() == 1 ? where.getOffset() : -where.getObjStreamNumber();
    };
    if (old != old_table.end() && old->second.getType() == entry.getType() && place(old->second) == place(entry))
      continue;
    if (++count > kShown) continue;
    Object object = after.getObject(number);
    Object type = object.isStream()       ? object.getDict().getKey("/Type")
                  : object.isDictionary() ? object.getKey("/Type")
                                          : Object::newNull();
    text += (text.empty() ? "object " : ", ") + std::to_string(number.getObj()) +
            (type.isName() ? " (" + type.getName().substr(1) + ")" : std::string());
  }
  if (count > kShown) text += " and " + std::to_string(count - kShown) + " more";
  return text.empty() ? "no object" : text;
}

struct Written {
  std::string bytes;
  Addition addition;
};

/// The update as this program would have written it.
Written written_again(QPDF& old_pdf, std::string_view before, QPDF& new_pdf, std::string_view after) {
  const RevisionEnd end = revision_end(old_pdf, before);
  Written written;
  const int fields = field_count(old_pdf);
  if (field_count(new_pdf) == fields) {
    const KeptProofs added = added_proofs(old_pdf, new_pdf);
    ObjectTexts objects = proof_objects(old_pdf, end, added);
    take_standing_forms(new_pdf, after, end.object_count, objects);
    written.bytes = increment_text(end, objects);
    written.addition.words = "kept proofs: " + std::to_string(added.certificates.size()) + " certificates, " +
                             std::to_string(added.revocation.lists.size()) + " revocation lists, " +
                             std::to_string(added.revocation.responses.size()) + " OCSP responses";
    return written;
  }
  written.addition.is_time_stamp = ends_with_document_stamp(new_pdf);
  if (!written.addition.is_time_stamp) written.addition.approval = read_approval(new_pdf);
  written.addition.facts = read_signature(new_pdf, after, fields);
  const SignaturePlace& place = written.addition.facts.place;
  int number = 0;
  ObjectTexts objects;
  if (const auto& approval = written.addition.approval) {
    objects = approval_objects(old_pdf, end, *approval, (place.contents_end - place.contents_begin - 2) / 2, number);
    written.addition.words = "a signature as " + approval->role;
  } else {
    objects = document_stamp_objects(old_pdf, end, number);
    written.addition.words = "a document time stamp";
  }
  take_standing_forms(new_pdf, after, end.object_count, objects);
  written.bytes = increment_text(end, objects);
  // ByteRange and Contents are looked at as a signature's are.
  for (const auto& [begin, last] :
       {std::pair(place.byte_range_begin, place.byte_range_end), std::pair(place.contents_begin, place.contents_end)}) {
    if (begin < before.size() || last - before.size() > written.bytes.size()) continue;
    written.bytes.replace(begin - before.size(), last - begin, after.substr(begin, last - begin));
  }
  return written;
}

}  // namespace

Addition read_addition(std::string_view before, std::string_view after) {
  QPDF old_pdf;
  QPDF new_pdf;
  open_strictly(old_pdf, before);
  open_strictly(new_pdf, after);
  std::string fault;
  try {
    Written written = written_again(old_pdf, before, new_pdf, after);
    if (after.substr(before.size()) == written.bytes) return written.addition;
    fault = "it is neither a signature nor a time stamp nor proofs as this program adds them";
  } catch (const std::exception& error) {
    fault = error.what();
  }
  throw std::runtime_error("changed after signing, by another hand: " + changed_objects(old_pdf, new_pdf) + "; " +
                           fault);
}

}  // namespace panel_dossier
