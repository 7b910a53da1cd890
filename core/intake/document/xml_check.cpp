#include "core/intake/document/xml_check.h"

#include <libxml/parser.h>
#include <libxml/xmlschemas.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <unordered_set>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

/// One start tag as libxml2's parser reports it.
struct StartTag {
  const unsigned char* name;
  const unsigned char* prefix;
  const unsigned char* uri;
  int namespace_count;
  const unsigned char** namespaces;
  int attribute_count;
  int default_count;
  const unsigned char** attributes;  ///< name, prefix, uri, value and end of value of each
};

/// Chooses the schema by the namespace of the root element, whichever published spelling it has, and validates all
/// namespaces of one generation as that schema's own. Belongs to one run on one thread.
class SchemaCheck {
 public:
  SchemaCheck(std::filesystem::path schema_dir, Reporter& report);
  ~SchemaCheck();
  SchemaCheck(const SchemaCheck&) = delete;
  SchemaCheck& operator=(const SchemaCheck&) = delete;

  void start_element(std::uint32_t line, const StartTag& tag);
  void end_element(const unsigned char* name, const unsigned char* prefix, const unsigned char* uri);
  void text(const unsigned char* text, int length);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

constexpr std::string_view kInstanceNamespace = "http://www.w3.org/2001/XMLSchema-instance";
constexpr std::ptrdiff_t kFieldsPerAttribute = 5;

struct Form {
  const char* file;
  const char* canonical_namespace;  ///< stands for every published namespace of the form
};

constexpr Form kFlatForm{"panel-dossier-ifcxml-ifc2x3.xsd", "http://www.iai-tech.org/ifcXML/IFC2x3/FINAL"};
constexpr Form kNestedForm{"panel-dossier-ifcxml.xsd", "http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2"};

std::string_view view(const xmlChar* text) {
  return text == nullptr ? std::string_view() : std::string_view(reinterpret_cast<const char*>(text));
}

const xmlChar* xml_text(const char* text) {
  return reinterpret_cast<const xmlChar*>(text);
}

std::string_view value_of(const xmlChar** attribute) {
  const auto* begin = reinterpret_cast<const char*>(attribute[3]);
  const auto* end = reinterpret_cast<const char*>(attribute[4]);
  return {begin, static_cast<std::size_t>(end - begin)};
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

/// `Element '{ns}IfcX', attribute 'Depth': [facet 'pattern'] The value …` without namespaces, subject and full stop.
std::string plain_schema_message(const char* message) {
  std::string text(trimmed(message == nullptr ? "" : message));
  for (std::size_t open = text.find('{'); open != std::string::npos; open = text.find('{', open)) {
    const std::size_t close = text.find('}', open);
    if (close == std::string::npos) break;
    text.erase(open, close - open + 1);
  }
  const std::size_t subject_end = text.find(": ");
  if (text.compare(0, 9, "Element '") == 0 && subject_end != std::string::npos) {
    const std::size_t attribute = text.find(", attribute '");
    const bool names_attribute = attribute != std::string::npos && attribute < subject_end;
    text = (names_attribute ? text.substr(attribute + 2, subject_end - attribute - 2) + ": " : std::string()) +
           text.substr(subject_end + 2);
  }
  replace_all(text, "The ", "the ");
  replace_all(text, "[facet 'pattern'] ", "");
  // A regular expression tells an exporter's user nothing.
  if (const std::size_t pattern = text.find(" by the pattern "); pattern != std::string::npos) text.erase(pattern);
  while (!text.empty() && text.back() == '.') text.pop_back();
  return text;
}

struct SchemaDeleter {
  void operator()(xmlSchema* schema) const { xmlSchemaFree(schema); }
  void operator()(xmlSchemaParserCtxt* parser) const { xmlSchemaFreeParserCtxt(parser); }
  void operator()(xmlSchemaValidCtxt* validator) const { xmlSchemaFreeValidCtxt(validator); }
  void operator()(xmlSchemaSAXPlugStruct* plug) const { xmlSchemaSAXUnplug(plug); }
};

template <typename T>
using Owned = std::unique_ptr<T, SchemaDeleter>;

void ignore_message(void* /*context*/, const char* /*format*/, ...) {}

struct SchemaCheck::State {
  struct Open {
    const xmlChar* name;
    bool is_checked;
    std::uint32_t line;
    std::string global_id;
  };

  std::filesystem::path schema_dir;
  Reporter& report;
  Owned<xmlSchema> schema;
  Owned<xmlSchemaValidCtxt> validator;
  Owned<xmlSchemaSAXPlugStruct> plug;  // declared last of the three: it must go first
  xmlSAXHandler* sax = nullptr;
  void* sax_data = nullptr;
  const Form* form = nullptr;
  bool is_refused = false;
  std::vector<Open> open;
  std::unordered_set<std::string> names;  ///< names taken from xsi:type; the validator keeps pointers to them
  int unchecked_depth = 0;
  const xmlChar* last_uri = nullptr;  ///< the parser keeps one copy of each, so its address tells it
  Generation last_generation = Generation::unknown;

  State(std::filesystem::path dir, Reporter& r) : schema_dir(std::move(dir)), report(r) {}

  void load(Generation generation);
  Generation generation_of_uri(const xmlChar* uri);
  std::string nearest_global_id() const;
  const xmlChar* checked_name(const StartTag& tag);
  static bool is_pointer(const StartTag& tag);
  static void on_breach(void* state, xmlError* error);
};

SchemaCheck::SchemaCheck(std::filesystem::path schema_dir, Reporter& report)
    : state_(std::make_unique<State>(std::move(schema_dir), report)) {}

SchemaCheck::~SchemaCheck() = default;

void SchemaCheck::State::load(Generation generation) {
  form = generation == Generation::ifc2x3 ? &kFlatForm : &kNestedForm;
  const std::string file = (schema_dir / form->file).string();
  const Owned<xmlSchemaParserCtxt> parser(xmlSchemaNewParserCtxt(file.c_str()));
  if (parser) {
    xmlSchemaSetParserErrors(parser.get(), ignore_message, ignore_message, nullptr);
    schema.reset(xmlSchemaParse(parser.get()));
  }
  if (!schema) {
    is_refused = true;
    report.file_error(0, 0, "the schema '" + file + "' cannot be read", "reinstall the program with its schemas");
    return;
  }
  validator.reset(xmlSchemaNewValidCtxt(schema.get()));
  xmlSchemaSetValidStructuredErrors(validator.get(), on_breach, this);
  plug.reset(xmlSchemaSAXPlug(validator.get(), &sax, &sax_data));
  // The wrapper of ISO 10303-28 is no element of the schema, and what it holds would each be a root of its own. So all
  // is checked as if it stood in one element that may hold anything.
  sax->startElementNs(sax_data, xml_text("uos"), nullptr, xml_text(form->canonical_namespace), 0, nullptr, 0, 0,
                      nullptr);
}

Generation SchemaCheck::State::generation_of_uri(const xmlChar* uri) {
  if (uri != last_uri) {
    last_uri = uri;
    last_generation = generation_of_namespace(view(uri));
  }
  return last_generation;
}

std::string SchemaCheck::State::nearest_global_id() const {
  for (auto at = open.rbegin(); at != open.rend(); ++at) {
    if (!at->global_id.empty()) return at->global_id;
  }
  return {};
}

bool SchemaCheck::State::is_pointer(const StartTag& tag) {
  for (int i = 0; i < tag.attribute_count; ++i) {
    const xmlChar** attribute = tag.attributes + i * kFieldsPerAttribute;
    const std::string_view name = view(attribute[0]);
    if (name == "ref" || name == "href" || (name == "nil" && view(attribute[2]) == kInstanceNamespace)) return true;
  }
  return false;
}

const xmlChar* SchemaCheck::State::checked_name(const StartTag& tag) {
  for (int i = 0; i < tag.attribute_count; ++i) {
    const xmlChar** attribute = tag.attributes + i * kFieldsPerAttribute;
    if (view(attribute[0]) != "type" || view(attribute[2]) != kInstanceNamespace) continue;
    std::string_view type = trimmed(value_of(attribute));
    if (const std::size_t colon = type.rfind(':'); colon != std::string_view::npos) type.remove_prefix(colon + 1);
    return xml_text(names.emplace(type).first->c_str());
  }
  return tag.name;
}

void SchemaCheck::State::on_breach(void* state, xmlError* error) {
  auto& self = *static_cast<State*>(state);
  if (self.open.empty()) return;
  const Open& at = self.open.back();
  self.report.add_schema_breach({Severity::error,
                                 {},
                                 at.line,
                                 0,
                                 std::string(view(at.name)),
                                 self.nearest_global_id(),
                                 "breaks the schema: " + plain_schema_message(error->message),
                                 "export it as the standard writes it"});
}

void SchemaCheck::start_element(std::uint32_t line, const StartTag& tag) {
  State& state = *state_;
  const Generation generation = state.generation_of_uri(tag.uri);
  if (state.form == nullptr && generation != Generation::unknown) state.load(generation);
  if (state.form == nullptr || state.is_refused) return;
  const bool is_unchecked = state.unchecked_depth > 0 || State::is_pointer(tag);
  if (is_unchecked) ++state.unchecked_depth;
  state.open.push_back({is_unchecked ? tag.name : state.checked_name(tag), !is_unchecked, line, {}});
  if (is_unchecked) return;

  // Attributes of the schema instance namespace are ours to interpret: schemaLocation would have files fetched.
  std::vector<const xmlChar*> attributes;
  for (int i = 0; i < tag.attribute_count; ++i) {
    const xmlChar** attribute = tag.attributes + i * kFieldsPerAttribute;
    if (view(attribute[2]) == kInstanceNamespace) continue;
    if (view(attribute[0]) == "GlobalId") state.open.back().global_id = value_of(attribute);
    attributes.insert(attributes.end(), attribute, attribute + kFieldsPerAttribute);
  }
  const xmlChar* uri = generation == Generation::unknown ? tag.uri : xml_text(state.form->canonical_namespace);
  state.sax->startElementNs(state.sax_data, state.open.back().name, tag.prefix, uri, 0, nullptr,
                            static_cast<int>(static_cast<std::ptrdiff_t>(attributes.size()) / kFieldsPerAttribute), 0,
                            attributes.data());
}

void SchemaCheck::end_element(const unsigned char* /*name*/, const unsigned char* prefix, const unsigned char* uri) {
  State& state = *state_;
  if (state.open.empty()) return;
  if (state.open.back().is_checked) {
    const bool is_ours = state.generation_of_uri(uri) != Generation::unknown;
    state.sax->endElementNs(state.sax_data, state.open.back().name, prefix,
                            is_ours ? xml_text(state.form->canonical_namespace) : uri);
  } else {
    --state.unchecked_depth;
  }
  state.open.pop_back();
}

void SchemaCheck::text(const unsigned char* text, int length) {
  State& state = *state_;
  if (!state.open.empty() && state.open.back().is_checked) state.sax->characters(state.sax_data, text, length);
}

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

const char* schema_file_of(bool is_flat) {
  return (is_flat ? kFlatForm : kNestedForm).file;
}

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
