#include "core/intake/ids/ids_check.h"

#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/graph.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/ids/ids_model.h"
#include "core/intake/ids/ids_schema.h"
#include "core/intake/open_export.h"

namespace panel_dossier {

namespace {

/// How an entity stands to a facet.
struct FacetOutcome {
  enum class State { absent, meets, breaches };

  State state = State::absent;
  std::string found;  ///< in words
};

FacetOutcome absent(std::string found) {
  return {FacetOutcome::State::absent, std::move(found)};
}

FacetOutcome meets() {
  return {FacetOutcome::State::meets, {}};
}

FacetOutcome breaches(std::string found) {
  return {FacetOutcome::State::breaches, std::move(found)};
}

/// Numbers as they are compared, in SI units.
std::string shown(const FoundValue& value) {
  using Kind = FoundValue::Kind;
  if (value.kind == Kind::real || value.kind == Kind::integer) return shortest_text(value.number);
  constexpr std::size_t kLongestValue = 100;
  return "'" + value.text.substr(0, kLongestValue) + "'";
}

std::string shown(const std::vector<FoundValue>& values) {
  std::vector<std::string> texts;
  texts.reserve(values.size());
  for (const FoundValue& value : values) texts.push_back(shown(value));
  return texts.empty() ? "nothing that can be compared" : joined(texts);
}

/// Holds one entity against facets.
class FacetCheck {
 public:
  FacetCheck(IdsModel& model, IdsMatcher& matcher) : model_(model), matcher_(matcher) {}

  FacetOutcome look(const IdsFacet& facet, const Element& entity) {
    switch (facet.kind) {
      case IdsFacetKind::entity: return of_class(facet, entity);
      case IdsFacetKind::attribute: return of_attribute(facet, entity);
      case IdsFacetKind::classification: return of_classification(facet, entity);
      case IdsFacetKind::property: return of_property(facet, entity);
      case IdsFacetKind::material: return of_material(facet, entity);
      case IdsFacetKind::part_of: break;
    }
    return of_whole(facet, entity);
  }

 private:
  IdsModel& model_;
  IdsMatcher& matcher_;

  bool is_named(const std::optional<IdsValue>& wanted, const std::string& name) {
    return !wanted || matcher_.matches(*wanted, name);
  }

  FacetOutcome of_class(const IdsFacet& facet, const Element& entity) {
    const std::string own = IdsModel::entity_class(entity);
    if (!is_named(facet.name, own)) return breaches("is " + own);
    if (!facet.predefined_type) return meets();
    const std::vector<std::string> types = model_.predefined_types(entity);
    const bool is_one = std::any_of(types.begin(), types.end(),
                                    [&](const std::string& type) { return is_named(facet.predefined_type, type); });
    if (is_one) return meets();
    return breaches(types.empty() ? "has no predefined type" : "is of type " + joined(types, " or "));
  }

  FacetOutcome of_attribute(const IdsFacet& facet, const Element& entity) {
    FacetOutcome outcome = absent("has no such attribute");
    for (const IdsAttributeValue& attribute : model_.attributes(entity)) {
      if (!is_named(facet.name, attribute.name)) continue;
      if (!attribute.is_present) {
        // A text that is there and empty is a value, and none that can be meant.
        if (attribute.is_written && outcome.state == FacetOutcome::State::absent) {
          outcome = breaches(attribute.name + " is empty");
        }
        continue;
      }
      if (facet.value && !attribute.is_comparable) return breaches(attribute.name + " is no single value");
      if (facet.value && !matcher_.matches(*facet.value, attribute.value)) {
        return breaches(attribute.name + " is " + shown(attribute.value));
      }
      outcome = meets();
    }
    return outcome;
  }

  FacetOutcome of_classification(const IdsFacet& facet, const Element& entity) {
    const std::vector<IdsClassification> found = model_.classifications(entity);
    if (found.empty()) return absent("has no classification");
    std::vector<std::string> texts;
    for (const IdsClassification& one : found) {
      const auto& ids = one.identifications;
      const bool is_value = !facet.value || std::any_of(ids.begin(), ids.end(), [&](const std::string& id) {
        return is_named(facet.value, id);
      });
      if (is_value && is_named(facet.set, one.system)) return meets();
      texts.push_back("'" + (ids.empty() ? std::string() : ids.front()) + "' in '" + one.system + "'");
    }
    return breaches("is classified as " + joined(texts));
  }

