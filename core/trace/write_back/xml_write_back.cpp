// The ifcXML form of an export, of either generation, with results.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/property_reader.h"
#include "core/intake/graph/vocabulary.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kInstance = "http://www.w3.org/2001/XMLSchema-instance";
constexpr std::string_view kIdPrefix = "panel-";
constexpr const char* kNotRead = "the export is not the XML that was read";

struct ByteRange {
  std::size_t begin = 0;
  std::size_t end = 0;

  bool operator<(const ByteRange& other) const { return begin < other.begin; }
};

/// `ifc:IfcWall` -> `ifc:`.
std::string_view prefix_of(std::string_view qualified) {
  const std::size_t colon = qualified.find(':');
  return colon == std::string_view::npos ? std::string_view() : qualified.substr(0, colon + 1);
}

std::string_view local_of(std::string_view qualified) {
  return qualified.substr(prefix_of(qualified).size());
}

/// An element whose end was not yet met.
struct OpenElement {
  std::size_t begin = 0;       ///< of its start tag
  std::size_t name_end = 0;    ///< behind its name
  std::size_t text_begin = 0;  ///< behind its start tag
  std::string_view name;
  std::string_view id;
  std::string_view ref;
  std::string_view global_id;               ///< from its attribute or child
  std::string_view own_name;                ///< likewise Name
  bool is_outdated = false;                 ///< holds earlier results
  std::vector<std::string_view> refs = {};  ///< of all below, for the few elements that need them
};

struct XmlPanel {
  std::size_t name_end = 0;
  std::string_view name;
  std::string_view id;
};

/// Goes once through the tags of a text that is well-formed, and keeps what the writing needs.
class XmlText {
 public:
  XmlText(std::string_view text, const std::vector<PanelResults>& results) : text_(text) {
    for (const PanelResults& panel : results) wanted_.insert(panel.global_id);
    for (std::size_t at = text_.find('<'); at != std::string_view::npos; at = text_.find('<', at))
      at = behind_markup(at);
    if (!open_.empty() || end_of_model_ == 0) throw std::runtime_error(kNotRead);
    find_outdated_references();
  }

  std::string with(const std::vector<PanelResults>& results) {
    std::map<std::size_t, std::string> insertions;
    std::string added;
    for (const PanelResults& panel : results) {
      const auto found = panels_.find(panel.global_id);
      if (found == panels_.end()) {
        throw std::runtime_error("the export has no element with the GlobalId '" + panel.global_id + "'");
      }
      const XmlPanel& element = found->second;
      std::string id(element.id);
      if (id.empty()) {
        id = free_id(panel.global_id);
        insertions[element.name_end] = " id=\"" + id + "\"";
      }
      added += is_flat_ ? flat_form(panel, element, id) : attribute_form(panel, element, id);
    }
    insertions[end_of_model_] = added;
    return spliced(insertions);
  }

 private:
  std::string_view text_;
  std::set<std::string, std::less<>> wanted_;
  std::vector<OpenElement> open_;
  std::map<std::string, XmlPanel, std::less<>> panels_;
  std::set<std::string_view> ids_;  ///< that begin as ours do
  std::string owner_history_;       ///< id of the first one
  std::vector<ByteRange> outdated_;
  std::set<std::string_view> outdated_ids_;         ///< of sets that hold earlier results
  std::set<std::string_view> outdated_properties_;  ///< ids that these refer to
  std::vector<std::pair<OpenElement, std::size_t>>
      candidates_;  ///< relations and properties with an id or refs, and their ends
  std::size_t end_of_model_ = 0;
  bool is_flat_ = false;
  bool is_ifc4x3_ = false;

  std::size_t behind(std::string_view mark, std::size_t at) const {
    const std::size_t found = text_.find(mark, at);
    if (found == std::string_view::npos) throw std::runtime_error(kNotRead);
    return found + mark.size();
  }

  std::size_t behind_markup(std::size_t at) {
    const std::string_view rest = text_.substr(at);
    if (rest.starts_with("<!--")) return behind("-->", at);
    if (rest.starts_with("<![CDATA[")) return behind("]]>", at);
    if (rest.starts_with("<?")) return behind("?>", at);
    if (rest.starts_with("</")) {
      const std::size_t end = behind(">", at);
      close(at, end);
      return end;
    }
    return start_tag(at);
  }

