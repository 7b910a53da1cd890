#include "core/dossier/parts/annex/references.h"

#include <catch2/catch.hpp>

#include "core/dossier/dossier.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;

namespace {

Input input(const std::string& name, double value, std::uint32_t line) {
  Origin origin;
  origin.entity = "IfcPropertySingleValue";
  origin.property = "Pset_MaterialThermal.ThermalConductivity";
  origin.line = line;
  return {name, "λ", value, "W/(m·K)", origin};
}

// The wool, which the panel uses by its layer alone, and a material that no panel uses, refer to documents.
test::SyntheticDossier with_declarations() {
  auto made = test::synthetic_dossier(1, 1);
  const auto refer = [](Material& material, const char* set, const char* name, const char* id) {
    material.properties.add(set, name, {std::string(id), "", test::export_origin("IfcMaterial", name, 7)});
  };
  refer(made.project.materials[4], "Panel_Declaration", "DocumentId", "DEC-9");
  refer(made.project.materials[0], "Panel_Timber", "ChainOfCustodyDocument", "COC-4");
  refer(made.project.materials[0], "Panel_Supply", "DeliveryNote", "DN-5");
  refer(made.project.materials[0], "Panel_Supply", "BatchReference", "B-1");
  Material unused;
  unused.name = "unused material";
  refer(unused, "Panel_Declaration", "DocumentId", "DEC-0");
  made.project.materials.push_back(unused);
  Evidence declaration;
  declaration.id = "DEC-9";
  declaration.name = "Invented declaration of wool";
  made.project.evidence.push_back(declaration);
  Evidence note;
  note.id = "DN-5";
  note.name = "Invented delivery note";
  made.project.evidence.push_back(note);
  return made;
}

}  // namespace

TEST_CASE("an input used again keeps its number") {
  InputList list;
  CHECK(list.number(input("wool", 0.035, 10)) == std::pair<std::size_t, bool>{1, true});
  CHECK(list.number(input("timber", 0.13, 20)) == std::pair<std::size_t, bool>{2, true});
  CHECK(list.number(input("wool", 0.035, 10)) == std::pair<std::size_t, bool>{1, false});
}

TEST_CASE("inputs that differ in value or line are not one") {
  InputList list;
  list.number(input("wool", 0.035, 10));
  CHECK(list.number(input("wool", 0.036, 10)).second);
  CHECK(list.number(input("wool", 0.035, 11)).second);
}

TEST_CASE("each source stands once with the numbers of all its inputs") {
  InputList list;
  list.number(input("wool", 0.035, 10));
  list.number(input("timber", 0.13, 20));
  list.number(input("the same line under another name", 0.035, 10));
  REQUIRE(list.sources().size() == 2);
  CHECK(list.sources()[0].first == "Pset_MaterialThermal.ThermalConductivity, line 10");
  CHECK(list.sources()[0].second == std::vector<std::size_t>{1, 3});
}

TEST_CASE("runs of numbers are shortened to ranges") {
  CHECK(number_ranges({3, 1, 2, 7}) == "[1–3, 7]");
  CHECK(number_ranges({4, 5}) == "[4, 5]");
  CHECK(number_ranges({9, 9}) == "[9]");
}

TEST_CASE("a panel's materials give the documents that they refer to") {
  const auto made = with_declarations();
  const auto documents = material_documents(made.project.panels[0], made.project);
  REQUIRE(documents.size() == 3);
  CHECK(documents[0].first == "COC-4");
  CHECK(documents[0].second == std::vector<std::string>{"softwood C24"});
  CHECK(documents[1].first == "DEC-9");
  CHECK(documents[1].second == std::vector<std::string>{"mineral wool"});
  CHECK(documents[2].first == "DN-5");
  CHECK(documents[2].second == std::vector<std::string>{"softwood C24"});
}

TEST_CASE("the register and the page of the type name the materials that rest on a document") {
  const auto made = with_declarations();
  const auto file = test::temporary_file("declarations.pdf");
  write_dossier(made.content(), test::installed_fonts(), file);
  const std::string text = test::output_of("pdftotext -layout '" + file.string() + "' - 2>/dev/null");
  CHECK_THAT(text, Catch::Matchers::Contains("by material:"));
  CHECK_THAT(text, Catch::Matchers::Contains("DEC-9 (mineral wool)"));
  CHECK_THAT(text, Catch::Matchers::Contains("not among the export's documents"));
}
