#include "core/seal/pages/tagged_structure.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "core/seal/pages/appended_objects.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;
using Kid = StructureTree::Kid;

// Readers search a tree of short nodes faster.
constexpr std::size_t kEntriesPerNode = 400;

std::string object_reference(int number) {
  return std::to_string(number) + " 0 R";
}

std::vector<int> renumbered(const std::vector<QPDFObjGen>& objects, QPDFWriter& writer) {
  std::vector<int> numbers;
  numbers.reserve(objects.size());
  for (const QPDFObjGen& object : objects) numbers.push_back(writer.getRenumberedObjGen(object).getObj());
  return numbers;
}

/// An element without kids is left out, but for an empty cell, which keeps the others of its row under their heads.
std::vector<bool> kept_elements(const StructureTree& tree) {
  const auto& elements = tree.elements();
  std::vector<bool> kept(elements.size());
  for (std::size_t id = elements.size(); id-- > 0;) {
    const StructureTree::Element& element = elements[id];
    kept[id] = element.tag == Tag::cell || element.tag == Tag::head_cell || element.tag == Tag::document ||
               std::any_of(element.kids.begin(), element.kids.end(),
                           [&kept](const Kid& kid) { return kid.kind != Kid::Kind::element || kept.at(kid.number); });
  }
  return kept;
}

class ElementWriter {
 public:
  ElementWriter(const StructureTree& tree, AppendedObjects& objects, std::vector<int> pages,
                std::vector<int> annotations, int root)
      : tree_(tree),
        objects_(objects),
        pages_(std::move(pages)),
        annotations_(std::move(annotations)),
        root_(root),
        head_of_column_(objects.reserve(1)),
        numbers_(tree.elements().size()) {
    const std::vector<bool> kept = kept_elements(tree);
    const auto count = static_cast<int>(std::count(kept.begin(), kept.end(), true));
    int next = objects.reserve(count);
    for (std::size_t id = 0; id < kept.size(); ++id) {
      if (kept[id]) numbers_[id] = next++;
    }
  }

  void write() {
    objects_.add(head_of_column_, "<< /O /Table /Scope /Column >>");
    for (ElementId id = 0; id < numbers_.size(); ++id) {
      if (numbers_[id] != 0) objects_.add(numbers_[id], element_text(id));
    }
    const int parents = write_parent_tree();
    objects_.add(root_, "<< /Type /StructTreeRoot /K [ " + object_reference(numbers_.front()) + " ] /ParentTree " +
                            object_reference(parents) + " /ParentTreeNextKey " +
                            std::to_string(pages_.size() + annotations_.size()) + " >>");
  }

 private:
  const StructureTree& tree_;
  AppendedObjects& objects_;
  std::vector<int> pages_;
  std::vector<int> annotations_;
  int root_;
  int head_of_column_;        ///< what all heads of columns have in common
  std::vector<int> numbers_;  ///< of the objects, by id; 0 for an element that is left out

  std::string element_text(ElementId id) const {
    const StructureTree::Element& element = tree_.elements()[id];
    std::string text = "<< /S /" + std::string(structure_type(element.tag)) + " /P " +
                       object_reference(id == 0 ? root_ : numbers_.at(element.parent));
    if (const std::string_view alternate = tree_.alternate(id); !alternate.empty()) {
      text += " /Alt " + Object::newUnicodeString(std::string(alternate)).unparse();
    }
    if (element.tag == Tag::head_cell) text += " /A " + object_reference(head_of_column_);
    return text + kids_text(element) + " >>";
  }