  std::size_t start_tag(std::size_t at) {
    OpenElement element;
    element.begin = at;
    element.name_end = text_.find_first_of(" \t\r\n/>", at + 1);
    if (element.name_end == std::string_view::npos) throw std::runtime_error(kNotRead);
    element.name = text_.substr(at + 1, element.name_end - at - 1);
    std::size_t end = element.name_end;
    bool is_empty = false;
    while (text_.substr(end, 1) != ">") {
      end = text_.find_first_not_of(" \t\r\n", end);
      if (end == std::string_view::npos) throw std::runtime_error(kNotRead);
      if (text_[end] == '/') {
        is_empty = true;
        ++end;
      } else if (text_[end] != '>') {
        end = take_attribute(end, element);
      }
    }
    element.text_begin = end + 1;
    open_.push_back(std::move(element));
    if (is_empty) close(open_.back().text_begin, open_.back().text_begin);
    return end + 1;
  }

  std::size_t take_attribute(std::size_t at, OpenElement& element) {
    const std::size_t equals = text_.find('=', at);
    const std::size_t quote = text_.find_first_of("\"'", equals);
    if (equals == std::string_view::npos || quote == std::string_view::npos) throw std::runtime_error(kNotRead);
    const std::size_t end = text_.find(text_[quote], quote + 1);
    if (end == std::string_view::npos) throw std::runtime_error(kNotRead);
    const std::string_view name = trimmed(text_.substr(at, equals - at));
    const std::string_view value = trimmed(text_.substr(quote + 1, end - quote - 1));
    if (name == "id") element.id = value;
    if (name == "ref" || name == "href") element.ref = value;
    if (name == "GlobalId") element.global_id = value;
    if (name == "Name") element.own_name = value;
    if (name.starts_with("xmlns")) note_generation(value);
    return end + 1;
  }

  void note_generation(std::string_view uri) {
    const Generation generation = generation_of_namespace(uri);
    is_flat_ = is_flat_ || generation == Generation::ifc2x3;
    is_ifc4x3_ = is_ifc4x3_ || generation == Generation::ifc4x3;
  }

  /// `begin` and `end` are those of the end tag.
  void close(std::size_t begin, std::size_t end) {
    if (open_.empty()) throw std::runtime_error(kNotRead);
    const OpenElement element = std::move(open_.back());
    open_.pop_back();
    const std::string_view local = local_of(element.name);
    if (!open_.empty()) tell_owner(element, local, begin);
    if (element.id.starts_with(kIdPrefix) && element.ref.empty()) ids_.insert(element.id);
    if (!element.ref.empty()) return;
    if (local == "IfcOwnerHistory" && owner_history_.empty()) owner_history_ = element.id;
    if (wanted_.contains(element.global_id)) {
      panels_.emplace(element.global_id, XmlPanel{element.name_end, element.name, element.id});
    }
    if (local == "uos" || (open_.empty() && end_of_model_ == 0)) end_of_model_ = begin;
    sort_in(element, local, end);
  }

  /// What the element around needs to know: its names, where they are elements, and what it refers to.
  void tell_owner(const OpenElement& element, std::string_view local, std::size_t end_of_text) {
    OpenElement& owner = open_.back();
    const bool is_entity = local_of(owner.name).starts_with("Ifc");
    if (is_entity && (local == "GlobalId" || local == "Name")) {
      std::string_view value = trimmed(text_.substr(element.text_begin, end_of_text - element.text_begin));
      if (value.starts_with('<')) value = inner_text(value);
      (local == "GlobalId" ? owner.global_id : owner.own_name) = value;
    }
    if (is_of_sets(local_of(owner.name)) || local == "HasProperties" || local == "RelatingPropertyDefinition") {
      owner.refs.insert(owner.refs.end(), element.refs.begin(), element.refs.end());
    }
    if (!element.ref.empty()) owner.refs.push_back(element.ref);
    if (element.is_outdated) owner.is_outdated = owner.is_outdated || is_of_sets(local_of(owner.name));
  }

