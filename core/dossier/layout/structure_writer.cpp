#include "core/dossier/layout/structure_writer.h"

#include <hpdf_doc.h>
#include <hpdf_objects.h>

#include <algorithm>
#include <cstddef>
#include <iterator>

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
  HPDF_Dict stream(const std::string& bytes) const {
    HPDF_Dict made = HPDF_DictStream_New(document_->mmgr, document_->xref);
    HPDF_Stream_Write(made->stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                      static_cast<HPDF_UINT>(bytes.size()));
    return made;
  }
  HPDF_String bytes(const std::string& name) const { return HPDF_String_New(document_->mmgr, name.c_str(), nullptr); }

 private:
  HPDF_Doc document_;
};

}  // namespace

void write_structure(HPDF_Doc document, const StructureTree& tree, const std::vector<HPDF_Page>& pages,
                     const std::vector<HPDF_Annotation>& annotations) {
  const Objects objects(document);
  for (std::size_t page = 0; page < pages.size(); ++page) {
    if (tree.owners(page).empty()) continue;
    HPDF_Dict_AddNumber(pages[page], "StructParents", static_cast<HPDF_INT32>(page));
    HPDF_Dict_AddName(pages[page], "Tabs", "S");
  }
  for (std::size_t number = 0; number < annotations.size(); ++number) {
    HPDF_Dict_AddNumber(annotations[number], "StructParent", static_cast<HPDF_INT32>(pages.size() + number));
  }
  HPDF_Dict_Add(document->catalog, kWaitingStructure, objects.stream(tree.bytes()));
  HPDF_Dict_AddBoolean(objects.dictionary_in(document->catalog, "MarkInfo"), "Marked", HPDF_TRUE);
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
