#include "core/seal/signed_pdf.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <stdexcept>

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

std::string stream_bytes(Object stream) {
  const auto data = stream.getStreamData(qpdf_dl_all);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

}  // namespace

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

std::string read_metadata(QPDF& pdf) {
  Object metadata = pdf.getRoot().getKey("/Metadata");
  return metadata.isStream() ? stream_bytes(metadata) : std::string();
}

std::map<std::string, std::string> read_attachments(QPDF& pdf) {
  std::map<std::string, std::string> attachments;
  for (const auto& [name, file] : QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFiles()) {
    Object stream = file->getEmbeddedFileStream();
    if (!stream.isStream()) throw std::runtime_error("attachment '" + name + "' has no content");
    attachments[name] = stream_bytes(stream);
  }
  return attachments;
}

}  // namespace panel_dossier
