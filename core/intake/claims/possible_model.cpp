#include "core/intake/claims/possible_model.h"

#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/intake/document/text_limit.h"

namespace panel_dossier {

namespace {

constexpr double kLargestSize_m = 1e5;
constexpr double kFarthest_m = 1e8;

/// What a text or number is, where it stands, and whom to name.
struct Owner {
  std::string words;  ///< `material 'C24'`; names cut short
  const Origin& origin;
};

class ImpossibleValues {
 public:
  explicit ImpossibleValues(Reporter& report) : report_(report) {}

  void text(const Owner& owner, const char* what, const std::string& text,
            std::size_t longest_bytes = kLongestText_bytes) {
    if (text.size() <= longest_bytes) return;
    error(owner,
          std::string(what) + " has " + std::to_string(text.size()) + " bytes, more than the " +
              std::to_string(longest_bytes) + " that are read",
          "shorten it");
  }

  void texts(const Owner& owner, std::initializer_list<std::pair<const char*, const std::string&>> all) {
    for (const auto& [what, value] : all) text(owner, what, value);
  }

  void size(const Owner& owner, const char* what, double value_m) { within(owner, what, value_m, kLargestSize_m); }
  void place(const Owner& owner, const char* what, const Vec3& at_m) {
    for (const double value_m : {at_m.x, at_m.y, at_m.z}) {
      if (!within(owner, what, value_m, kFarthest_m)) return;
    }
  }
  void box(const Owner& owner, const std::optional<Box3>& bounds) {
    if (!bounds) return;
    place(owner, "its shape", bounds->min);
    place(owner, "its shape", bounds->max);
  }

  void properties(const Owner& owner, const Properties& properties) {
    for (const auto& [name, property] : properties.all()) {
      const Owner of{"'" + shortened_text(name) + "' of " + owner.words, property.origin};
      text(of, "its name", name);
      if (const std::string* words = std::get_if<std::string>(&property.value)) {
        text(of, "its text", *words, kLongestPropertyText_bytes);
      }
      const double* number = std::get_if<double>(&property.value);
      if (number != nullptr && !std::isfinite(*number)) error(of, "its number is too large", "correct it");
    }
  }

 private:
  Reporter& report_;

  bool within(const Owner& owner, const char* what, double value_m, double most_m) {
    if (std::abs(value_m) <= most_m) return true;
    const std::string found = std::isfinite(value_m) ? "reaches " + shortest_text(value_m) + " m" : "is too large";
    error(owner, std::string(what) + " " + found + ", beyond the " + shortest_text(most_m) + " m that are read",
          "correct the number or its unit");
    return false;
  }

