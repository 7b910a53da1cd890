// Reading a file of requirements: IDS 1.0, its schema as published in June 2024 (Development/ids.xsd, version 1.0.0).
#include <algorithm>
#include <array>
#include <charconv>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/document/input_file.h"
#include "core/intake/document/xml_check.h"
#include "core/intake/graph/element.h"
#include "core/intake/ids/ids_file.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view kIdsNamespace = "http://standards.buildingsmart.org/IDS";
constexpr std::string_view kSchemaNamespace = "http://www.w3.org/2001/XMLSchema";

// A person reads such a file: thousands of conditions are many, and millions are an attack.
constexpr std::size_t kLargestIds_bytes = 16U << 20U;
constexpr std::size_t kMostFacets = 20'000;
constexpr std::size_t kMostValues = 200'000;

constexpr std::array kVersions{"IFC2X3"sv, "IFC4"sv, "IFC4X3_ADD2"sv};
constexpr std::array kRelations{"IFCRELAGGREGATES"sv, "IFCRELASSIGNSTOGROUP"sv, "IFCRELCONTAINEDINSPATIALSTRUCTURE"sv,
                                "IFCRELNESTS"sv, "IFCRELVOIDSELEMENT IFCRELFILLSELEMENT"sv};
constexpr std::array kBases{"string"sv,   "double"sv,   "integer"sv, "boolean"sv, "date"sv,  "time"sv,
                            "dateTime"sv, "duration"sv, "decimal"sv, "float"sv,   "anyURI"sv};

struct FacetForm {
  std::string_view element;
  IdsFacetKind kind;
  std::string_view children;  ///< in their order; those that must be there end with !
};

constexpr std::array kForms{
    FacetForm{"entity", IdsFacetKind::entity, "name! predefinedType"},
    FacetForm{"partOf", IdsFacetKind::part_of, "entity!"},
    FacetForm{"classification", IdsFacetKind::classification, "value system!"},
    FacetForm{"attribute", IdsFacetKind::attribute, "name! value"},
    FacetForm{"property", IdsFacetKind::property, "propertySet! baseName! value"},
    FacetForm{"material", IdsFacetKind::material, "value"},
};

const FacetForm* form_of(std::string_view element) {
  const auto found =
      std::find_if(kForms.begin(), kForms.end(), [&](const FacetForm& f) { return f.element == element; });
  return found == kForms.end() ? nullptr : &*found;
}

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

class IdsReader {
 public:
  explicit IdsReader(Reporter& report) : report_(report) {}

  IdsFile read(const Element& root) {
    IdsFile file;
    if (root.name() != "ids" || root.namespace_uri() != kIdsNamespace) {
      fault(root, "'" + std::string(root.name()) + "' is no IDS file",
            "give a file whose root is 'ids' in namespace " + std::string(kIdsNamespace));
      return file;
    }
    check_children(root, "info! specifications!");
    file.title = read_info(root.child("info"));
    const Element specifications = root.child("specifications");
    if (!specifications) return file;
    for (Element e = specifications.first_child(); e; e = e.next_sibling()) {
      if (e.name() != "specification") {
        unknown(e);
        continue;
      }
      file.specifications.push_back(read_specification(e));
    }
    if (file.specifications.empty()) fault(specifications, "has no specification", "write at least one");
    return file;
  }

 private:
  Reporter& report_;
  std::size_t facets_ = 0;
  std::size_t values_ = 0;

  void fault(const Element& at, std::string message, std::string advice) {
    report_.add(
        {Severity::error, {}, report_.line(at), 0, std::string(at.name()), {}, std::move(message), std::move(advice)});
  }

  void unknown(const Element& at) {
    fault(at, "has no place here in IDS 1.0", "remove it, or write it as the form has it");
  }

  /// The children are those of the list, in its order and once each, and all that end with ! are there.
  void check_children(const Element& owner, std::string_view list) {
    const std::vector<std::string> allowed = split(list, ' ');
    const auto plain = [](const std::string& name) {
      return name.ends_with('!') ? name.substr(0, name.size() - 1) : name;
    };
    std::size_t next = 0;
    for (Element child = owner.first_child(); child; child = child.next_sibling()) {
      std::size_t at = next;
      while (at < allowed.size() && plain(allowed[at]) != child.name()) ++at;
      if (at == allowed.size()) {
        unknown(child);
        return;
      }
      next = at + 1;
    }
    for (const std::string& name : allowed) {
      if (name.ends_with('!') && !owner.child(plain(name)))
        fault(owner, "has no " + plain(name), "IDS 1.0 requires it");
    }
  }

  std::string text_attribute(const Element& at, std::string_view name, bool is_required = false) {
    const auto value = at.attribute(name);
    if (!value && is_required) fault(at, "has no attribute '" + std::string(name) + "'", "IDS 1.0 requires it");
    return std::string(value.value_or(std::string_view()));
  }

