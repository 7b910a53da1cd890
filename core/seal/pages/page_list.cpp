#include "core/seal/pages/page_list.h"

#include <map>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <sstream>
#include <stdexcept>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

std::string content_hash(Object page) {
  Sha256 hasher;
  for (Object stream : page.getPageContents()) {
    const auto data = stream.getStreamData(qpdf_dl_generalized);
    hasher.add({reinterpret_cast<const char*>(data->getBuffer()), data->getSize()});
    hasher.add("\n");
  }
  return to_hex(hasher.finish());
}

/// Gathers what strings of a content stream say, whatever shows them.
class StringGatherer : public QPDFObjectHandle::ParserCallbacks {
 public:
  void handleObject(QPDFObjectHandle object, size_t /*offset*/, size_t /*length*/) override {
    if (object.isString()) {
      take(object.getStringValue());
    } else if (object.isArray()) {
      for (Object item : object.aitems()) {
        if (item.isString()) take(item.getStringValue());
      }
    }
  }
  void handleEOF() override {}

  const std::string& text() const { return text_; }

 private:
  std::string text_;

  /// A code unit of UTF-16 is two octets, of which ASCII has the first empty.
  void take(const std::string& octets) {
    for (const char octet : octets) {
      if (octet > ' ' && octet != '\x7f') text_ += octet;
    }
  }
};

}  // namespace

std::vector<ListedPage> page_list(QPDF& pdf) {
  QPDFOutlineDocumentHelper outlines(pdf);
  std::vector<ListedPage> pages;
  std::string bookmark;
  for (auto& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
    Object object = page.getObjectHandle();
    auto leading = outlines.getOutlinesForPage(object.getObjGen());
    if (!leading.empty()) bookmark = leading.back().getTitle();
    pages.push_back({content_hash(object), bookmark});
  }
  return pages;
}

std::string page_list_text(const std::vector<ListedPage>& pages) {
  std::string text = csv_line({"page", "sha256", "bookmark"});
  for (std::size_t i = 0; i < pages.size(); ++i) {
    text += csv_line({std::to_string(i + 1), pages[i].sha256, pages[i].bookmark});
  }
  return text;
}

std::vector<ListedPage> page_list_from(const std::string& text) {
  std::vector<ListedPage> pages;
  std::istringstream lines(text);
  std::string line;
  std::getline(lines, line);  // the head
  while (std::getline(lines, line)) {
    const auto fields = csv_fields(line);
    if (!fields || fields->size() != 3 || fields->front() != std::to_string(pages.size() + 1)) {
      throw std::runtime_error("line '" + line + "' of the list of pages has another form");
    }
    pages.push_back({(*fields)[1], (*fields)[2]});
  }
  return pages;
}

std::string plain_text(QPDF& pdf, std::size_t index) {
  StringGatherer strings;
  QPDFPageDocumentHelper(pdf).getAllPages().at(index).parseContents(&strings);
  return strings.text();
}

}  // namespace panel_dossier
