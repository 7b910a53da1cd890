// A declared check in results.json. Private to the trace stage.
#pragma once

#include <nlohmann/json.hpp>

#include "core/api/finding/check_declaration.h"
#include "core/api/plugin.h"

namespace panel_dossier {

nlohmann::ordered_json check_to_json(const CheckDeclaration& check);
/// Throws std::runtime_error naming the member that is wrong.
CheckDeclaration check_from_json(const nlohmann::ordered_json& json);

nlohmann::ordered_json not_applicable_to_json(const NotApplicable& absent);
NotApplicable not_applicable_from_json(const nlohmann::ordered_json& json);

}  // namespace panel_dossier
