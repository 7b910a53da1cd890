// Types and components of a COBie delivery: the panels, and the windows and doors in them.
#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "core/dossier/handover/cobie_delivery.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/annex/references.h"
#include "core/dossier/parts/panel/fire_class.h"
#include "core/dossier/parts/panel/neighbours.h"
#include "core/dossier/parts/panel/panel_facts.h"

namespace panel_dossier {

namespace {

constexpr const char* kMakerSet = "Pset_ManufacturerTypeInformation";

std::string stated(const Properties& properties, const char* set, const char* name) {
  const Property* property = properties.find(set, name);
  return property == nullptr ? std::string() : property_text(*property);
}

/// The first of the names that is stated.
std::string first_stated(const Properties& properties, const char* set, const std::vector<const char*>& names) {
  for (const char* name : names) {
    std::string text = stated(properties, set, name);
    if (!text.empty()) return text;
  }
  return {};
}

/// What all panels of a type state alike; nothing where they differ.
class StatedAlike {
 public:
  StatedAlike(const Project& project, const std::vector<std::size_t>& panels) : project_(project), panels_(panels) {}

  std::string text(const char* set, const std::vector<const char*>& names) const {
    return common<std::string>([&](const Properties& properties) { return first_stated(properties, set, names); });
  }
  Value years(const char* set, const char* name) const {
    return common<Value>([&](const Properties& properties) {
      const auto period = properties.number(set, name);
      return period ? Value(period->value / units::kSecondPerYear) : Value();
    });
  }
  std::string classification() const {
    const Panel& first = project_.panels[panels_.front()];
    const bool alike = std::all_of(panels_.begin(), panels_.end(), [&](std::size_t panel) {
      return project_.panels[panel].classifications == first.classifications;
    });
    return alike ? joined(first.classifications, "; ") : std::string();
  }

 private:
  const Project& project_;
  const std::vector<std::size_t>& panels_;

