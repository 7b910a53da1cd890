#include "core/intake/document/plain_xml.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/document/schema_rules.h"
#include "core/intake/document/xml_check.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

/// Well below what libxml2 takes for one name, value or text.
constexpr std::size_t kLongestPlainRun = 1'000'000;

/// What a character may mean to the look at a name or a text.
enum PlainClass : unsigned char { kPlainText = 0, kPlainStop = 1, kPlainName = 2 };

constexpr std::array<unsigned char, 256> kPlainClasses = [] {
  std::array<unsigned char, 256> classes{};
  for (unsigned c = 0; c < 0x20; ++c) classes[c] = c == '\t' || c == '\n' || c == '\r' ? kPlainText : kPlainStop;
  for (const char c : {'<', '&', ']'}) classes[static_cast<unsigned char>(c)] = kPlainStop;
  classes[0xEF] = kPlainStop;  // U+FFFE and U+FFFF, which XML does not have, begin with it
  for (unsigned c = 'a'; c <= 'z'; ++c) classes[c] = kPlainName;
  for (unsigned c = 'A'; c <= 'Z'; ++c) classes[c] = kPlainName;
  for (unsigned c = '0'; c <= '9'; ++c) classes[c] = kPlainName;
  for (const char c : {'_', '-', '.'}) classes[static_cast<unsigned char>(c)] = kPlainName;
  return classes;
}();

unsigned char class_of(char c) {
  return kPlainClasses[static_cast<unsigned char>(c)];
}

bool is_xml_blank(char c) {
  return c == ' ' || c == '\n' || c == '\t' || c == '\r';
}

/// The five entities of XML and characters by a decimal code of a plain letter or sign.
std::size_t plain_entity_length(std::string_view text) {
  for (const std::string_view known : {"&lt;", "&gt;", "&amp;", "&quot;", "&apos;", "&#10;", "&#13;", "&#9;"}) {
    if (text.starts_with(known)) return known.size();
  }
  return 0;
}

/// As a reader of XML hands out what stands in the text: entities decoded, line breaks as line feeds, and in the value
/// of an attribute all white space as blanks.
std::string decoded(std::string_view raw, bool is_value) {
  constexpr std::array kEntities{
      std::pair{std::string_view("&lt;"), '<'},    std::pair{std::string_view("&gt;"), '>'},
      std::pair{std::string_view("&amp;"), '&'},   std::pair{std::string_view("&quot;"), '"'},
      std::pair{std::string_view("&apos;"), '\''}, std::pair{std::string_view("&#10;"), '\n'},
      std::pair{std::string_view("&#13;"), '\r'},  std::pair{std::string_view("&#9;"), '\t'},
  };
  std::string text;
  text.reserve(raw.size());
  while (!raw.empty()) {
    char c = raw.front();
    std::size_t length = 1;
    if (c == '&') {
      const auto entity =
          std::find_if(kEntities.begin(), kEntities.end(), [&](const auto& one) { return raw.starts_with(one.first); });
      if (entity != kEntities.end()) {
        c = entity->second;
        length = entity->first.size();
      }
    } else if (is_xml_blank(c)) {
      length = raw.starts_with("\r\n") ? 2 : 1;
      c = is_value ? ' ' : c == '\r' ? '\n' : c;
    }
    text += c;
    raw.remove_prefix(length);
  }
  return text;
}

/// A namespace as the published ones are written; the whole check holds others against the grammar of URIs.
bool is_plain_uri(std::string_view uri) {
  const auto rest_is = [&](std::string_view scheme, std::string_view signs) {
    if (!uri.starts_with(scheme) || uri.size() == scheme.size() || class_of(uri[scheme.size()]) != kPlainName)
      return false;
    const std::string_view rest = uri.substr(scheme.size());
    return std::all_of(rest.begin(), rest.end(),
                       [&](char c) { return class_of(c) == kPlainName || signs.find(c) != std::string_view::npos; });
  };
  return rest_is("http://", "/") || rest_is("https://", "/") || rest_is("urn:", ":()");
}

enum class PlainNamespace : unsigned char { other, standard, instance };

struct PlainName {
  std::string_view prefix;
  std::string_view local;
  std::string_view qualified;
};

struct PlainAttribute {
  PlainName name;
  std::string_view value;
  bool has_entity = false;
  bool has_break = false;  ///< white space other than blanks
};

