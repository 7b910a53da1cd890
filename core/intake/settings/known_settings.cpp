#include "core/intake/settings/known_settings.h"

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

/// What the schema says of a key: its own schema, that the key lies in a part left open, or nothing.
struct Description {
  bool known = false;
  const json* schema = nullptr;  ///< null in an open part and for elements of a list
};

/// Follows the dotted key down the schema's nested `properties`.
Description description_of(const json& schema, const std::string& key) {
  if (schema.value("type", "") != "object") return {true, nullptr};
  const auto properties = schema.find("properties");
  const std::size_t dot = key.find('.');
  if (properties == schema.end() || !properties->contains(key.substr(0, dot))) {
    return {schema.value("additionalProperties", true), nullptr};
  }
  const json& found = properties->at(key.substr(0, dot));
  return dot == std::string::npos ? Description{true, &found} : description_of(found, key.substr(dot + 1));
}

/// The allowed words, joined for a message; empty when the word is one of them or any is allowed.
std::string refused_because_of(const Description& description, const Settings::Value& value) {
  const std::string* word = std::get_if<std::string>(&value);
  if (description.schema == nullptr || word == nullptr || !description.schema->contains("enum")) return {};
  std::string allowed;
  for (const json& choice : description.schema->at("enum")) {
    if (choice == *word) return {};
    allowed += (allowed.empty() ? "" : ", ") + choice.get<std::string>();
  }
  return allowed;
}

Diagnostic diagnostic_of(Severity severity, const std::string& file, const std::string& key) {
  Diagnostic diagnostic;
  diagnostic.severity = severity;
  diagnostic.file = file;
  diagnostic.entity = key;
  return diagnostic;
}

}  // namespace

Diagnostics unknown_settings(const Settings& settings, const std::filesystem::path& schema_file,
                             const std::string& display_name) {
  const json schema = read_schema(schema_file);
  Diagnostics diagnostics;
  for (const auto& [key, value] : settings.all()) {
    const Description description = description_of(schema, key);
    if (!description.known) {
      Diagnostic diagnostic = diagnostic_of(Severity::warning, display_name, key);
      diagnostic.message = "no check reads this setting; it is ignored";
      diagnostic.advice = "see " + schema_file.filename().string() + " for the keys";
      diagnostics.push_back(diagnostic);
    } else if (const std::string allowed = refused_because_of(description, value); !allowed.empty()) {
      Diagnostic diagnostic = diagnostic_of(Severity::error, display_name, key);
      diagnostic.message = "'" + std::get<std::string>(value) + "' is not a word for this setting";
      diagnostic.advice = "write one of: " + allowed;
      diagnostics.push_back(diagnostic);
    }
  }
  return diagnostics;
}

}  // namespace panel_dossier
