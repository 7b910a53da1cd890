#include "tests/seal/archival_rules.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <map>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <set>
#include <stdexcept>

namespace panel_dossier::testing {

namespace {

using Object = QPDFObjectHandle;

std::string stream_bytes(Object stream) {
  const auto data = stream.getStreamData(qpdf_dl_generalized);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

/// Marks and graphics operators of one page's content.
class ContentLook : public Object::ParserCallbacks {
 public:
  std::vector<int> marks;   ///< MCIDs in their order
  std::size_t outside = 0;  ///< what is shown or painted outside of marked content
  std::size_t nested = 0;   ///< marked content within marked content
  int deepest_state = 0;    ///< nesting of q
  std::set<std::string> operators;

  void handleObject(Object object, std::size_t /*offset*/, std::size_t /*length*/) override {
    if (!object.isOperator()) {
      operands_.push_back(object);
      return;
    }
    const std::string name = object.getOperatorValue();
    operators.insert(name);
    if (name == "q") deepest_state = std::max(deepest_state, ++state_);
    if (name == "Q") --state_;
    if (name == "BMC" || name == "BDC") {
      if (++open_ > 1) ++nested;
      if (name == "BDC" && operands_.size() == 2 && operands_[1].isDictionary()) {
        marks.push_back(operands_[1].getKey("/MCID").getIntValueAsInt());
      }
    }
    if (name == "EMC") --open_;
    static const std::set<std::string> kPainting{"Tj", "TJ", "'",  "\"", "S",  "s",  "f", "F",
                                                 "f*", "B",  "B*", "b",  "b*", "Do", "sh"};
    if (kPainting.contains(name) && open_ == 0) ++outside;
    operands_.clear();
  }
  void handleEOF() override {}

 private:
  std::vector<Object> operands_;
  int state_ = 0;
  int open_ = 0;
};

class Look {
 public:
  explicit Look(const std::filesystem::path& file) : file_(file) { pdf_.processFile(file.c_str()); }

  std::vector<std::string> faults() {
    header();
    trailer();
    objects();
    colours();
    fonts();
    annotations();
    metadata();
    embedded_files();
    structure();
    return std::move(faults_);
  }

 private:
  std::filesystem::path file_;
  QPDF pdf_;
  std::vector<std::string> faults_;
  std::map<std::pair<int, int>, std::pair<std::size_t, int>> owners_;  // marks that an element holds

  void expect(bool holds, const std::string& fault) {
    if (!holds) faults_.push_back(fault);
  }

  void header() {
    std::ifstream stream(file_, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
    expect(bytes.compare(0, 7, "%PDF-1.") == 0 && bytes[7] >= '0' && bytes[7] <= '7' && bytes[8] == '\n',
           "6.1.2: begins with " + bytes.substr(0, 8));
    expect(bytes.size() > 14 && bytes[9] == '%' &&
               std::all_of(bytes.begin() + 10, bytes.begin() + 14,
                           [](char byte) { return static_cast<unsigned char>(byte) > 127; }),
           "6.1.2: no comment of bytes above 127 in the second line");
    const std::size_t end = bytes.rfind("%%EOF");
    expect(end != std::string::npos && bytes.size() - end <= 6, "6.1.3: something stands behind the last %%EOF");
  }

  void trailer() {
    expect(pdf_.getTrailer().getKey("/ID").isArray(), "6.1.3: no ID");
    expect(!pdf_.getTrailer().hasKey("/Encrypt"), "6.1.3: encrypted");
    for (const char* key : {"/OCProperties", "/Requirements", "/AA", "/Collection"}) {
      expect(!pdf_.getRoot().hasKey(key), std::string("the catalog has ") + key);
    }
  }

  /// Limits of 6.1.13, streams of 6.1.7, actions of 6.5, transparency of 6.2.10 and 6.2.5.
  void objects() {
    for (Object object : pdf_.getAllObjects()) {
      look_into(object, "object " + std::to_string(object.getObjectID()), 0);
      Object dictionary = object.isStream() ? object.getDict() : object;
      if (!dictionary.isDictionary()) continue;
      const std::string where = " in object " + std::to_string(object.getObjectID());
      if (object.isStream()) {
        for (const char* key : {"/F", "/FFilter", "/FDecodeParms"}) {
          expect(!dictionary.hasKey(key), std::string("6.1.7.1: ") + key + where);
        }
        expect(dictionary.getKey("/Filter").unparse().find("LZW") == std::string::npos, "6.1.7.2: LZW" + where);
      }
    }
  }

  void look_into(Object object, const std::string& where, int depth) {
    if (object.isStream()) object = object.getDict();
    if (object.isString()) expect(object.getStringValue().size() <= 32767, "6.1.13: long string in " + where);
    if (object.isName()) expect(object.getName().size() <= 128, "6.1.13: long name in " + where);
    if (depth > 20) return;
    if (object.isArray()) {
      for (Object item : object.getArrayAsVector()) {
        if (!item.isIndirect()) look_into(item, where, depth + 1);
      }
    }
    if (object.isDictionary()) {
      look_at_keys(object, where);
      for (const std::string& key : object.getKeys()) {
        expect(key.size() <= 128, "6.1.13: long key in " + where);
        Object item = object.getKey(key);
        if (!item.isIndirect()) look_into(item, where, depth + 1);
      }
    }
  }

  void look_at_keys(Object object, const std::string& where) {
    if (object.getKey("/S").isName() && object.hasKey("/Type") && object.getKey("/Type").isNameAndEquals("/Action")) {
      static const std::set<std::string> kAllowed{"/GoTo", "/GoToR", "/URI", "/Named", "/Thread"};
      expect(kAllowed.contains(object.getKey("/S").getName()), "6.5.1: action in " + where);
    }
    for (const char* key : {"/SMask", "/TR", "/HTP", "/JS", "/JavaScript"}) {
      expect(!object.hasKey(key), std::string("6.2 or 6.5: ") + key + " in " + where);
    }
    for (const char* key : {"/ca", "/CA"}) {
      expect(!object.hasKey(key) || object.getKey(key).getNumericValue() == 1.0, "6.2.10: transparent in " + where);
    }
  }

  void colours() {
    Object intents = pdf_.getRoot().getKey("/OutputIntents");
    expect(intents.isArray() && intents.getArrayNItems() == 1, "6.2.3: no output intent");
    if (!intents.isArray() || intents.getArrayNItems() != 1) return;
    Object intent = intents.getArrayItem(0);
    expect(intent.getKey("/S").isNameAndEquals("/GTS_PDFA1"), "6.2.3: the intent is of another kind");
    expect(intent.getKey("/OutputConditionIdentifier").isString(), "6.2.3: the intent names no condition");
    Object profile = intent.getKey("/DestOutputProfile");
    const std::string bytes = profile.isStream() ? stream_bytes(profile) : std::string();
    expect(bytes.size() > 128 && bytes.compare(36, 4, "acsp") == 0 && bytes.compare(12, 4, "mntr") == 0 &&
               bytes.compare(16, 4, "RGB ") == 0 && bytes[8] <= 4,
           "6.2.3: the profile is no ICC profile of a display of version 4 or less");
  }

  void fonts() {
    for (Object font : pdf_.getAllObjects()) {
      if (!font.isDictionaryOfType("/Font")) continue;
      const std::string name = font.getKey("/BaseFont").unparse();
      if (font.getKey("/Subtype").isNameAndEquals("/Type0")) {
        expect(font.getKey("/Encoding").isNameAndEquals("/Identity-H"), "6.2.11.3: encoding of " + name);
        expect(font.getKey("/ToUnicode").isStream(), "6.2.11.7.2: no text map of " + name);
        continue;
      }
      Object descriptor = font.getKey("/FontDescriptor");
      expect(descriptor.isDictionary() && descriptor.getKey("/FontFile2").isStream(),
             "6.2.11.4: not embedded: " + name);
      if (descriptor.isDictionary()) {
        expect(!descriptor.hasKey("/CIDSet"), "6.2.11.4.2: a CIDSet, which must be whole: " + name);
      }
      if (font.getKey("/Subtype").isNameAndEquals("/CIDFontType2")) {
        Object glyphs = font.getKey("/CIDToGIDMap");
        expect(glyphs.isStream() || glyphs.isNameAndEquals("/Identity"), "6.2.11.3.2: no map to glyphs: " + name);
      } else {
        expect(font.getKey("/Widths").isArray(), "6.2.11.2: no widths: " + name);
      }
    }
  }

  void annotations() {
    static const std::set<std::string> kAllowed{"/Link", "/Widget"};
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf_).getAllPages()) {
      Object annotations = page.getObjectHandle().getKey("/Annots");
      if (!annotations.isArray()) continue;
      for (Object annotation : annotations.getArrayAsVector()) {
        const std::string where = "annotation " + std::to_string(annotation.getObjectID());
        const std::string subtype = annotation.getKey("/Subtype").unparse();
        expect(kAllowed.contains(subtype), "6.3.1: " + where + " is a " + subtype);
        const int flags = annotation.getKey("/F").isInteger() ? annotation.getKey("/F").getIntValueAsInt() : 0;
        constexpr int kPrint = 4;
        constexpr int kForbidden = 1 | 2 | 32 | 256;  // Invisible, Hidden, NoView, ToggleNoView
        expect((flags & kPrint) != 0 && (flags & kForbidden) == 0, "6.3.2: flags of " + where);
        Object rect = annotation.getKey("/Rect");
        bool empty = true;
        for (int i = 0; i < 2; ++i) {
          empty = empty && rect.getArrayItem(i).getNumericValue() == rect.getArrayItem(i + 2).getNumericValue();
        }
        expect(subtype == "/Link" || empty || annotation.getKey("/AP").isDictionary(), "6.3.3: no look of " + where);
        for (const char* key : {"/AA", "/A"}) {
          expect(subtype == "/Link" || !annotation.hasKey(key), "6.4.1: an action of " + where);
        }
      }
    }
    Object form = pdf_.getRoot().getKey("/AcroForm");
    if (!form.isDictionary()) return;
    expect(!form.hasKey("/XFA"), "6.4.2: XFA");
    expect(!form.getKey("/NeedAppearances").isBool() || !form.getKey("/NeedAppearances").getBoolValue(),
           "6.4.1: appearances are to be made");
  }

  void metadata() {
    Object metadata = pdf_.getRoot().getKey("/Metadata");
    if (!metadata.isStream()) {
      faults_.emplace_back("6.6.2.1: no metadata");
      return;
    }
    const std::string xmp = stream_bytes(metadata);
    for (const char* words : {"<pdfaid:part>3</pdfaid:part>", "<pdfaid:conformance>U</pdfaid:conformance>",
                              "xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\""}) {
      expect(xmp.find(words) != std::string::npos, std::string("6.6.4: the metadata lack ") + words);
    }
    // Every property of the namespace of our own is described.
    for (std::size_t at = xmp.find("<pd:"); at != std::string::npos; at = xmp.find("<pd:", at + 1)) {
      const std::string name = xmp.substr(at + 4, xmp.find('>', at) - at - 4);
      expect(xmp.find("<pdfaProperty:name>" + name + "</pdfaProperty:name>") != std::string::npos,
             "6.6.2.3.1: nothing describes the property " + name);
    }
    Object information = pdf_.getTrailer().getKey("/Info");
    if (!information.isDictionary()) return;
    const std::string title = information.getKey("/Title").getUTF8Value();
    expect(xmp.find(">" + title + "</rdf:li>") != std::string::npos, "the two titles differ");
    for (const auto& [key, element] :
         std::map<std::string, std::string>{{"/Creator", "xmp:CreatorTool"}, {"/Producer", "pdf:Producer"}}) {
      const std::string value = information.getKey(key).getUTF8Value();
      expect(xmp.find("<" + element + ">" + value + "</" + element + ">") != std::string::npos, key + " differs");
    }
  }

  void embedded_files() {
    std::set<QPDFObjGen> associated;
    Object list = pdf_.getRoot().getKey("/AF");
    if (list.isArray()) {
      for (Object file : list.getArrayAsVector()) associated.insert(file.getObjGen());
    }
    QPDFEmbeddedFileDocumentHelper helper(pdf_);
    for (const auto& [name, file] : helper.getEmbeddedFiles()) {
      Object specification = file->getObjectHandle();
      expect(specification.getKey("/F").isString() && specification.getKey("/UF").isString(), "6.8: names of " + name);
      static const std::set<std::string> kRelations{"/Source", "/Data", "/Alternative", "/Supplement", "/Unspecified"};
      expect(kRelations.contains(specification.getKey("/AFRelationship").unparse()), "6.8: relation of " + name);
      Object stream = specification.getKey("/EF").getKey("/F");
      expect(stream.isStream() && stream.getDict().getKey("/Subtype").isName() &&
                 stream.getDict().getKey("/Subtype").getName().find('/', 1) != std::string::npos,
             "6.8: MIME type of " + name);
      expect(associated.contains(specification.getObjGen()), "6.8: not associated: " + name);
    }
  }

  void structure() {
    Object root = pdf_.getRoot();
    expect(root.getKey("/Lang").isString(), "ISO 14289-1, 7.2: no language");
    expect(root.getKey("/MarkInfo").isDictionary() && root.getKey("/MarkInfo").getKey("/Marked").isBool() &&
               root.getKey("/MarkInfo").getKey("/Marked").getBoolValue(),
           "ISO 14289-1, 6.2: not marked as tagged");
    expect(root.getKey("/ViewerPreferences").isDictionary() &&
               root.getKey("/ViewerPreferences").hasKey("/DisplayDocTitle"),
           "ISO 14289-1, 7.1: the title is not shown");
    Object tree = root.getKey("/StructTreeRoot");
    if (!tree.isDictionary()) {
      faults_.emplace_back("ISO 14289-1, 7.1: no structure");
      return;
    }
    heading_ = 0;
    for (Object kid : tree.getKey("/K").getArrayAsVector()) look_at_element(kid, "/Document");
    look_at_pages(tree);
  }

  int heading_ = 0;

  static std::vector<Object> kids_of(Object element) {
    Object kids = element.getKey("/K");
    if (kids.isNull()) return {};
    return kids.isArray() ? kids.getArrayAsVector() : std::vector<Object>{kids};
  }

  void look_at_element(Object element, const std::string& above) {
    const std::string type = element.getKey("/S").unparse();
    const std::string where = type + " " + std::to_string(element.getObjectID());
    expect(element.getKey("/P").isDictionary(), "ISO 32000-1, 14.7.2: no parent of " + where);
    if (type == "/Figure") {
      expect(element.getKey("/Alt").isString() && !element.getKey("/Alt").getStringValue().empty(),
             "ISO 14289-1, 7.3: nothing is read in place of " + where);
    }
    if (type.size() == 3 && type[1] == 'H' && type[2] >= '1' && type[2] <= '6') {
      const int level = type[2] - '0';
      expect(level <= heading_ + 1, "ISO 14289-1, 7.4.2: a level of headings is left out before " + where);
      heading_ = level;
    }
    const std::map<std::string, std::string> within{{"/TR", "/Table"}, {"/TH", "/TR"},  {"/TD", "/TR"},
                                                    {"/LI", "/L"},     {"/Lbl", "/LI"}, {"/LBody", "/LI"}};
    if (const auto found = within.find(type); found != within.end()) {
      expect(above == found->second, "ISO 14289-1, 7.2: " + where + " within " + above);
    }
    if (type == "/TH") {
      expect(element.getKey("/A").isDictionary() && element.getKey("/A").hasKey("/Scope"), "7.5: no scope of " + where);
    }
    if (type == "/Table") look_at_rows(element, where);
    const int page = element.getKey("/Pg").isDictionary() ? element.getKey("/Pg").getObjectID() : 0;
    for (Object kid : kids_of(element)) {
      if (kid.isInteger()) {
        take_mark(page, kid.getIntValueAsInt(), element);
      } else if (kid.getKey("/Type").isNameAndEquals("/MCR")) {
        take_mark(kid.getKey("/Pg").getObjectID(), kid.getKey("/MCID").getIntValueAsInt(), element);
      } else if (kid.getKey("/Type").isNameAndEquals("/OBJR")) {
        expect(kid.getKey("/Obj").getKey("/Contents").isString(), "ISO 14289-1, 7.18.5: a link without words");
        expect(type == "/Link" || type == "/Form", "ISO 14289-1, 7.18.5: an annotation within " + where);
      } else {
        look_at_element(kid, type);
      }
    }
  }

  void look_at_rows(Object table, const std::string& where) {
    std::size_t columns = 0;
    for (Object row : kids_of(table)) {
      const std::size_t cells = kids_of(row).size();
      if (columns == 0) columns = cells;
      expect(cells == columns, "ISO 14289-1, 7.2: rows of unlike length in " + where);
    }
  }

  void take_mark(int page, int number, Object element) {
    const bool is_new =
        owners_.emplace(std::pair{page, number}, std::pair{owners_.size(), element.getObjectID()}).second;
    expect(is_new, "ISO 32000-1, 14.7.4: mark " + std::to_string(number) + " has two owners");
  }

  void read_numbers(Object node, std::map<int, Object>& numbers) {
    for (Object kid : kids_of_node(node)) read_numbers(kid, numbers);
    Object list = node.getKey("/Nums");
    if (!list.isArray()) return;
    for (int i = 0; i + 1 < list.getArrayNItems(); i += 2) {
      numbers.emplace(list.getArrayItem(i).getIntValueAsInt(), list.getArrayItem(i + 1));
    }
  }

  static std::vector<Object> kids_of_node(Object node) {
    return node.getKey("/Kids").isArray() ? node.getKey("/Kids").getArrayAsVector() : std::vector<Object>{};
  }

  void look_at_pages(Object tree) {
    std::map<int, Object> numbers;
    read_numbers(tree.getKey("/ParentTree"), numbers);
    std::size_t marks = 0;
    for (QPDFPageObjectHelper& helper : QPDFPageDocumentHelper(pdf_).getAllPages()) {
      Object page = helper.getObjectHandle();
      const std::string where = "page object " + std::to_string(page.getObjectID());
      expect(page.getKey("/Resources").isDictionary(), "6.2.2: no resources of " + where);
      ContentLook look;
      helper.parseContents(&look);
      expect(look.outside == 0,
             "ISO 14289-1, 7.1: " + std::to_string(look.outside) + " marks of no element on " + where);
      expect(look.nested == 0, "ISO 14289-1, 7.1: content marked twice on " + where);
      expect(look.deepest_state <= 28, "6.1.13: nesting of states on " + where);
      for (const int number : look.marks) {
        const auto owner = owners_.find({page.getObjectID(), number});
        expect(owner != owners_.end(), "ISO 32000-1, 14.7.4: mark " + std::to_string(number) + " of none on " + where);
        if (owner == owners_.end()) continue;
        Object owners = numbers[page.getKey("/StructParents").getIntValueAsInt()];
        expect(
            owners.isArray() && number < owners.getArrayNItems() &&
                owners.getArrayItem(number).getObjectID() == owner->second.second,
            "ISO 32000-1, 14.7.5.4: the parent tree says otherwise of mark " + std::to_string(number) + " on " + where);
        ++marks;
      }
      look_at_parents_of_annotations(page, numbers);
    }
    expect(marks == owners_.size(), "ISO 32000-1, 14.7.4: elements hold marks that no page has");
  }

  void look_at_parents_of_annotations(Object page, std::map<int, Object>& numbers) {
    if (!page.getKey("/Annots").isArray()) return;
    for (Object annotation : page.getKey("/Annots").getArrayAsVector()) {
      if (!annotation.getKey("/Subtype").isNameAndEquals("/Link")) continue;
      Object key = annotation.getKey("/StructParent");
      expect(key.isInteger() && numbers.contains(key.getIntValueAsInt()) &&
                 numbers[key.getIntValueAsInt()].getKey("/S").isNameAndEquals("/Link"),
             "ISO 14289-1, 7.18.5: a link of no element");
    }
  }
};

}  // namespace

std::vector<std::string> archival_faults(const std::filesystem::path& file) {
  return Look(file).faults();
}

}  // namespace panel_dossier::testing
