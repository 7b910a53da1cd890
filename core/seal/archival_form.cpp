#include "core/seal/archival_form.h"

#include <array>
#include <qpdf/QPDFObjectHandle.hh>

#include "core/seal/srgb_profile.h"

namespace panel_dossier {

namespace {

struct OwnProperty {
  const char* name;
  const char* value_type;
  const char* description;
};

constexpr std::array<OwnProperty, 4> kOwnProperties{
    {{"hashTreeRoot", "Text", "SHA-256 root of the hash tree over all panels"},
     {"exportSHA256", "Text", "SHA-256 of the export that the dossier was built from"},
     {"volume", "Text", "title of the volume where the file is one of several"},
     {"signedForIssue", "Boolean", "whether the signing key was the practice's and not a demonstration key"}}};

std::string described(const OwnProperty& property) {
  return "      <rdf:li rdf:parseType=\"Resource\"><pdfaProperty:name>" + std::string(property.name) +
         "</pdfaProperty:name><pdfaProperty:valueType>" + property.value_type +
         "</pdfaProperty:valueType><pdfaProperty:category>external</pdfaProperty:category><pdfaProperty:description>" +
         property.description + "</pdfaProperty:description></rdf:li>\n";
}

}  // namespace

void add_archival_form(QPDF& pdf) {
  using Object = QPDFObjectHandle;
  Object profile = pdf.newStream(srgb_profile());
  profile.getDict().replaceKey("/N", Object::newInteger(3));
  Object intent = Object::parse(
      "<< /Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB IEC61966-2.1) /RegistryName "
      "(http://www.color.org) /Info (sRGB IEC61966-2.1) >>");
  intent.replaceKey("/DestOutputProfile", profile);
  pdf.getRoot().replaceKey("/OutputIntents", Object::newArray({pdf.makeIndirectObject(intent)}));
  pdf.getRoot().replaceKey("/Extensions", Object::parse("<< /ESIC << /BaseVersion /1.7 /ExtensionLevel 1 >> >>"));
}

std::string archival_description() {
  std::string text =
      "  <rdf:Description rdf:about=\"\" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"\n"
      "    xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n"
      "    xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n"
      "    xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n"
      "   <pdfaid:part>3</pdfaid:part>\n   <pdfaid:conformance>U</pdfaid:conformance>\n"
      "   <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n"
      "    <pdfaSchema:schema>Panel dossier</pdfaSchema:schema>\n"
      "    <pdfaSchema:namespaceURI>urn:panel-dossier:metadata:1#</pdfaSchema:namespaceURI>\n"
      "    <pdfaSchema:prefix>pd</pdfaSchema:prefix>\n"
      "    <pdfaSchema:property><rdf:Seq>\n";
  for (const OwnProperty& property : kOwnProperties) text += described(property);
  return text +
         "    </rdf:Seq></pdfaSchema:property>\n   </rdf:li></rdf:Bag></pdfaExtension:schemas>\n"
         "  </rdf:Description>\n";
}

}  // namespace panel_dossier
