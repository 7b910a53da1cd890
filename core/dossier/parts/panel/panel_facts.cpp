#include "core/dossier/parts/panel/panel_facts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "core/dossier/guidance/subjects.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/panel/fire_class.h"

namespace panel_dossier {

namespace {

std::string text_of(const Properties& properties, const char* set, const char* name) {
  const Property* property = properties.find(set, name);
  return property == nullptr ? std::string() : property_text(*property);
}

/// Both where both are given, with the separator between; else the one that is.
std::string both(const std::string& first, const std::string& second, const char* separator) {
  return first.empty() || second.empty() ? first + second : first + separator + second;
}

std::string maker_of(const DossierContent& content, const Panel& panel) {
  std::string maker = text_of(panel.properties, "Pset_ManufacturerTypeInformation", "Manufacturer");
  if (!maker.empty()) return both(maker, contact_of(content.project, maker), ", ");
  for (const Party& party : content.project.parties) {
    const std::string role = lower_case(party.role);
    if (role.find("maker") != std::string::npos || role.find("manufacturer") != std::string::npos)
      return both(party.organisation.empty() ? party.name : party.organisation, party.contact, ", ");
  }
  return {};
}

std::string warranty_text(const Panel& panel) {
  const auto [period, from, to, contact, exclusions] = warranty_of(panel);
  std::string text = period;
  if (!from.empty()) text = both(text, "from " + from, " ");
  // Period and first day tell the last one.
  if (!to.empty() && (period.empty() || from.empty())) text = both(text, "to " + to, " ");
  if (!text.empty() && from.empty()) text += ", first day not stated";
  text = both(text, contact, ", ");
  return both(text, text_of(panel.properties, "Pset_Warranty", "WarrantyContent"), ": ");
}

/// Value of the finding of that role with its limit; empty where no plugin gives it.
std::string role_text(const DossierContent& content, const PanelSummary& summary, std::string_view role) {
  const RecordedFinding* finding = finding_of_role(content.results.build, summary.findings, role);
  if (finding == nullptr) return {};
  std::string value = format_value(finding->value, finding->unit, finding->derivation->decimals);
  if (value.empty()) return std::string(to_string(finding->verdict));
  const std::string limit = format_limit(*finding);
  if (!limit.empty()) value += " (" + limit + ")";
  const bool is_open = finding->verdict == Verdict::fail || finding->verdict == Verdict::evidence_needed ||
                       finding->verdict == Verdict::not_assessed;
  return is_open ? value + ", " + std::string(to_string(finding->verdict)) : value;
}

/// With what of it is no panel; a reader of both masses would wonder at their difference.
std::string hook_load_text(const DossierContent& content, const PanelSummary& summary) {
  std::string text = role_text(content, summary, role::kHookLoad);
  const RecordedFinding* mass = finding_of_role(content.results.build, summary.findings, role::kMass);
  const RecordedFinding* hook = finding_of_role(content.results.build, summary.findings, role::kHookLoad);
  if (mass == nullptr || hook == nullptr) return text;
  const auto* mass_kg = std::get_if<double>(&mass->value);
  const auto* hook_kg = std::get_if<double>(&hook->value);
  if (mass_kg == nullptr || hook_kg == nullptr || mass->unit != "kg" || hook->unit != "kg") return text;
  return text + ", gear " + format_fixed(*hook_kg - *mass_kg, 0) + " kg";
}

/// With the papers of the class, each with what is wrong with its file.
std::string fire_resistance_text(const DossierContent& content, const PanelSummary& summary) {
  std::vector<std::string> papers;
  for (const Evidence* paper : papers_of(content.project, fire_class_of(content.results.build, summary))) {
    const bool is_there = paper->status == EvidenceStatus::present;
    papers.push_back(is_there ? paper->id : paper->id + " (" + std::string(to_string(paper->status)) + ")");
  }
  return both(role_text(content, summary, role::kFireResistance), joined(papers), ", paper ");
}

std::string centre_of_gravity(const DossierContent& content, const PanelSummary& summary) {
  const RecordedFinding* finding = finding_of_role(content.results.build, summary.findings, role::kCentreOfGravity);
  if (finding == nullptr) return {};
  const auto millimetres = [finding](std::string_view id) -> std::string {
    for (const NamedValue& value : finding->derivation->values) {
      const auto* length_m = std::get_if<double>(&value.value);
      if (value.id == id && value.unit == "m" && length_m != nullptr) return format_fixed(*length_m * 1000.0, 0);
    }
    return "–";
  };
  return millimetres("from_left_edge") + " mm from left, " + millimetres("from_inner_face") + " from inner face, " +
         millimetres("from_foot") + " above foot";
}

std::vector<double> upright_middles_m(const Panel& panel) {
  std::vector<double> middles;
  for (const Part& part : panel.parts) {
    if ((part.kind != PartKind::stud && part.kind != PartKind::post) || !part.bounds) continue;
    middles.push_back((part.bounds->min.x + part.bounds->max.x) / 2.0);
  }
  std::sort(middles.begin(), middles.end());
  constexpr double kSame = 0.005;
  middles.erase(std::unique(middles.begin(), middles.end(), [](double a, double b) { return b - a < kSame; }),
                middles.end());
  return middles;
}

/// The first membrane behind the inner face; null where the panel has none before its framing ends.
const Layer* inner_membrane(const DossierContent& content, const Panel& panel) {
  for (const Layer& layer : panel.layers) {
    if (layer.y_inside_m > panel.thickness_m.value / 2.0) return nullptr;
    const Material* material = material_at(content.project, layer.material);
    if (layer.category == "membrane" || (material != nullptr && material->category == "membrane")) return &layer;
  }
  return nullptr;
}

struct FixingsOfType {
  long count = 0;
  std::vector<Vec3> middles;  ///< of those that have a place
};

/// `60, 915 and 1770`, without those that are the same to a millimetre.
std::string millimetres_in_words(const std::set<long>& lengths_mm) {
  std::vector<std::string> texts;
  texts.reserve(lengths_mm.size());
  for (const long length : lengths_mm) texts.push_back(std::to_string(length));
  if (texts.size() < 2) return joined(texts);
  const std::string last = texts.back();
  texts.pop_back();
  return joined(texts) + " and " + last;
}

/// Rows and columns of them; each by itself where they do not stand in rows that are alike. Empty where not all of them
/// have a place.
std::string places_in_words(const FixingsOfType& fixings) {
  constexpr std::size_t kMostPlaces = 12;
  if (fixings.middles.empty() || static_cast<long>(fixings.middles.size()) != fixings.count) return {};
  std::set<long> across;
  std::set<long> upwards;
  std::set<std::pair<long, long>> places;
  for (const Vec3& middle : fixings.middles) {
    const auto millimetres = [](double length_m) { return std::lround(length_m * 1000.0); };
    across.insert(millimetres(middle.x));
    upwards.insert(millimetres(middle.z));
    places.emplace(millimetres(middle.x), millimetres(middle.z));
  }
  if (places.size() == across.size() * upwards.size()) {
    return ", at " + millimetres_in_words(across) + " mm from the left edge, " + millimetres_in_words(upwards) +
           " mm above the foot";
  }
  if (places.size() > kMostPlaces) return {};
  std::vector<std::string> texts;
  texts.reserve(places.size());
  for (const auto& [x, z] : places) texts.push_back(std::to_string(x) + " | " + std::to_string(z));
  return ", at (mm from the left edge | above the foot) " + joined(texts, "; ");
}

std::string name_of(const DossierContent& content, const Layer& layer) {
  const Material* material = material_at(content.project, layer.material);
  return material != nullptr ? material->name : layer.name;
}

}  // namespace

std::string property_text(const Property& property) {
  if (const auto* logical = std::get_if<bool>(&property.value)) return *logical ? "yes" : "no";
  if (const auto* number = std::get_if<double>(&property.value)) {
    const bool years = property.unit == "s" && *number >= units::kSecondPerYear;
    if (years) return format_significant(*number / units::kSecondPerYear) + " years";
    // Sizes of panels and their tolerances read as they are measured.
    constexpr double kLongestInMillimetres = 100.0;
    const bool length = property.unit == "m" && *number > -kLongestInMillimetres && *number < kLongestInMillimetres;
    if (length) return format_millimetres(*number) + " mm";
    // Loads as an engineer writes them.
    const bool load = property.unit == "N" || property.unit == "N/m";
    return load ? format_value(*number / units::kNewtonPerKilonewton, "k" + property.unit)
                : format_value(*number, property.unit);
  }
  return std::get<std::string>(property.value);
}

std::array<std::string, 5> warranty_of(const Panel& panel) {
  const auto period = panel.properties.number("Pset_Warranty", "WarrantyPeriod");
  const auto text = [&panel](const char* name) { return text_of(panel.properties, "Pset_Warranty", name); };
  return {period ? format_significant(period->value / units::kSecondPerYear) + " years" : std::string(),
          text("WarrantyStartDate"), text("WarrantyEndDate"), text("PointOfContact"), text("Exclusions")};
}

std::vector<Fact> identity_facts(const DossierContent& content, const Panel& panel) {
  const Properties& properties = panel.properties;
  const std::string storey = panel.storey ? content.project.storeys[*panel.storey].name : std::string();
  const std::string batch = text_of(properties, "Panel_Identity", "Batch");
  const std::string manufactured = text_of(properties, "Pset_ManufacturerOccurrence", "BatchReference");
  const auto dated = [&properties](const char* set, const char* who) {
    return both(both(text_of(properties, set, "Result"), text_of(properties, set, "Date"), ", "),
                text_of(properties, set, who), ", ");
  };
  return {{"type", panel.type},
          {"place", both(panel.building, storey, ", ")},
          {"made by", maker_of(content, panel)},
          {"serial number", text_of(properties, "Pset_ManufacturerOccurrence", "SerialNumber")},
          {"production batch", batch == manufactured ? batch : both(batch, manufactured, ", ")},
          {"made in", text_of(properties, "Pset_ManufacturerTypeInformation", "ProductionYear")},
          {"inspected", dated("Panel_Inspection", "Inspector")},
          {"installed", dated("Panel_Install", "Team")},
          {"warranty", warranty_text(panel)}};
}

std::vector<Fact> figure_facts(const DossierContent& content, const Panel& panel, const PanelSummary& summary) {
  return {{"w × h × thick", format_millimetres(panel.width_m.value) + " × " + format_millimetres(panel.height_m.value) +
                                " × " + format_millimetres(panel.thickness_m.value) + " mm"},
          {"area",
           format_fixed(panel.gross_area_m2(), 2) + " m² gross, " + format_fixed(panel.net_area_m2(), 2) + " m² net"},
          {"mass", role_text(content, summary, role::kMass)},
          {"on the hook", hook_load_text(content, summary)},
          {"centre of gravity", centre_of_gravity(content, summary)},
          {"U-value", role_text(content, summary, role::kThermalTransmittance)},
          {"fire resistance", fire_resistance_text(content, summary)},
          {"load-bearing in fire", role_text(content, summary, role::kBearingInFire)},
          {"air test", role_text(content, summary, role::kAirTest)}};
}

bool has_place(const Part& part) {
  constexpr double kLargest = 0.5;
  return part.kind == PartKind::fastener && part.count == 1 && part.bounds &&
         part.bounds->max.x - part.bounds->min.x < kLargest && part.bounds->max.z - part.bounds->min.z < kLargest;
}

std::vector<std::string> fixings_in_words(const Panel& panel) {
  std::map<std::string, FixingsOfType> types;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::fastener) continue;
    std::string name = text_of(part.properties, "Panel_Fastener", "Type");
    if (name.empty()) name = part.name.empty() ? part.object_type : part.name;
    FixingsOfType& type = types[name];
    type.count += part.count;
    if (has_place(part)) type.middles.push_back(part.bounds->centre());
  }
  std::vector<std::string> texts;
  texts.reserve(types.size());
  for (const auto& [name, type] : types)
    texts.push_back(std::to_string(type.count) + " × " + name + places_in_words(type));
  return texts;
}

