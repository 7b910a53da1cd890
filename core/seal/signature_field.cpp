#include "core/seal/signature_field.h"

#include <algorithm>
#include <cstddef>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFXRefEntry.hh>
#include <qpdf/QUtil.hh>
#include <stdexcept>
#include <string>
#include <string_view>

#include "core/intake/document/sha256.h"
#include "core/seal/file_bytes.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signer.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

constexpr std::string_view kObjectEnd = "endobj";

Object signature_dictionary(std::size_t signature_bytes, const std::string& pdf_date) {
  Object signature = Object::parse("<< /Type /Sig /Filter /Adobe.PPKLite /SubFilter /ETSI.CAdES.detached >>");
  signature.replaceKey("/ByteRange", Object::parse(std::string(kByteRangePlaceholder)));
  signature.replaceKey("/Contents", Object::newString(std::string(signature_bytes, '\0')));
  signature.replaceKey("/M", Object::newString(pdf_date));
  return signature;
}

Object last_signature(QPDF& pdf, int index) {
  Object fields = pdf.getRoot().getKey("/AcroForm");
  fields = fields.isDictionary() ? fields.getKey("/Fields") : Object::newNull();
  if (!fields.isArray() || fields.getArrayNItems() != index + 1) {
    const std::string count = index == 0 ? "one form field" : std::to_string(index + 1) + " form fields";
    throw std::runtime_error("the file does not have exactly " + count + ", which should hold the signature");
  }
  Object field = fields.getArrayItem(index);
  Object signature = field.isDictionary() ? field.getKey("/V") : Object::newNull();
  const bool is_stamp = index > 0 && signature.isDictionaryOfType("/DocTimeStamp");
  if ((!signature.isDictionaryOfType("/Sig") && !is_stamp) || !signature.isIndirect() ||
      !field.getKey("/FT").isNameAndEquals("/Sig")) {
    throw std::runtime_error("the form field of the file holds no signature dictionary");
  }
  return signature;
}

std::size_t offset_of(QPDF& pdf, const Object& object) {
  const auto table = pdf.getXRefTable();
  const auto entry = table.find(object.getObjGen());
  constexpr int kPlainObject = 1;
  if (entry == table.end() || entry->second.getType() != kPlainObject) {
    throw std::runtime_error("the signature dictionary is not a plain object of the file");
  }
  return static_cast<std::size_t>(entry->second.getOffset());
}

struct Span {
  std::size_t begin;
  std::size_t end;
};

/// The value behind `key`, from its opening to its closing character, at `from` or later.
Span value_of(std::string_view bytes, std::size_t from, std::string_view key, char open, char close) {
  const std::size_t found = bytes.find(key, from);
  const std::size_t begin = found == std::string_view::npos ? found : bytes.find_first_not_of(' ', found + key.size());
  const std::size_t end = begin == std::string_view::npos ? begin : bytes.find(close, begin);
  if (end == std::string_view::npos || bytes[begin] != open) {
    throw std::runtime_error("the signature dictionary has no " + std::string(key) + " as this program writes it");
  }
  return {begin, end + 1};
}

/// The text of the object that begins at `start`, up to its end.
std::string object_at(ChangedCopy& file, std::size_t start) {
  constexpr std::size_t kStepBytes = std::size_t{1} << 16U;
  std::string object;
  for (std::size_t end = object.npos; end == object.npos && start + object.size() < file.size();) {
    const std::size_t from = start + object.size();
    file.read(from, std::min(from + kStepBytes, file.size()), [&](std::string_view block) { object += block; });
    end = object.find(kObjectEnd);
    object.resize(std::min(end, object.size()));
  }
  return object;
}

/// `text` in the room between the offsets, filled up with spaces before its last character.
std::string filled(std::size_t begin, std::size_t end, std::string text) {
  if (text.size() > end - begin) throw std::runtime_error("'" + text + "' does not fit its placeholder");
  text.insert(text.size() - 1, end - begin - text.size(), ' ');
  return text;
}

Digest signed_digest(ChangedCopy& file, const SignaturePlace& place) {
  Sha256 hasher;
  const auto add = [&](std::string_view block) { hasher.add(block); };
  file.read(0, place.contents_begin, add);
  file.read(place.contents_end, file.size(), add);
  return hasher.finish();
}