  std::string read_info(const Element& info) {
    if (!info) return {};
    check_children(info, "title! copyright version description author date purpose milestone");
    if (const Element author = info.child("author")) {
      const std::string text = author.text();
      const std::size_t sign = text.find('@');
      const bool has_dot = sign != std::string::npos && text.find('.', sign) != std::string::npos;
      if (!has_dot || sign == 0)
        fault(author, "'" + text.substr(0, 60) + "' is no e-mail address", "write one, or leave the author out");
    }
    return std::string(trimmed(info.child("title").text()));
  }

  IdsSpecification read_specification(const Element& at) {
    IdsSpecification specification;
    specification.line = report_.line(at);
    specification.name = text_attribute(at, "name", true);
    specification.identifier = text_attribute(at, "identifier");
    specification.description = text_attribute(at, "description");
    specification.instructions = text_attribute(at, "instructions");
    specification.ifc_versions = split(text_attribute(at, "ifcVersion", true), ' ');
    for (const std::string& version : specification.ifc_versions) {
      if (!is_one_of(kVersions, version))
        fault(at, "names the version '" + version.substr(0, 60) + "'", "write IFC2X3, IFC4 or IFC4X3_ADD2");
    }
    check_children(at, "applicability! requirements");
    if (const Element applicability = at.child("applicability")) {
      specification.occurrence = read_occurrence(applicability);
      specification.applicability = read_facets(applicability, false);
    }
    if (const Element requirements = at.child("requirements")) {
      specification.requirements = read_facets(requirements, true);
      if (specification.occurrence == IdsOccurrence::prohibited && !specification.requirements.empty()) {
        fault(requirements, "stands in a specification that prohibits its entities", "leave the requirements out");
      }
    }
    return specification;
  }

  IdsOccurrence read_occurrence(const Element& applicability) {
    const std::string least(applicability.attribute("minOccurs").value_or("1"sv));
    const std::string most(applicability.attribute("maxOccurs").value_or("1"sv));
    if (least == "0" && most == "0") return IdsOccurrence::prohibited;
    if (most == "unbounded" && (least == "0" || least == "1"))
      return least == "1" ? IdsOccurrence::required : IdsOccurrence::optional;
    fault(applicability, "has minOccurs '" + least.substr(0, 20) + "' and maxOccurs '" + most.substr(0, 20) + "'",
          "write both: 1 and unbounded for required, 0 and unbounded for optional, 0 and 0 for prohibited");
    return IdsOccurrence::required;
  }

  std::vector<IdsFacet> read_facets(const Element& owner, bool are_requirements) {
    std::vector<IdsFacet> facets;
    std::ptrdiff_t last = -1;
    for (Element child = owner.first_child(); child; child = child.next_sibling()) {
      const FacetForm* form = form_of(child.name());
      if (form == nullptr) {
        unknown(child);
        continue;
      }
      const std::ptrdiff_t place = form - kForms.data();
      const bool is_second_entity = form->kind == IdsFacetKind::entity && last >= 0;
      // Groups of requirements may repeat, those of the applicability not.
      if (!are_requirements && (place < last || is_second_entity)) unknown(child);
      last = place;
      if (++facets_ > kMostFacets) {
        if (facets_ == kMostFacets + 1)
          fault(child, "is one condition too many", "split the file: it has more than " + std::to_string(kMostFacets));
        return facets;
      }
      facets.push_back(read_facet(child, *form, are_requirements));
    }
    return facets;
  }

  IdsFacet read_facet(const Element& at, const FacetForm& form, bool is_requirement) {
    IdsFacet facet;
    facet.kind = form.kind;
    facet.line = report_.line(at);
    check_children(at, form.children);
    facet.instructions = text_attribute(at, "instructions");
    if (is_requirement) facet.cardinality = read_cardinality(at, form.kind);
    const Element named = form.kind == IdsFacetKind::part_of ? at.child("entity") : at;
    if (form.kind == IdsFacetKind::part_of && named) check_children(named, "name! predefinedType");
    facet.name = read_value(named.child(form.kind == IdsFacetKind::property ? "baseName" : "name"));
    facet.predefined_type = read_value(named.child("predefinedType"));
    facet.set = read_value(at.child(form.kind == IdsFacetKind::property ? "propertySet" : "system"));
    facet.value = read_value(at.child("value"));
    facet.data_type = text_attribute(at, "dataType");
    facet.relation = text_attribute(at, "relation");
    if (!facet.relation.empty() && !is_one_of(kRelations, facet.relation)) {
      fault(at, "names the relation '" + facet.relation.substr(0, 60) + "'",
            "write one of " + joined({kRelations.begin(), kRelations.end()}));
    }
    check_property(at, facet);
    return facet;
  }

  IdsCardinality read_cardinality(const Element& at, IdsFacetKind kind) {
    const auto written = at.attribute("cardinality");
    if (!written || *written == "required") return IdsCardinality::required;
    const bool is_free = kind != IdsFacetKind::entity;
    if (*written == "prohibited" && is_free) return IdsCardinality::prohibited;
    if (*written == "optional" && is_free && kind != IdsFacetKind::part_of) return IdsCardinality::optional;
    fault(at, "has the cardinality '" + std::string(written->substr(0, 20)) + "'",
          "write required, prohibited or, but for partOf, optional; an entity is always required");
    return IdsCardinality::required;
  }

