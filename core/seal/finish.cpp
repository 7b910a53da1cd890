#include "core/seal/finish.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>
#include <qpdf/QUtil.hh>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/layout/whole_pdf.h"
#include "core/seal/archival_form.h"
#include "core/seal/pages/page_list.h"
#include "core/seal/pages/tagged_structure.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signature_field.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kProducer = "panel-dossier";

constexpr std::string_view kRootOpen = "<pd:hashTreeRoot>";
constexpr std::string_view kRootClose = "</pd:hashTreeRoot>";
constexpr std::string_view kVolumeOpen = "<pd:volume>";
constexpr std::string_view kVolumeClose = "</pd:volume>";

std::string escaped(std::string_view text) {
  std::string result;
  for (const char character : text) {
    switch (character) {
      case '&': result += "&amp;"; break;
      case '<': result += "&lt;"; break;
      case '>': result += "&gt;"; break;
      default: result += character;
    }
  }
  return result;
}

std::string element(std::string_view name, std::string_view text) {
  return "   <" + std::string(name) + ">" + escaped(text) + "</" + std::string(name) + ">\n";
}

std::string alternative(std::string_view name, std::string_view text) {
  return "   <" + std::string(name) + "><rdf:Alt><rdf:li xml:lang=\"x-default\">" + escaped(text) +
         "</rdf:li></rdf:Alt></" + std::string(name) + ">\n";
}

/// `Panel dossier: PROJECT`.
std::string dossier_title(const ResultsDocument& results) {
  return "Panel dossier: " + results.project.name;
}

/// An XMP packet (ISO 16684-1) with title, dates, producer and, in a namespace of our own, the hash tree's root, the
/// hash of the export and whether the dossier is signed for issue. Throws std::runtime_error for a malformed time.
std::string xmp_packet(const ResultsDocument& results, const std::string& volume) {
  const BuildSummary& build = results.build;
  seconds_from_iso(build.time_utc);
  return "<?xpacket begin=\"\xef\xbb\xbf\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
         "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
         " <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
         "  <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
         "    xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n"
         "    xmlns:pd=\"urn:panel-dossier:metadata:1#\">\n" +
         element("dc:format", "application/pdf") + alternative("dc:title", dossier_title(results)) +
         alternative("dc:description", results.project.description) + element("xmp:CreateDate", build.time_utc) +
         element("xmp:ModifyDate", build.time_utc) + element("xmp:MetadataDate", build.time_utc) +
         element("xmp:CreatorTool", std::string(kProducer) + " " + build.program_version) +
         element("pdf:Producer", kProducer) + element("pd:hashTreeRoot", build.hash_tree_root) +
         element("pd:exportSHA256", build.export_sha256) + (volume.empty() ? "" : element("pd:volume", volume)) +
         element("pd:signedForIssue", build.signed_for_issue ? "true" : "false") + "  </rdf:Description>\n" +
         archival_description() + " </rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
}

std::string bf_range(unsigned row) {
  std::array<char, 40> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "<%02X00> <%02XFF> <%02X00>\n", row, row, row);
  return buffer.data();
}

