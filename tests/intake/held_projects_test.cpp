// What is read of a few exports, held thing by thing: every value with its unit and the place it came from.
#include <catch2/catch.hpp>
#include <string>
#include <variant>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/inputs.h"
#include "tests/intake/test_support.h"
#include "tests/support/held_file.h"
#include "tests/support/sample_panels.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;
using intake_test::file_text;
using intake_test::read_text;
using testing::held_line;
using testing::held_number;

std::string held_text(const Origin& origin) {
  return describe(origin) + " line " + std::to_string(origin.line) + " " + origin.property;
}

std::string held_text(const std::optional<Sourced<double>>& measure) {
  return measure ? held_line({held_number(measure->value), held_text(measure->origin)}) : "none";
}

std::string held_text(const Vec3& point) {
  return joined({held_number(point.x), held_number(point.y), held_number(point.z)}, " ");
}

std::string held_text(const Frame& frame) {
  return held_line(
      {held_text(frame.origin), held_text(frame.x_axis), held_text(frame.y_axis), held_text(frame.z_axis)});
}

std::string held_text(const std::optional<Box3>& box) {
  return box ? held_line({held_text(box->min), held_text(box->max)}) : "none";
}

std::string held_text(const std::optional<std::size_t>& index) {
  return index ? std::to_string(*index) : "none";
}

template <typename Item, typename Text>
std::string held_lines(const std::vector<Item>& items, const Text& text) {
  std::string lines;
  for (const Item& item : items) lines += text(item) + "\n";
  return lines;
}

std::string held_text(const Property& property) {
  const auto* truth = std::get_if<bool>(&property.value);
  const auto* number = std::get_if<double>(&property.value);
  const auto* words = std::get_if<std::string>(&property.value);
  std::string value = truth != nullptr ? (*truth ? "yes" : "no") : number != nullptr ? held_number(*number) : *words;
  return held_line({std::move(value), property.unit, held_text(property.origin)});
}

std::string held_text(const Properties& properties) {
  std::string lines;
  for (const auto& [name, property] : properties.all()) lines += name + " " + held_text(property) + "\n";
  for (const auto& [name, withheld] : properties.withheld()) {
    lines += "withheld " + name + " " + held_text(withheld.property) + " " + withheld.why + "\n";
  }
  return lines;
}

std::string held_text(const Extrusion& solid) {
  std::string text = held_line({held_text(solid.frame), held_text(solid.direction), held_number(solid.depth_m)});
  for (const Vec2& corner : solid.outline) text += " " + held_number(corner.x) + " " + held_number(corner.y);
  return text;
}

std::string held_text(const Part& part) {
  return held_line({part.global_id, part.name, part.object_type, std::string(to_string(part.kind)),
                    held_text(part.material), part.solid ? held_text(*part.solid) : "none", held_text(part.bounds),
                    held_text(part.volume_m3), held_text(part.length_m), std::to_string(part.count),
                    held_text(part.origin)}) +
         "\n" + held_text(part.properties);
}

std::string held_text(const Layer& layer) {
  return held_line({layer.name, layer.category, held_text(layer.material), held_text(layer.thickness_m),
                    held_number(layer.y_inside_m), held_number(layer.y_outside_m),
                    !layer.is_ventilated   ? "unknown"
                    : *layer.is_ventilated ? "ventilated"
                                           : "not ventilated",
                    held_text(layer.origin)}) +
         "\n" + held_text(layer.properties);
}

std::string held_text(const Opening& opening) {
  return held_line({opening.global_id, opening.name, held_number(opening.x_min_m), held_number(opening.x_max_m),
                    held_number(opening.z_min_m), held_number(opening.z_max_m), opening.filling_entity,
                    opening.filling_global_id, opening.filling_name, held_text(opening.origin)}) +
         "\n" + held_text(opening.filling_properties);
}

std::string sizes_of(const Panel& panel) {
  std::string text = held_line({panel.global_id, panel.name, panel.type, joined(panel.classifications), panel.building,
                                held_text(panel.storey), held_text(panel.frame), held_text(panel.width_m),
                                held_text(panel.height_m), held_text(panel.thickness_m),
                                panel.outside_known ? "outside known" : "outside unknown", held_text(panel.origin)});
  for (const std::size_t document : panel.evidence) text += " " + std::to_string(document);
  for (const auto& [what, why] : panel.contradictions) text += "\n" + what + ": " + why;
  return text;
}