  std::string kids_text(const StructureTree::Element& element) const {
    if (element.kids.empty()) return {};
    const auto marks = std::find_if(element.kids.begin(), element.kids.end(),
                                    [](const Kid& kid) { return kid.kind == Kid::Kind::marks; });
    const bool any = marks != element.kids.end();
    // Marks of the element's page are their numbers alone.
    const std::uint32_t page = any ? marks->page : 0;
    const std::string on_page = any ? " /Pg " + object_reference(pages_.at(page)) : std::string();
    if (element.kids.size() == 1 && any) return on_page + " /K " + std::to_string(marks->number);
    std::string text = on_page + " /K [";
    for (const Kid& kid : element.kids) {
      if (kid.kind == Kid::Kind::element) {
        if (numbers_.at(kid.number) != 0) text += " " + object_reference(numbers_[kid.number]);
      } else if (kid.kind == Kid::Kind::marks && kid.page == page) {
        text += " " + std::to_string(kid.number);
      } else if (kid.kind == Kid::Kind::marks) {
        text += " << /Type /MCR /Pg " + object_reference(pages_.at(kid.page)) + " /MCID " + std::to_string(kid.number) +
                " >>";
      } else {
        text += " << /Type /OBJR /Pg " + object_reference(pages_.at(kid.page)) + " /Obj " +
                object_reference(annotations_.at(kid.number)) + " >>";
      }
    }
    return text + " ]";
  }

  /// From the number that a page or an annotation bears to what it belongs to. Returns the number of its object.
  int write_parent_tree() {
    std::string kids;
    std::vector<std::pair<std::size_t, std::string>> entries;
    const auto flush = [&] {
      if (entries.empty()) return;
      const int node = objects_.reserve(1);
      kids += " " + object_reference(node);
      std::string text = "<< /Limits [ " + std::to_string(entries.front().first) + " " +
                         std::to_string(entries.back().first) + " ] /Nums [";
      for (const auto& [key, owner] : entries) text += " " + std::to_string(key) + " " + owner;
      objects_.add(node, text + " ] >>");
      entries.clear();
    };
    const auto add = [&](std::size_t key, std::string owner) {
      entries.emplace_back(key, std::move(owner));
      if (entries.size() == kEntriesPerNode) flush();
    };
    for (std::size_t page = 0; page < pages_.size(); ++page) {
      if (tree_.owners(page).empty()) continue;
      std::string owners = "[";
      for (const ElementId owner : tree_.owners(page)) owners += " " + object_reference(numbers_.at(owner));
      add(page, owners + " ]");
    }
    for (std::size_t number = 0; number < annotations_.size(); ++number) {
      add(pages_.size() + number, object_reference(numbers_.at(tree_.annotation_owners()[number])));
    }
    flush();
    const int parents = objects_.reserve(1);
    objects_.add(parents, "<< /Kids [" + kids + " ] >>");
    return parents;
  }
};

}  // namespace

TaggedStructure::TaggedStructure(QPDF& pdf) {
  const std::string key = std::string("/") + kWaitingStructure;
  Object catalog = pdf.getRoot();
  Object waiting = catalog.getKey(key);
  if (!waiting.isStream()) return;
  const auto bytes = waiting.getStreamData(qpdf_dl_generalized);
  tree_ = StructureTree::from({reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()});
  catalog.removeKey(key);
  root_ = pdf.makeIndirectObject(Object::parse("<< /Type /StructTreeRoot >>"));
  catalog.replaceKey("/StructTreeRoot", root_);
  annotations_.resize(tree_->annotation_owners().size());
  const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
  for (const auto& page : pages) {
    Object object = page.getObjectHandle();
    pages_.push_back(object.getObjGen());
    Object annotations = object.getKey("/Annots");
    if (!annotations.isArray()) continue;
    for (Object annotation : annotations.aitems()) {
      Object number = annotation.getKey("/StructParent");
      if (!number.isInteger()) continue;
      annotations_.at(static_cast<std::size_t>(number.getIntValue()) - pages.size()) = annotation.getObjGen();
    }
  }
}

void TaggedStructure::append(const std::filesystem::path& file, QPDFWriter& writer) const {
  if (!tree_) return;
  AppendedObjects objects(file, writer);
  const int root = writer.getRenumberedObjGen(root_.getObjGen()).getObj();
  ElementWriter(*tree_, objects, renumbered(pages_, writer), renumbered(annotations_, writer), root).write();
  objects.finish();
}

}  // namespace panel_dossier