  void check_property(const Element& at, const IdsFacet& facet) {
    const bool is_property = facet.kind == IdsFacetKind::property;
    if (is_property && facet.value && facet.data_type.empty())
      fault(at, "asks for a value without dataType", "state the type, as IFCLABEL");
    if (facet.cardinality == IdsCardinality::prohibited && is_property && (facet.value || !facet.data_type.empty())) {
      fault(at, "prohibits a property and states its type or value", "leave both out");
    }
    const bool asks = facet.value || (is_property && !facet.data_type.empty());
    if (facet.cardinality == IdsCardinality::optional && !asks) {
      fault(at, "is optional and asks for nothing", "state a value, or the dataType of a property");
    }
  }

  std::optional<IdsValue> read_value(const Element& holder) {
    if (!holder) return std::nullopt;
    const Element inner = holder.first_child();
    if (!inner || inner.next_sibling()) {
      fault(holder, "holds no single value", "write one simpleValue or one xs:restriction");
      return std::nullopt;
    }
    IdsValue value;
    if (inner.name() == "simpleValue") {
      value.text = inner.text();
      return value;
    }
    if (inner.name() != "restriction" || inner.namespace_uri() != kSchemaNamespace) {
      unknown(inner);
      return std::nullopt;
    }
    value.is_simple = false;
    read_restriction(inner, value);
    return value;
  }

  void read_restriction(const Element& at, IdsValue& value) {
    value.base = text_attribute(at, "base", true);
    const std::size_t colon = value.base.find(':');
    if (colon == std::string::npos || !is_one_of(kBases, std::string_view(value.base).substr(colon + 1))) {
      fault(at, "has the base '" + value.base.substr(0, 60) + "'", "write a simple type of XML Schema, as xs:string");
    }
    for (Element child = at.first_child(); child; child = child.next_sibling()) {
      if (++values_ > kMostValues) {
        if (values_ == kMostValues + 1)
          fault(child, "is one value too many", "split the file: it has more than " + std::to_string(kMostValues));
        return;
      }
      read_constraint(child, value);
    }
    if (!at.first_child()) fault(at, "restricts nothing", "state an enumeration, a pattern, bounds or a length");
  }

  void read_constraint(const Element& at, IdsValue& value) {
    const std::string_view name = at.name();
    const std::string text = text_attribute(at, "value", true);
    if (name == "enumeration") {
      value.enumeration.push_back(text);
    } else if (name == "pattern") {
      read_pattern(at, text, value);
    } else if (std::optional<double>* bound = bound_of(name, value)) {
      *bound = parse_number(text);
      if (!*bound) fault(at, "'" + text.substr(0, 60) + "' is no number", "write it as 12.5 or 1.25E1");
    } else if (std::optional<std::size_t>* length = length_of(name, value)) {
      std::size_t number = 0;
      const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), number);
      if (status != std::errc() || end != text.data() + text.size())
        fault(at, "'" + text.substr(0, 60) + "' is no length", "write a whole number");
      *length = number;
    } else {
      fault(at, "is no restriction that IDS 1.0 supports", "write enumeration, pattern, bounds or length");
    }
  }

  void read_pattern(const Element& at, const std::string& text, IdsValue& value) {
    if (!value.base.ends_with(":string")) {
      fault(at, "asks for a pattern of " + value.base.substr(0, 60), "patterns are for xs:string");
      return;
    }
    std::string why;
    if (auto pattern = IdsPattern::make(text, why)) {
      value.patterns.push_back(std::move(*pattern));
    } else {
      fault(at, "'" + text.substr(0, 60) + "' " + why, "write a simpler pattern");
    }
  }

  static std::optional<double>* bound_of(std::string_view name, IdsValue& value) {
    if (name == "minInclusive") return &value.min_inclusive;
    if (name == "maxInclusive") return &value.max_inclusive;
    if (name == "minExclusive") return &value.min_exclusive;
    return name == "maxExclusive" ? &value.max_exclusive : nullptr;
  }

  static std::optional<std::size_t>* length_of(std::string_view name, IdsValue& value) {
    if (name == "length") return &value.length;
    if (name == "minLength") return &value.min_length;
    return name == "maxLength" ? &value.max_length : nullptr;
  }
};

}  // namespace

std::optional<IdsFile> read_ids(std::string text, const std::filesystem::path& schema_dir, Reporter& report) {
  if (text.size() > kLargestIds_bytes) {
    report.file_error(0, 0, "the file is larger than " + std::to_string(kLargestIds_bytes >> 20U) + " MiB",
                      "no file of requirements needs that: check how it was made");
    return std::nullopt;
  }
  report.set_lines(LineTable(text));
  if (!check_encoding(text, report) || !check_xml(text, schema_dir, report)) return std::nullopt;
  XmlDocument document;
  if (!document.parse_in_place(text)) {
    report.file_error(0, 0, "the XML cannot be read a second time", "this is a fault of the program: report it");
    return std::nullopt;
  }
  IdsFile file = IdsReader(report).read(document.root());
  if (report.has_errors()) return std::nullopt;
  return file;
}

}  // namespace panel_dossier
