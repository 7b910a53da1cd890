#include "core/intake/claims/plausible_values.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// What is wrong with a value: too far for any use, or to be confirmed.
struct Fault {
  bool is_refused = false;
  std::string what;    ///< `is 0.0034 W/(m·K), outside of the usual 0.018 to 0.08 W/(m·K) of insulation`
  std::string advice;  ///< `correct it or …`
};

class PlausibleValues {
 public:
  PlausibleValues(const std::vector<PropertyRow>& rows, const MaterialKinds& kinds, Confirmations& confirmations,
                  Reporter& report)
      : kinds_(kinds), confirmations_(confirmations), report_(report) {
    for (const PropertyRow& row : rows) rows_.emplace(row.set + "." + row.property, &row);
  }

  void look_at(Properties& properties, const std::string& of, const MaterialKind* kind = nullptr) {
    std::vector<std::pair<std::string, std::string>> withheld;
    for (const auto& [name, property] : properties.all()) {
      const auto row = rows_.find(name);
      if (row == rows_.end()) continue;
      const auto fault = fault_of(*row->second, name, property, of, kind);
      if (!fault) continue;
      tell(*fault, name, property, of);
      if (!fault->is_refused) withheld.emplace_back(name, why(*fault, name, property, of));
    }
    for (auto& [name, text] : withheld) properties.withhold(name, std::move(text));
  }

  /// By its category or, where the export gives none, by what its other properties say that it is.
  const MaterialKind* kind_of(const Material& material) const {
    if (!material.category.empty()) return kinds_.kind_of(material.category);
    const Properties& properties = material.properties;
    if (properties.find("Panel_Fire", "InsulationType") != nullptr) return kinds_.kind_of("insulation");
    const auto role = properties.text("Panel_Fire", "ProtectionRole");
    if (role && role->value.starts_with("GYPSUM")) return kinds_.kind_of("gypsum");
    const bool is_wood = material.strength_class() || properties.find("Panel_Fire", "CharringClass") != nullptr;
    return is_wood ? kinds_.kind_of("wood") : nullptr;
  }

 private:
  std::map<std::string, const PropertyRow*, std::less<>> rows_;
  const MaterialKinds& kinds_;
  Confirmations& confirmations_;
  Reporter& report_;
  std::set<std::string> told_;

  std::optional<Fault> fault_of(const PropertyRow& row, const std::string& name, const Property& property,
                                const std::string& of, const MaterialKind* kind) {
    if (const double* number = std::get_if<double>(&property.value)) {
      return fault_of_number(row, name, *number, of, kind);
    }
    const std::string* text = std::get_if<std::string>(&property.value);
    if (text == nullptr || text->empty()) return std::nullopt;
    if (!row.words.empty() && std::find(row.words.begin(), row.words.end(), *text) == row.words.end()) {
      return Fault{false, "is '" + *text + "', none of " + joined(row.words), "write one of them"};
    }
    if (row.measure == "IfcDate" && !is_iso_date(*text)) {
      return Fault{false, "is '" + *text + "', which is no day", "write it as 2026-06-01"};
    }
    return std::nullopt;
  }

  std::optional<Fault> fault_of_number(const PropertyRow& row, const std::string& name, double number,
                                       const std::string& of, const MaterialKind* kind) {
    // Asked in any case: a check of a plugin may be the one that wants the value confirmed.
    const bool is_confirmed = confirmations_.confirm(name, of, number);
    const std::string shown = "is " + with_unit(number, row.unit);
    if (row.range && !row.range->holds(number)) {
      return Fault{true, shown + ", which cannot be: it goes from " + to_string(*row.range, row.unit),
                   "correct the value or its unit"};
    }
    const ValueRange* usual = row.usual ? &*row.usual : nullptr;
    std::string whose;
    if (kind != nullptr) {
      if (const auto of_kind = kind->usual.find(name); of_kind != kind->usual.end()) {
        usual = &of_kind->second;
        whose = " of " + kind->name;
      }
    }
    if (usual == nullptr || usual->holds(number) || is_confirmed) return std::nullopt;
    return Fault{false, shown + ", outside of the usual " + to_string(*usual, row.unit) + whose,
                 "correct it, or confirm it with a reason under `confirmed_values` of the settings"};
  }

  static std::string why(const Fault& fault, const std::string& name, const Property& property, const std::string& of) {
    std::string text = name + " of '" + of + "'";
    if (const std::string place = place_in_words(property.origin); !place.empty()) text += " (" + place + ")";
    return text + " " + fault.what + "; " + fault.advice;
  }

  void tell(const Fault& fault, const std::string& name, const Property& property, const std::string& of) {
    // What a type or a material states is copied to all that use it.
    const std::string place = place_in_words(property.origin) + name + fault.what;
    if (!told_.insert(place).second) return;
    Diagnostic diagnostic;
    diagnostic.severity = fault.is_refused ? Severity::error : Severity::warning;
    diagnostic.line = property.origin.line;
    diagnostic.entity = property.origin.entity;
    diagnostic.global_id = property.origin.global_id;
    diagnostic.message = "'" + name + "' of '" + of + "' ";
    // The diagnostic is of the export's file; what stands elsewhere says so.
    if (property.origin.kind == OriginKind::input_table)
      diagnostic.message += "(" + place_in_words(property.origin) + ") ";
    diagnostic.message += fault.what + (fault.is_refused ? "" : ", and is not used");
    diagnostic.advice = fault.advice;
    report_.add(std::move(diagnostic));
  }
};

}  // namespace

void withhold_implausible(Project& project, const std::vector<PropertyRow>& rows, const MaterialKinds& kinds,
                          Confirmations& confirmations, Reporter& report) {
  PlausibleValues values(rows, kinds, confirmations, report);
  values.look_at(project.properties, project.name);
  for (Material& material : project.materials) {
    values.look_at(material.properties, material.name, values.kind_of(material));
  }
  for (Panel& panel : project.panels) {
    values.look_at(panel.properties, panel.mark);
    for (Layer& layer : panel.layers) values.look_at(layer.properties, layer.name);
    for (Part& part : panel.parts) values.look_at(part.properties, part.name);
    for (Opening& opening : panel.openings) values.look_at(opening.filling_properties, opening.filling_name);
  }
}

}  // namespace panel_dossier
