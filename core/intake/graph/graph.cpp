#include "core/intake/graph/graph.h"

#include <algorithm>
#include <charconv>
#include <functional>
#include <limits>
#include <unordered_set>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/step/step_file.h"

namespace panel_dossier {

namespace {

constexpr int kMaxReferenceHops = 16;

// Marks in the table of targets.
constexpr std::uint32_t kNoReference = std::numeric_limits<std::uint32_t>::max();
constexpr std::uint32_t kNoTarget = kNoReference - 1;

bool is_ifc_name(std::string_view name) {
  return name.size() >= 3 && name[0] == 'I' && name[1] == 'f' && name[2] == 'c';
}

bool is_nil(const Element& element) {
  const auto nil = element.attribute("nil");
  return nil && (trimmed(*nil) == "true" || trimmed(*nil) == "1");
}

/// Tells an entity from a bare value such as <IfcLengthMeasure pos="0">.
bool is_entity(const Element& element, const ElementMarks& marks, std::string_view type) {
  constexpr std::string_view kWrapper = "-wrapper";
  if (type.empty() || marks.pointed_to || element.name().ends_with(kWrapper)) return false;
  return marks.id || (marks.has_attributes && !marks.has_position && !marks.type) || element.first_child();
}

/// The next element in document order, found without recursion.
Element next_in_document(const Element& root, Element element) {
  if (const Element child = element.first_child()) return child;
  for (; element && !(element == root); element = element.parent()) {
    if (const Element sibling = element.next_sibling()) return sibling;
  }
  return {};
}

Element enclosing_entity(const Element& element) {
  Element owner = element.parent();
  while (owner && ifc_type(owner).empty()) owner = owner.parent();
  return owner;
}

int position_of(const Element& element) {
  const auto text = element.attribute("pos");
  int position = 0;
  if (text) std::from_chars(text->data(), text->data() + text->size(), position);
  return position;
}

struct Rule {
  std::string_view relationship;
  std::string_view from;
  std::string_view to;  ///< empty: the relationship entity itself
  Link link;
};

constexpr std::array kRules{
    Rule{"IfcRelAggregates", "RelatingObject", "RelatedObjects", Link::parts},
    Rule{"IfcRelAggregates", "RelatedObjects", "RelatingObject", Link::whole},
    Rule{"IfcRelNests", "RelatingObject", "RelatedObjects", Link::parts},
    Rule{"IfcRelNests", "RelatedObjects", "RelatingObject", Link::whole},
    Rule{"IfcRelAggregates", "RelatedObjects", "RelatingObject", Link::aggregate},
    Rule{"IfcRelNests", "RelatedObjects", "RelatingObject", Link::nest},
    Rule{"IfcRelAssignsToGroup", "RelatedObjects", "RelatingGroup", Link::group},
    Rule{"IfcRelContainedInSpatialStructure", "RelatingStructure", "RelatedElements", Link::contained},
    Rule{"IfcRelContainedInSpatialStructure", "RelatedElements", "RelatingStructure", Link::container},
    Rule{"IfcRelVoidsElement", "RelatingBuildingElement", "RelatedOpeningElement", Link::openings},
    Rule{"IfcRelVoidsElement", "RelatedOpeningElement", "RelatingBuildingElement", Link::voided},
    Rule{"IfcRelFillsElement", "RelatedBuildingElement", "RelatingOpeningElement", Link::filled},
    Rule{"IfcRelFillsElement", "RelatingOpeningElement", "RelatedBuildingElement", Link::fillings},
    Rule{"IfcRelCoversBldgElements", "RelatingBuildingElement", "RelatedCoverings", Link::coverings},
    Rule{"IfcRelDefinesByProperties", "RelatedObjects", "RelatingPropertyDefinition", Link::property_sets},
    Rule{"IfcRelDefinesByType", "RelatedObjects", "RelatingType", Link::type},
    Rule{"IfcRelAssociatesMaterial", "RelatedObjects", "RelatingMaterial", Link::material},
    Rule{"IfcRelAssociatesDocument", "RelatedObjects", "RelatingDocument", Link::documents},
    Rule{"IfcExternalReferenceRelationship", "RelatedResourceObjects", "RelatingReference", Link::documents},
    Rule{"IfcExternalReferenceRelationship", "RelatedResourceObjects", "RelatingReference", Link::classifications},
    Rule{"IfcRelAssociatesClassification", "RelatedObjects", "RelatingClassification", Link::classifications},
    Rule{"IfcMaterialClassificationRelationship", "ClassifiedMaterial", "MaterialClassifications",
         Link::classifications},
    Rule{"IfcMaterialProperties", "Material", {}, Link::material_properties},
    Rule{"IfcExtendedMaterialProperties", "Material", {}, Link::material_properties},
    Rule{"IfcGeneralMaterialProperties", "Material", {}, Link::material_properties},
    Rule{"IfcThermalMaterialProperties", "Material", {}, Link::material_properties},
    Rule{"IfcHygroscopicMaterialProperties", "Material", {}, Link::material_properties},
};

}  // namespace

void order_by_position(std::vector<Element>& elements) {
  if (elements.size() < 2 || elements.front().is_step()) return;
  const bool has_positions =
      std::any_of(elements.begin(), elements.end(), [](const Element& e) { return e.attribute("pos").has_value(); });
  if (!has_positions) return;
  std::stable_sort(elements.begin(), elements.end(),
                   [](const Element& a, const Element& b) { return position_of(a) < position_of(b); });
}

/// Looks each type up once in the lists of those that are read, and counts the others. Done with, it trims the lists.
class Graph::TypeRegister {
 public:
  explicit TypeRegister(Graph& graph) : graph_(graph) {}
  ~TypeRegister() {
    for (const auto& [type, use] : uses_) {
      if (use.skipped != 0) graph_.skipped_.emplace(type, use.skipped);
    }
    // They stay as long as panels are read.
    graph_.rooted_.shrink_to_fit();
    for (auto& [type, entities] : graph_.by_type_) entities.shrink_to_fit();
  }
  TypeRegister(const TypeRegister&) = delete;
  TypeRegister& operator=(const TypeRegister&) = delete;

