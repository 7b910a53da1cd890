#include "core/intake/known_settings.h"

#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace panel_dossier {

namespace {

using nlohmann::json;

json read_schema(const std::filesystem::path& file) {
  std::ifstream stream(file);
  json schema = json::parse(stream, nullptr, false);
  if (schema.is_discarded()) {
    throw std::runtime_error("cannot read '" + file.string() + "'; give the folder of the schemas with --schemas");
  }
  return schema;
}

/// Follows the dotted key down the schema's nested `properties`.
bool describes(const json& schema, const std::string& key) {
  if (schema.value("type", "") == "array") return true;
  const auto properties = schema.find("properties");
  if (properties == schema.end())
    return schema.value("type", "") != "object" || schema.value("additionalProperties", true);
  const std::size_t dot = key.find('.');
  const auto found = properties->find(key.substr(0, dot));
  if (found == properties->end()) return schema.value("additionalProperties", true);
  return dot == std::string::npos || describes(*found, key.substr(dot + 1));
}

}  // namespace

Diagnostics unknown_settings(const Settings& settings, const std::filesystem::path& schema_file,
                             const std::string& display_name) {
  const json schema = read_schema(schema_file);
  Diagnostics diagnostics;
  for (const auto& [key, value] : settings.all()) {
    if (describes(schema, key)) continue;
    Diagnostic diagnostic;
    diagnostic.severity = Severity::warning;
    diagnostic.file = display_name;
    diagnostic.entity = key;
    diagnostic.message = "no check reads this setting; it is ignored";
    diagnostic.advice = "see " + schema_file.filename().string() + " for the keys";
    diagnostics.push_back(diagnostic);
  }
  return diagnostics;
}

}  // namespace panel_dossier
