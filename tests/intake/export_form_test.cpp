// Forms, encodings and wrappers of exports: told by content, converted or refused with one error.
#include "core/intake/document/export_form.h"

#include <catch2/catch.hpp>
#include <utility>

#include "tests/intake/project_text.h"
#include "tests/intake/test_support.h"
#include "tests/support/zip_bytes.h"

namespace panel_dossier {
namespace {

using intake_test::all_of;
using intake_test::describe;
using intake_test::edited;
using intake_test::file_text;
using intake_test::read_text;
using testing::zip_bytes;

std::string only_message(const IntakeResult& result) {
  INFO(all_of(result.diagnostics));
  CHECK(result.diagnostics.size() == 1);
  CHECK_FALSE(result.project);
  return result.diagnostics.empty() ? std::string() : result.diagnostics.front().message;
}

void check_same_hall(const std::string& bytes) {
  const IntakeResult result = read_text(bytes);
  CHECK(all_of(result.diagnostics) == "");
  REQUIRE(result.project);
  CHECK(describe(*result.project) == describe(*read_text(file_text("hall-ifc4-nested.ifcxml")).project));
}

TEST_CASE("a packed export is read in either form, whatever lies beside it", "[intake]") {
  check_same_hall(zip_bytes({{"hall.ifc", file_text("hall-ifc4.ifc")}}));
  check_same_hall(zip_bytes({{"HALL.IFCXML", file_text("hall-ifc4-nested.ifcxml")}, {"view.png", "picture"}}));
  // The name is a claim, and no path: what counts is what is inside.
  check_same_hall(zip_bytes({{"../../etc/hall.ifcxml", file_text("hall-ifc4.ifc")}}));
}

TEST_CASE("an archive without exactly one export is refused", "[intake]") {
  CHECK(only_message(read_text(zip_bytes({{"notes.txt", "text"}}))) == "the zip archive holds no .ifc and no .ifcxml");
  CHECK(only_message(read_text(zip_bytes({{"a.ifc", "x"}, {"b.ifc", "y"}}))) == "the zip archive holds 2 exports");
  CHECK(only_message(read_text(zip_bytes({{"hall.ifc", zip_bytes({{"hall.ifc", file_text("hall-ifc4.ifc")}})}}))) ==
        "the file is neither ifcXML nor a STEP file, whatever its name says");
  std::vector<std::pair<std::string, std::string>> many;
  for (int i = 0; i < 1001; ++i) many.emplace_back(std::to_string(i) + ".ifc", "");
  CHECK(only_message(read_text(zip_bytes(many))) == "the zip archive holds more than 1000 entries");
}

TEST_CASE("a damaged archive is one clear error", "[intake]") {
  const std::string sound = zip_bytes({{"hall.ifc", file_text("hall-ifc4.ifc")}});
  CHECK(only_message(read_text(sound.substr(0, sound.size() / 2))).find("the zip archive cannot be read: ") == 0);
  std::string flipped = sound;
  for (std::size_t at = 200; at < 260; ++at) flipped[at] = static_cast<char>(~flipped[at]);
  CHECK(only_message(read_text(flipped)).find("the export in the zip archive is damaged: ") == 0);
}

TEST_CASE("an archive that unpacks out of proportion is given up", "[intake]") {
  const std::string bomb = zip_bytes({{"hall.ifc", std::string(std::size_t{32} << 20U, ' ')}});
  CHECK(bomb.size() < 100'000);
  CHECK(only_message(read_text(bomb)) == "the zip archive unpacks to more than 100 times its size");
}

TEST_CASE("a binary under the name of an export is one clear error", "[intake]") {
  using namespace std::string_literals;  // the zeros in it end no text
  const std::string binary =
      "\x7F"
      "ELF\x02\x01\x01\0\0\0'#1=;"s;
  CHECK(only_message(read_text(binary)) == "the file is neither ifcXML nor a STEP file, whatever its name says");
  CHECK(only_message(read_text("%PDF-1.7\n%")) == "the file is neither ifcXML nor a STEP file, whatever its name says");
  CHECK(only_message(read_text("{\"a\": 1}")) == "the file is neither ifcXML nor a STEP file, whatever its name says");
}

std::string utf16(const std::string& ascii, bool is_little, bool has_mark) {
  std::string bytes = has_mark ? (is_little ? "\xFF\xFE" : "\xFE\xFF") : "";
  for (const char c : ascii) {
    if (is_little) bytes += c;
    bytes += '\0';
    if (!is_little) bytes += c;
  }
  return bytes;
}

TEST_CASE("UTF-16 by its mark or its first character is converted", "[intake]") {
  const std::string text = edited(file_text("hall-ifc4-nested.ifcxml"), "<?xml", "UTF-8", "UTF-16");
  for (const bool is_little : {true, false}) {
    check_same_hall(utf16(text, is_little, true));
    check_same_hall(utf16(text, is_little, false));
  }
  const std::string odd = utf16(text, true, true);
  CHECK(only_message(read_text(odd.substr(0, odd.size() - 1))) == "the file is not valid UTF-16LE from this line on");
}

TEST_CASE("ISO 8859-1 by declaration is converted, and lines stay where they are", "[intake]") {
  std::string text = edited(file_text("hall-ifc4-nested.ifcxml"), "<?xml", "UTF-8", "ISO-8859-1");
  check_same_hall(text);
  text = edited(text, "<IfcWall ", "Panel of axis A", "W\xE4nde");
  const IntakeResult result = read_text(text);
  REQUIRE(result.project);
  CHECK(result.project->panels.front().name == "Wände");
  const std::string utf8 = edited(file_text("hall-ifc4-nested.ifcxml"), "<IfcWall ", "Panel of axis A", "Wände");
  CHECK(result.project->panels.front().origin.line == read_text(utf8).project->panels.front().origin.line);
}

TEST_CASE("ISO 8859-1 is known by each of its usual names", "[intake]") {
  for (const char* name : {"iso-8859-1", "ISO8859-1", "iso_8859-1", "Latin1", "latin-1"}) {
    INFO(name);
    check_same_hall(edited(file_text("hall-ifc4-nested.ifcxml"), "<?xml", "UTF-8", name));
  }
  CHECK(only_message(read_text(edited(file_text("hall-ifc4-nested.ifcxml"), "<?xml", "UTF-8", "latin-2"))) ==
        "the file declares the encoding 'latin-2'");
}

TEST_CASE("a STEP file is told by its first word, even alone, and by no part of it", "[intake]") {
  CHECK(form_of_export("ISO-10303-21") == ExportForm::step);
  CHECK(form_of_export(" \n/* by a tool */ iso-10303-21;") == ExportForm::step);
  CHECK(form_of_export("ISO-10303-2") != ExportForm::step);
}

TEST_CASE("an encoding that is not read, or not what it claims, is one error", "[intake]") {
  const std::string text = file_text("hall-ifc4-nested.ifcxml");
  CHECK(only_message(read_text(edited(text, "<?xml", "UTF-8", "EBCDIC"))) == "the file declares the encoding 'EBCDIC'");
  CHECK(only_message(read_text(edited(text, "<?xml", "UTF-8", "UTF-16"))) == "the file declares the encoding 'UTF-16'");
  CHECK(only_message(read_text(edited(text, "Panel of axis A", "axis A", "axis \xE9"))) ==
        "the file is not valid UTF-8 from this byte on");
}

TEST_CASE("the wrapper of the second edition of ISO 10303-28 is read", "[intake]") {
  const std::string wrapper = "urn:oid:1.0.10303.28.2.1.3";
  std::string text = file_text("hall-ifc2x3.ifcxml");
  text = edited(text, "<ex:iso", "urn:iso.org:standard:10303:part(28):version(2):xmlschema:common", wrapper);
  check_same_hall(text);
  // The units of serialisation may be the wrapper's, with only the entities in the namespace of the standard.
  text = edited(text, "<uos", "<uos xmlns=\"http://www.iai-tech.org/ifcXML/IFC2x3/FINAL\"", "<ex:uos");
  text = edited(text, "</uos>", "</uos>", "</ex:uos>");
  std::size_t indent = text.find("\n  <Ifc");
  for (; indent != std::string::npos; indent = text.find("\n  <Ifc", indent + 1)) {
    text.insert(text.find_first_of(" >", indent + 4), " xmlns=\"http://www.iai-tech.org/ifcXML/IFC2x3/FINAL\"");
  }
  check_same_hall(text);
}

TEST_CASE("a wrong namespace is one error and not one for each line", "[intake]") {
  const std::string text =
      edited(file_text("hall-ifc2x3.ifcxml"), "<uos", "http://www.iai-tech.org/ifcXML/IFC2x3/FINAL",
             "http://www.example.org/ifcXML/IFC2x3/FINAL");
  CHECK(only_message(read_text(text)).find("'iso_10303_28' in namespace 'urn:iso.org") == 0);
}

}  // namespace
}  // namespace panel_dossier