  template <typename Result, typename Ask>
  Result common(const Ask& ask) const {
    Result value = ask(project_.panels[panels_.front()].properties);
    for (const std::size_t panel : panels_) {
      if (ask(project_.panels[panel].properties) != value) return {};
    }
    return value;
  }
};

/// The length that all have, to the millimetre; nothing where they differ.
Value common_length(const std::vector<double>& lengths_m) {
  if (lengths_m.empty()) return {};
  const auto [least, most] = std::minmax_element(lengths_m.begin(), lengths_m.end());
  constexpr double kSame_m = 0.0005;
  return *most - *least < kSame_m ? Value(lengths_m.front()) : Value();
}

std::string range_in_words(const std::vector<double>& lengths_m) {
  if (lengths_m.empty()) return {};
  const auto [least, most] = std::minmax_element(lengths_m.begin(), lengths_m.end());
  const std::string low = format_millimetres(*least);
  const std::string high = format_millimetres(*most);
  return low == high ? low : low + " to " + high;
}

std::string layers_in_words(const Panel& panel, const Project& project) {
  std::vector<std::string> texts;
  for (const Layer& layer : panel.layers) {
    const Material* material = material_at(project, layer.material);
    texts.push_back(format_millimetres(layer.thickness_m.value) + " mm " +
                    (material != nullptr  ? material->name
                     : layer.name.empty() ? "air layer"
                                          : layer.name));
  }
  return texts.empty() ? std::string() : "From inside: " + joined(texts, "; ");
}

std::string type_class(const std::string& entity) {
  if (entity.empty()) return {};
  if (entity.starts_with("IfcWall")) return "IfcWallType";
  return entity + "Type";
}

/// What is found of separating and of carrying load in fire, with verdict, title and clause, each once.
std::string fire_performance(const HandoverContent& content, const std::vector<std::size_t>& panels) {
  std::set<std::string> texts;
  for (const std::size_t panel : panels) {
    const FireClass shown = fire_class_of(content.results().build, content.results().panels[panel]);
    for (const RecordedFinding* finding : {shown.separating, shown.bearing}) {
      if (finding == nullptr) continue;
      const std::string value = format_value(finding->value, finding->unit, finding->derivation->decimals);
      texts.insert((value.empty() ? std::string() : value + ", ") + std::string(to_string(finding->verdict)) + " (" +
                   finding->title + ", " + finding->clause + ")");
    }
  }
  return joined({texts.begin(), texts.end()}, "; ");
}

/// A contact for what a property says, else the party of such a role.
std::string maker_email(CobieDelivery& delivery, const std::string& named) {
  const std::string email = delivery.contacts.of(named, "manufacturer");
  return email.empty() ? delivery.contacts.with_role({"manufacturer", "maker"}) : email;
}

void add_panel_type(CobieDelivery& delivery, const HandoverContent& content, const std::string& type,
                    const std::vector<std::size_t>& panels) {
  const Project& project = content.project();
  const Panel& first = project.panels[panels.front()];
  std::vector<double> widths;
  std::vector<double> heights;
  std::vector<double> thicknesses;
  std::set<std::string> documents;
  for (const std::size_t index : panels) {
    const Panel& panel = project.panels[index];
    widths.push_back(panel.width_m.value);
    heights.push_back(panel.height_m.value);
    thicknesses.push_back(panel.thickness_m.value);
    for (const auto& [id, materials] : material_documents(panel, project)) {
      const Evidence* evidence = find_evidence(project, id);
      if (evidence != nullptr && evidence->kind == EvidenceKind::environmental_declaration) documents.insert(id);
    }
  }
  const std::string size =
      range_in_words(widths) + " × " + range_in_words(heights) + " × " + range_in_words(thicknesses) + " mm";
  const std::string name = delivery.book.new_name("Type", type, "Panels without a stated type");
  delivery.types[type] = name;
  const StatedAlike alike(project, panels);
  const std::string guarantor = delivery.contacts.of(alike.text("Pset_Warranty", {"PointOfContact"}), "guarantor");
  const Value warranty = alike.years("Pset_Warranty", "WarrantyPeriod");
  const Value life = alike.years("Pset_ServiceLife", "ServiceLifeDuration");
  const auto unit_of = [](const Value& duration) {
    return std::holds_alternative<double>(duration) ? Value(std::string("year")) : Value();
  };
  delivery.book.add(
      "Type",
      {{"Name", name},
       {"Category", alike.classification()},
       {"Description", "Timber cassette wall panel, " + std::to_string(panels.size()) +
                           (panels.size() == 1 ? " piece" : " pieces") + ", width × height × thickness " + size},
       {"AssetType", "Fixed"},
       {"Manufacturer", maker_email(delivery, alike.text(kMakerSet, {"Manufacturer"}))},
       {"ModelNumber", alike.text(kMakerSet, {"ArticleNumber", "ModelReference", "ModelLabel"})},
       {"WarrantyGuarantorParts", guarantor},
       {"WarrantyDurationParts", warranty},
       {"WarrantyDurationUnit", unit_of(warranty)},
       {"WarrantyDescription", alike.text("Pset_Warranty", {"WarrantyContent"})},
       {"ExtObject", type_class(std::string(first.origin.entity))},
       {"ExpectedLife", life},
       {"DurationUnit", unit_of(life)},
       {"NominalLength", common_length(widths)},
       {"NominalWidth", common_length(thicknesses)},
       {"NominalHeight", common_length(heights)},
       {"ModelReference", alike.text(kMakerSet, {"ModelReference"})},
       {"Size", size},
       {"Constituents", layers_in_words(first, project)},
       {"CodePerformance", fire_performance(content, panels)},
       {"SustainabilityPerformance", documents.empty() ? std::string()
                                                       : "Environmental product declarations of the materials: " +
                                                             joined({documents.begin(), documents.end()}, "; ")}});
}

/// What windows and doors of one type have in common.
using FillingKey = std::tuple<std::string, std::string, std::string, std::string>;

FillingKey filling_key(const Opening& opening) {
  return {opening.filling_entity,
          first_stated(opening.filling_properties, kMakerSet, {"ModelLabel", "ArticleNumber", "ModelReference"}),
          format_millimetres(opening.width_m()), format_millimetres(opening.height_m())};
}

std::string word_of_filling(const std::string& entity) {
  if (entity == "IfcWindow") return "Window";
  if (entity == "IfcDoor") return "Door";
  return "Filling";
}

/// The class of types of windows and doors has another name in IFC2x3.
std::string filling_type_class(const std::string& entity, const std::string& schema) {
  if (entity.empty()) return {};
  return entity +
         (schema.find("IFC2X3") != std::string::npos || schema.find("IFC2x3") != std::string::npos ? "Style" : "Type");
}

class Fillings {
 public:
  Fillings(CobieDelivery& delivery, const HandoverContent& content) : delivery_(delivery), content_(content) {}