  FacetOutcome of_property(const IdsFacet& facet, const Element& entity) {
    // Every set of that name must hold such a property, and every such property must satisfy the value.
    std::map<std::string, bool> sets;
    std::optional<FacetOutcome> breach;
    for (const IdsProperty& property : model_.properties(entity)) {
      if (!is_named(facet.set, property.set)) continue;
      bool& has = sets[property.set];
      if (!is_named(facet.name, property.name)) continue;
      has = true;
      if (!breach) breach = breach_of(facet, property);
    }
    if (breach) return *breach;
    if (sets.empty()) return absent("has no such property set");
    const auto lacking = std::find_if(sets.begin(), sets.end(), [](const auto& entry) { return !entry.second; });
    if (lacking == sets.end()) return meets();
    const bool has_any = std::any_of(sets.begin(), sets.end(), [](const auto& entry) { return entry.second; });
    const std::string found = "property set '" + lacking->first + "' has no such property";
    // Of sets that only look like the one meant, some may hold it: for an optional property that is enough.
    if (has_any && facet.cardinality == IdsCardinality::optional) return meets();
    return has_any ? breaches(found) : absent(found);
  }

  std::optional<FacetOutcome> breach_of(const IdsFacet& facet, const IdsProperty& property) {
    const std::string name = property.set + "." + property.name;
    std::vector<FoundValue> stated;
    std::copy_if(property.values.begin(), property.values.end(), std::back_inserter(stated),
                 [](const FoundValue& value) { return value.is_stated(); });
    if (stated.empty()) return breaches(name + " has no value");
    const auto is_of_type = [&](const FoundValue& v) { return facet.data_type.empty() || v.type == facet.data_type; };
    if (std::none_of(stated.begin(), stated.end(), is_of_type)) return breaches(name + " is " + stated.front().type);
    const bool satisfies = !facet.value || std::any_of(stated.begin(), stated.end(), [&](const FoundValue& value) {
      return is_of_type(value) && matcher_.matches(*facet.value, value);
    });
    if (satisfies) return std::nullopt;
    return breaches(name + " is " + shown(stated));
  }

  FacetOutcome of_material(const IdsFacet& facet, const Element& entity) {
    if (!model_.has_material(entity)) return absent("has no material");
    if (!facet.value) return meets();
    const std::vector<std::string> names = model_.materials(entity);
    const bool is_one =
        std::any_of(names.begin(), names.end(), [&](const std::string& name) { return is_named(facet.value, name); });
    return is_one ? meets() : breaches("is made of '" + joined(names, "', '") + "'");
  }

  FacetOutcome of_whole(const IdsFacet& facet, const Element& entity) {
    IdsFacet whole;
    whole.name = facet.name;
    whole.predefined_type = facet.predefined_type;
    std::set<std::string> classes;
    for (const Element& one : model_.wholes(entity, facet.relation)) {
      if (of_class(whole, one).state == FacetOutcome::State::meets) return meets();
      classes.insert(IdsModel::entity_class(one));
    }
    if (classes.empty()) return absent("is part of nothing");
    return absent("is part of " + joined({classes.begin(), classes.end()}) + " only");
  }
};

/// What is wrong with the entity by that requirement; none when it meets it.
std::optional<std::string> fault_of(const IdsFacet& facet, const FacetOutcome& outcome) {
  using State = FacetOutcome::State;
  switch (facet.cardinality) {
    case IdsCardinality::required:
      if (outcome.state != State::meets) return outcome.found;
      break;
    case IdsCardinality::optional:
      if (outcome.state == State::breaches) return outcome.found;
      break;
    case IdsCardinality::prohibited:
      if (outcome.state == State::meets) return "has it";
      break;
  }
  return std::nullopt;
}

std::string requirement_words(const IdsFacet& facet) {
  const std::string words = to_words(facet);
  if (facet.cardinality == IdsCardinality::prohibited) return "no " + words;
  return facet.cardinality == IdsCardinality::optional ? words + ", where it is there" : words;
}

std::string version_name(Generation generation) {
  if (generation == Generation::ifc2x3) return "IFC2X3";
  return generation == Generation::ifc4x3 ? "IFC4X3_ADD2" : "IFC4";
}

/// Holds all entities of an export against all specifications.
class IdsCheck {
 public:
  IdsCheck(const Graph& graph, IdsModel& model, Generation generation, const Reporter& report)
      : graph_(graph), facets_(model, matcher_), generation_(generation), reporter_(report) {
    for (const auto& [type, entities] : graph.by_type()) {
      std::vector<Element>& all = by_class_[in_capitals(type)];
      all.insert(all.end(), entities.begin(), entities.end());
    }
  }

