#include "core/intake/declarations/ilcd.h"

namespace panel_dossier {

Element in_english(const Element& parent, std::string_view name) {
  Element first;
  for (Element child = parent.first_child(); child; child = child.next_sibling()) {
    if (child.name() != name) continue;
    if (child.attribute("lang").value_or("en") == "en") return child;
    if (!first) first = child;
  }
  return first;
}

std::optional<DeclarationFault> parse_ilcd(std::string& text, const LineTable& lines, XmlDocument& parsed) {
  const std::size_t doctype = text.find("<!DOCTYPE");
  if (doctype != std::string::npos) {
    return DeclarationFault{lines.at(doctype).line, "the file has a document type declaration (DOCTYPE)",
                            "remove it: entities and external files are never read"};
  }
  if (!parsed.parse_in_place(text)) {
    return DeclarationFault{lines.at(parsed.fault_offset()).line, "the file is not well-formed XML",
                            "export it again: it may be truncated or damaged"};
  }
  return std::nullopt;
}

}  // namespace panel_dossier
