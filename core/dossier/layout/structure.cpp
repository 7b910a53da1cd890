#include "core/dossier/layout/structure.h"

#include <algorithm>
#include <utility>

#include "core/pipeline/byte_form/byte_form.h"

namespace panel_dossier {

template <>
inline constexpr Tag kLastOf<Tag> = Tag::span;
template <>
inline constexpr StructureTree::Kid::Kind kLastOf<StructureTree::Kid::Kind> = StructureTree::Kid::Kind::annotation;

template <typename Archive, EitherOf<StructureTree::Kid> Kid>
void fields(Archive& archive, Kid& kid) {
  archive(kid.kind, kid.page, kid.number);
}

template <typename Archive, EitherOf<StructureTree::Element> Element>
void fields(Archive& archive, Element& element) {
  archive(element.tag, element.parent, element.kids);
}

std::string_view structure_type(Tag tag) {
  switch (tag) {
    case Tag::document: return "Document";
    case Tag::heading1: return "H1";
    case Tag::heading2: return "H2";
    case Tag::heading3: return "H3";
    case Tag::paragraph: return "P";
    case Tag::list: return "L";
    case Tag::list_item: return "LI";
    case Tag::list_label: return "Lbl";
    case Tag::list_body: return "LBody";
    case Tag::table: return "Table";
    case Tag::row: return "TR";
    case Tag::head_cell: return "TH";
    case Tag::cell: return "TD";
    case Tag::figure: return "Figure";
    case Tag::link: return "Link";
    case Tag::span: break;
  }
  return "Span";
}

bool holds_marks(Tag tag) {
  switch (tag) {
    case Tag::document:
    case Tag::list:
    case Tag::list_item:
    case Tag::table:
    case Tag::row: return false;
    default: return true;
  }
}

namespace {

bool is_heading(Tag tag) {
  return tag == Tag::heading1 || tag == Tag::heading2 || tag == Tag::heading3;
}

Tag next_level(Tag heading) {
  return heading == Tag::heading1 ? Tag::heading2 : Tag::heading3;
}

}  // namespace

StructureTree::StructureTree() : elements_(1) {}

std::string StructureTree::bytes() const {
  ByteWriter writer;
  writer(elements_, alternates_, owners_, annotation_owners_);
  return writer.take();
}

StructureTree StructureTree::from(std::string_view bytes) {
  StructureTree tree;
  ByteReader reader(bytes);
  reader(tree.elements_, tree.alternates_, tree.owners_, tree.annotation_owners_);
  reader.end();
  return tree;
}

ElementId StructureTree::add(Tag tag, ElementId parent, std::string alternate) {
  if (is_heading(tag)) {
    if (tag > heading_) tag = heading_ == Tag::document ? Tag::heading1 : std::min(tag, next_level(heading_));
    heading_ = tag;
  }
  const auto id = static_cast<ElementId>(elements_.size());
  elements_.push_back({tag, parent, {}});
  elements_.at(parent).kids.push_back({Kid::Kind::element, 0, id});
  if (!alternate.empty()) alternates_.emplace(id, std::move(alternate));
  return id;
}

ElementId StructureTree::last_of(Tag tag, ElementId parent) const {
  const std::vector<Kid>& kids = elements_.at(parent).kids;
  if (kids.empty() || kids.back().kind != Kid::Kind::element) return 0;
  return elements_[kids.back().number].tag == tag ? kids.back().number : 0;
}

std::uint32_t StructureTree::mark(ElementId element, std::size_t page) {
  if (owners_.size() <= page) owners_.resize(page + 1);
  const auto number = static_cast<std::uint32_t>(owners_[page].size());
  owners_[page].push_back(element);
  elements_.at(element).kids.push_back({Kid::Kind::marks, static_cast<std::uint32_t>(page), number});
  return number;
}

std::uint32_t StructureTree::annotate(ElementId element, std::size_t page) {
  const auto number = static_cast<std::uint32_t>(annotation_owners_.size());
  annotation_owners_.push_back(element);
  elements_.at(element).kids.push_back({Kid::Kind::annotation, static_cast<std::uint32_t>(page), number});
  return number;
}

std::string_view StructureTree::alternate(ElementId element) const {
  const auto found = alternates_.find(element);
  return found == alternates_.end() ? std::string_view() : std::string_view(found->second);
}

const std::vector<ElementId>& StructureTree::owners(std::size_t page) const {
  static const std::vector<ElementId> kNone;
  return page < owners_.size() ? owners_[page] : kNone;
}

}  // namespace panel_dossier