  void add(std::string_view type, const Element& element) {
    Use& use = use_of(type);
    if (use.all != nullptr) use.all->push_back(element);
    if (!use.is_read) ++use.skipped;
  }

 private:
  struct Use {
    bool is_read = false;
    std::vector<Element>* all = nullptr;
    std::size_t skipped = 0;
  };

  /// A type is mostly handed in where its name was kept once, so that the place tells it.
  struct Recent {
    std::string_view type;
    Use* use = nullptr;
  };

  Graph& graph_;
  std::unordered_map<std::string_view, Use> uses_;
  std::array<Recent, 64> recent_{};

  Use& use_of(std::string_view type) {
    Recent& recent = recent_[std::hash<const void*>()(type.data()) / alignof(char*) % recent_.size()];
    if (recent.use != nullptr && recent.type.data() == type.data() && recent.type.size() == type.size()) {
      return *recent.use;
    }
    const auto [found, is_new] = uses_.try_emplace(type);
    Use& use = found->second;
    if (is_new) {
      use.is_read = is_read_type(type);
      if (graph_.keep_ == Keep::all_types || is_listed_type(type)) use.all = &graph_.by_type_[type];
    }
    recent = {type, &use};
    return use;
  }
};

Graph::Graph(const Element& root, Reporter& report, Keep keep) : keep_(keep) {
  std::vector<Element> references;
  Ids ids;
  {
    TypeRegister types(*this);
    for (Element element = root; element; element = next_in_document(root, element)) {
      register_element(element, types, ids, references, report);
    }
  }
  resolve_references(references, ids, report);
  build_links(references, report);
}

Graph::Graph(const StepFile& file, Reporter& report, Keep keep) : keep_(keep) {
  {
    TypeRegister types(*this);
    for (std::uint32_t i = 0; i < file.instances().size(); ++i) {
      const StepEntity* entity = file.entity_of(i);
      if (entity == nullptr) continue;
      const Element element = file.element(i);
      types.add(entity->name, element);
      if (entity->is_rooted) rooted_.push_back(element);
    }
  }
  build_links({}, report);
}

void Graph::register_element(const Element& element, TypeRegister& types, Ids& ids, std::vector<Element>& references,
                             Reporter& report) {
  const ElementMarks marks = element.marks();
  if (marks.pointed_to) {
    references.push_back(element);
  } else if (marks.id) {
    const auto [first, is_new] = ids.try_emplace(trimmed(*marks.id), element);
    if (!is_new) {
      report.error(element,
                   "id '" + std::string(*marks.id) + "' is used twice, first at line " +
                       std::to_string(report.line(first->second)),
                   "give every entity its own id");
    }
  }
  const std::string_view type = ifc_type(element, marks.type);
  if (!is_entity(element, marks, type)) return;
  types.add(type, element);
  if (marks.has_global_id || element.child("GlobalId")) rooted_.push_back(element);
}

void Graph::resolve_references(const std::vector<Element>& references, const Ids& ids, Reporter& report) {
  if (references.empty()) return;
  targets_.assign(references.back().xml_index() + 1, kNoReference);
  for (const Element& reference : references) {
    Element at = reference;
    for (int hop = 0; at; ++hop) {
      const auto target = at.pointed_to();
      if (!target && hop < kMaxReferenceHops) break;
      const auto found = hop < kMaxReferenceHops ? ids.find(without_hash(*target)) : ids.end();
      at = found == ids.end() ? Element() : found->second;
    }
    targets_[reference.xml_index()] = at ? static_cast<std::uint32_t>(at.xml_index()) : kNoTarget;
    if (at) continue;
    const std::string id(reference_target(reference));
    if (ids.contains(id)) {
      report.error(reference, "ref '" + id + "' leads back to itself", "let it point to the entity meant");
    } else {
      report.error(reference, "ref '" + id + "' points to no entity of this file",
                   "export the entity as well, or remove the reference");
    }
  }
}

std::vector<Element> Graph::ends(const Element& relationship, std::string_view attribute, const Owners& owners) const {
  if (attribute.empty()) return {relationship};
  if (relationship.child(attribute)) return entities(relationship, attribute);
  // Written inside one of its ends, or pointed to from there, a relationship leaves that end out.
  std::vector<Element> found;
  if (const Element owner = enclosing_entity(relationship)) found.push_back(owner);
  const auto pointing = owners.find(relationship.key());
  if (pointing != owners.end()) found.insert(found.end(), pointing->second.begin(), pointing->second.end());
  return found;
}

Graph::Owners Graph::owners_by_reference(const std::vector<Element>& references) const {
  std::unordered_set<std::string_view> relationships;
  for (const Rule& rule : kRules) relationships.insert(rule.relationship);
  Owners owners;
  for (const Element& reference : references) {
    if (!relationships.contains(reference.name())) continue;
    const Element relationship = resolved(reference);
    const Element owner = enclosing_entity(reference);
    if (relationship && owner) owners[relationship.key()].push_back(owner);
  }
  return owners;
}

void Graph::build_links(const std::vector<Element>& references, Reporter& report) {
  const Owners owners = owners_by_reference(references);
  std::array<std::vector<Pair>, kLinkCount> pairs;
  for (const Rule& rule : kRules) {
    if (keep_ == Keep::listed_types && rule.link >= kFirstOfAllTypes) continue;
    std::vector<Pair>& found = pairs[static_cast<std::size_t>(rule.link)];
    for (const Element& relationship : all(rule.relationship)) {
      const std::vector<Element> from = ends(relationship, rule.from, owners);
      const std::vector<Element> to = ends(relationship, rule.to, owners);
      if (from.empty() && !relationship.child(rule.from)) {
        report.warning(relationship, "has no " + std::string(rule.from) + " and is not used",
                       "state it, or write the relationship inside that entity");
      }
      // One end is single in every rule, so this grows with the file and not with its square.
      for (const Element& a : from) {
        for (const Element& b : to) {
          found.push_back({a.key(), b});
          if (from.size() > 1) break;
        }
      }
    }
  }
  for (std::size_t i = 0; i < kLinkCount; ++i) links_[i] = sorted(std::move(pairs[i]));
}

Graph::Links Graph::sorted(std::vector<Pair> pairs) {
  const auto is_before = [](const Pair& a, const Pair& b) { return std::less<>()(a.from, b.from); };
  if (!std::is_sorted(pairs.begin(), pairs.end(), is_before)) std::stable_sort(pairs.begin(), pairs.end(), is_before);
  Links links;
  links.from.reserve(pairs.size());
  links.to.reserve(pairs.size());
  // The same relationship may be written both nested and flat.
  std::unordered_set<const void*> seen;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const bool is_first = i == 0 || pairs[i - 1].from != pairs[i].from;
    const bool is_last = i + 1 == pairs.size() || pairs[i + 1].from != pairs[i].from;
    if (is_first) seen.clear();
    if (!(is_first && is_last) && !seen.insert(pairs[i].to.key()).second) continue;
    links.from.push_back(pairs[i].from);
    links.to.push_back(pairs[i].to);
  }
  return links;
}

