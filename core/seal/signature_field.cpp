#include "core/seal/signature_field.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFXRefEntry.hh>
#include <qpdf/QUtil.hh>
#include <stdexcept>

#include "core/seal/file_bytes.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signer.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

/// Three offsets of ten digits: room for files of almost 10 GB.
constexpr const char* kByteRangePlaceholder = "[0 9999999999 9999999999 9999999999]";

Object signature_dictionary(std::size_t signature_bytes, const std::string& pdf_date) {
  Object signature = Object::parse("<< /Type /Sig /Filter /Adobe.PPKLite /SubFilter /ETSI.CAdES.detached >>");
  signature.replaceKey("/ByteRange", Object::parse(kByteRangePlaceholder));
  signature.replaceKey("/Contents", Object::newString(std::string(signature_bytes, '\0')));
  signature.replaceKey("/M", Object::newString(pdf_date));
  return signature;
}

Object only_signature(QPDF& pdf) {
  Object fields = pdf.getRoot().getKey("/AcroForm");
  fields = fields.isDictionary() ? fields.getKey("/Fields") : Object::newNull();
  if (!fields.isArray() || fields.getArrayNItems() != 1) {
    throw std::runtime_error("the file does not have exactly one form field, which should hold the signature");
  }
  Object field = fields.getArrayItem(0);
  Object signature = field.isDictionary() ? field.getKey("/V") : Object::newNull();
  if (!signature.isDictionaryOfType("/Sig") || !signature.isIndirect() ||
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

/// Finds the dictionary by its offset in the cross-reference table, never by its text alone, which an attachment could
/// also hold. Throws std::runtime_error saying what is missing when `bytes` hold no single signature field as
/// add_signature_field writes it, and what QPDF throws when they are no sound PDF.
SignaturePlace find_signature(QPDF& pdf, std::string_view bytes) {
  const Object signature = only_signature(pdf);
  const std::size_t start = offset_of(pdf, signature);
  const std::size_t end = bytes.find("endobj", start);
  const std::string_view object = bytes.substr(0, end);
  // The writer sorts the keys, and the values before /M cannot hold these names.
  const Span byte_range = value_of(object, start, "/ByteRange", '[', ']');
  const Span contents = value_of(object, byte_range.end, "/Contents", '<', '>');
  const Span date = value_of(object, contents.end, "/M", '(', ')');
  return {contents.begin, contents.end, byte_range.begin, byte_range.end, date.begin, date.end};
}

/// Puts `text` over the placeholder between the offsets and fills up with spaces before its last character.
void fill(std::string& bytes, std::size_t begin, std::size_t end, std::string text) {
  if (text.size() > end - begin) throw std::runtime_error("'" + text + "' does not fit its placeholder");
  text.insert(text.size() - 1, end - begin - text.size(), ' ');
  bytes.replace(begin, text.size(), text);
}

void fill_signature(std::string& bytes, const SignaturePlace& place, const Signer& signer) {
  const std::string content = bytes.substr(0, place.contents_begin) + bytes.substr(place.contents_end);
  const std::string signature = QUtil::hex_encode(signer.sign(content));
  const std::size_t room = place.contents_end - place.contents_begin - 2;
  if (signature.size() > room) {
    throw std::runtime_error("the signature takes " + std::to_string(signature.size() / 2) +
                             " bytes and the file has " + std::to_string(room / 2) + " for it");
  }
  bytes.replace(place.contents_begin + 1, signature.size(), signature);
}

std::string signed_bytes(std::string bytes, const Signer& signer, const std::string& time_utc) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
  const SignaturePlace place = find_signature(pdf, bytes);
  fill(bytes, place.byte_range_begin, place.byte_range_end,
       "[0 " + std::to_string(place.contents_begin) + " " + std::to_string(place.contents_end) + " " +
           std::to_string(bytes.size() - place.contents_end) + "]");
  fill(bytes, place.date_begin, place.date_end, "(" + pdf_date(time_utc) + ")");
  fill_signature(bytes, place, signer);
  return bytes;
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

SignatureFacts read_signature(QPDF& pdf, std::string_view bytes) {
  SignatureFacts facts;
  facts.place = find_signature(pdf, bytes);
  Object signature = pdf.getRoot().getKey("/AcroForm").getKey("/Fields").getArrayItem(0).getKey("/V");
  for (Object number : signature.getKey("/ByteRange").aitems()) {
    facts.byte_range.push_back(number.isInteger() ? number.getIntValue() : -1);
  }
  if (Object name = signature.getKey("/SubFilter"); name.isName()) facts.sub_filter = name.getName();
  if (Object date = signature.getKey("/M"); date.isString()) facts.date = date.getStringValue();
  return facts;
}

void sign_dossier(const std::filesystem::path& file, const Signer& signer, const std::string& time_utc) {
  try {
    replace_file(file, signed_bytes(read_bytes(file), signer, time_utc));
  } catch (const std::exception& error) {
    throw std::runtime_error("cannot sign '" + file.string() + "': " + error.what());
  }
}

}  // namespace panel_dossier