  /// `<IfcLabel>x</IfcLabel>` -> `x`.
  static std::string_view inner_text(std::string_view element) {
    const std::size_t begin = element.find('>');
    const std::size_t end = element.find('<', begin);
    return end == std::string_view::npos ? std::string_view() : trimmed(element.substr(begin + 1, end - begin - 1));
  }

  static bool is_of_sets(std::string_view local) {
    return local == "IfcPropertySet" || local == "IfcRelDefinesByProperties" || local == "RelatingPropertyDefinition" ||
           local == "HasProperties";
  }

  void sort_in(const OpenElement& element, std::string_view local, std::size_t end) {
    const bool is_set = local == "IfcPropertySet" && element.own_name == kResultsSet;
    const bool is_relation = local == "IfcRelDefinesByProperties";
    if (is_set) {
      if (!element.id.empty()) outdated_ids_.insert(element.id);
      outdated_properties_.insert(element.refs.begin(), element.refs.end());
      if (!open_.empty() && local_of(open_.back().name) == "RelatingPropertyDefinition") {
        open_.back().is_outdated = true;
        return;
      }
      outdated_.push_back({element.begin, end});
    } else if (is_relation && element.is_outdated) {
      outdated_.push_back({element.begin, end});
    } else if (is_flat_ && (is_relation || (local == "IfcPropertySingleValue" && !element.id.empty()))) {
      candidates_.emplace_back(element, end);
    }
  }

  void find_outdated_references() {
    for (const auto& [element, end] : candidates_) {
      const bool is_relation = local_of(element.name) == "IfcRelDefinesByProperties";
      const bool is_outdated = is_relation
                                   ? std::any_of(element.refs.begin(), element.refs.end(),
                                                 [&](std::string_view ref) { return outdated_ids_.contains(ref); })
                                   : outdated_properties_.contains(element.id);
      if (is_outdated) outdated_.push_back({element.begin, end});
    }
    std::sort(outdated_.begin(), outdated_.end());
    // What goes leaves its ids free: writing again gives the same.
    for (const std::string_view id : outdated_ids_) ids_.erase(id);
    for (const std::string_view id : outdated_properties_) ids_.erase(id);
  }

  /// GlobalIds may hold a dollar, ids of XML may not.
  std::string free_id(std::string_view global_id) const {
    std::string id(kIdPrefix);
    id += global_id;
    std::replace(id.begin(), id.end(), '$', '-');
    while (ids_.contains(id)) id += "-x";
    return id;
  }

  std::string spliced(const std::map<std::size_t, std::string>& insertions) const {
    std::string written;
    std::size_t at = 0;
    auto range = outdated_.begin();
    const auto copy_until = [&](std::size_t end) {
      while (range != outdated_.end() && range->begin < end) {
        written += text_.substr(at, range->begin - at);
        at = range->end;
        // The line break behind was written with it.
        if (text_.substr(at, 1) == "\r") ++at;
        if (text_.substr(at, 1) == "\n") ++at;
        ++range;
      }
      written += text_.substr(at, end - at);
      at = end;
    };
    for (const auto& [place, insertion] : insertions) {
      copy_until(place);
      written += insertion;
    }
    copy_until(text_.size());
    return written;
  }

  /// In ASCII alone, so that it fits any encoding that the text may declare.
  static std::string escaped(std::string_view text) {
    constexpr std::string_view kMarkup = "&<>\"";
    std::string result;
    while (!text.empty()) {
      const char32_t code = take_character(text);
      const bool is_markup = code < 0x80U && kMarkup.find(static_cast<char>(code)) != std::string_view::npos;
      if (code < 0x20U) {
        result += ' ';  // XML 1.0 has no other control characters
      } else if (code < 0x7FU && !is_markup) {
        result += static_cast<char>(code);
      } else {
        result += "&#" + std::to_string(static_cast<std::uint32_t>(code)) + ";";
      }
    }
    return result;
  }

  static std::string value_text(const ResultProperty& property) {
    const double* number = std::get_if<double>(&property.value);
    return number != nullptr ? real_text(*number) : escaped(std::get<std::string>(property.value));
  }