/// One pass; every function answers false as soon as something is not plain.
class PlainXml {
 public:
  PlainXml(std::string_view text, const std::filesystem::path& schema_dir)
      : schema_dir_(schema_dir),
        begin_(text.data()),
        at_(text.data()),
        end_(text.data() + text.size()),
        tree_(std::make_unique<XmlTree>()) {
    tree_->reserve_for(text);
  }

  bool run() {
    constexpr std::string_view kMark = "\xEF\xBB\xBF";
    if (rest().starts_with(kMark)) at_ += kMark.size();
    if (rest().starts_with("<?xml") && !declaration()) return false;
    while (at_ < end_) {
      if (!text() || !markup()) return false;
    }
    return open_.empty() && has_root_;
  }

  std::unique_ptr<XmlTree> take_tree() { return std::move(tree_); }

 private:
  struct Open {
    std::string_view name;
    bool is_unchecked;
    const SchemaRules::Element* value_rule;  ///< of an element that holds a value
    const char* content;
    bool has_text;
  };
  struct Binding {
    std::string_view prefix;
    PlainNamespace kind;
    std::size_t depth;
  };

  const std::filesystem::path& schema_dir_;
  const char* begin_;
  const char* at_;
  const char* end_;
  std::unique_ptr<XmlTree> tree_;
  bool has_root_ = false;
  std::vector<Open> open_;
  std::vector<Binding> bindings_;
  std::vector<PlainAttribute> attributes_;
  std::unique_ptr<SchemaRules> rules_;
  bool is_flat_ = false;    ///< of the schema of the rules
  bool is_active_ = false;  ///< once an element of the standard was seen

  std::string_view rest() const { return {at_, static_cast<std::size_t>(end_ - at_)}; }

  void pass_blanks() {
    while (at_ < end_ && is_xml_blank(*at_)) ++at_;
  }

  bool take(char c) {
    if (at_ == end_ || *at_ != c) return false;
    ++at_;
    return true;
  }

  bool declaration() {
    at_ += 5;
    if (at_ == end_ || !is_xml_blank(*at_) || !attributes()) return false;
    const bool is_plain =
        !attributes_.empty() && attributes_[0].name.qualified == "version" && attributes_[0].value == "1.0" &&
        (attributes_.size() == 1 || (attributes_.size() == 2 && attributes_[1].name.qualified == "encoding"));
    return is_plain && take('?') && take('>');
  }

  /// Up to the next markup or the end.
  bool text() {
    const char* from = at_;
    pass_blanks();
    const bool is_blank = at_ == end_ || *at_ == '<';
    bool has_entity = false;
    while (at_ < end_ && *at_ != '<') {
      if (class_of(*at_) != kPlainStop) {
        ++at_;
        continue;
      }
      has_entity = has_entity || *at_ == '&';
      if (!stop()) return false;
    }
    if (at_ - from >= static_cast<std::ptrdiff_t>(kLongestPlainRun)) return false;
    return is_blank || add_text({from, static_cast<std::size_t>(at_ - from)}, has_entity);
  }

  bool add_text(std::string_view raw, bool has_entity) {
    if (open_.empty() || open_.back().has_text) return false;
    open_.back().has_text = true;
    const bool is_plain = !has_entity && raw.find('\r') == std::string_view::npos;
    tree_->add_text(is_plain ? raw : tree_->keep(decoded(raw, false)));
    return true;
  }

  /// Past a character that needs a look, in a text or a value.
  bool stop() {
    if (*at_ == '&') {
      const std::size_t length = plain_entity_length(rest());
      at_ += length;
      return length != 0;
    }
    if (*at_ == ']') return !rest().starts_with("]]>") && ++at_ != nullptr;
    if (*at_ == '\xEF')
      return !rest().starts_with("\xEF\xBF\xBE") && !rest().starts_with("\xEF\xBF\xBF") && ++at_ != nullptr;
    return false;
  }

  bool markup() {
    if (at_ == end_) return true;
    ++at_;
    if (at_ == end_) return false;
    if (*at_ == '/') return end_tag();
    if (*at_ == '!') return comment();
    return *at_ != '?' && start_tag();
  }

  bool comment() {
    if (!rest().starts_with("!--")) return false;
    if (!open_.empty() && open_.back().value_rule != nullptr) return false;
    at_ += 3;
    const std::size_t close = rest().find("--");
    if (close == std::string_view::npos || close > kLongestPlainRun) return false;
    for (const char* end = at_ + close; at_ < end;) {
      if (class_of(*at_) != kPlainStop || *at_ == '<' || *at_ == '&' || *at_ == ']') {
        ++at_;
      } else if (!stop()) {
        return false;
      }
    }
    return rest().starts_with("-->") && (at_ += 3) != nullptr;
  }

