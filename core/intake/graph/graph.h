// The export as a graph: entities by id and type, attributes by name, relationships by their two ends.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/element.h"

namespace panel_dossier {

/// Objectified relationships, named by the direction in which they are followed.
enum class Link : std::size_t {
  parts,                ///< whole -> part
  whole,                ///< part -> whole
  contained,            ///< spatial element -> element
  container,            ///< element -> spatial element
  openings,             ///< element -> opening
  fillings,             ///< opening -> window or door
  coverings,            ///< element -> covering
  property_sets,        ///< object -> property set or element quantity
  type,                 ///< object -> type object
  material,             ///< object or type -> material definition
  documents,            ///< object, type or resource -> document
  material_properties,  ///< material -> material properties
  classifications,      ///< object, type or material -> classification reference
  voided,               ///< opening -> element
  aggregate,            ///< part -> whole by IfcRelAggregates alone
  nest,                 ///< likewise by IfcRelNests
  group,                ///< object -> group
  filled,               ///< window or door -> opening
};
inline constexpr std::size_t kLinkCount = 18;
/// From here on they are followed only in a graph that keeps all types.
inline constexpr Link kFirstOfAllTypes = Link::aggregate;

/// Puts the items of a list in the order of their `pos` attributes, where they have any.
void order_by_position(std::vector<Element>& elements);

/// A text with the defined type it was given, such as `IfcLengthMeasure`; the type is empty when not written.
struct TypedText {
  std::string text;
  std::string_view type;  ///< of the document or a constant
  Element at;
};

/// Answers the same for the nested XML form (XML attributes, inverse relationships inside the entity), the flat one
/// (child elements, `IfcRel…` objects joined by `ref`) and the STEP form. Holds handles only; the document must outlive
/// it. Immutable.
class Graph {
 public:
  /// Of which types entities are kept in lists.
  enum class Keep {
    listed_types,  ///< those that the reader starts from
    all_types,
  };

  /// Walks the whole tree once. Reports duplicate ids, dangling and circular references, and relationships that lack
  /// an end.
  Graph(const Element& root, Reporter& report, Keep keep = Keep::listed_types);
  /// Goes through the index. Reports relationships that lack an end.
  Graph(const StepFile& file, Reporter& report, Keep keep = Keep::listed_types);

  /// The entity that the element is or points to; empty when it points nowhere.
  Element resolved(const Element& element) const;

  /// The single entity that is the value of an attribute; empty when there is none.
  Element entity(const Element& owner, std::string_view attribute) const;
  /// All entities of a list or set attribute, in order.
  std::vector<Element> entities(const Element& owner, std::string_view attribute) const;
  /// A value that is text, number or enumeration; none when the attribute is absent or nil.
  std::optional<TypedText> value(const Element& owner, std::string_view attribute) const;
  /// The value's text, empty when absent.
  std::string text(const Element& owner, std::string_view attribute) const;

  /// All entities of exactly this type, in file order. Only for types that are kept.
  const std::vector<Element>& all(std::string_view type) const;
  /// The types that are kept, with their entities.
  const std::unordered_map<std::string_view, std::vector<Element>>& by_type() const { return by_type_; }
  /// What an entity is linked to, in file order, each once.
  std::span<const Element> linked(Link link, const Element& from) const;

  /// Entities that the reader has no use for, by name.
  const std::map<std::string, std::size_t>& skipped() const { return skipped_; }
  /// Elements that carry a GlobalId.
  const std::vector<Element>& rooted() const { return rooted_; }

 private:
  struct Links {
    std::vector<const void*> from;  ///< sorted; beside `to`
    std::vector<Element> to;
  };
  /// Relationship -> entities that point to it from one of their inverse attributes.
  using Owners = std::unordered_map<const void*, std::vector<Element>>;
  struct Pair {
    const void* from;
    Element to;
  };
  using Ids = std::unordered_map<std::string_view, Element>;

  /// Of each node of the XML form the entity that it points to, by number; one of two marks where there is none.
  std::vector<std::uint32_t> targets_;
  std::unordered_map<std::string_view, std::vector<Element>> by_type_;
  std::vector<Element> rooted_;
  std::array<Links, kLinkCount> links_;
  std::map<std::string, std::size_t> skipped_;
  Keep keep_ = Keep::listed_types;

  class TypeRegister;

  void register_element(const Element& element, TypeRegister& types, Ids& ids, std::vector<Element>& references,
                        Reporter& report);
  void resolve_references(const std::vector<Element>& references, const Ids& ids, Reporter& report);
  void build_links(const std::vector<Element>& references, Reporter& report);
  Owners owners_by_reference(const std::vector<Element>& references) const;
  std::vector<Element> ends(const Element& relationship, std::string_view attribute, const Owners& owners) const;
  static Links sorted(std::vector<Pair> pairs);
};

}  // namespace panel_dossier