/// A range may not run over a change of its first byte, and a block may not hold more than 100 ranges (ISO
/// 32000-2:2020, 9.10.3). Surrogates are no characters and left out.
std::string identity_map() {
  constexpr unsigned kRows = 0x100;
  constexpr unsigned kFirstSurrogateRow = 0xd8;
  constexpr unsigned kLastSurrogateRow = 0xdf;
  constexpr std::size_t kRangesPerBlock = 100;
  std::vector<std::string> ranges;
  for (unsigned row = 0; row < kRows; ++row) {
    if (row < kFirstSurrogateRow || row > kLastSurrogateRow) ranges.push_back(bf_range(row));
  }
  std::string map =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  for (std::size_t first = 0; first < ranges.size(); first += kRangesPerBlock) {
    const std::size_t count = std::min(kRangesPerBlock, ranges.size() - first);
    map += std::to_string(count) + " beginbfrange\n";
    for (std::size_t i = first; i < first + count; ++i) map += ranges[i];
    map += "endbfrange\n";
  }
  return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

std::string stream_text(QPDFObjectHandle stream) {
  const auto data = stream.getStreamData(qpdf_dl_generalized);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

bool states_identity_by_cid_range(const std::string& map) {
  return map.find("1 begincidrange\n<0000> <FFFF> 0\nendcidrange") != std::string::npos ||
         map.find("1 begincidrange\r\n<0000> <FFFF> 0\r\nendcidrange") != std::string::npos;
}

bool is_well_formed(const std::string& map) {
  return map.find("begincidrange") == std::string::npos &&
         (map.find("beginbfrange") != std::string::npos || map.find("beginbfchar") != std::string::npos);
}

bool numbers_by_code_unit(QPDFObjectHandle font) {
  QPDFObjectHandle descendants = font.getKey("/DescendantFonts");
  return font.getKey("/Encoding").isNameAndEquals("/Identity-H") && descendants.isArray() &&
         descendants.getArrayNItems() == 1 && descendants.getArrayItem(0).isDictionary() &&
         descendants.getArrayItem(0).getKey("/CIDToGIDMap").isStream();
}

/// The page writer numbers the glyphs of its UTF-8 fonts by UTF-16 code unit, which its explicit CIDToGIDMap then leads
/// to glyphs. It says so in ToUnicode with `cidrange`, an operator that only character-to-CID maps have (ISO
/// 32000-2:2020, 9.10.3), so readers drop the map and warn. Each such map is replaced by the identity written with
/// `bfrange`. Throws std::runtime_error naming a composite font whose map is neither that one nor well formed.
void mend_text_maps(QPDF& pdf) {
  QPDFObjectHandle identity;
  for (QPDFObjectHandle font : pdf.getAllObjects()) {
    if (!font.isDictionaryOfType("/Font", "/Type0")) continue;
    QPDFObjectHandle to_unicode = font.getKey("/ToUnicode");
    const std::string map = to_unicode.isStream() ? stream_text(to_unicode) : std::string();
    if (is_well_formed(map)) continue;
    if (!states_identity_by_cid_range(map) || !numbers_by_code_unit(font)) {
      throw std::runtime_error("font " + font.getKey("/BaseFont").unparse() +
                               " has no text map that can be mended; its text could not be extracted");
    }
    if (!identity.isInitialized()) identity = pdf.newStream(identity_map());
    font.replaceKey("/ToUnicode", identity);
    // The writer repeats the name of the encoding where ISO 32000-2:2020, 9.7.3 has the character collection's
    // ordering.
    font.getKey("/DescendantFonts")
        .getArrayItem(0)
        .replaceKey("/CIDSystemInfo",
                    QPDFObjectHandle::parse("<< /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>"));
  }
}

using Object = QPDFObjectHandle;

void attach(QPDF& pdf, const std::vector<Attachment>& attachments, const std::string& date) {
  QPDFEmbeddedFileDocumentHelper embedded(pdf);
  Object associated = Object::newArray();
  for (const Attachment& attachment : attachments) {
    if (embedded.getEmbeddedFile(attachment.name)) {
      throw std::runtime_error("two attachments are named '" + attachment.name + "'");
    }
    auto stream = attachment.file.empty()
                      ? QPDFEFStreamObjectHelper::createEFStream(pdf, attachment.bytes)
                      : QPDFEFStreamObjectHelper::createEFStream(pdf, QUtil::file_provider(attachment.file.string()));
    stream.setCreationDate(date).setModDate(date).setSubtype(attachment.mime_type);
    auto file = QPDFFileSpecObjectHelper::createFileSpec(pdf, attachment.name, stream);
    file.setDescription(attachment.description);
    Object specification = file.getObjectHandle();
    specification.replaceKey("/AFRelationship", Object::newName("/" + attachment.relationship));
    embedded.replaceEmbeddedFile(attachment.name, file);
    associated.appendItem(specification);
  }
  pdf.getRoot().replaceKey("/AF", associated);
}

void describe_document(QPDF& pdf, const ResultsDocument& results, const std::string& volume, const std::string& date) {
  Object root = pdf.getRoot();
  Object metadata = pdf.newStream(xmp_packet(results, volume));
  metadata.getDict().replaceKey("/Type", Object::newName("/Metadata"));
  metadata.getDict().replaceKey("/Subtype", Object::newName("/XML"));
  root.replaceKey("/Metadata", metadata);
  root.replaceKey("/Lang", Object::newString("en-GB"));
  root.replaceKey("/ViewerPreferences", Object::parse("<< /DisplayDocTitle true >>"));
  Object information = Object::newDictionary();
  information.replaceKey("/Title", Object::newUnicodeString(dossier_title(results)));
  information.replaceKey("/Producer", Object::newString(std::string(kProducer)));
  information.replaceKey("/Creator", Object::newString(std::string(kProducer) + " " + results.build.program_version));
  information.replaceKey("/CreationDate", Object::newString(date));
  information.replaceKey("/ModDate", Object::newString(date));
  pdf.getTrailer().replaceKey("/Info", pdf.makeIndirectObject(information));
}

void write(QPDF& pdf, const TaggedStructure& structure, const std::filesystem::path& file) {
  QPDFWriter writer(pdf, file.c_str());
  // PDF/A-3 is of PDF 1.7; associated files and the PAdES signature format are extensions of it.
  writer.forcePDFVersion("1.7");
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setDeterministicID(true);
  writer.write();
  require_whole_pdf(file);
  structure.append(file, writer);
}

/// Runs `finish` on the open document and writes it.
template <typename Finish>
void finish_pages(const std::filesystem::path& pages, const std::filesystem::path& finished, const Finish& finish) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processFile(pages.c_str());
    const TaggedStructure structure(pdf);
    mend_text_maps(pdf);
    finish(pdf);
    write(pdf, structure, finished);
  } catch (const std::exception& error) {
    throw std::runtime_error("cannot finish '" + pages.string() + "' as '" + finished.string() + "': " + error.what());
  }
}

}  // namespace