  void hold(const IdsSpecification& specification, IdsReport& report) {
    IdsSpecificationResult result;
    result.name = specification.name;
    result.identifier = specification.identifier;
    result.occurrence = specification.occurrence;
    const auto& versions = specification.ifc_versions;
    if (std::find(versions.begin(), versions.end(), version_name(generation_)) == versions.end()) {
      result.remark = "written for " + joined(versions) + ", the export is " + version_name(generation_);
    }
    const std::size_t index = report.specifications.size();
    for (const auto& [name, entities] : by_class_) {
      if (!may_apply(specification, name)) continue;
      for (const Element& entity : entities) {
        if (!applies(specification, entity)) continue;
        ++result.applicable;
        if (!meets_all(specification, entity, index, report)) ++result.failed;
      }
    }
    result.holds =
        result.failed == 0 && (result.applicable != 0 || specification.occurrence != IdsOccurrence::required);
    if (result.applicable == 0 && !result.holds) result.remark = "the export has no such entity";
    report.specifications.push_back(std::move(result));
  }

 private:
  const Graph& graph_;
  IdsMatcher matcher_;
  FacetCheck facets_;
  Generation generation_;
  const Reporter& reporter_;
  std::map<std::string, std::vector<Element>> by_class_;

  /// Asked once for a class instead of once for each entity.
  bool may_apply(const IdsSpecification& specification, const std::string& name) {
    for (const IdsFacet& facet : specification.applicability) {
      if (facet.kind == IdsFacetKind::entity && facet.name && !matcher_.matches(*facet.name, name)) return false;
    }
    return true;
  }

  bool applies(const IdsSpecification& specification, const Element& entity) {
    const auto& facets = specification.applicability;
    return std::all_of(facets.begin(), facets.end(), [&](const IdsFacet& facet) {
      return facets_.look(facet, entity).state == FacetOutcome::State::meets;
    });
  }

  bool meets_all(const IdsSpecification& specification, const Element& entity, std::size_t index, IdsReport& report) {
    if (specification.occurrence == IdsOccurrence::prohibited) {
      add(entity, index, "no such entity", "is there", report);
      return false;
    }
    bool all = true;
    for (const IdsFacet& facet : specification.requirements) {
      const auto fault = fault_of(facet, facets_.look(facet, entity));
      if (!fault) continue;
      all = false;
      add(entity, index, requirement_words(facet), *fault, report);
    }
    return all;
  }

  void add(const Element& entity, std::size_t index, std::string requirement, std::string found, IdsReport& report) {
    if (report.failures.size() >= IdsReport::kMostFailures) {
      ++report.unlisted;
      return;
    }
    report.failures.push_back({index, reporter_.line(entity), std::string(ifc_type(entity)), own_global_id(entity),
                               graph_.text(entity, "Name"), std::move(requirement), std::move(found)});
  }
};

IdsReport hold_graph(const IdsFile& file, const Graph& graph, Generation generation, std::size_t file_size,
                     const std::filesystem::path& schema_dir, Reporter& report) {
  IdsReport result;
  result.title = file.title;
  const std::vector<Element>& projects = graph.all("IfcProject");
  if (projects.empty()) {
    report.file_error(0, 0, "there is no IfcProject", "export the project with the model");
    return result;
  }
  ExpansionBudget budget(file_size);
  const ReadContext context{graph, report, budget};
  UnitTable units(context, projects.front());
  const IdsSchema schema(schema_dir, generation);
  IdsModel model(context, units, schema);
  IdsCheck check(graph, model, generation, report);
  for (const IdsSpecification& specification : file.specifications) check.hold(specification, result);
  std::stable_sort(result.failures.begin(), result.failures.end(), [](const IdsFailure& a, const IdsFailure& b) {
    return std::pair(a.specification, a.line) < std::pair(b.specification, b.line);
  });
  return result;
}

}  // namespace

bool IdsReport::holds() const {
  return std::all_of(specifications.begin(), specifications.end(),
                     [](const IdsSpecificationResult& one) { return one.holds; });
}

IdsReport hold_against(const IdsFile& file, std::string_view export_bytes, const std::filesystem::path& schema_dir,
                       Reporter& report) {
  IdsReport result;
  open_export(export_bytes, schema_dir, Graph::Keep::all_types, report,
              [&](const Graph& graph, Generation generation, std::size_t size) {
                result = hold_graph(file, graph, generation, size, schema_dir, report);
              });
  return report.has_errors() ? IdsReport() : result;
}

}  // namespace panel_dossier