std::string held_text(const Evidence& document) {
  return held_line({document.id, document.name, document.location, std::string(to_string(document.status)),
                    std::string(to_string(document.kind)), document.number, document.issuer, document.standard,
                    document.issued, document.expires, document.subject, document.scope, document.sponsor,
                    document.permission, document.countries, document.sha256, held_text(document.origin)}) +
         "\n" + joined(document.faults, "\n");
}

std::string held_text(const Neighbour& neighbour) {
  return held_line({std::string(to_string(neighbour.kind)), neighbour.entity, neighbour.global_id, neighbour.name,
                    held_text(neighbour.storey), held_text(neighbour.bounds), held_text(neighbour.thickness_m),
                    neighbour.material, held_text(neighbour.origin)});
}

std::string frame_of(const Project& project) {
  return held_line({project.global_id, project.name, project.description, project.phase, project.site_name,
                    joined(project.buildings), held_number(project.true_north_rad), held_text(project.origin)}) +
         "\n" + held_lines(project.storeys, [](const Storey& storey) {
           return held_line({storey.global_id, storey.name, storey.building, held_text(storey.elevation_m),
                             held_text(storey.origin)});
         });
}

/// One line a thing: name of the export, what it is, text.
void hold(testing::HeldFile& held, const std::string& name, const Project& project) {
  const auto text = [](const auto& item) { return held_text(item); };
  held.add({name, "project", frame_of(project)});
  held.add({name, "project's properties", held_text(project.properties)});
  for (const Material& material : project.materials) {
    held.add(
        {name, "material " + material.name,
         held_line({material.category, material.classification, material.article_number, held_text(material.origin)}) +
             "\n" + held_text(material.properties)});
  }
  held.add({name, "the rest of the building", held_lines(project.neighbours, text)});
  for (const Evidence& document : project.evidence) held.add({name, "document " + document.id, held_text(document)});
  for (const Panel& panel : project.panels) {
    held.add({name, panel.mark, sizes_of(panel)});
    held.add({name, panel.mark + " properties", held_text(panel.properties)});
    held.add({name, panel.mark + " layers", held_lines(panel.layers, text)});
    held.add({name, panel.mark + " parts", held_lines(panel.parts, text)});
    held.add({name, panel.mark + " openings", held_lines(panel.openings, text)});
  }
}

std::string counts_of(const IntakeResult& intake) {
  std::string text = intake.schema_version;
  for (const auto& [entity, count] : intake.skipped) text += "\n" + entity + " " + std::to_string(count);
  return text;
}

std::string without_folder(std::string text, const std::string& folder) {
  for (std::size_t at = text.find(folder); at != std::string::npos; at = text.find(folder)) {
    text.erase(at, folder.size());
  }
  return text;
}

}  // namespace

TEST_CASE("What is read of a few exports is what was read", "[held]") {
  testing::HeldFile held(intake_test::kData.parent_path() / "held_projects.csv", {"export", "thing"}, {}, {"text"});
  for (const char* name : {"hall-ifc2x3.ifcxml", "hall-ifc4-flat-metres.ifcxml", "hall-ifc4-nested.ifcxml",
                           "hall-ifc4x3-nested.ifcxml", "house-ifc2x3-drawing.ifc"}) {
    const IntakeResult intake = read_text(file_text(name));
    REQUIRE(intake.project);
    hold(held, name, *intake.project);
    held.add({name, "what was passed over", counts_of(intake)});
    held.add({name, "diagnostics", all_of(intake.diagnostics)});
  }
  const testing::TemporaryFolder folder;
  testing::write_sample_panels(folder, "E1-03,E2-04,N0-01");
  const Inputs inputs = read_inputs(testing::sample_panels_options(folder));
  REQUIRE_FALSE(inputs.refused());
  hold(held, "sample", *inputs.intake.project);
  held.add({"sample", "what was passed over", counts_of(inputs.intake)});
  held.add({"sample", "diagnostics", without_folder(all_of(inputs.diagnostics), folder.path().string())});
  for (const std::string& fault : held.faults("intake")) FAIL_CHECK(fault);
}

}  // namespace panel_dossier
