#include "core/seal/metadata.h"

#include "core/seal/pdf_date.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kRootOpen = "<pd:hashTreeRoot>";
constexpr std::string_view kRootClose = "</pd:hashTreeRoot>";

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

}  // namespace

std::string dossier_title(const ResultsDocument& results) {
  return "Panel dossier: " + results.project.name;
}

std::string xmp_packet(const ResultsDocument& results) {
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
         element("pd:exportSHA256", build.export_sha256) +
         element("pd:signedForIssue", build.signed_for_issue ? "true" : "false") +
         "  </rdf:Description>\n </rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
}

std::string hash_tree_root_of(std::string_view xmp) {
  const std::size_t open = xmp.find(kRootOpen);
  if (open == std::string_view::npos) return {};
  const std::size_t start = open + kRootOpen.size();
  const std::size_t end = xmp.find(kRootClose, start);
  return end == std::string_view::npos ? std::string() : std::string(xmp.substr(start, end - start));
}

}  // namespace panel_dossier
