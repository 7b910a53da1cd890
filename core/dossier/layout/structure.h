// The logical structure of a document (ISO 32000-2:2020, 14.7 and 14.8): what a screen reader reads, in which order,
// and which marks of the pages belong to it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// Key of the catalog under which the tree waits in a stream, as StructureTree::bytes, for the finishing of the file:
/// its elements are most of a file's objects, and a library that makes an object of each takes 2 kB for it.
inline constexpr const char* kWaitingStructure = "WaitingStructure";

/// Standard structure types that the pages use.
enum class Tag : std::uint8_t {
  document,
  heading1,
  heading2,
  heading3,
  paragraph,
  list,
  list_item,
  list_label,
  list_body,
  table,
  row,
  head_cell,
  cell,
  figure,
  link,
  span
};

/// `H1`, `TD`, ….
std::string_view structure_type(Tag tag);

/// Whether marks of a page belong to such an element itself. What is drawn within any other is an artifact: a rule, a
/// ground, a running head.
bool holds_marks(Tag tag);

using ElementId = std::uint32_t;

/// A tree of elements under one of the type Document, whose id is 0. Ids ascend in the order of `add`, so that parents
/// come before what they hold.
class StructureTree {
 public:
  struct Kid {
    enum class Kind : std::uint8_t { element, marks, annotation };
    Kind kind = Kind::element;
    std::uint32_t page = 0;    ///< of marks or annotation
    std::uint32_t number = 0;  ///< id of the element, number of the marked content on its page, or of the annotation
  };

  struct Element {
    Tag tag = Tag::document;
    ElementId parent = 0;
    std::vector<Kid> kids;
  };

  StructureTree();

  /// The tree in the compact form of core/pipeline/byte_form, in which it goes with the pages to where the file is
  /// finished, and back. `from` throws std::runtime_error for bytes of another form.
  std::string bytes() const;
  static StructureTree from(std::string_view bytes);

  /// `alternate` is what is read instead of the element: it must be there for a figure. A heading goes at most one
  /// level below the one before it (ISO 14289-1:2014, 7.4.2), whatever is asked for.
  ElementId add(Tag tag, ElementId parent, std::string alternate = {});
  /// The last thing that the element holds when that is an element of this type; 0 otherwise.
  ElementId last_of(Tag tag, ElementId parent) const;
  /// Takes marks of the page into the element and returns their number, from 0 on each page.
  std::uint32_t mark(ElementId element, std::size_t page);
  /// Takes an annotation into the element and returns its number, from 0 in the document.
  std::uint32_t annotate(ElementId element, std::size_t page);

  const std::vector<Element>& elements() const { return elements_; }
  /// Of an element; empty for none.
  std::string_view alternate(ElementId element) const;
  /// Owners of the marked contents of a page, by number.
  const std::vector<ElementId>& owners(std::size_t page) const;
  /// Owners of the annotations, by number.
  const std::vector<ElementId>& annotation_owners() const { return annotation_owners_; }

 private:
  Tag heading_ = Tag::document;  ///< the last one; the document before the first
  std::vector<Element> elements_;
  std::map<ElementId, std::string> alternates_;
  std::vector<std::vector<ElementId>> owners_;
  std::vector<ElementId> annotation_owners_;
};

}  // namespace panel_dossier
