// What a file of requirements asks for that the standard does not have.
#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <utility>

#include "core/intake/ids/ids_check.h"
#include "core/intake/ids/ids_schema.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

namespace {

constexpr std::array kVersionsOfIds{std::pair{"IFC2X3", Generation::ifc2x3}, std::pair{"IFC4", Generation::ifc4},
                                    std::pair{"IFC4X3_ADD2", Generation::ifc4x3}};

/// The texts that a name may be, where these can be listed.
std::vector<std::string> names_in(const std::optional<IdsValue>& value) {
  if (!value) return {};
  if (value->is_simple) return {value->text};
  return value->enumeration;
}

enum class TypeKind { unknown, text, number, logical };

TypeKind kind_of_underlying(const std::string& underlying) {
  if (underlying.starts_with("STRING")) return TypeKind::text;
  if (underlying == "BOOLEAN" || underlying == "LOGICAL") return TypeKind::logical;
  const bool is_number = underlying == "REAL" || underlying == "NUMBER" || underlying == "INTEGER";
  return is_number ? TypeKind::number : TypeKind::unknown;
}

bool fits(const std::string& literal, TypeKind kind) {
  if (kind == TypeKind::number) return parse_number(literal).has_value();
  if (kind == TypeKind::logical) return literal == "true" || literal == "false" || literal == "1" || literal == "0";
  return true;
}

class RequirementCheck {
 public:
  RequirementCheck(const std::filesystem::path& schema_dir, Reporter& report) : report_(report) {
    for (const auto& [version, generation] : kVersionsOfIds) {
      schemas_.emplace(version, std::make_unique<IdsSchema>(schema_dir, generation));
    }
  }

  void look_at(const IdsSpecification& specification) {
    schemas_of_ = {};
    for (const std::string& version : specification.ifc_versions) {
      if (const auto found = schemas_.find(version); found != schemas_.end())
        schemas_of_.push_back(found->second.get());
    }
    std::vector<std::string> classes;
    for (const auto* facets : {&specification.applicability, &specification.requirements}) {
      for (const IdsFacet& facet : *facets) {
        if (facet.kind == IdsFacetKind::entity && classes.empty()) classes = names_in(facet.name);
      }
    }
    for (const auto* facets : {&specification.applicability, &specification.requirements}) {
      for (const IdsFacet& facet : *facets) look_at(facet, specification, classes);
    }
  }

 private:
  std::map<std::string, std::unique_ptr<IdsSchema>, std::less<>> schemas_;
  std::vector<const IdsSchema*> schemas_of_;  ///< of the specification
  Reporter& report_;

  void fault(const IdsFacet& facet, const IdsSpecification& specification, std::string message, std::string advice) {
    report_.add({Severity::error,
                 {},
                 facet.line,
                 0,
                 "specification '" + specification.name + "'",
                 {},
                 std::move(message),
                 std::move(advice)});
  }

  void look_at(const IdsFacet& facet, const IdsSpecification& specification, const std::vector<std::string>& classes) {
    if (facet.kind == IdsFacetKind::entity || facet.kind == IdsFacetKind::part_of) {
      for (const std::string& name : names_in(facet.name)) {
        const bool is_known = std::any_of(schemas_of_.begin(), schemas_of_.end(),
                                          [&](const IdsSchema* schema) { return schema->has_entity(name); });
        if (!is_known) {
          fault(facet, specification, "'" + name.substr(0, 60) + "' is no class of the versions it names",
                "write the name of a class in capitals, as IFCWALL");
        }
      }
    }
    if (facet.kind == IdsFacetKind::attribute) look_at_attribute(facet, specification, classes);
    if (facet.kind == IdsFacetKind::property && !facet.data_type.empty()) look_at_type(facet, specification);
  }

  /// The attribute in any of the classes and versions; null where there is none.
  const IdsAttribute* find_attribute(const std::vector<std::string>& classes, const std::string& name) const {
    for (const IdsSchema* schema : schemas_of_) {
      for (const std::string& one : classes) {
        const auto* attributes = schema->attributes(one);
        if (attributes == nullptr) continue;
        const auto found = std::find_if(attributes->begin(), attributes->end(),
                                        [&](const IdsAttribute& attribute) { return attribute.name == name; });
        if (found != attributes->end()) return &*found;
      }
    }
    return nullptr;
  }

  bool are_known(const std::vector<std::string>& classes) const {
    return std::all_of(classes.begin(), classes.end(), [&](const std::string& one) {
      return std::any_of(schemas_of_.begin(), schemas_of_.end(),
                         [&](const IdsSchema* schema) { return schema->attributes(one) != nullptr; });
    });
  }

  void look_at_attribute(const IdsFacet& facet, const IdsSpecification& specification,
                         const std::vector<std::string>& classes) {
    if (classes.empty() || !are_known(classes)) return;
    for (const std::string& name : names_in(facet.name)) {
      const IdsAttribute* attribute = find_attribute(classes, name);
      if (attribute == nullptr) {
        fault(facet, specification, "'" + name.substr(0, 60) + "' is no attribute of " + classes.front(),
              "write the name of an explicit attribute as the standard has it");
      } else if (facet.value) {
        const std::string underlying = schemas_of_.front()->underlying(attribute->type);
        const bool is_object = underlying.empty() && attribute->type.starts_with("Ifc") &&
                               !attribute->type.ends_with("Enum") && !attribute->type.ends_with("Select") &&
                               !attribute->type.ends_with("Value");
        if (attribute->is_list() || is_object) {
          fault(facet, specification, "asks for a value of '" + name + "', which is an object or a list",
                "ask for its presence only");
        } else {
          look_at_literals(facet, specification, name, kind_of_underlying(underlying));
        }
      }
    }
  }

  void look_at_type(const IdsFacet& facet, const IdsSpecification& specification) {
    std::string underlying;
    for (const IdsSchema* schema : schemas_of_) {
      if (underlying.empty()) underlying = schema->underlying_in_capitals(facet.data_type);
    }
    if (underlying.empty()) {
      fault(facet, specification, "'" + facet.data_type.substr(0, 60) + "' is no type of the versions it names",
            "write a defined type in capitals, as IFCLABEL");
      return;
    }
    if (facet.value) look_at_literals(facet, specification, facet.data_type, kind_of_underlying(underlying));
  }

  void look_at_literals(const IdsFacet& facet, const IdsSpecification& specification, const std::string& of,
                        TypeKind kind) {
    for (const std::string& literal : names_in(facet.value)) {
      if (fits(literal, kind)) continue;
      fault(facet, specification, "'" + literal.substr(0, 60) + "' is no value of " + of,
            kind == TypeKind::number ? "write a number as 12.5" : "write true or false");
    }
    if (kind != TypeKind::unknown && kind != TypeKind::text && !facet.value->patterns.empty()) {
      fault(facet, specification, "asks for a pattern of " + of, "patterns are for texts");
    }
    if (kind != TypeKind::unknown && kind != TypeKind::number && facet.value->has_bounds()) {
      fault(facet, specification, "asks for bounds of " + of, "bounds are for numbers");
    }
  }
};

}  // namespace

void check_requirements(const IdsFile& file, const std::filesystem::path& schema_dir, Reporter& report) {
  RequirementCheck check(schema_dir, report);
  for (const IdsSpecification& specification : file.specifications) check.look_at(specification);
}

}  // namespace panel_dossier
