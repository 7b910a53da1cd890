#include "sample_project/generator/xml_writer.h"

#include <libxml/xmlwriter.h>

#include <stdexcept>

namespace sample_export {

namespace {

const xmlChar* utf8(const std::string& text) {
  return reinterpret_cast<const xmlChar*>(text.c_str());
}

}  // namespace

struct XmlWriter::Stream {
  xmlTextWriterPtr handle = nullptr;
};

XmlWriter::XmlWriter(const std::filesystem::path& file) : stream_(std::make_unique<Stream>()) {
  stream_->handle = xmlNewTextWriterFilename(file.c_str(), 0);
  if (stream_->handle == nullptr) throw std::runtime_error("cannot write '" + file.string() + "'");
  xmlTextWriterSetIndent(stream_->handle, 1);
  // A line for every element but no leading blanks: the nesting is deep and blanks would be a third of the file.
  xmlTextWriterSetIndentString(stream_->handle, utf8(""));
  xmlTextWriterStartDocument(stream_->handle, nullptr, "UTF-8", nullptr);
}

XmlWriter::~XmlWriter() {
  if (stream_->handle != nullptr) xmlFreeTextWriter(stream_->handle);
}

void XmlWriter::open(const std::string& name, const Attributes& attributes) {
  xmlTextWriterStartElement(stream_->handle, utf8(name));
  for (const auto& [key, value] : attributes) xmlTextWriterWriteAttribute(stream_->handle, utf8(key), utf8(value));
}

void XmlWriter::text(const std::string& text) {
  xmlTextWriterWriteString(stream_->handle, utf8(text));
}

void XmlWriter::close() {
  xmlTextWriterEndElement(stream_->handle);
}

void XmlWriter::finish() {
  const bool ended = xmlTextWriterEndDocument(stream_->handle) >= 0;
  const bool flushed = xmlTextWriterFlush(stream_->handle) >= 0;
  if (!ended || !flushed) throw std::runtime_error("the export could not be written to its end");
}

}  // namespace sample_export