  /// Component rows of the windows and doors of a panel; returns their names.
  std::vector<std::string> add(const Panel& panel, const std::string& component, const std::string& space) {
    std::vector<std::string> names;
    for (const Opening& opening : panel.openings) {
      if (opening.filling_entity.empty()) continue;
      const std::string type = type_of(opening);
      const std::string word = word_of_filling(opening.filling_entity);
      const std::string own = opening.filling_name.empty() ? lower_case(word) : opening.filling_name;
      const std::string name = delivery_.book.new_name("Component", joined({component, own}, " "), word);
      delivery_.book.add(
          "Component",
          {{"Name", name},
           {"TypeName", type},
           {"Space", space},
           {"Description", word + " in the panel " + panel.mark + ", " + format_millimetres(opening.x_min_m) +
                               " mm from its left edge seen from inside and " + format_millimetres(opening.z_min_m) +
                               " mm above its foot"},
           {"ExtObject", opening.filling_entity},
           {"ExtIdentifier", opening.filling_global_id},
           {"SerialNumber", stated(opening.filling_properties, "Pset_ManufacturerOccurrence", "SerialNumber")},
           {"BarCode", stated(opening.filling_properties, "Pset_ManufacturerOccurrence", "BarCode")},
           {"TagNumber", opening.filling_name}});
      names.push_back(name);
    }
    return names;
  }

 private:
  CobieDelivery& delivery_;
  const HandoverContent& content_;
  std::map<FillingKey, std::string> types_;