Element Graph::resolved(const Element& element) const {
  if (!element) return {};
  if (!element.is_step()) {
    const std::size_t index = element.xml_index();
    const std::uint32_t target = index < targets_.size() ? targets_[index] : kNoReference;
    if (target == kNoReference) return element;
    return target == kNoTarget ? Element() : element.xml_at(target);
  }
  Element at = element;
  for (int hop = 0; hop < kMaxReferenceHops; ++hop) {
    if (!at || !at.pointed_to()) return at;
    at = at.step_target();
  }
  return {};
}

Element Graph::entity(const Element& owner, std::string_view attribute) const {
  const Element child = owner.child(attribute);
  if (!child) return {};
  const Element target = resolved(child);
  if (!(target == child)) return target;
  const Element inner = child.first_child();
  if (inner && (is_ifc_name(inner.name()) || inner.is_step())) return resolved(inner);
  if (child.is_step() || is_nil(child)) return {};
  return inner || child.has_attributes() ? child : Element();
}

std::vector<Element> Graph::entities(const Element& owner, std::string_view attribute) const {
  std::vector<Element> items;
  // The XML form may repeat the attribute; a STEP instance has it once.
  for (Element child = owner.child(attribute); child; child = child.is_step() ? Element() : child.next_sibling()) {
    if (child.name() != attribute) continue;
    const bool is_item = is_reference(child) || child.attribute("type");
    if (is_item) items.push_back(child);
    for (Element item = is_item ? Element() : child.first_child(); item; item = item.next_sibling()) {
      if (is_ifc_name(item.name()) || is_reference(item) || item.attribute("type")) items.push_back(item);
    }
  }
  order_by_position(items);
  std::vector<Element> found;
  found.reserve(items.size());
  for (const Element& item : items) {
    if (const Element entity = resolved(item)) found.push_back(entity);
  }
  return found;
}

