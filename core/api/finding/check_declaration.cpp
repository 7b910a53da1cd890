#include "core/api/finding/check_declaration.h"

#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::string line(const char* what, const std::string& text) {
  return text.empty() ? std::string() : "- " + std::string(what) + ": " + text + "\n";
}

std::string_view first_segment(std::string_view name) {
  return name.substr(0, name.find('.'));
}

/// What follows the first segment and its dot.
std::string_view behind_segment(std::string_view name) {
  const std::size_t dot = name.find('.');
  return dot == std::string_view::npos ? std::string_view() : name.substr(dot + 1);
}

std::string clauses_of(const CheckDeclaration& check) {
  std::vector<std::string> clauses{check.clause};
  clauses.insert(clauses.end(), check.other_clauses.begin(), check.other_clauses.end());
  return joined(clauses, "; or ");
}

}  // namespace

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

std::vector<CheckInput> with_model(std::vector<CheckInput> inputs) {
  inputs.push_back({CheckInput::Source::model, "layers", false});
  return with_parts(std::move(inputs));
}

std::vector<CheckInput> with_parts(std::vector<CheckInput> inputs) {
  inputs.push_back({CheckInput::Source::model, "parts", false});
  return inputs;
}

std::vector<CheckInput> with_records(std::vector<CheckInput> inputs, const std::vector<std::string>& tables) {
  for (const std::string& table : tables) inputs.push_back({CheckInput::Source::model, table, true});
  return inputs;
}

bool names_input(std::string_view declared, std::string_view name) {
  while (!declared.empty() && !name.empty()) {
    if (declared == "*") return true;
    const std::string_view segment = first_segment(declared);
    if (segment != "*" && segment != first_segment(name)) return false;
    declared = behind_segment(declared);
    name = behind_segment(name);
  }
  return declared.empty() && name.empty();
}

std::string inputs_in_words(const CheckDeclaration& check, CheckInput::Source source) {
  std::vector<std::string> names;
  for (const CheckInput& input : check.inputs) {
    if (input.source == source) names.push_back("`" + input.name + "`" + (input.optional ? " (optional)" : ""));
  }
  return joined(names);
}

std::string check_page(const CheckDeclaration& check) {
  std::string page = "### `" + check.id + "` " + check.title + "\n\n" + check.sentence + "\n\n";
  page += line("Of", to_string(check.scope));
  page += line("Kind", to_string(check.kind));
  page += line("Unit", joined(check.units, " or "));
  page += line("Clause", clauses_of(check));
  page += line("Properties", inputs_in_words(check, CheckInput::Source::property));
  page += line("Settings", inputs_in_words(check, CheckInput::Source::setting));
  page += line("Tables", inputs_in_words(check, CheckInput::Source::table));
  page += line("Model", inputs_in_words(check, CheckInput::Source::model));
  page += line("Role", check.role);
  page += line("Read by", check.for_workshop ? "the practice's own people, in workshop.pdf" : "");
  page += line("Does not see", joined(check.limits, " "));
  return page;
}

std::string check_pages(const std::vector<CheckDeclaration>& checks) {
  std::string pages;
  for (const CheckDeclaration& check : checks) pages += (pages.empty() ? "" : "\n") + check_page(check);
  return pages;
}

}  // namespace panel_dossier
