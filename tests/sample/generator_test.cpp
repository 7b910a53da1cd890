// The sample export is what its generator writes, and what it writes is sound as a document and as a building.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <pugixml.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

// The export is written to 0.0001 mm; the middle of a part and half its size are rounded once each.
constexpr double kRounding_mm = 0.0002;

using Vector = std::array<double, 3>;

struct Box {
  Vector min;
  Vector max;
};

const fs::path kProject = fs::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project";

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

/// Runs the generator into a file of the temporary folder and returns the file.
fs::path generated(const std::string& name, const std::string& options = {}) {
  const fs::path program = fs::path(PANEL_DOSSIER_PROGRAM).parent_path() / "sample-export";
  const fs::path file = fs::temp_directory_path() / name;
  const std::string command = "'" + program.string() + "' --out '" + file.string() + "' " + options;
  REQUIRE(std::system(command.c_str()) == 0);  // NOLINT(cert-env33-c): a fixed program of this build
  return file;
}

const pugi::xml_document& sample() {
  static const auto document = [] {
    auto loaded = std::make_unique<pugi::xml_document>();
    REQUIRE(loaded->load_file((kProject / "health-centre.ifcxml").c_str()));
    return loaded;
  }();
  return *document;
}

template <typename Visit>
void for_each_element(const pugi::xml_node& node, const Visit& visit) {
  for (const pugi::xml_node child : node.children()) {
    if (child.type() != pugi::node_element) continue;
    visit(child);
    for_each_element(child, visit);
  }
}

const std::map<std::string, pugi::xml_node>& by_id() {
  static const auto index = [] {
    std::map<std::string, pugi::xml_node> ids;
    for_each_element(sample(), [&](const pugi::xml_node& element) {
      if (const auto id = element.attribute("id")) ids.emplace(id.value(), element);
    });
    return ids;
  }();
  return index;
}

pugi::xml_node resolved(const pugi::xml_node& element) {
  const auto ref = element.attribute("ref");
  return ref ? by_id().at(ref.value()) : element;
}

std::vector<pugi::xml_node> panels() {
  std::vector<pugi::xml_node> found;
  for_each_element(sample(), [&](const pugi::xml_node& element) {
    if (std::string(element.name()) == "IfcWall") found.push_back(element);
  });
  return found;
}

std::string type_of(const pugi::xml_node& panel) {
  const auto relating = panel.child("IsTypedBy").first_child().child("RelatingType");
  return resolved(relating).attribute("Name").value();
}

std::vector<double> numbers(const pugi::xml_attribute& attribute) {
  std::istringstream stream(attribute.value());
  std::vector<double> values;
  for (double value = 0.0; stream >> value;) values.push_back(value);
  return values;
}

Vector vector_of(const pugi::xml_attribute& attribute, const Vector& otherwise) {
  const auto values = numbers(attribute);
  return values.size() == 3 ? Vector{values[0], values[1], values[2]} : otherwise;
}

/// Body, or the Box of what has no Body.
pugi::xml_node first_item(const pugi::xml_node& element) {
  const auto representations = resolved(element.child("Representation")).child("Representations");
  const auto body = representations.find_child_by_attribute("RepresentationIdentifier", "Body");
  return (body ? body : representations.first_child()).child("Items").first_child();
}

std::vector<std::pair<double, double>> section(const pugi::xml_node& solid) {
  const auto area = solid.child("SweptArea");
  std::vector<std::pair<double, double>> corners;
  for (const auto point : area.child("OuterCurve").child("Points").children()) {
    const auto xy = numbers(point.attribute("Coordinates"));
    corners.emplace_back(xy[0], xy[1]);
  }
  if (!corners.empty()) return corners;
  const auto at = vector_of(solid.child("Position").child("Location").attribute("Coordinates"), {});
  const double x = area.attribute("XDim").as_double() / 2.0;
  const double y = area.attribute("YDim").as_double() / 2.0;
  return {{at[0] - x, at[1] - y}, {at[0] + x, at[1] - y}, {at[0] + x, at[1] + y}, {at[0] - x, at[1] + y}};
}

double volume_mm3(const pugi::xml_node& part) {
  const auto solid = first_item(part);
  const auto corners = section(solid);
  double twice = 0.0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto& [x1, y1] = corners[i];
    const auto& [x2, y2] = corners[(i + 1) % corners.size()];
    twice += x1 * y2 - x2 * y1;
  }
  return std::abs(twice) / 2.0 * solid.attribute("Depth").as_double();
}

