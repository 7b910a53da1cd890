#include "sample_project/generator/export_writer.h"

#include <array>
#include <charconv>
#include <cmath>

namespace sample_export {

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

ExportWriter::Element::Element(ExportWriter& writer, const std::string& name, const Attributes& attributes)
    : writer_(writer) {
  writer_.open(name, attributes);
}

ExportWriter::Element::~Element() {
  writer_.close();
}

void ExportWriter::leaf(const std::string& name, const Attributes& attributes) {
  open(name, attributes);
  close();
}

void ExportWriter::text_element(const std::string& name, const std::string& content) {
  open(name, {});
  text(content);
  close();
}

void ExportWriter::reference(const std::string& name, const std::string& id, const std::string& type) {
  Attributes attributes;
  if (!type.empty()) attributes.emplace_back("xsi:type", type);
  attributes.emplace_back("xsi:nil", "true");
  attributes.emplace_back("ref", id);
  leaf(name, attributes);
}

}  // namespace sample_export