  bool name(PlainName& found) {
    const char* from = at_;
    const char* colon = nullptr;
    const char* part = at_;
    while (at_ < end_) {
      if (*at_ == ':') {
        if (colon != nullptr || at_ == part) return false;
        colon = at_;
        part = at_ + 1;
      } else if (class_of(*at_) != kPlainName) {
        break;
      } else if (at_ == part && (*at_ < 'A' || *at_ > 'z')) {
        return false;  // a digit, hyphen or point begins no name; the underscore lies between Z and a
      }
      ++at_;
    }
    if (at_ == part) return false;
    found.qualified = {from, static_cast<std::size_t>(at_ - from)};
    found.local = {part, static_cast<std::size_t>(at_ - part)};
    found.prefix =
        colon == nullptr ? std::string_view() : std::string_view(from, static_cast<std::size_t>(colon - from));
    return found.qualified.size() < kLongestPlainRun;
  }

  /// Into `attributes_`, up to what is none.
  bool attributes() {
    attributes_.clear();
    while (true) {
      const char* from = at_;
      pass_blanks();
      if (at_ == end_) return false;
      if (*at_ == '>' || *at_ == '/' || *at_ == '?') return true;
      PlainAttribute attribute;
      if (at_ == from || !name(attribute.name) || !value(attribute) || is_doubled(attribute.name)) return false;
      attributes_.push_back(attribute);
    }
  }

  bool value(PlainAttribute& attribute) {
    if (!take('=') || at_ == end_ || (*at_ != '"' && *at_ != '\'')) return false;
    const char quote = *at_++;
    const char* from = at_;
    while (at_ < end_ && *at_ != quote) {
      if (class_of(*at_) != kPlainStop) {
        attribute.has_break = attribute.has_break || (*at_ < ' ' && *at_ > 0);
        ++at_;
      } else if (*at_ == '<') {
        return false;
      } else {
        attribute.has_entity = attribute.has_entity || *at_ == '&';
        if (!stop()) return false;
      }
    }
    attribute.value = {from, static_cast<std::size_t>(at_ - from)};
    return take(quote) && attribute.value.size() < kLongestPlainRun;
  }

  bool is_doubled(const PlainName& name) const {
    return std::any_of(attributes_.begin(), attributes_.end(), [&](const PlainAttribute& other) {
      if (other.name.local != name.local) return false;
      return other.name.prefix == name.prefix || (!other.name.prefix.empty() && !name.prefix.empty());
    });
  }

  bool start_tag() {
    PlainName tag;
    if (!name(tag) || !attributes()) return false;
    if (open_.empty() && has_root_) return false;
    if (!open_.empty() && open_.back().value_rule != nullptr) return false;
    has_root_ = true;
    if (open_.size() >= static_cast<std::size_t>(kMaxDepth)) return false;
    Open element{tag.qualified, !open_.empty() && open_.back().is_unchecked, nullptr, nullptr, false};
    if (!bind() || !check(tag, element)) return false;
    add_to_tree(tag);
    const bool is_closed = take('/');
    if (!take('>')) return false;
    element.content = at_;
    if (is_closed) {
      tree_->end_element();
      drop_bindings();
      return element.value_rule == nullptr;
    }
    open_.push_back(element);
    return true;
  }

  void add_to_tree(const PlainName& tag) {
    tree_->begin_element(tag.qualified, static_cast<std::size_t>(tag.qualified.data() - begin_));
    for (const PlainAttribute& attribute : attributes_) {
      const bool is_plain = !attribute.has_entity && !attribute.has_break;
      tree_->add_attribute(attribute.name.qualified,
                           is_plain ? attribute.value : tree_->keep(decoded(attribute.value, true)));
    }
  }

  bool end_tag() {
    const char* close = at_ - 1;
    ++at_;
    if (open_.empty()) return false;
    const Open& element = open_.back();
    if (!rest().starts_with(element.name)) return false;
    at_ += element.name.size();
    pass_blanks();
    if (!take('>')) return false;
    if (element.value_rule != nullptr) {
      const std::string_view content(element.content, static_cast<std::size_t>(close - element.content));
      if (!surely_has_form(trimmed(content), element.value_rule->content)) return false;
    }
    open_.pop_back();
    tree_->end_element();
    drop_bindings();
    return true;
  }

