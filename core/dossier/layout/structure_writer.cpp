#include "core/dossier/layout/structure_writer.h"

#include <hpdf_doc.h>
#include <hpdf_objects.h>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <string_view>
#include <utility>

namespace panel_dossier {

namespace {

// The library caps an array at 32767 entries, and readers search a tree of short nodes faster.
constexpr std::size_t kEntriesPerNode = 400;

/// Objects of one document. The library owns each as soon as it is added to another or to the cross-reference table.
class Objects {
 public:
  explicit Objects(HPDF_Doc document) : document_(document) {}

  HPDF_Dict dictionary() const { return HPDF_Dict_New(document_->mmgr); }
  HPDF_Array array() const { return HPDF_Array_New(document_->mmgr); }
  HPDF_Dict indirect_dictionary() const {
    HPDF_Dict made = dictionary();
    HPDF_Xref_Add(document_->xref, made);
    return made;
  }
  HPDF_Array array_in(HPDF_Dict holder, const char* key) const {
    HPDF_Array made = array();
    HPDF_Dict_Add(holder, key, made);
    return made;
  }
  HPDF_Dict dictionary_in(HPDF_Dict holder, const char* key) const {
    HPDF_Dict made = dictionary();
    HPDF_Dict_Add(holder, key, made);
    return made;
  }
  /// For people to read.
  HPDF_String text(std::string_view words) const {
    return HPDF_String_New(document_->mmgr, std::string(words).c_str(), HPDF_GetEncoder(document_, "UTF-8"));
  }
  HPDF_String bytes(const std::string& name) const { return HPDF_String_New(document_->mmgr, name.c_str(), nullptr); }

 private:
  HPDF_Doc document_;
};

class StructureWriter {
 public:
  StructureWriter(HPDF_Doc document, const StructureTree& tree, const std::vector<HPDF_Page>& pages,
                  const std::vector<HPDF_Annotation>& annotations)
      : document_(document), objects_(document), tree_(tree), pages_(pages), annotations_(annotations) {}

  void write() {
    make_elements();
    root_ = objects_.indirect_dictionary();
    HPDF_Dict_AddName(root_, "Type", "StructTreeRoot");
    HPDF_Array_Add(objects_.array_in(root_, "K"), elements_.front());
    HPDF_Dict_Add(elements_.front(), "P", root_);
    fill_elements();
    write_parent_tree();
    HPDF_Dict_Add(document_->catalog, "StructTreeRoot", root_);
    HPDF_Dict_AddBoolean(objects_.dictionary_in(document_->catalog, "MarkInfo"), "Marked", HPDF_TRUE);
  }

 private:
  HPDF_Doc document_;
  Objects objects_;
  const StructureTree& tree_;
  const std::vector<HPDF_Page>& pages_;
  const std::vector<HPDF_Annotation>& annotations_;
  std::vector<HPDF_Dict> elements_;  // by id; null for one that holds nothing
  HPDF_Dict root_ = nullptr;
  HPDF_Dict head_of_column_ = nullptr;

  /// An empty cell keeps the others of its row under their heads.
  bool is_kept(const StructureTree::Element& element, const std::vector<bool>& kept) const {
    if (element.tag == Tag::cell || element.tag == Tag::head_cell || element.tag == Tag::document) return true;
    return std::any_of(element.kids.begin(), element.kids.end(), [&kept](const StructureTree::Kid& kid) {
      return kid.kind != StructureTree::Kid::Kind::element || kept[kid.number];
    });
  }

  void make_elements() {
    const auto& elements = tree_.elements();
    std::vector<bool> kept(elements.size());
    for (std::size_t id = elements.size(); id-- > 0;) kept[id] = is_kept(elements[id], kept);
    for (std::size_t id = 0; id < elements.size(); ++id) {
      elements_.push_back(kept[id] ? objects_.indirect_dictionary() : nullptr);
    }
  }

  void fill_elements() {
    const auto& elements = tree_.elements();
    for (ElementId id = 0; id < elements.size(); ++id) {
      HPDF_Dict written = elements_[id];
      if (written == nullptr) continue;
      const StructureTree::Element& element = elements[id];
      HPDF_Dict_AddName(written, "S", std::string(structure_type(element.tag)).c_str());
      if (id != 0) HPDF_Dict_Add(written, "P", elements_[element.parent]);
      if (!tree_.alternate(id).empty()) HPDF_Dict_Add(written, "Alt", objects_.text(tree_.alternate(id)));
      if (element.tag == Tag::head_cell) HPDF_Dict_Add(written, "A", head_of_column());
      write_kids(written, element);
    }
  }

  /// What all heads of columns have in common.
  HPDF_Dict head_of_column() {
    if (head_of_column_ == nullptr) {
      head_of_column_ = objects_.indirect_dictionary();
      HPDF_Dict_AddName(head_of_column_, "O", "Table");
      HPDF_Dict_AddName(head_of_column_, "Scope", "Column");
    }
    return head_of_column_;
  }