  /// IFC4 and IFC4X3: attributes are XML attributes, and what is defined stands inside the relationship.
  std::string attribute_form(const PanelResults& panel, const XmlPanel& element, const std::string& id) const {
    const std::string ns(prefix_of(element.name));
    std::string text = "<" + ns + "IfcRelDefinesByProperties GlobalId=\"" +
                       derived_global_id(panel.global_id, "has results") + "\" xmlns:xsi=\"" + std::string(kInstance) +
                       "\"><" + ns + "RelatedObjects><" + std::string(element.name) + " xsi:nil=\"true\" ref=\"" + id +
                       "\"/></" + ns + "RelatedObjects><" + ns + "RelatingPropertyDefinition><" + ns +
                       "IfcPropertySet GlobalId=\"" + derived_global_id(panel.global_id, "results") + "\" Name=\"" +
                       std::string(kResultsSet) + "\"><" + ns + "HasProperties>\n";
    const char* description = is_ifc4x3_ ? "Specification" : "Description";
    for (const ResultProperty& property : panel.properties) {
      const std::string type(type_of(property));
      text += joined({"<", ns, "IfcPropertySingleValue Name=\"", escaped(property.name), "\""}, "");
      if (!property.description.empty())
        text += joined({" ", description, "=\"", escaped(property.description), "\""}, "");
      text += joined({"><", ns, "NominalValue><", ns, type, "-wrapper>", value_text(property), "</", ns, type,
                      "-wrapper></", ns, "NominalValue></", ns, "IfcPropertySingleValue>\n"},
                     "");
    }
    return text + "</" + ns + "HasProperties></" + ns + "IfcPropertySet></" + ns + "RelatingPropertyDefinition></" +
           ns + "IfcRelDefinesByProperties>\n";
  }

  /// IFC2x3: attributes are elements, everything stands beside each other and is joined by `ref`.
  std::string flat_form(const PanelResults& panel, const XmlPanel& element, const std::string& id) const {
    const std::string ns(prefix_of(element.name));
    const std::string own = free_id(panel.global_id + "-results");
    const std::string nil = " xmlns:xsi=\"" + std::string(kInstance) + "\" xsi:nil=\"true\" ref=\"";
    const std::string owner = owner_history_.empty() ? std::string()
                                                     : "<" + ns + "OwnerHistory><" + ns + "IfcOwnerHistory" + nil +
                                                           owner_history_ + "\"/></" + ns + "OwnerHistory>";
    const auto tag = [&](const char* name, const std::string& content) {
      return "<" + ns + name + ">" + content + "</" + ns + name + ">";
    };
    std::string text;
    std::string references;
    std::size_t number = 0;
    for (const ResultProperty& property : panel.properties) {
      const std::string type(type_of(property));
      const std::string property_id = joined({own, std::to_string(++number)}, "-");
      text += joined({"<", ns, "IfcPropertySingleValue id=\"", property_id, "\">", tag("Name", escaped(property.name))},
                     "");
      if (!property.description.empty()) text += tag("Description", escaped(property.description));
      text += joined(
          {tag("NominalValue", tag(type.c_str(), value_text(property))), "</", ns, "IfcPropertySingleValue>\n"}, "");
      references += joined({"<", ns, "IfcPropertySingleValue", nil, property_id, "\"/>"}, "");
    }
    text += "<" + ns + "IfcPropertySet id=\"" + own + "\">" +
            tag("GlobalId", derived_global_id(panel.global_id, "results")) + owner +
            tag("Name", std::string(kResultsSet)) + tag("HasProperties", references) + "</" + ns + "IfcPropertySet>\n";
    text += "<" + ns + "IfcRelDefinesByProperties>" +
            tag("GlobalId", derived_global_id(panel.global_id, "has results")) + owner +
            tag("RelatedObjects", "<" + std::string(element.name) + nil + id + "\"/>") +
            tag("RelatingPropertyDefinition", "<" + ns + "IfcPropertySet" + nil + own + "\"/>") + "</" + ns +
            "IfcRelDefinesByProperties>\n";
    return text;
  }
};

}  // namespace

std::string xml_with_results(std::string_view text, const std::vector<PanelResults>& results) {
  return XmlText(text, results).with(results);
}

}  // namespace panel_dossier
