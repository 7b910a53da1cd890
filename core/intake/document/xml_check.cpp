#include "core/intake/document/xml_check.h"

#include <libxml/parser.h>

#include <algorithm>
#include <memory>
#include <string>

#include "core/api/support/words.h"
#include "core/intake/document/schema_check.h"
#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kChunk = 1U << 16U;

struct ParserDeleter {
  void operator()(xmlParserCtxt* parser) const {
    if (parser->myDoc != nullptr) xmlFreeDoc(parser->myDoc);
    xmlFreeParserCtxt(parser);
  }
};

/// State of the one pass; libxml2 hands it to every callback.
struct Pass {
  Reporter& report;
  SchemaCheck& schema;
  xmlParserCtxt* parser = nullptr;
  int depth = 0;
  bool is_refused = false;

  std::uint32_t line() const { return static_cast<std::uint32_t>(std::max(xmlSAX2GetLineNumber(parser), 0)); }
  std::uint32_t column() const { return static_cast<std::uint32_t>(std::max(xmlSAX2GetColumnNumber(parser), 0)); }

  void refuse(std::string message, std::string advice) {
    if (is_refused) return;
    is_refused = true;
    report.file_error(line(), column(), std::move(message), std::move(advice));
    xmlStopParser(parser);
  }
};

Pass& pass_of(void* context) {
  return *static_cast<Pass*>(context);
}

void on_start(void* context, const xmlChar* name, const xmlChar* prefix, const xmlChar* uri, int namespace_count,
              const xmlChar** namespaces, int attribute_count, int default_count, const xmlChar** attributes) {
  Pass& pass = pass_of(context);
  if (++pass.depth > kMaxDepth) {
    pass.refuse("elements are nested more than " + std::to_string(kMaxDepth) + " deep",
                "no export needs that: check how the file was made");
    return;
  }
  pass.schema.start_element(
      pass.line(), {name, prefix, uri, namespace_count, namespaces, attribute_count, default_count, attributes});
}

void on_end(void* context, const xmlChar* name, const xmlChar* prefix, const xmlChar* uri) {
  Pass& pass = pass_of(context);
  --pass.depth;
  pass.schema.end_element(name, prefix, uri);
}

void on_text(void* context, const xmlChar* text, int length) {
  pass_of(context).schema.text(text, length);
}

void on_doctype(void* context, const xmlChar* /*name*/, const xmlChar* /*external_id*/, const xmlChar* /*system_id*/) {
  pass_of(context).refuse("the file has a document type declaration (DOCTYPE)",
                          "remove it: entities and external files are never read");
}

/// libxml2's words without their markup of columns and full stops.
std::string plain_parser_message(const char* message) {
  std::string text(trimmed(message == nullptr ? "" : message));
  while (!text.empty() && text.back() == '.') text.pop_back();
  const bool is_word = text.size() > 1 && text[1] >= 'a' && text[1] <= 'z';
  if (is_word && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

void on_error(void* context, xmlError* error) {
  Pass& pass = pass_of(context);
  if (pass.is_refused || error->level < XML_ERR_ERROR) return;
  pass.is_refused = true;
  const auto line = static_cast<std::uint32_t>(std::max(error->line, 0));
  const auto column = static_cast<std::uint32_t>(std::max(error->int2, 0));
  pass.report.file_error(line, column, "the file is not well-formed XML: " + plain_parser_message(error->message),
                         "export it again: it may be truncated or damaged");
}

xmlSAXHandler handler() {
  xmlSAXHandler sax{};
  sax.initialized = XML_SAX2_MAGIC;
  sax.startElementNs = on_start;
  sax.endElementNs = on_end;
  sax.characters = on_text;
  sax.ignorableWhitespace = on_text;
  sax.cdataBlock = on_text;
  sax.internalSubset = on_doctype;
  sax.serror = on_error;
  return sax;
}

void feed(Pass& pass, std::string_view text) {
  // An empty chunk ends the text; the last real one may not, since libxml2 wants to look ahead.
  while (!text.empty() && !pass.is_refused) {
    const std::string_view chunk = text.substr(0, kChunk);
    xmlParseChunk(pass.parser, chunk.data(), static_cast<int>(chunk.size()), 0);
    text.remove_prefix(chunk.size());
  }
  if (!pass.is_refused) xmlParseChunk(pass.parser, nullptr, 0, 1);
}

}  // namespace

bool check_xml(std::string_view text, const std::filesystem::path& schema_dir, Reporter& report) {
  SchemaCheck schema(schema_dir, report);
  Pass pass{report, schema};
  xmlSAXHandler sax = handler();
  const std::unique_ptr<xmlParserCtxt, ParserDeleter> parser(xmlCreatePushParserCtxt(&sax, &pass, nullptr, 0, nullptr));
  if (!parser) throw std::bad_alloc();
  pass.parser = parser.get();
  xmlCtxtUseOptions(parser.get(), XML_PARSE_NONET | XML_PARSE_BIG_LINES);
  parser->linenumbers = 1;
  feed(pass, text);
  if (!pass.is_refused && parser->wellFormed == 0) {
    report.file_error(0, 0, "the file is not well-formed XML", "export it again: it may be truncated or damaged");
    return false;
  }
  return !pass.is_refused;
}

}  // namespace panel_dossier
