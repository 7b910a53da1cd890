// What an XSD of ours asks of each element, in a form that is quick to look up.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace panel_dossier {

/// The forms of values that the schemas have.
enum class ValueForm : std::uint8_t { any, number, numbers, integer, enumerator, logical, global_id };

/// True when the text surely has the form; false for what only a full check can tell, such as white space between.
bool surely_has_form(std::string_view text, ValueForm form);

struct SchemaRules {
  struct Attribute {
    std::string name;
    ValueForm form = ValueForm::any;
    bool is_required = false;
  };
  struct Element {
    std::vector<Attribute> attributes;
    bool holds_value = false;  ///< text of the form below and no elements
    ValueForm content = ValueForm::any;
  };

  std::unordered_map<std::string_view, Element> elements;  ///< keys point into `names`
  std::vector<std::string> names;
  bool is_complete = false;  ///< false when the schema has a construct that these rules cannot hold

  explicit SchemaRules(const std::filesystem::path& xsd);
  SchemaRules(const SchemaRules&) = delete;
  SchemaRules& operator=(const SchemaRules&) = delete;
};

}  // namespace panel_dossier