void finish_dossier(const std::filesystem::path& pages, const ResultsDocument& results,
                    const std::vector<Attachment>& attachments, std::size_t signature_bytes,
                    const std::filesystem::path& finished, const std::string& volume) {
  finish_pages(pages, finished, [&](QPDF& pdf) {
    const std::string date = pdf_date(results.build.time_utc);
    describe_document(pdf, results, volume, date);
    add_archival_form(pdf);
    std::vector<Attachment> all = attachments;
    all.push_back({std::string(kPagesAttachment), "text/csv", "SHA-256 of the content of each page", "Supplement",
                   page_list_text(page_list(pdf))});
    attach(pdf, all, date);
    add_signature_field(pdf, signature_bytes, date);
  });
}

void finish_working_pages(const std::filesystem::path& pages, const std::filesystem::path& finished) {
  finish_pages(pages, finished, [](QPDF&) {});
}

namespace {

std::string content_of(std::string_view xmp, std::string_view open, std::string_view close) {
  const std::size_t found = xmp.find(open);
  if (found == std::string_view::npos) return {};
  const std::size_t start = found + open.size();
  const std::size_t end = xmp.find(close, start);
  return end == std::string_view::npos ? std::string() : std::string(xmp.substr(start, end - start));
}

}  // namespace

std::string hash_tree_root_of(std::string_view xmp) {
  return content_of(xmp, kRootOpen, kRootClose);
}

std::string volume_of(std::string_view xmp) {
  return content_of(xmp, kVolumeOpen, kVolumeClose);
}

}  // namespace panel_dossier
