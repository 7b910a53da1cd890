#include "core/trace/check_json.h"

#include <string>
#include <string_view>

#include "core/trace/json_reader.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;
using Source = CheckInput::Source;

constexpr CheckKind kKinds[] = {CheckKind::figure, CheckKind::limit, CheckKind::classification, CheckKind::evidence};
constexpr CheckScope kScopes[] = {CheckScope::panels, CheckScope::project, CheckScope::panels_and_project};
constexpr Source kSources[] = {Source::property, Source::setting, Source::table};

constexpr auto kDeclaredWord = [](auto enumerator) { return to_string(enumerator); };

std::string_view source_word(Source source) {
  switch (source) {
    case Source::property: return "property";
    case Source::setting: return "setting";
    case Source::table: break;
  }
  return "data table";
}

ordered_json check_input_to_json(const CheckInput& input) {
  return {{"source", source_word(input.source)}, {"name", input.name}, {"optional", input.optional}};
}

CheckInput check_input_from_json(const ordered_json& json) {
  return {word_member(json, "source", kSources, source_word), member<std::string>(json, "name"),
          member<bool>(json, "optional")};
}

}  // namespace

ordered_json check_to_json(const CheckDeclaration& check) {
  return {{"id", check.id},
          {"title", check.title},
          {"project_title", check.project_title},
          {"sentence", check.sentence},
          {"clause", check.clause},
          {"other_clauses", check.other_clauses},
          {"units", check.units},
          {"kind", to_string(check.kind)},
          {"scope", to_string(check.scope)},
          {"inputs", json_array(check.inputs, check_input_to_json)},
          {"limits", check.limits},
          {"role", check.role}};
}

CheckDeclaration check_from_json(const ordered_json& json) {
  using Texts = std::vector<std::string>;
  return {.id = member<std::string>(json, "id"),
          .title = member<std::string>(json, "title"),
          .project_title = member<std::string>(json, "project_title"),
          .sentence = member<std::string>(json, "sentence"),
          .clause = member<std::string>(json, "clause"),
          .other_clauses = member<Texts>(json, "other_clauses"),
          .units = member<Texts>(json, "units"),
          .kind = word_member(json, "kind", kKinds, kDeclaredWord),
          .scope = word_member(json, "scope", kScopes, kDeclaredWord),
          .inputs = members(json, "inputs", check_input_from_json),
          .limits = member<Texts>(json, "limits"),
          .role = member<std::string>(json, "role")};
}

ordered_json not_applicable_to_json(const NotApplicable& absent) {
  return {{"check", absent.check}, {"reason", absent.reason}};
}

NotApplicable not_applicable_from_json(const ordered_json& json) {
  return {member<std::string>(json, "check"), member<std::string>(json, "reason")};
}

}  // namespace panel_dossier
