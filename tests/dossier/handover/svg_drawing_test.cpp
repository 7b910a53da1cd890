// Drawings as SVG.
#include "core/dossier/handover/svg_drawing.h"

#include <catch2/catch.hpp>
#include <limits>
#include <pugixml.hpp>
#include <sstream>
#include <string>

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

Drawing small_drawing() {
  Drawing drawing;
  drawing.polygons.push_back({{{0, 0}, {2, 0}, {2, 1}, {0, 1}}, Hatch::timber, LineStyle::heavy, "a < b"});
  drawing.lines.push_back({{0, 0}, {2, 1}, LineStyle::dashed});
  drawing.dimensions.push_back({{0, 0}, {2, 0}, -0.2, ""});
  drawing.dimensions.push_back({{0, 0}, {0, 1}, 0.2, "h & more"});
  drawing.texts.push_back({{1, 0.5}, "<script>\xE2\x80\xAE"});
  return drawing;
}

pugi::xml_document parsed(const std::string& svg) {
  pugi::xml_document document;
  REQUIRE(document.load_string(svg.c_str()));
  return document;
}

}  // namespace

TEST_CASE("Shapes stand in groups by their looks, with y downwards and a view box around everything") {
  const pugi::xml_document document = parsed(svg_of(small_drawing(), {100.0, 10.0}));
  const pugi::xml_node svg = document.child("svg");
  // 2.2 m × 1.2 m, and a margin of 16 units on each side.
  CHECK(std::string(svg.attribute("viewBox").value()) == "-16 -16 252 152");
  const pugi::xml_node outline = svg.find_child_by_attribute("g", "class", "o-heavy h-timber");
  CHECK(std::string(outline.child("path").attribute("d").value()) == "M20 100L220 100L220 0L20 0Z");
  CHECK(svg.find_child_by_attribute("g", "class", "l-dashed").child("path"));
}

TEST_CASE("A dimension line has two ends, its extension lines and its length in millimetres") {
  const pugi::xml_document document = parsed(svg_of(small_drawing(), {100.0, 10.0}));
  const pugi::xml_node lines = document.child("svg").find_child_by_attribute("g", "class", "dim");
  // Of each: the line, two extension lines, two ticks.
  CHECK(std::distance(lines.begin(), lines.end()) == 10);
  CHECK(std::string(lines.child("path").attribute("d").value()) == "M20 120L220 120");
  Drawing slanted;
  slanted.dimensions.push_back({{0, 1}, {3, 5}, 0.0, ""});
  const pugi::xml_document one = parsed(svg_of(slanted, {100.0, 10.0}));
  CHECK(one.child("svg").find_child([](pugi::xml_node node) { return std::string(node.child_value()) == "5000"; }));
  const pugi::xml_node length =
      document.child("svg").find_child([](pugi::xml_node node) { return std::string(node.child_value()) == "2000"; });
  CHECK(std::string(length.attribute("x").value()) == "120");
  CHECK(std::string(length.attribute("y").value()) == "113.5");
  const pugi::xml_node height = document.child("svg").find_child(
      [](pugi::xml_node node) { return std::string(node.child_value()) == "h & more"; });
  CHECK(std::string(height.attribute("transform").value()) ==
        "rotate(-90 " + std::string(height.attribute("x").value()) + " " + height.attribute("y").value() + ")");
}

TEST_CASE("A text that begins at the right edge stands within the picture") {
  Drawing drawing = small_drawing();
  drawing.dimensions.clear();
  drawing.texts = {{{2, 0.5}, "11940"}};
  const pugi::xml_document document = parsed(svg_of(drawing, {100.0, 10.0}));
  // 2 m, and what five letters of at least half the size of the text take, beside the margin of 16 units.
  std::istringstream box(document.child("svg").attribute("viewBox").value());
  double left = 0.0;
  double top = 0.0;
  double width = 0.0;
  box >> left >> top >> width;
  CHECK(left + width >= 200.0 + 5 * 5.0 + 16.0);
}

TEST_CASE("Texts are texts") {
  const std::string svg = svg_of(small_drawing(), {100.0, 10.0});
  CHECK_THAT(svg, Contains(">a &lt; b</text>") && Contains(">&lt;script&gt;&lt;U+202E&gt;</text>"));
  CHECK(svg.find("<script") == std::string::npos);
}

TEST_CASE("A label that does not fit is left out, a tall one stands") {
  Drawing drawing;
  drawing.polygons.push_back({{{0, 0}, {0.2, 0}, {0.2, 1}, {0, 1}}, Hatch::none, LineStyle::thin, "standing"});
  CHECK_THAT(svg_of(drawing, {100.0, 10.0}), Contains("rotate(-90") && Contains("standing"));
  drawing.polygons[0].label = std::string(40, 'x');
  CHECK(svg_of(drawing, {100.0, 10.0}).find("<text") == std::string::npos);
}

TEST_CASE("What is not finite or empty is not drawn") {
  CHECK(svg_of({}, {}).empty());
  Drawing drawing = small_drawing();
  const std::string sound = svg_of(drawing, {});
  drawing.lines.push_back({{std::numeric_limits<double>::quiet_NaN(), 0}, {1, 1}, LineStyle::thin});
  drawing.polygons.push_back({{}, Hatch::none, LineStyle::thin, "none"});
  CHECK(svg_of(drawing, {}) == sound);
}
