#include "core/api/support/csv_line.h"

#include "core/api/support/words.h"

namespace panel_dossier {

std::optional<std::vector<std::string>> csv_fields(std::string_view line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool doubled = quoted && line.substr(i, 2) == "\"\"";
    if (line[i] == '"' && !doubled) {
      quoted = !quoted;
    } else if (line[i] == ',' && !quoted) {
      fields.emplace_back();
    } else {
      fields.back() += line[i];
      if (doubled) ++i;
    }
  }
  if (quoted) return std::nullopt;
  for (std::string& field : fields) field = std::string(trimmed(field));
  return fields;
}

}  // namespace panel_dossier
