// Validation against the XSD of the accepted export, fed element by element.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>

#include "core/intake/document/reporter.h"

namespace panel_dossier {

/// One start tag as libxml2's parser reports it.
struct StartTag {
  const unsigned char* name;
  const unsigned char* prefix;
  const unsigned char* uri;
  int namespace_count;
  const unsigned char** namespaces;
  int attribute_count;
  int default_count;
  const unsigned char** attributes;  ///< name, prefix, uri, value and end of value of each
};

/// Chooses the schema by the namespace of the root element, whichever published spelling it has, and validates all
/// namespaces of one generation as that schema's own. Belongs to one run on one thread.
class SchemaCheck {
 public:
  SchemaCheck(std::filesystem::path schema_dir, Reporter& report);
  ~SchemaCheck();
  SchemaCheck(const SchemaCheck&) = delete;
  SchemaCheck& operator=(const SchemaCheck&) = delete;

  void start_element(std::uint32_t line, const StartTag& tag);
  void end_element(const unsigned char* name, const unsigned char* prefix, const unsigned char* uri);
  void text(const unsigned char* text, int length);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace panel_dossier