Box box_of(const pugi::xml_node& element) {
  const auto axes = element.child("ObjectPlacement").child("RelativePlacement").first_child();
  const Vector origin = vector_of(axes.child("Location").attribute("Coordinates"), {});
  const Vector z = vector_of(axes.child("Axis").attribute("DirectionRatios"), {0.0, 0.0, 1.0});
  const Vector x = vector_of(axes.child("RefDirection").attribute("DirectionRatios"), {1.0, 0.0, 0.0});
  const Vector y = {z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0]};
  const auto item = first_item(element);
  std::vector<Vector> local;
  if (std::string(item.name()) == "IfcBoundingBox") {
    local = {
        {0.0, 0.0, 0.0},
        {item.attribute("XDim").as_double(), item.attribute("YDim").as_double(), item.attribute("ZDim").as_double()}};
  } else {
    const double depth = item.attribute("Depth").as_double();
    for (const auto& [a, b] : section(item)) local.insert(local.end(), {{a, b, 0.0}, {a, b, depth}});
  }
  Box box{{1e12, 1e12, 1e12}, {-1e12, -1e12, -1e12}};
  for (const Vector& p : local) {
    for (std::size_t i = 0; i < 3; ++i) {
      const double value = origin[i] + x[i] * p[0] + y[i] * p[1] + z[i] * p[2];
      box.min[i] = std::min(box.min[i], value);
      box.max[i] = std::max(box.max[i], value);
    }
  }
  return box;
}

bool overlap(const Box& a, const Box& b) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::min(a.max[i], b.max[i]) - std::max(a.min[i], b.min[i]) <= kRounding_mm) return false;
  }
  return true;
}

auto parts_of(const pugi::xml_node& panel) {
  return panel.child("IsDecomposedBy").first_child().child("RelatedObjects").children();
}

bool is_fastener(const pugi::xml_node& part) {
  const std::string name = part.name();
  return name == "IfcMechanicalFastener" || name == "IfcDiscreteAccessory";
}

/// A rectangular part; a sheet with a cut-out may hold another part's box in its own.
bool is_box(const pugi::xml_node& part) {
  return !is_fastener(part) && !first_item(part).child("SweptArea").child("OuterCurve");
}

double opening_area_mm2(const pugi::xml_node& panel) {
  double area = 0.0;
  for (const auto relation : panel.child("HasOpenings").children()) {
    const auto solid = first_item(relation.child("RelatedOpeningElement"));
    area += solid.child("SweptArea").attribute("XDim").as_double() * solid.attribute("Depth").as_double();
  }
  return area;
}

pugi::xml_node layers_of(const pugi::xml_node& panel) {
  const auto usage = panel.child("HasAssociations").first_child().child("RelatingMaterial").first_child();
  return resolved(usage.child("ForLayerSet")).child("MaterialLayers");
}

}  // namespace

TEST_CASE("the sample export is byte for byte what the generator writes") {
  // Compared first, so that a difference does not print both files.
  const bool same = bytes_of(generated("sample-export-same.ifcxml")) == bytes_of(kProject / "health-centre.ifcxml");
  CHECK(same);
}

TEST_CASE("the sample has sixty panels of nine types on four elevations") {
  std::map<std::string, int> types;
  std::set<char> elevations;
  for (const auto& panel : panels()) {
    ++types[type_of(panel)];
    elevations.insert(panel.attribute("Tag").value()[0]);
  }
  const std::map<std::string, int> expected = {{"FEA-T", 1}, {"INF-D", 2}, {"INF-R", 1}, {"INF-S", 8}, {"INF-W", 20},
                                               {"LBW-S", 2}, {"LBW-W", 2}, {"OVS-S", 6}, {"OVS-W", 18}};
  CHECK(types == expected);
  CHECK(elevations == std::set<char>{'E', 'N', 'S', 'W'});
}

TEST_CASE("every GlobalId of the sample is valid and unique") {
  // ISO 16739-1: 22 characters of this alphabet, the first of which holds two bits.
  const std::string alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";
  std::set<std::string> seen;
  for_each_element(sample(), [&](const pugi::xml_node& element) {
    const auto attribute = element.attribute("GlobalId");
    if (!attribute) return;
    const std::string id = attribute.value();
    const bool valid = id.size() == 22 && id[0] <= '3' && id.find_first_not_of(alphabet) == std::string::npos;
    if (!valid || !seen.insert(id).second) FAIL_CHECK(element.name() << " " << id);
  });
  CHECK(seen.size() > 5000);
}

TEST_CASE("every reference of the sample leads to an element of the same entity") {
  for_each_element(sample(), [](const pugi::xml_node& element) {
    const auto ref = element.attribute("ref");
    if (!ref) return;
    const auto found = by_id().find(ref.value());
    if (found == by_id().end()) {
      FAIL_CHECK("nothing has the id " << ref.value());
      return;
    }
    const auto entity = [](const pugi::xml_node& node) {
      const auto type = node.attribute("xsi:type");
      return std::string(type ? type.value() : node.name());
    };
    if (entity(element).starts_with("Ifc")) CHECK(entity(element) == entity(found->second));
  });
}