  const std::string& type_of(const Opening& opening) {
    const auto [found, is_new] = types_.try_emplace(filling_key(opening));
    if (!is_new) return found->second;
    const auto& [entity, label, width, height] = found->first;
    const std::string size = width + " × " + height + " mm";
    const std::string word = word_of_filling(entity);
    found->second = delivery_.book.new_name("Type", (label.empty() ? word : label) + " " + size, word);
    const std::string maker =
        delivery_.contacts.of(stated(opening.filling_properties, kMakerSet, "Manufacturer"), "manufacturer");
    delivery_.book.add("Type", {{"Name", found->second},
                                {"Description", word + " in wall panels, width × height " + size},
                                {"AssetType", "Fixed"},
                                {"Manufacturer", maker},
                                {"ModelNumber", label},
                                {"ExtObject", filling_type_class(entity, content_.results().build.export_schema)},
                                {"NominalLength", opening.width_m()},
                                {"NominalHeight", opening.height_m()},
                                {"Size", size}});
    return found->second;
  }
};

void add_coordinates(CobieDelivery& delivery, const Panel& panel, const std::string& component) {
  const Box3 box = panel.world_bounds();
  for (const auto& [corner, point] :
       std::array<std::pair<const char*, Vec3>, 2>{{{"box-lowerleft", box.min}, {"box-upperright", box.max}}}) {
    delivery.book.add("Coordinate", {{"Name", delivery.book.new_name("Coordinate", component + " " + corner, corner)},
                                     {"Category", corner},
                                     {"SheetName", "Component"},
                                     {"RowName", component},
                                     {"CoordinateXAxis", point.x},
                                     {"CoordinateYAxis", point.y},
                                     {"CoordinateZAxis", point.z},
                                     {"ExtObject", "IfcBoundingBox"},
                                     {"ClockwiseRotation", 0.0},
                                     {"ElevationalRotation", 0.0},
                                     {"YawRotation", 0.0}});
  }
}

void add_panel(CobieDelivery& delivery, Fillings& fillings, const Panel& panel, const std::string& space) {
  const Properties& properties = panel.properties;
  const std::string& name = delivery.components.back();
  delivery.book.add("Component", {{"Name", name},
                                  {"TypeName", delivery.types.at(panel.type)},
                                  {"Space", space},
                                  {"Description", "Wall panel, width × height × thickness " +
                                                      format_millimetres(panel.width_m.value) + " × " +
                                                      format_millimetres(panel.height_m.value) + " × " +
                                                      format_millimetres(panel.thickness_m.value) + " mm"},
                                  {"ExtObject", std::string(panel.origin.entity)},
                                  {"ExtIdentifier", panel.global_id},
                                  {"SerialNumber", stated(properties, "Pset_ManufacturerOccurrence", "SerialNumber")},
                                  {"InstallationDate", stated(properties, "Panel_Install", "Date")},
                                  {"WarrantyStartDate", stated(properties, "Pset_Warranty", "WarrantyStartDate")},
                                  {"TagNumber", panel.mark},
                                  {"BarCode", "panel-dossier:" + panel.global_id}});
  const std::vector<std::string> children = fillings.add(panel, name, space);
  for (const std::string& list : name_lists(children)) {
    delivery.book.add("Assembly", {{"Name", delivery.book.new_name("Assembly", name + " with its fillings", name)},
                                   {"SheetName", "Component"},
                                   {"ParentName", name},
                                   {"ChildNames", list},
                                   {"AssemblyType", "Fixed"},
                                   {"Description", "Windows and doors that are built into the panel"}});
  }
  add_coordinates(delivery, panel, name);
}

void add_systems(CobieDelivery& delivery, const std::vector<std::vector<std::string>>& by_space) {
  for (std::size_t i = 0; i < by_space.size(); ++i) {
    for (const std::string& list : name_lists(by_space[i])) {
      delivery.book.add(
          "System",
          {{"Name", delivery.spaces[i]}, {"ComponentNames", list}, {"Description", "The wall panels of one storey"}});
    }
  }
}

/// A row for each pair of panels that stand beside or above one another, as part 5 of the dossier names them.
void add_connections(CobieDelivery& delivery, const Project& project) {
  const std::vector<PanelNeighbours> all = neighbours_of_panels(project);
  std::set<std::pair<std::size_t, std::size_t>> joined_pairs;
  const auto add = [&](std::size_t panel, const std::optional<std::size_t>& other, const char* how) {
    if (!other || !joined_pairs.insert(std::minmax(panel, *other)).second) return;
    const std::string& first = delivery.components[panel];
    const std::string& second = delivery.components[*other];
    const std::string name = first + " to " + second;
    delivery.book.add("Connection", {{"Name", delivery.book.new_name("Connection", name, "Joint of two panels")},
                                     {"ConnectionType", "Structural"},
                                     {"SheetName", "Component"},
                                     {"RowName1", first},
                                     {"RowName2", second},
                                     {"Description", std::string("Joint of two wall panels, the second ") + how +
                                                         " the first as seen from inside; by their places in the "
                                                         "model"}});
  };
  for (std::size_t panel = 0; panel < all.size(); ++panel) {
    add(panel, all[panel].right, "to the right of");
    add(panel, all[panel].left, "to the left of");
    add(panel, all[panel].above, "above");
    add(panel, all[panel].below, "below");
  }
}

}  // namespace

void add_assets(CobieDelivery& delivery, const HandoverContent& content) {
  const Project& project = content.project();
  std::map<std::string, std::vector<std::size_t>> by_type;
  for (std::size_t i = 0; i < project.panels.size(); ++i) by_type[project.panels[i].type].push_back(i);
  for (const auto& [type, panels] : by_type) add_panel_type(delivery, content, type, panels);
  // The names of all panels before those of windows, so that a panel keeps its mark.
  std::vector<std::string> names;
  for (const Panel& panel : project.panels)
    names.push_back(delivery.book.new_name("Component", panel.mark, "Panel without a mark"));
  std::vector<std::vector<std::string>> by_space(delivery.spaces.size());
  Fillings fillings(delivery, content);
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    const std::size_t space = panel.storey.value_or(delivery.spaces.size() - 1);
    delivery.components.push_back(names[i]);
    by_space[space].push_back(names[i]);
    add_panel(delivery, fillings, panel, delivery.spaces[space]);
  }
  add_systems(delivery, by_space);
  add_connections(delivery, project);
}

}  // namespace panel_dossier
