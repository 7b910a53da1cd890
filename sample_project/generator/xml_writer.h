// Streams XML to a file, one element a line, so that any number of panels can be written in constant memory.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "sample_project/generator/export_writer.h"

namespace sample_export {

class XmlWriter final : public ExportWriter {
 public:
  /// Throws std::runtime_error when the file cannot be created.
  explicit XmlWriter(const std::filesystem::path& file);
  ~XmlWriter() override;
  XmlWriter(const XmlWriter&) = delete;
  XmlWriter& operator=(const XmlWriter&) = delete;
  XmlWriter(XmlWriter&&) = delete;
  XmlWriter& operator=(XmlWriter&&) = delete;

  void finish() override;

 private:
  struct Stream;
  std::unique_ptr<Stream> stream_;

  void open(const std::string& name, const Attributes& attributes) override;
  void text(const std::string& text) override;
  void close() override;
};

}  // namespace sample_export