TEST_CASE("every part of the sample lies within its panel") {
  for (const auto& panel : panels()) {
    const auto body = first_item(panel);
    const Vector size = {body.child("SweptArea").attribute("XDim").as_double(),
                         body.child("SweptArea").attribute("YDim").as_double(), body.attribute("Depth").as_double()};
    for (const auto& part : parts_of(panel)) {
      const Box box = box_of(part);
      for (std::size_t i = 0; i < 3; ++i) {
        if (box.min[i] < -kRounding_mm || box.max[i] > size[i] + kRounding_mm) {
          FAIL_CHECK(panel.attribute("Tag").value() << " " << part.attribute("Name").value());
        }
      }
    }
  }
}

TEST_CASE("no two parts of a panel of the sample take the same room") {
  for (const auto& panel : panels()) {
    std::vector<std::pair<std::string, Box>> boxes;
    for (const auto& part : parts_of(panel)) {
      if (is_box(part)) boxes.emplace_back(part.attribute("Name").value(), box_of(part));
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (overlap(boxes[i].second, boxes[j].second)) {
          FAIL_CHECK(panel.attribute("Tag").value() << ": " << boxes[i].first << " and " << boxes[j].first);
        }
      }
    }
  }
}

TEST_CASE("the parts in each solid layer of the sample fill its net volume") {
  for (const auto& panel : panels()) {
    const auto body = first_item(panel);
    const double net_mm2 = body.child("SweptArea").attribute("XDim").as_double() * body.attribute("Depth").as_double() -
                           opening_area_mm2(panel);
    double inner = 0.0;
    for (const auto layer : layers_of(panel).children()) {
      const double outer = inner + layer.attribute("LayerThickness").as_double();
      double filled_mm3 = 0.0;
      for (const auto& part : parts_of(panel)) {
        const Box box = box_of(part);
        const bool within = box.min[1] > inner - kRounding_mm && box.max[1] < outer + kRounding_mm;
        if (within && !is_fastener(part)) filled_mm3 += volume_mm3(part);
      }
      // Rounding of each part's sides, summed; an air layer holds battens only.
      INFO(panel.attribute("Tag").value() << " " << layer.attribute("Name").value());
      if (layer.child("Material")) CHECK(filled_mm3 == Approx(net_mm2 * (outer - inner)).epsilon(1e-6));
      inner = outer;
    }
    CHECK(inner == Approx(body.child("SweptArea").attribute("YDim").as_double()).epsilon(1e-9));
  }
}

TEST_CASE("panels of the sample do not run into each other") {
  std::vector<std::pair<std::string, Box>> boxes;
  for (const auto& panel : panels()) {
    const auto axes = panel.child("ObjectPlacement").child("RelativePlacement").first_child();
    const auto storey = panel.parent().parent().parent().parent();
    const double elevation = storey.attribute("Elevation").as_double();
    Box box = box_of(panel);
    REQUIRE(axes);
    box.min[2] += elevation;
    box.max[2] += elevation;
    boxes.emplace_back(panel.attribute("Tag").value(), box);
  }
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (overlap(boxes[i].second, boxes[j].second)) FAIL_CHECK(boxes[i].first << " and " << boxes[j].first);
    }
  }
}

TEST_CASE("every evidence file of the sample but one is there and says that it is invented") {
  std::vector<std::string> absent;
  for_each_element(sample(), [&](const pugi::xml_node& element) {
    if (std::string(element.name()) != "IfcDocumentReference" || element.attribute("ref")) return;
    const fs::path file = kProject / element.attribute("Location").value();
    if (!fs::exists(file)) {
      absent.emplace_back(element.attribute("Identification").value());
    } else {
      INFO(file);
      // Text files begin with it; an XML or CSV has its declaration or comment sign before.
      CHECK(bytes_of(file).substr(0, 100).find("INVENTED FOR A DEMONSTRATION.") != std::string::npos);
    }
  });
  CHECK(absent == std::vector<std::string>{"FT-103"});
}

TEST_CASE("the generator scales the building to any number of panels") {
  pugi::xml_document scaled;
  REQUIRE(scaled.load_file(generated("sample-export-scaled.ifcxml", "--panels 131").c_str()));
  std::set<std::string> marks;
  std::set<std::string> ids;
  std::size_t elements = 0;
  for_each_element(scaled, [&](const pugi::xml_node& element) {
    if (std::string(element.name()) == "IfcWall") marks.insert(element.attribute("Tag").value());
    if (const auto id = element.attribute("GlobalId")) {
      ids.insert(id.value());
      ++elements;
    }
  });
  CHECK(marks.size() == 131);
  CHECK(ids.size() == elements);
}
