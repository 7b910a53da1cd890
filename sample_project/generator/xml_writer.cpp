#include "sample_project/generator/xml_writer.h"

#include <libxml/xmlwriter.h>

#include <array>
#include <charconv>
#include <cmath>
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

std::string number_text(double value) {
  std::array<char, 32> buffer{};
  const double without_negative_zero = value == 0.0 ? 0.0 : value;
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), without_negative_zero);
  return {buffer.data(), result.ptr};
}

std::string rounded_text(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return number_text(std::round(value * scale) / scale);
}

XmlWriter::Element::Element(XmlWriter& writer, const std::string& name, const Attributes& attributes)
    : writer_(writer) {
  writer_.open(name, attributes);
}

XmlWriter::Element::~Element() {
  writer_.close();
}

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

void XmlWriter::close() {
  xmlTextWriterEndElement(stream_->handle);
}

void XmlWriter::leaf(const std::string& name, const Attributes& attributes) {
  open(name, attributes);
  close();
}

void XmlWriter::text_element(const std::string& name, const std::string& text) {
  xmlTextWriterWriteElement(stream_->handle, utf8(name), utf8(text));
}

void XmlWriter::reference(const std::string& name, const std::string& id, const std::string& type) {
  Attributes attributes;
  if (!type.empty()) attributes.emplace_back("xsi:type", type);
  attributes.emplace_back("xsi:nil", "true");
  attributes.emplace_back("ref", id);
  leaf(name, attributes);
}

void XmlWriter::finish() {
  const bool ended = xmlTextWriterEndDocument(stream_->handle) >= 0;
  const bool flushed = xmlTextWriterFlush(stream_->handle) >= 0;
  if (!ended || !flushed) throw std::runtime_error("the export could not be written to its end");
}

}  // namespace sample_export
