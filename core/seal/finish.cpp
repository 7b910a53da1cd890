#include "core/seal/finish.h"

#include <algorithm>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>
#include <stdexcept>

#include "core/seal/metadata.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signature_field.h"
#include "core/seal/text_map.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

void attach(QPDF& pdf, const std::vector<Attachment>& attachments, const std::string& date) {
  QPDFEmbeddedFileDocumentHelper embedded(pdf);
  Object associated = Object::newArray();
  for (const Attachment& attachment : attachments) {
    if (embedded.getEmbeddedFile(attachment.name)) {
      throw std::runtime_error("two attachments are named '" + attachment.name + "'");
    }
    auto stream = QPDFEFStreamObjectHelper::createEFStream(pdf, attachment.bytes);
    stream.setCreationDate(date).setModDate(date).setSubtype(attachment.mime_type);
    auto file = QPDFFileSpecObjectHelper::createFileSpec(pdf, attachment.name, stream);
    file.setDescription(attachment.description);
    Object specification = file.getObjectHandle();
    specification.replaceKey("/AFRelationship", Object::newName("/" + attachment.relationship));
    embedded.replaceEmbeddedFile(attachment.name, file);
    associated.appendItem(specification);
  }
  pdf.getRoot().replaceKey("/AF", associated);
}

void describe_document(QPDF& pdf, const ResultsDocument& results, const std::string& date) {
  Object root = pdf.getRoot();
  Object metadata = pdf.newStream(xmp_packet(results));
  metadata.getDict().replaceKey("/Type", Object::newName("/Metadata"));
  metadata.getDict().replaceKey("/Subtype", Object::newName("/XML"));
  root.replaceKey("/Metadata", metadata);
  root.replaceKey("/Lang", Object::newString("en-GB"));
  root.replaceKey("/ViewerPreferences", Object::parse("<< /DisplayDocTitle true >>"));
  Object information = Object::newDictionary();
  information.replaceKey("/Title", Object::newUnicodeString(dossier_title(results)));
  information.replaceKey("/Producer", Object::newString(std::string(kProducer)));
  information.replaceKey("/Creator", Object::newString(std::string(kProducer) + " " + results.build.program_version));
  information.replaceKey("/CreationDate", Object::newString(date));
  information.replaceKey("/ModDate", Object::newString(date));
  pdf.getTrailer().replaceKey("/Info", pdf.makeIndirectObject(information));
}

void write(QPDF& pdf, const std::filesystem::path& file) {
  QPDFWriter writer(pdf, file.c_str());
  // Associated files and the PAdES signature format became part of PDF with version 2.0.
  writer.setMinimumPDFVersion("2.0");
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setDeterministicID(true);
  writer.write();
}

/// Runs `finish` on the open document and writes it.
template <typename Finish>
void finish_pages(const std::filesystem::path& pages, const std::filesystem::path& finished, const Finish& finish) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processFile(pages.c_str());
    mend_text_maps(pdf);
    finish(pdf);
    write(pdf, finished);
  } catch (const std::exception& error) {
    throw std::runtime_error("cannot finish '" + pages.string() + "' as '" + finished.string() + "': " + error.what());
  }
}

}  // namespace

void finish_dossier(const std::filesystem::path& pages, const ResultsDocument& results,
                    const std::vector<Attachment>& attachments, std::size_t signature_bytes,
                    const std::filesystem::path& finished) {
  finish_pages(pages, finished, [&](QPDF& pdf) {
    const std::string date = pdf_date(results.build.time_utc);
    describe_document(pdf, results, date);
    attach(pdf, attachments, date);
    add_signature_field(pdf, signature_bytes, date);
  });
}

void finish_labels(const std::filesystem::path& pages, const std::filesystem::path& finished) {
  finish_pages(pages, finished, [](QPDF&) {});
}

}  // namespace panel_dossier