std::vector<std::string> drilling_rules(const DossierContent& content, const Panel& panel,
                                        const PanelSummary& summary) {
  std::vector<std::string> rules;
  std::vector<std::string> middles;
  constexpr double kHalfUp = 1e-6;  // so that every half of a millimetre is rounded the same way
  for (const double middle_m : upright_middles_m(panel))
    middles.push_back(std::to_string(std::lround(middle_m * 1000.0 + kHalfUp)));
  if (middles.empty()) {
    rules.emplace_back(
        "Where studs and rails stand is not known of this panel: trace them before drilling or cutting.");
  } else {
    rules.push_back(
        "Studs, posts, rails and lintels (drawn above) are not cut, notched or bored through without the structural "
        "engineer (wood screws: part 6). Middles of the studs: " +
        joined(middles) + " mm from the left edge, seen from inside.");
  }
  if (const Layer* membrane = inner_membrane(content, panel)) {
    rules.push_back("Deeper than " + format_millimetres(membrane->y_inside_m) +
                    " mm from the inner face a hole pierces '" + name_of(content, *membrane) +
                    "': close it airtight and vapourtight with a compatible tape or grommet.");
  } else if (!panel.layers.empty()) {
    rules.emplace_back(
        "No membrane lies on the inner side of this build-up: ask which board or lining is the airtight layer before "
        "making a hole.");
  }
  const FireClass shown = fire_class_of(content.results.build, summary);
  const bool is_asked = shown.separating != nullptr && (shown.separating->verdict != Verdict::information ||
                                                        std::holds_alternative<std::string>(shown.separating->value));
  if (is_asked && !panel.layers.empty()) {
    rules.push_back("Fire resistance " +
                    (shown.is_proved() ? shown.in_words() : "of the panel, which is not shown yet") +
                    ": a hole in the inner lining ('" + name_of(content, panel.layers.front()) +
                    "') alone is mended at once as part 6 says; one that goes deeper is closed with a fire stopping "
                    "system tested for this construction, within its field of application.");
  }
  return rules;
}

}  // namespace panel_dossier
