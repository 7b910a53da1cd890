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
  bool with_line_break = true;  ///< behind it, as it was written with one

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
  std::string_view description;             ///< likewise Description or, of a property of IFC4X3, Specification
  std::size_t list_end = 0;                 ///< of a set: the end tag of its list of properties
  bool is_outdated = false;                 ///< holds earlier results
  std::vector<std::string_view> refs = {};  ///< of all below, for the few elements that need them
};

struct XmlPanel {
  std::size_t name_end = 0;
  std::string_view name;
  std::string_view id;
};

/// A member of a set's list that points to a property.
struct XmlMember {
  std::string_view ref;
  ByteRange range;
};

bool is_set(std::string_view local) {
  return local == "IfcPropertySet" || local == "IfcElementQuantity";
}

bool is_property(std::string_view local) {
  return local == "IfcPropertySingleValue" || local.starts_with("IfcQuantity");
}

bool is_list_of_set(std::string_view local) {
  return local == "HasProperties" || local == "Quantities";
}

/// Goes once through the tags of a text that is well-formed, and keeps what the writing needs.
class XmlText {
 public:
  XmlText(std::string_view text, const std::vector<PanelResults>& results) : text_(text) {
    for (const PanelResults& panel : results) {
      wanted_.insert(panel.global_id);
      for (const StandardResults& set : panel.standard) wanted_sets_.insert(set.standing);
    }
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
      const XmlSet own{std::string(kResultsSet), "results", {}, false, panel.properties};
      added += new_set(own, panel, element, id);
      for (const StandardResults& set : panel.standard) {
        const XmlSet of_standard{set.set, set.set, kSetDescription, holds_quantities(set), set.properties};
        if (set.standing.empty()) {
          added += new_set(of_standard, panel, element, id);
        } else {
          insertions[list_end_of(set.standing)] += new_members(of_standard, panel, element, added);
        }
      }
    }
    insertions[end_of_model_] += added;
    return spliced(insertions);
  }

 private:
  /// A set to write.
  struct XmlSet {
    std::string name;
    std::string purpose;  ///< from which its identifiers are derived
    std::string_view description;
    bool is_of_quantities = false;
    const std::vector<ResultProperty>& properties;
  };

  std::string_view text_;
  std::set<std::string, std::less<>> wanted_;
  std::set<std::string, std::less<>> wanted_sets_;  ///< GlobalIds of sets to add to
  std::map<std::string, std::size_t, std::less<>> list_ends_;
  std::vector<XmlMember> members_;
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
  /// Behind the name of an element that points to another: the id follows.
  std::string nil_ = " xmlns:xsi=\"" + std::string(kInstance) + "\" xsi:nil=\"true\" ref=\"";

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
    if (name == "Description" || name == "Specification") element.description = value;
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
    if (!element.ref.empty()) {
      if (is_member()) members_.push_back({element.ref, {element.begin, end, false}});
      return;
    }
    if (local == "IfcOwnerHistory" && owner_history_.empty()) owner_history_ = element.id;
    if (wanted_.contains(element.global_id)) {
      panels_.emplace(element.global_id, XmlPanel{element.name_end, element.name, element.id});
    }
    if (local == "uos" || (open_.empty() && end_of_model_ == 0)) end_of_model_ = begin;
    sort_in(element, local, end);
  }

  /// Whether the element that was closed stood in the list of a set.
  bool is_member() const { return !open_.empty() && is_list_of_set(local_of(open_.back().name)); }

  /// What the element around needs to know: its names, where they are elements, and what it refers to.
  void tell_owner(const OpenElement& element, std::string_view local, std::size_t end_of_text) {
    OpenElement& owner = open_.back();
    const bool is_entity = local_of(owner.name).starts_with("Ifc");
    if (is_list_of_set(local)) owner.list_end = end_of_text;
    if (is_entity && (local == "GlobalId" || local == "Name" || local == "Description")) {
      std::string_view value = trimmed(text_.substr(element.text_begin, end_of_text - element.text_begin));
      if (value.starts_with('<')) value = inner_text(value);
      (local == "GlobalId" ? owner.global_id : local == "Name" ? owner.own_name : owner.description) = value;
    }
    if (is_of_sets(local_of(owner.name)) || is_list_of_set(local) || local == "RelatingPropertyDefinition") {
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
    return is_set(local) || is_list_of_set(local) || local == "IfcRelDefinesByProperties" ||
           local == "RelatingPropertyDefinition";
  }

  void sort_in(const OpenElement& element, std::string_view local, std::size_t end) {
    const bool is_marked = element.description.starts_with(kWrittenBackMark);
    const bool is_relation = local == "IfcRelDefinesByProperties";
    if (is_set(local) && (is_marked || element.own_name == kResultsSet)) {
      if (!element.id.empty()) outdated_ids_.insert(element.id);
      outdated_properties_.insert(element.refs.begin(), element.refs.end());
      if (!open_.empty() && local_of(open_.back().name) == "RelatingPropertyDefinition") {
        open_.back().is_outdated = true;
        return;
      }
      outdated_.push_back({element.begin, end});
    } else if (is_relation && element.is_outdated) {
      outdated_.push_back({element.begin, end});
    } else if (is_property(local) && is_marked) {
      if (!element.id.empty()) outdated_properties_.insert(element.id);
      outdated_.push_back({element.begin, end, !is_member()});
    } else if (is_flat_ && (is_relation || (is_property(local) && !element.id.empty()))) {
      candidates_.emplace_back(element, end);
    } else if (is_set(local) && wanted_sets_.contains(element.global_id)) {
      list_ends_.emplace(element.global_id, element.list_end);
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
    for (const XmlMember& member : members_) {
      if (outdated_properties_.contains(member.ref)) outdated_.push_back(member.range);
    }
    std::sort(outdated_.begin(), outdated_.end());
    // What stands inside of what goes, goes with it.
    std::size_t end_of_last = 0;
    std::erase_if(outdated_, [&](const ByteRange& range) {
      const bool is_inside = range.begin < end_of_last;
      end_of_last = std::max(end_of_last, range.end);
      return is_inside;
    });
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
        if (range->with_line_break && text_.substr(at, 1) == "\r") ++at;
        if (range->with_line_break && text_.substr(at, 1) == "\n") ++at;
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

  std::size_t list_end_of(const std::string& standing) const {
    const auto found = list_ends_.find(standing);
    if (found == list_ends_.end() || found->second == 0) {
      throw std::runtime_error("the export has no property set with the GlobalId '" + standing + "'");
    }
    return found->second;
  }

  std::string new_set(const XmlSet& set, const PanelResults& panel, const XmlPanel& element,
                      const std::string& id) const {
    return is_flat_ ? flat_form(set, panel, element, id) : attribute_form(set, panel, element, id);
  }

  /// What is added to the list of a set that stands in the export, on one line so that the lines behind keep their
  /// numbers; what they point to is added to `entities`.
  std::string new_members(const XmlSet& set, const PanelResults& panel, const XmlPanel& element,
                          std::string& entities) const {
    const std::string ns(prefix_of(element.name));
    if (is_flat_) return flat_members(set, ns, own_id(set, panel), entities);
    std::string members;
    for (const ResultProperty& property : set.properties) members += attribute_property(property, ns);
    return members;
  }

  std::string attribute_property(const ResultProperty& property, const std::string& ns) const {
    const std::string type(type_of(property));
    const QuantityForm* quantity = find_quantity(type);
    const std::string entity = ns + (quantity != nullptr ? type : "IfcPropertySingleValue");
    std::string text = joined({"<", entity, " Name=\"", escaped(property.name), "\""}, "");
    if (!property.description.empty()) {
      const char* description = is_ifc4x3_ && quantity == nullptr ? "Specification" : "Description";
      text += joined({" ", description, "=\"", escaped(property.description), "\""}, "");
    }
    if (quantity != nullptr) {
      return text + joined({" ", std::string(quantity->attribute), "=\"", value_text(property), "\"/>"}, "");
    }
    return text + joined({"><", ns, "NominalValue><", ns, type, "-wrapper>", value_text(property), "</", ns, type,
                          "-wrapper></", ns, "NominalValue></", entity, ">"},
                         "");
  }

  /// IFC4 and IFC4X3: attributes are XML attributes, and what is defined stands inside the relationship.
  std::string attribute_form(const XmlSet& set, const PanelResults& panel, const XmlPanel& element,
                             const std::string& id) const {
    const std::string ns(prefix_of(element.name));
    const std::string entity = ns + (set.is_of_quantities ? "IfcElementQuantity" : "IfcPropertySet");
    const std::string list = ns + (set.is_of_quantities ? "Quantities" : "HasProperties");
    std::string text =
        "<" + ns + "IfcRelDefinesByProperties GlobalId=\"" + derived_global_id(panel.global_id, "has " + set.purpose) +
        "\" xmlns:xsi=\"" + std::string(kInstance) + "\"><" + ns + "RelatedObjects><" + std::string(element.name) +
        " xsi:nil=\"true\" ref=\"" + id + "\"/></" + ns + "RelatedObjects><" + ns + "RelatingPropertyDefinition><" +
        entity + " GlobalId=\"" + derived_global_id(panel.global_id, set.purpose) + "\" Name=\"" + set.name + "\"";
    if (!set.description.empty()) text += joined({" Description=\"", escaped(set.description), "\""}, "");
    text += joined({"><", list, ">\n"}, "");
    for (const ResultProperty& property : set.properties) text += attribute_property(property, ns) + "\n";
    return text + joined({"</", list, "></", entity, "></", ns, "RelatingPropertyDefinition></", ns,
                          "IfcRelDefinesByProperties>\n"},
                         "");
  }

  static std::string tag(const std::string& name, const std::string& content) {
    return joined({"<", name, ">", content, "</", name, ">"}, "");
  }

  /// From which the ids of a set and its properties are made where entities stand beside each other.
  std::string own_id(const XmlSet& set, const PanelResults& panel) const {
    return free_id(panel.global_id + "-" + set.purpose);
  }

  /// References to the properties of the set, which are added to `entities`.
  std::string flat_members(const XmlSet& set, const std::string& ns, const std::string& own,
                           std::string& entities) const {
    std::string references;
    std::size_t number = 0;
    for (const ResultProperty& property : set.properties) {
      const std::string type(type_of(property));
      const QuantityForm* quantity = find_quantity(type);
      const std::string entity = ns + (quantity != nullptr ? type : "IfcPropertySingleValue");
      const std::string property_id = joined({own, std::to_string(++number)}, "-");
      entities += joined({"<", entity, " id=\"", property_id, "\">", tag(ns + "Name", escaped(property.name))}, "");
      if (!property.description.empty()) entities += tag(ns + "Description", escaped(property.description));
      entities += quantity != nullptr ? tag(ns + std::string(quantity->attribute), value_text(property))
                                      : tag(ns + "NominalValue", tag(ns + type, value_text(property)));
      entities += joined({"</", entity, ">\n"}, "");
      references += joined({"<", entity, nil_, property_id, "\"/>"}, "");
    }
    return references;
  }

  /// IFC2x3: attributes are elements, everything stands beside each other and is joined by `ref`.
  std::string flat_form(const XmlSet& set, const PanelResults& panel, const XmlPanel& element,
                        const std::string& id) const {
    const std::string ns(prefix_of(element.name));
    const std::string own = own_id(set, panel);
    const std::string entity = ns + (set.is_of_quantities ? "IfcElementQuantity" : "IfcPropertySet");
    const std::string owner =
        owner_history_.empty()
            ? std::string()
            : tag(ns + "OwnerHistory", joined({"<", ns, "IfcOwnerHistory", nil_, owner_history_, "\"/>"}, ""));
    std::string text;
    const std::string references = flat_members(set, ns, own, text);
    text += joined(
        {"<", entity, " id=\"", own, "\">", tag(ns + "GlobalId", derived_global_id(panel.global_id, set.purpose)),
         owner, tag(ns + "Name", set.name)},
        "");
    if (!set.description.empty()) text += tag(ns + "Description", escaped(set.description));
    text += tag(ns + (set.is_of_quantities ? "Quantities" : "HasProperties"), references) + "</" + entity + ">\n";
    text += tag(ns + "IfcRelDefinesByProperties",
                joined({tag(ns + "GlobalId", derived_global_id(panel.global_id, "has " + set.purpose)), owner,
                        tag(ns + "RelatedObjects", joined({"<", std::string(element.name), nil_, id, "\"/>"}, "")),
                        tag(ns + "RelatingPropertyDefinition", joined({"<", entity, nil_, own, "\"/>"}, ""))},
                       ""));
    return text + "\n";
  }
};

}  // namespace

std::string xml_with_results(std::string_view text, const std::vector<PanelResults>& results) {
  return XmlText(text, results).with(results);
}

}  // namespace panel_dossier
