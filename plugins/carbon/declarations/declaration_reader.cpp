#include "plugins/carbon/declarations/declaration_reader.h"

#include <cctype>
#include <utility>

#include "core/api/support/line_table.h"
#include "core/api/support/project_file.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "plugins/carbon/declarations/ilcd.h"

namespace panel_dossier::carbon {

namespace fs = std::filesystem;

namespace {

std::string extension_of(const std::string& location) {
  std::string extension = fs::path(location).extension().string();
  for (char& c : extension) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return extension;
}

}  // namespace

Origin declaration_origin(const std::string& location, const std::string& document, std::uint32_t line) {
  Origin origin;
  origin.kind = OriginKind::data_table;
  origin.table = location;
  origin.row = "line " + std::to_string(line);
  origin.source = "environmental declaration " + document;
  return origin;
}

bool is_readable_declaration(const std::string& location) {
  const std::string extension = extension_of(location);
  return extension == ".xml" || extension == ".csv";
}

DeclarationResult read_declaration(const fs::path& project_dir, const std::string& location,
                                   const std::string& document) {
  auto text = load_at_most(project_dir / location, kLargestDeclaration_bytes);
  if (!text) return {std::nullopt, {0, "the file cannot be read", "check its permissions"}, {}};
  if (text->size() > kLargestDeclaration_bytes) {
    return {std::nullopt, {0, "the file is larger than 4 MiB", "give the declaration of one product only"}, {}};
  }
  if (const auto fault = encoding_fault(*text)) {
    const std::uint32_t line = fault->offset ? LineTable(*text).at(*fault->offset).line : 0;
    return {std::nullopt, {line, fault->message, "ask the supplier for it again, in UTF-8"}, {}};
  }
  if (extension_of(location) == ".csv") return read_declaration_csv(*text, location, document);
  DeclarationResult result = read_declaration_xml(std::move(*text), location, document);
  if (result.declaration && !result.declaration->unit) {
    result.declaration->unit = ilcd::read_flow_unit_beside(project_dir, location, result.flow_uri, document);
  }
  return result;
}

std::string declared_module(std::string_view text) {
  constexpr std::string_view kEnDash = "–";
  std::string module(trimmed(text));
  for (auto at = module.find(kEnDash); at != std::string::npos; at = module.find(kEnDash)) {
    module.replace(at, kEnDash.size(), "-");
  }
  for (char& c : module) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return module;
}

}  // namespace panel_dossier::carbon
