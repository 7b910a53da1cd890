#include "core/seal/revision/added_field.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <stdexcept>

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

/// A copy of the array with a reference more.
Object with_item(QPDF& pdf, Object array, int number) {
  Object items = array.isArray() ? array.shallowCopy() : Object::newArray();
  items.appendItem(reference_to(pdf, number));
  return items;
}

}  // namespace

AddedField added_field(QPDF& pdf, int object) {
  Object root = pdf.getRoot().shallowCopy();
  Object form = root.getKey("/AcroForm").isDictionary() ? root.getKey("/AcroForm").shallowCopy() : Object::newNull();
  if (!form.isDictionary() || !form.getKey("/Fields").isArray() || form.getKey("/Fields").getArrayNItems() < 1) {
    throw std::runtime_error("the file has no signature yet; only a dossier that 'build' signed is signed again");
  }
  AddedField added;
  added.number = form.getKey("/Fields").getArrayNItems() + 1;
  Object page = QPDFPageDocumentHelper(pdf).getAllPages().at(0).getObjectHandle();
  form.replaceKey("/Fields", with_item(pdf, form.getKey("/Fields"), object));
  root.replaceKey("/AcroForm", form);
  Object changed_page = page.shallowCopy();
  changed_page.replaceKey("/Annots", with_item(pdf, page.getKey("/Annots"), object));
  added.objects = {{pdf.getRoot().getObjectID(), root.unparse()}, {page.getObjectID(), changed_page.unparse()}};
  added.page = page.unparse();
  return added;
}

std::string reference(int number) {
  return std::to_string(number) + " 0 R";
}

}  // namespace panel_dossier
