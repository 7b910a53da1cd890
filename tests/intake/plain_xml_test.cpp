// The quick look at an export against the whole check and a whole parser: it may doubt what is sound, and must never
// pass what is not, nor make another tree of it.
#include "core/intake/document/plain_xml.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/api/support/text_encoding.h"
#include "core/intake/document/schema_rules.h"
#include "core/intake/document/xml_check.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

using intake_test::edited;
using intake_test::file_text;

const std::filesystem::path kSchemas = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

bool is_plain(const std::string& text) {
  return plainly_sound_tree(text, kSchemas) != nullptr;
}

/// What an element says of itself and where it stands.
std::string told_by(const Element& element) {
  const auto plain = element.plain_text();
  const auto number = [](const Element& other) { return other ? std::to_string(other.xml_index()) : std::string("-"); };
  return std::string(element.name()) + " @" + std::to_string(element.offset()) + " '" + element.text() + "' '" +
         (plain ? std::string(*plain) : "none") + "' in " + number(element.parent()) + " before " +
         number(element.next_sibling()) + " around " + number(element.first_child());
}

/// Empty where the tree is that which pugixml makes of the text, else what differs first.
std::string difference(const XmlTree& tree, std::string text) {
  XmlDocument document;
  if (!document.parse_in_place(text)) return "pugixml refuses it";
  for (const XmlNode& node : tree.nodes()) {
    const Element ours(tree, node);
    const Element other = document.root().xml_at(ours.xml_index());
    if (told_by(ours) != told_by(other)) return told_by(ours) + "\nis of pugixml\n" + told_by(other);
    for (const XmlAttribute& attribute : tree.attributes(node)) {
      const std::string name(tree.name(attribute.name).qualified);
      if (other.attribute(name) != attribute.text()) return told_by(ours) + ": " + name;
    }
    if (ours.has_attributes() != other.has_attributes()) return told_by(ours) + ": attributes";
  }
  return {};
}

std::string difference(const std::string& text) {
  const auto tree = plainly_sound_tree(text, kSchemas);
  return tree ? difference(*tree, text) : "not plain";
}

TEST_CASE("exports as tools write them are beyond doubt", "[intake]") {
  for (const char* name :
       {"hall-ifc2x3.ifcxml", "hall-ifc4-nested.ifcxml", "hall-ifc4-flat-metres.ifcxml", "hall-ifc4x3-nested.ifcxml"}) {
    CHECK(difference(file_text(name)).empty());
  }
}

TEST_CASE("values are handed out as XML means them", "[intake]") {
  const std::string sound = file_text("hall-ifc4-nested.ifcxml");
  for (const char* value :
       {"a &amp; b", "&lt;&gt;&quot;&apos;", "a&#10;b&#13;c&#9;d", "a\r\nb\rc\nd\te", "  a  ", ""}) {
    INFO(value);
    CHECK(difference(edited(sound, "Panel of axis A", "axis", value)).empty());
    CHECK(difference(edited(sound, "FireRating", "EI 60", value)).empty());
  }
  CHECK(difference(edited(sound, "<IfcWall ", "Tag=\"P-01\"", "Tag='P-01\"'")).empty());
  CHECK(difference(edited(sound, "FireRating", "<NominalValue>", "<!-- of the report --><NominalValue>")).empty());
  CHECK(difference(edited(sound, "<IfcWall ", "<ObjectPlacement", "said of it<ObjectPlacement")).empty());
  CHECK(difference("\xEF\xBB\xBF" + sound).empty());
}

TEST_CASE("the rules hold all of both schemas", "[intake]") {
  const SchemaRules nested(kSchemas / schema_file_of(false));
  const SchemaRules flat(kSchemas / schema_file_of(true));
  CHECK(nested.is_complete);
  CHECK(flat.is_complete);
  CHECK(nested.elements.at("IfcWall").attributes.front().form == ValueForm::global_id);
  CHECK(nested.elements.at("IfcReal-wrapper").content == ValueForm::number);
  CHECK(flat.elements.at("Depth").holds_value);
  CHECK_FALSE(SchemaRules(kSchemas / "none.xsd").is_complete);
}

