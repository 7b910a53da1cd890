#include "core/intake/claims/standard_names.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "core/intake/claims/claimed_value.h"

namespace panel_dossier {

namespace {

// Sets that the standard gives to elements and the program asks of materials: a product is bought as a material, and
// modelled as parts.
constexpr std::string_view kSetsOfElements[] = {"Pset_ManufacturerTypeInformation", "Pset_ServiceLife"};

bool is_of_elements(std::string_view full_name) {
  const std::string_view set = full_name.substr(0, full_name.find('.'));
  return std::find(std::begin(kSetsOfElements), std::end(kSetsOfElements), set) != std::end(kSetsOfElements);
}

/// The value in the unit of the row; none when it is of another kind or there is no way from its unit to that.
std::optional<Property> converted(const Property& property, const PropertyRow& row) {
  Property result = property;
  double* number = std::get_if<double>(&result.value);
  if (number == nullptr || property.unit == row.unit) return result;
  if (property.unit != "s" || row.unit != "years") return std::nullopt;
  *number /= units::kSecondPerYear;
  // As the intake reads a plain number of that unit.
  result.unit.clear();
  return result;
}

/// One property of ours and those of the standard beside it.
struct Alias {
  const PropertyRow* row;
  std::string own;
  std::vector<std::string> standard;
};

std::vector<Alias> aliases_of(const std::vector<PropertyRow>& rows) {
  std::vector<Alias> aliases;
  std::set<std::string> listed;
  for (const PropertyRow& row : rows) {
    std::string own = row.set + "." + row.property;
    if (!row.standard.empty() && listed.insert(own).second) aliases.push_back({&row, std::move(own), row.standard});
  }
  return aliases;
}

class StandardNames {
 public:
  StandardNames(const std::vector<PropertyRow>& rows, Reporter& report) : aliases_(aliases_of(rows)), report_(report) {
    for (const PropertyRow& row : rows) {
      if (row.on.find("material") == std::string::npos) continue;
      if (is_of_elements(row.set + ".")) of_elements_.insert(row.set + "." + row.property);
      for (const std::string& name : row.standard) {
        if (is_of_elements(name)) of_elements_.insert(name);
      }
    }
  }

  void read(Properties& properties, const std::string& of) {
    for (const Alias& alias : aliases_) read(alias, properties, of);
  }

  /// Takes to each material what the parts of it state.
  void gather_from_parts(Project& project) {
    std::map<std::pair<std::size_t, std::string>, std::vector<const Property*>> stated;
    for (const Panel& panel : project.panels) {
      for (const Part& part : panel.parts) {
        if (!part.material || *part.material >= project.materials.size()) continue;
        for (const std::string& name : of_elements_) {
          const auto found = part.properties.all().find(name);
          if (found != part.properties.all().end()) stated[{*part.material, name}].push_back(&found->second);
        }
      }
    }
    for (const auto& [place, properties] : stated) gather(project.materials[place.first], place.second, properties);
  }

 private:
  std::vector<Alias> aliases_;
  std::set<std::string> of_elements_;  ///< full names
  Reporter& report_;
  std::set<std::string> told_;

  static void add(Properties& properties, const std::string& full_name, const Property& property) {
    const std::size_t dot = full_name.find('.');
    properties.add(full_name.substr(0, dot), full_name.substr(dot + 1), property);
  }

  void gather(Material& material, const std::string& name, const std::vector<const Property*>& stated) {
    if (material.properties.all().contains(name) || material.properties.withheld().contains(name)) return;
    const Property& first = *stated.front();
    add(material.properties, name, first);
    const auto other =
        std::find_if(stated.begin(), stated.end(), [&](const Property* p) { return !is_same_claim(*p, first); });
    if (other == stated.end()) return;
    withhold(material.properties, material.name, {name},
             "is " + claim_in_words(first) + " of one of its parts (line " + std::to_string(first.origin.line) +
                 ") and " + claim_in_words(**other) + " of another (line " + std::to_string((*other)->origin.line) +
                 ")",
             first.origin);
  }

  void read(const Alias& alias, Properties& properties, const std::string& of) {
    const auto& all = properties.all();
    std::string name_of_first;
    std::optional<Property> first;
    for (const std::string& name : alias.standard) {
      if (const auto withheld = properties.withheld().find(name); withheld != properties.withheld().end()) {
        take_out(alias, properties, WithheldProperty(withheld->second));
        return;
      }
      const auto found = all.find(name);
      if (found == all.end()) continue;
      const auto value = converted(found->second, *alias.row);
      if (!value) continue;
      if (!first) {
        first = value;
        name_of_first = name;
      } else if (!is_same_claim(*value, *first)) {
        contradict(alias, properties, of, {name_of_first, *first}, {name, *value});
        return;
      }
    }
    if (!first) return;
    if (const auto own = all.find(alias.own); own != all.end()) {
      if (!is_same_claim(own->second, *first))
        contradict(alias, properties, of, {name_of_first, *first}, {alias.own, own->second});
      return;
    }
    if (properties.withheld().contains(alias.own)) return;
    first->origin.entity = first->origin.entity + " " + name_of_first + ", read as";
    first->origin.property = alias.own;
    add(properties, alias.own, *first);
  }

  /// Ours stands for the standard's, which may not be used.
  static void take_out(const Alias& alias, Properties& properties, const WithheldProperty& standard) {
    add(properties, alias.own, standard.property);
    properties.withhold(alias.own, standard.why);
  }

  using Named = std::pair<std::string, Property>;

  void contradict(const Alias& alias, Properties& properties, const std::string& of, const Named& one,
                  const Named& other) {
    std::vector<std::string> names = alias.standard;
    names.push_back(alias.own);
    std::string what = "is " + claim_in_words(one.second) + ", but " + other.first + " of the same";
    what += " is " + claim_in_words(other.second);
    if (other.second.origin.line != 0) what += " (line " + std::to_string(other.second.origin.line) + ")";
    // The check that reads either of them must not pass by ours.
    add(properties, alias.own, one.second);
    withhold(properties, of, names, what, one.second.origin, one.first);
  }

  void withhold(Properties& properties, const std::string& of, const std::vector<std::string>& names,
                const std::string& what, const Origin& origin, const std::string& named = {}) {
    constexpr const char* kAdvice = "correct one of them";
    const std::string& name = named.empty() ? names.front() : named;
    std::string why = name + " of '" + of + "'";
    if (origin.line != 0) why += " (line " + std::to_string(origin.line) + " of the export)";
    why += " " + what + "; " + kAdvice;
    for (const std::string& one : names) properties.withhold(one, why);
    // What a type or a material states is copied to all that use it.
    if (!told_.insert(std::to_string(origin.line) + name + what).second) return;
    report_.add({Severity::warning,
                 {},
                 origin.line,
                 0,
                 origin.entity,
                 origin.global_id,
                 "'" + name + "' of '" + of + "' " + what + ", and is not used",
                 kAdvice});
  }
};

}  // namespace

void read_standard_names(Project& project, const std::vector<PropertyRow>& rows, Reporter& report) {
  StandardNames names(rows, report);
  names.gather_from_parts(project);
  names.read(project.properties, project.name);
  for (Material& material : project.materials) names.read(material.properties, material.name);
  for (Panel& panel : project.panels) {
    names.read(panel.properties, panel.mark);
    for (Layer& layer : panel.layers) names.read(layer.properties, layer.name);
    for (Part& part : panel.parts) names.read(part.properties, part.name);
    for (Opening& opening : panel.openings) names.read(opening.filling_properties, opening.filling_name);
  }
}

}  // namespace panel_dossier