  /// Bindings of an element are one deeper than the elements that stay open without it.
  void drop_bindings() {
    while (!bindings_.empty() && bindings_.back().depth > open_.size()) bindings_.pop_back();
  }

  /// The namespaces that the attributes at hand declare; false where a prefix has none.
  bool bind() {
    constexpr std::string_view kInstance = "http://www.w3.org/2001/XMLSchema-instance";
    for (const PlainAttribute& attribute : attributes_) {
      const bool is_default = attribute.name.qualified == "xmlns";
      if (!is_default && attribute.name.prefix != "xmlns") continue;
      const std::string_view prefix = is_default ? std::string_view() : attribute.name.local;
      if (!is_plain_uri(attribute.value) || prefix.starts_with("xml")) return false;
      const PlainNamespace kind = attribute.value == kInstance ? PlainNamespace::instance
                                  : generation_of_namespace(attribute.value) != Generation::unknown
                                      ? PlainNamespace::standard
                                      : PlainNamespace::other;
      if (kind == PlainNamespace::standard && !choose_rules(attribute.value)) return false;
      bindings_.push_back({prefix, kind, open_.size() + 1});
    }
    return true;
  }

  /// The schema belongs to the namespace of the first element of the standard; where two forms are declared before, the
  /// whole check has to tell.
  bool choose_rules(std::string_view uri) {
    const bool is_flat = generation_of_namespace(uri) == Generation::ifc2x3;
    if (rules_) return is_flat == is_flat_;
    is_flat_ = is_flat;
    rules_ = std::make_unique<SchemaRules>(schema_dir_ / schema_file_of(is_flat));
    return rules_->is_complete;
  }

  const PlainNamespace* namespace_of(std::string_view prefix) const {
    const auto found = std::find_if(bindings_.rbegin(), bindings_.rend(),
                                    [&](const Binding& binding) { return binding.prefix == prefix; });
    return found == bindings_.rend() ? nullptr : &found->kind;
  }

  bool check(const PlainName& tag, Open& element) {
    const PlainNamespace* kind = namespace_of(tag.prefix);
    if (kind == nullptr && !tag.prefix.empty()) return false;
    const bool is_standard = kind != nullptr && *kind == PlainNamespace::standard;
    is_active_ = is_active_ || is_standard;
    std::string_view type = tag.local;
    bool is_pointer = false;
    for (const PlainAttribute& attribute : attributes_) {
      const PlainName& name = attribute.name;
      if (name.prefix == "xmlns" || name.qualified == "xmlns") continue;
      is_pointer = is_pointer || name.local == "ref" || name.local == "href";
      if (name.prefix.empty()) continue;
      const PlainNamespace* of_attribute = namespace_of(name.prefix);
      if (of_attribute == nullptr) return false;
      if (*of_attribute != PlainNamespace::instance) continue;
      is_pointer = is_pointer || name.local == "nil";
      if (name.local != "type") continue;
      if (attribute.has_entity) return false;
      type = trimmed(attribute.value);
      type.remove_prefix(type.rfind(':') + 1);
      // The whole check takes the type for the element's name, and has its own view of what is no name.
      const bool is_type_name =
          !type.empty() && std::all_of(type.begin(), type.end(), [](char c) { return class_of(c) == kPlainName; });
      if (!is_type_name) return false;
    }
    element.is_unchecked = element.is_unchecked || is_pointer;
    if (!is_active_ || element.is_unchecked || !is_standard) return true;
    const auto rule = rules_->elements.find(type);
    return rule == rules_->elements.end() || keeps_to(rule->second, element);
  }

  bool keeps_to(const SchemaRules::Element& rule, Open& element) {
    if (rule.holds_value) element.value_rule = &rule;
    for (const SchemaRules::Attribute& due : rule.attributes) {
      const auto found = std::find_if(attributes_.begin(), attributes_.end(), [&](const PlainAttribute& attribute) {
        return attribute.name.qualified == due.name;
      });
      if (found == attributes_.end()) {
        if (due.is_required) return false;
        continue;
      }
      if (due.form != ValueForm::any && (found->has_entity || !surely_has_form(found->value, due.form))) return false;
    }
    return true;
  }
};

}  // namespace

std::unique_ptr<XmlTree> plainly_sound_tree(std::string_view text, const std::filesystem::path& schema_dir) {
  PlainXml reader(text, schema_dir);
  return reader.run() ? reader.take_tree() : nullptr;
}

}  // namespace panel_dossier
