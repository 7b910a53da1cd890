#include "core/intake/declarations/declaration_reader.h"

#include <cctype>
#include <charconv>
#include <cmath>

#include "core/intake/declarations/declaration_flow.h"
#include "core/intake/document/input_file.h"
#include "core/intake/document/reporter.h"
#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

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
  Reporter report(location);
  report.set_lines(LineTable(*text));
  if (!check_encoding(*text, report)) {
    const Diagnostic fault = report.take().front();
    return {std::nullopt, {fault.line, fault.message, "ask the supplier for it again, in UTF-8"}, {}};
  }
  if (extension_of(location) == ".csv") return read_declaration_csv(*text, location, document);
  DeclarationResult result = read_declaration_xml(std::move(*text), location, document);
  if (result.declaration && !result.declaration->unit) {
    result.declaration->unit = read_flow_unit_beside(project_dir, location, result.flow_uri, document);
  }
  return result;
}

std::optional<double> declared_number(std::string_view text) {
  text = trimmed(text);
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
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

}  // namespace panel_dossier
