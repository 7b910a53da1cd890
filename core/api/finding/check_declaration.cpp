#include "core/api/finding/check_declaration.h"

#include <utility>

namespace panel_dossier {

std::string to_string(CheckKind kind) {
  switch (kind) {
    case CheckKind::figure: return "figure";
    case CheckKind::limit: return "limit";
    case CheckKind::classification: return "classification";
    case CheckKind::evidence: break;
  }
  return "evidence";
}

std::string to_string(CheckScope scope) {
  switch (scope) {
    case CheckScope::panels: return "each panel";
    case CheckScope::project: return "the project";
    case CheckScope::panels_and_project: break;
  }
  return "each panel and the project";
}

CheckInput property(std::string name) {
  return {CheckInput::Source::property, std::move(name), false};
}

CheckInput optional_property(std::string name) {
  return {CheckInput::Source::property, std::move(name), true};
}

CheckInput setting(std::string name) {
  return {CheckInput::Source::setting, std::move(name), false};
}

CheckInput optional_setting(std::string name) {
  return {CheckInput::Source::setting, std::move(name), true};
}

CheckInput data_table(std::string name) {
  return {CheckInput::Source::table, std::move(name), false};
}

}  // namespace panel_dossier