  void error(const Owner& owner, const std::string& fault, const char* advice) {
    std::string message = owner.words;
    // The diagnostic is of the export's file; what stands elsewhere says so.
    if (owner.origin.kind == OriginKind::input_table) message += " (" + place_in_words(owner.origin) + ")";
    report_.add({Severity::error,
                 {},
                 owner.origin.line,
                 0,
                 owner.origin.entity,
                 owner.origin.global_id,
                 message + ": " + fault,
                 advice});
  }
};

std::string named(const char* kind, const std::string& name) {
  return std::string(kind) + " '" + shortened_text(name) + "'";
}

void check_layers(const Panel& panel, const std::string& of, ImpossibleValues& values) {
  for (const Layer& layer : panel.layers) {
    const Owner owner{named("layer", layer.name) + of, layer.origin};
    values.texts(owner, {{"its name", layer.name}, {"its category", layer.category}});
    values.size(owner, "its thickness", layer.thickness_m.value);
    values.size(owner, "its face", layer.y_outside_m);
    values.properties(owner, layer.properties);
  }
}

void check_parts(const Panel& panel, const std::string& of, ImpossibleValues& values) {
  for (const Part& part : panel.parts) {
    const Owner owner{named("part", part.name) + of, part.origin};
    values.texts(owner, {{"its name", part.name}, {"its type", part.object_type}});
    values.box(owner, part.bounds);
    if (part.length_m) values.size(owner, "its length", part.length_m->value);
    if (part.volume_m3) values.size(owner, "the cube root of its volume", std::cbrt(part.volume_m3->value));
    values.properties(owner, part.properties);
  }
}

void check_openings(const Panel& panel, const std::string& of, ImpossibleValues& values) {
  for (const Opening& opening : panel.openings) {
    const Owner owner{named("opening", opening.name) + of, opening.origin};
    values.texts(owner, {{"its name", opening.name}, {"the name of what fills it", opening.filling_name}});
    for (const double edge_m : {opening.x_min_m, opening.x_max_m, opening.z_min_m, opening.z_max_m}) {
      values.size(owner, "its edge", edge_m);
    }
    values.properties(owner, opening.filling_properties);
  }
}

void check_records(const std::vector<PanelRecord>& records, ImpossibleValues& values) {
  for (const PanelRecord& record : records) {
    const Owner owner{named("record of", record.table), record.origin};
    values.texts(owner, {{"what it says", record.what}, {"who made it", record.by}});
    for (const RecordValue& value : record.values) {
      if (const std::string* words = std::get_if<std::string>(&value.value)) {
        values.text(owner, "a cell", *words, kLongestPropertyText_bytes);
      }
    }
  }
}

void check_panel(const Panel& panel, ImpossibleValues& values) {
  const Owner owner{named("panel", panel.mark), panel.origin};
  values.texts(owner, {{"its mark", panel.mark},
                       {"its name", panel.name},
                       {"its type", panel.type},
                       {"the name of its building", panel.building}});
  for (const std::string& text : panel.classifications) values.text(owner, "its classification", text);
  values.place(owner, "its place", panel.frame.origin);
  values.size(owner, "its width", panel.width_m.value);
  values.size(owner, "its height", panel.height_m.value);
  values.size(owner, "its thickness", panel.thickness_m.value);
  values.properties(owner, panel.properties);
  const std::string of = " of " + owner.words;
  check_layers(panel, of, values);
  check_parts(panel, of, values);
  check_openings(panel, of, values);
  check_records(panel.records, values);
}

void check_evidence(const Evidence& evidence, ImpossibleValues& values) {
  const Owner owner{named("document", evidence.id), evidence.origin};
  values.texts(owner, {{"its id", evidence.id},
                       {"its name", evidence.name},
                       {"its location", evidence.location},
                       {"its number", evidence.number},
                       {"its issuer", evidence.issuer},
                       {"its standard", evidence.standard},
                       {"its subject", evidence.subject},
                       {"its sponsor", evidence.sponsor},
                       {"its permission", evidence.permission},
                       {"its countries", evidence.countries}});
}

void check_surroundings(const Project& project, ImpossibleValues& values) {
  for (const Storey& storey : project.storeys) {
    const Owner owner{named("storey", storey.name), storey.origin};
    values.texts(owner, {{"its name", storey.name}, {"the name of its building", storey.building}});
    if (storey.elevation_m) values.size(owner, "its elevation", storey.elevation_m->value);
  }
  for (const Neighbour& neighbour : project.neighbours) {
    const Owner owner{named("element", neighbour.name), neighbour.origin};
    values.texts(owner, {{"its name", neighbour.name}, {"its material", neighbour.material}});
    values.box(owner, neighbour.bounds);
    if (neighbour.thickness_m) values.size(owner, "its thickness", neighbour.thickness_m->value);
  }
  for (const Party& party : project.parties) {
    const Owner owner{named("party", party.role), party.origin};
    values.texts(owner, {{"its role", party.role},
                         {"its name", party.name},
                         {"its organisation", party.organisation},
                         {"its address", party.address},
                         {"its contact", party.contact}});
  }
  for (const Delivery& delivery : project.deliveries) {
    const Owner owner{named("delivery", delivery.number), delivery.origin};
    values.texts(owner, {{"its number", delivery.number}, {"its supplier", delivery.supplier}});
  }
}

}  // namespace

void refuse_impossible(const Project& project, Reporter& report) {
  ImpossibleValues values(report);
  const Owner whole{named("project", project.name), project.origin};
  values.texts(whole, {{"its name", project.name},
                       {"its description", project.description},
                       {"its phase", project.phase},
                       {"the name of its site", project.site_name}});
  for (const std::string& building : project.buildings) values.text(whole, "the name of a building", building);
  values.properties(whole, project.properties);
  for (const Material& material : project.materials) {
    const Owner owner{named("material", material.name), material.origin};
    values.texts(owner, {{"its name", material.name},
                         {"its category", material.category},
                         {"its classification", material.classification},
                         {"its article number", material.article_number}});
    values.properties(owner, material.properties);
  }
  for (const Evidence& evidence : project.evidence) check_evidence(evidence, values);
  check_surroundings(project, values);
  for (const Panel& panel : project.panels) check_panel(panel, values);
  check_records(project.records, values);
}

}  // namespace panel_dossier