  void write_kids(HPDF_Dict written, const StructureTree::Element& element) {
    using Kind = StructureTree::Kid::Kind;
    if (element.kids.empty()) return;
    const auto marks = std::find_if(element.kids.begin(), element.kids.end(),
                                    [](const StructureTree::Kid& kid) { return kid.kind == Kind::marks; });
    // Marks of the element's page are their numbers alone.
    const std::uint32_t page = marks == element.kids.end() ? 0 : marks->page;
    if (marks != element.kids.end()) HPDF_Dict_Add(written, "Pg", pages_.at(page));
    // Most elements hold one mark: a number without an array keeps the file small, and what later reads it.
    if (element.kids.size() == 1 && marks != element.kids.end()) {
      HPDF_Dict_AddNumber(written, "K", static_cast<HPDF_INT32>(marks->number));
      return;
    }
    HPDF_Array kids = objects_.array_in(written, "K");
    for (const StructureTree::Kid& kid : element.kids) {
      if (kid.kind == Kind::element) {
        if (elements_[kid.number] != nullptr) HPDF_Array_Add(kids, elements_[kid.number]);
      } else if (kid.kind == Kind::marks && kid.page == page) {
        HPDF_Array_AddNumber(kids, static_cast<HPDF_INT32>(kid.number));
      } else {
        HPDF_Dict reference = objects_.dictionary();
        HPDF_Array_Add(kids, reference);
        HPDF_Dict_AddName(reference, "Type", kid.kind == Kind::marks ? "MCR" : "OBJR");
        HPDF_Dict_Add(reference, "Pg", pages_.at(kid.page));
        if (kid.kind == Kind::marks) HPDF_Dict_AddNumber(reference, "MCID", static_cast<HPDF_INT32>(kid.number));
        if (kid.kind == Kind::annotation) HPDF_Dict_Add(reference, "Obj", annotations_.at(kid.number));
      }
    }
  }

  /// From the number that a page or an annotation bears to what it belongs to: pages first, then annotations.
  void write_parent_tree() {
    std::vector<std::pair<HPDF_INT32, void*>> entries;
    for (std::size_t page = 0; page < pages_.size(); ++page) {
      const std::vector<ElementId>& owners = tree_.owners(page);
      if (owners.empty()) continue;
      const auto key = static_cast<HPDF_INT32>(page);
      HPDF_Dict_AddNumber(pages_[page], "StructParents", key);
      HPDF_Dict_AddName(pages_[page], "Tabs", "S");
      HPDF_Array list = objects_.array();
      for (const ElementId owner : owners) HPDF_Array_Add(list, elements_[owner]);
      entries.emplace_back(key, list);
    }
    for (std::size_t number = 0; number < annotations_.size(); ++number) {
      const auto key = static_cast<HPDF_INT32>(pages_.size() + number);
      HPDF_Dict_AddNumber(annotations_[number], "StructParent", key);
      entries.emplace_back(key, elements_[tree_.annotation_owners()[number]]);
    }
    HPDF_Dict parents = objects_.indirect_dictionary();
    HPDF_Dict_Add(root_, "ParentTree", parents);
    HPDF_Dict_AddNumber(root_, "ParentTreeNextKey", static_cast<HPDF_INT32>(pages_.size() + annotations_.size()));
    HPDF_Array nodes = objects_.array_in(parents, "Kids");
    for (std::size_t first = 0; first < entries.size(); first += kEntriesPerNode) {
      const std::size_t last = std::min(first + kEntriesPerNode, entries.size()) - 1;
      HPDF_Dict node = objects_.indirect_dictionary();
      HPDF_Array_Add(nodes, node);
      HPDF_Array limits = objects_.array_in(node, "Limits");
      HPDF_Array_AddNumber(limits, entries[first].first);
      HPDF_Array_AddNumber(limits, entries[last].first);
      HPDF_Array numbers = objects_.array_in(node, "Nums");
      for (std::size_t i = first; i <= last; ++i) {
        HPDF_Array_AddNumber(numbers, entries[i].first);
        HPDF_Array_Add(numbers, entries[i].second);
      }
    }
  }
};

}  // namespace

void write_structure(HPDF_Doc document, const StructureTree& tree, const std::vector<HPDF_Page>& pages,
                     const std::vector<HPDF_Annotation>& annotations) {
  StructureWriter(document, tree, pages, annotations).write();
}

void write_destinations(HPDF_Doc document, const std::map<std::string, HPDF_Destination>& destinations) {
  if (destinations.empty()) return;
  const Objects objects(document);
  HPDF_Array nodes =
      objects.array_in(objects.dictionary_in(objects.dictionary_in(document->catalog, "Names"), "Dests"), "Kids");
  for (auto at = destinations.begin(); at != destinations.end();) {
    HPDF_Dict node = objects.indirect_dictionary();
    HPDF_Array_Add(nodes, node);
    HPDF_Array limits = objects.array_in(node, "Limits");
    HPDF_Array names = objects.array_in(node, "Names");
    HPDF_Array_Add(limits, objects.bytes(at->first));
    std::size_t count = 0;
    for (; at != destinations.end() && count < kEntriesPerNode; ++at, ++count) {
      HPDF_Array_Add(names, objects.bytes(at->first));
      HPDF_Array_Add(names, at->second);
    }
    HPDF_Array_Add(limits, objects.bytes(std::prev(at)->first));
  }
}

}  // namespace panel_dossier