/// One edit of a sound file each, after which the whole check has to look.
struct Doubt {
  const char* anchor;
  const char* from;
  const char* to;
};

const Doubt kDoubts[] = {
    {"<ifcXML", "<ifcXML", "<!DOCTYPE ifcXML>\n<ifcXML"},
    {"<ifcXML", "<ifcXML", "<?style sheet?>\n<ifcXML"},
    {"Panel of axis A", "axis", "&axis;"},
    {"Panel of axis A", "axis", "a < b"},
    {"Panel of axis A", "axis", "a\x01"},
    {"Panel of axis A", "axis", "\xEF\xBF\xBE"},
    {"<IfcWall ", "Tag=\"P-01\"", "Tag=\"P-01\" Tag=\"P-02\""},
    {"<IfcWall ", "Tag=\"P-01\"", "Tag=P-01"},
    {"<IfcWall ", "Tag=\"P-01\"", "x:Tag=\"P-01\""},
    {"<IfcWall ", "<IfcWall ", "<x:IfcWall "},
    {"<ifcXML", "XMLSchema-instance", "XMLSchema>instance"},
    {"</IfcWall>", "</IfcWall>", "</IfcWell>"},
    {"</ifcXML>", "</ifcXML>", "</ifcXML><more/>"},
    {"</ifcXML>", "</ifcXML>", ""},
    {"<IfcWall ", "GlobalId=\"0", "GlobalId=\"4"},
    {"<IfcWall ", "GlobalId=", "Identity="},
    {"<IfcExtrudedAreaSolid", "Depth=\"45.\"", "Depth=\"NaN\""},
    {"<IfcWall ", "xsi:type=\"IfcLocalPlacement\"", "xsi:type=\"Ifc|ocalPlacement\""},
    {"LoadBearing", ">false<", ">no<"},
    {"LoadBearing", ">false<", "><"},
    {"<NominalValue", "<NominalValue>", "<NominalValue>]]>"},
    {"<IfcWall ", "<ObjectPlacement", "one text<!-- and --> another<ObjectPlacement"},
};

TEST_CASE("whatever may be wrong is left to the whole check", "[intake]") {
  const std::string sound = file_text("hall-ifc4-nested.ifcxml");
  for (const Doubt& doubt : kDoubts) {
    INFO(doubt.to);
    CHECK_FALSE(is_plain(edited(sound, doubt.anchor, doubt.from, doubt.to)));
  }
  std::string deep = "<ifcXML xmlns=\"http://www.buildingsmart-tech.org/ifcXML/IFC4/Add2\">";
  for (int i = 0; i < kMaxDepth; ++i) deep += "<a>";
  for (int i = 0; i < kMaxDepth; ++i) deep += "</a>";
  CHECK_FALSE(is_plain(deep + "</ifcXML>"));
}

TEST_CASE("nothing that the whole check would refuse passes the quick look", "[intake]") {
  constexpr int kRunsPerFile = 300;
  std::mt19937 random(20260401);
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  int passed = 0;
  for (const char* name : {"hall-ifc2x3.ifcxml", "hall-ifc4-nested.ifcxml"}) {
    const std::string sound = file_text(name);
    for (int run = 0; run < kRunsPerFile; ++run) {
      std::string text = sound;
      const std::size_t at = below(text.size() - 32);
      switch (below(3)) {
        case 0: text[at] = static_cast<char>(below(256)); break;
        case 1: text.erase(at, 1 + below(3)); break;
        default: text.insert(at, 1, "<>&\"'/=]-! :x0."[below(15)]); break;
      }
      if (encoding_fault(text) || !is_plain(text)) continue;
      ++passed;
      Reporter report("hall.ifcxml");
      const bool is_sound = check_xml(text, kSchemas, report);
      const Diagnostics diagnostics = report.take();
      if (!is_sound || !diagnostics.empty()) FAIL(name << " run " << run << "\n" << intake_test::all_of(diagnostics));
      const std::string differs = difference(text);
      if (!differs.empty()) FAIL(name << " run " << run << "\n" << differs);
    }
  }
  CHECK(passed > 50);
}

}  // namespace
}  // namespace panel_dossier