std::optional<TypedText> Graph::value(const Element& owner, std::string_view attribute) const {
  if (const auto text = owner.attribute(attribute)) return TypedText{std::string(trimmed(*text)), {}, owner};
  const Element child = owner.child(attribute);
  if (!child || is_nil(child)) return std::nullopt;
  const Element inner = child.first_child();
  const Element& holder = inner ? inner : child;
  if (is_reference(holder)) return std::nullopt;
  const auto plain = holder.plain_text();
  std::string text = plain ? std::string(trimmed(*plain)) : std::string(trimmed(holder.text()));
  return TypedText{std::move(text), ifc_type(holder), holder};
}

std::string Graph::text(const Element& owner, std::string_view attribute) const {
  const auto found = value(owner, attribute);
  return found ? found->text : std::string();
}

const std::vector<Element>& Graph::all(std::string_view type) const {
  static const std::vector<Element> none;
  const auto found = by_type_.find(type);
  return found == by_type_.end() ? none : found->second;
}

std::span<const Element> Graph::linked(Link link, const Element& from) const {
  const Links& links = links_[static_cast<std::size_t>(link)];
  const auto [first, last] = std::equal_range(links.from.begin(), links.from.end(), from.key(), std::less<>());
  return {links.to.data() + (first - links.from.begin()), static_cast<std::size_t>(last - first)};
}

}  // namespace panel_dossier