/// Finds the dictionary by its offset in the cross-reference table, never by its text alone, which an attachment could
/// also hold.
std::size_t signature_offset(const std::filesystem::path& file) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processFile(file.c_str());
  return offset_of(pdf, last_signature(pdf, 0));
}

}  // namespace

void add_signature_field(QPDF& pdf, std::size_t signature_bytes, const std::string& pdf_date) {
  const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
  if (pages.empty()) throw std::runtime_error("the dossier has no page to hold the signature field");
  Object page = pages.front().getObjectHandle();
  // Flags print and locked: an invisible field (empty rectangle) that no reader lets a user move or delete.
  Object field = Object::parse("<< /Type /Annot /Subtype /Widget /FT /Sig /T (Signature) /Rect [0 0 0 0] /F 132 >>");
  field.replaceKey("/P", page);
  field.replaceKey("/V", pdf.makeIndirectObject(signature_dictionary(signature_bytes, pdf_date)));
  field = pdf.makeIndirectObject(field);
  Object annotations = page.getKey("/Annots");
  if (!annotations.isArray()) {
    annotations = Object::newArray();
    page.replaceKey("/Annots", annotations);
  }
  annotations.appendItem(field);
  // SignaturesExist and AppendOnly (ISO 32000-2:2020, table 225).
  Object form = Object::parse("<< /SigFlags 3 >>");
  form.replaceKey("/Fields", Object::newArray({field}));
  pdf.getRoot().replaceKey("/AcroForm", form);
}

SignaturePlace signature_place(std::string_view object, std::size_t start) {
  // The writer sorts the keys, and the values before /M cannot hold these names.
  const Span byte_range = value_of(object, 0, "/ByteRange", '[', ']');
  const Span contents = value_of(object, byte_range.end, "/Contents", '<', '>');
  SignaturePlace place{start + contents.begin, start + contents.end, start + byte_range.begin, start + byte_range.end};
  if (object.find("/DocTimeStamp", contents.end) != std::string_view::npos) return place;
  const Span date = value_of(object, contents.end, "/M", '(', ')');
  place.date_begin = start + date.begin;
  place.date_end = start + date.end;
  return place;
}

std::string byte_range_text(const SignaturePlace& place, std::size_t file_size) {
  return filled(place.byte_range_begin, place.byte_range_end,
                "[0 " + std::to_string(place.contents_begin) + " " + std::to_string(place.contents_end) + " " +
                    std::to_string(file_size - place.contents_end) + "]");
}

std::string contents_text(const SignaturePlace& place, const std::string& signature) {
  const std::size_t room = place.contents_end - place.contents_begin - 2;
  if (2 * signature.size() > room) {
    throw std::runtime_error("the signature takes " + std::to_string(signature.size()) + " bytes and the file has " +
                             std::to_string(room / 2) + " for it");
  }
  std::string digits = QUtil::hex_encode(signature);
  digits.resize(room, '0');
  return digits;
}

SignatureFacts read_signature(QPDF& pdf, std::string_view bytes, int index) {
  SignatureFacts facts;
  Object signature = last_signature(pdf, index);
  const std::size_t start = offset_of(pdf, signature);
  const std::string_view object = start < bytes.size() ? bytes.substr(start) : std::string_view();
  facts.place = signature_place(object.substr(0, object.find(kObjectEnd)), start);
  for (Object number : signature.getKey("/ByteRange").aitems()) {
    facts.byte_range.push_back(number.isInteger() ? number.getIntValue() : -1);
  }
  if (Object name = signature.getKey("/SubFilter"); name.isName()) facts.sub_filter = name.getName();
  if (Object date = signature.getKey("/M"); date.isString()) facts.date = date.getStringValue();
  return facts;
}

void sign_dossier(const std::filesystem::path& file, const Signer& signer, const std::string& time_utc) {
  try {
    const std::size_t start = signature_offset(file);
    ChangedCopy copy(file);
    const SignaturePlace place = signature_place(object_at(copy, start), start);
    copy.put(place.byte_range_begin, byte_range_text(place, copy.size()));
    copy.put(place.date_begin, filled(place.date_begin, place.date_end, "(" + pdf_date(time_utc) + ")"));
    copy.put(place.contents_begin + 1, contents_text(place, signer.sign(signed_digest(copy, place))));
    copy.take_place();
  } catch (const std::exception& error) {
    throw std::runtime_error("cannot sign '" + file.string() + "': " + error.what());
  }
}

}  // namespace panel_dossier
